package drain

import "math"

// GloverDummQuartic returns h/h0, the height of the water table midway between
// drains over its first height, at scaled time T = K d t/(mu L^2), from a table
// that starts as a fourth-degree parabola:
//
//	h/h0 = (192/pi^3) sum_i (-1)^i [k^2 - 8/pi^2]/k^5 exp(-k^2 pi^2 T),  k = 2i+1
//
// (Dumm 1960), with conductivity K, equivalent depth d, drainable porosity mu
// and spacing L. Below T = 0.002 the drains are not yet felt midway and the
// parabola 1 - 16 y^4 spreads freely: 1 - 192 T^2. NaN for T < 0.
func GloverDummQuartic(t float64) float64 {
	if !(t >= 0) {
		return math.NaN()
	}
	if t < 0.002 {
		return 1 - 192*t*t
	}
	return 192 / (math.Pi * math.Pi * math.Pi) * oddSeries(t, func(k float64) float64 {
		return (k*k - 8/(math.Pi*math.Pi)) / (k * k * k * k * k)
	})
}

// GloverDummFlat returns h/h0 as [GloverDummQuartic] does, from a table that
// starts flat:
//
//	h/h0 = (4/pi) sum_i (-1)^i/k exp(-k^2 pi^2 T),  k = 2i+1
//
// (Glover, in Dumm 1954). Below T = 0.01 the two nearest drains alone are
// felt: 1 - 2 erfc(1/(4 sqrt T)), exact to 1e-25. NaN for T < 0.
func GloverDummFlat(t float64) float64 {
	if !(t >= 0) {
		return math.NaN()
	}
	if t < 0.01 {
		return 1 - 2*math.Erfc(1/(4*math.Sqrt(t)))
	}
	return 4 / math.Pi * oddSeries(t, func(k float64) float64 { return 1 / k })
}

// oddSeries sums (-1)^i c(k) exp(-k^2 pi^2 T) over k = 2i+1 until the
// exponential is below rounding.
func oddSeries(t float64, coefficient func(k float64) float64) float64 {
	sum, sign := 0.0, 1.0
	for k := 1.0; ; k += 2 {
		e := math.Exp(-k * k * math.Pi * math.Pi * t)
		sum += sign * coefficient(k) * e
		if e < 1e-17 {
			return sum
		}
		sign = -sign
	}
}

// BouwerVanSchilfgaardeTime returns the time, s, in which the water table
// midway falls from m0 to m above the drain when nothing recharges it:
//
//	t = C mu L^2/(8 K d) ln[m0 (m + 2d) / (m (m0 + 2d))]
//
// (Bouwer & van Schilfgaarde 1963), which is Hooghoudt's flux emptying the
// pores at dm/dt = -q/(mu C). K in m/s, equivalent depth d, drainable
// porosity mu, spacing L in m; C, 0.8 to 1.0, is the fall of the mean table
// over the fall midway. NaN unless m0 >= m > 0 and all others are positive.
func BouwerVanSchilfgaardeTime(k, d, porosity, c, spacing, m0, m float64) float64 {
	if !positive(k, d, porosity, c, spacing, m) || !(m0 >= m) {
		return math.NaN()
	}
	return c * porosity * spacing * spacing / (8 * k * d) * recessionLog(d, m0, m)
}

// recessionLog is ln[m0 (m + 2d) / (m (m0 + 2d))].
func recessionLog(d, m0, m float64) float64 {
	return math.Log(m0 * (m + 2*d) / (m * (m0 + 2*d)))
}
