package soil

import "math"

// Drained is the water (m) that has left a saturated profile when its table has
// fallen from the surface to a depth (m) and all above it is at rest: the
// integral of theta_s - theta(-(table - z)) over z. The last horizon goes on below
// its bottom.
func Drained(profile []Material, table float64) float64 {
	sum := 0.0
	for i, m := range profile {
		bottom := math.Min(m.Bottom, table)
		if i == len(profile)-1 {
			bottom = table
		}
		if bottom > m.Top {
			sum += m.Curve.emptied(table-bottom, table-m.Top)
		}
	}
	return sum
}

// SpecificYield is the water (m) that leaves for each metre that the table falls,
// with the table at a depth (m): the slope of Drained. Each horizon gives the
// difference of its water contents at its bottom, or the table, and at its top.
func SpecificYield(profile []Material, table float64) float64 {
	sum := 0.0
	for i, m := range profile {
		bottom := math.Min(m.Bottom, table)
		if i == len(profile)-1 {
			bottom = table
		}
		if bottom > m.Top {
			sum += m.Curve.Theta(bottom-table) - m.Curve.Theta(m.Top-table)
		}
	}
	return sum
}

// emptied is the integral of theta_s - theta between two suctions (m), by
// Simpson's rule on intervals that widen with suction.
func (c Curve) emptied(from, to float64) float64 {
	const intervals = 200
	// s = to u^2 is smooth where the curve is steep, near saturation.
	a, b := math.Sqrt(from), math.Sqrt(to)
	step := (b - a) / intervals
	air := func(i int) float64 { u := a + float64(i)*step; return 2 * u * (c.ThetaS - c.Theta(-u*u)) }
	sum := air(0) + air(intervals)
	for i := 1; i < intervals; i++ {
		sum += air(i) * float64(2+2*(i%2))
	}
	return sum * step / 3
}
