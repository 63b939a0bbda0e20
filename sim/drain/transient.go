package drain

import "math"

// Fall states a demand on falling water tables: within Time the table midway
// between drains shall fall from Start to End above the drain.
type Fall struct {
	K                        float64 // conductivity, m/s
	DepthToBarrierBelowDrain float64 // m, +Inf allowed
	Radius                   float64 // effective radius of the drain, m
	Porosity                 float64 // drainable porosity, m3/m3
	Start, End               float64 // height of the table midway above the drain, m
	Time                     float64 // s
}

func (f Fall) valid() bool {
	return positive(f.K, f.Radius, f.Porosity, f.End, f.Start-f.End, f.Time)
}

// GloverDummSpacing returns the spacing, m, that meets the demand by the first
// term of the Glover-Dumm series for a fourth-degree start,
//
//	L = pi sqrt{K D' t / (mu ln[1.16 h0/ht])}
//
// (Dumm 1960; 1.16 is the rounded figure of the handbooks, the series gives
// 1.173). The flow depth D' is the equivalent depth d at that spacing, as
// ILRI takes it, plus headShare of the mean head (h0+ht)/2: 0 for d alone,
// 0.5 for d and the mean thickness of flow over it. The choice moves the spacing by 6
// to 59 %, most over a shallow barrier, so it is the caller's to state. NaN
// when the fall is not a fall or a quantity is not positive.
func GloverDummSpacing(f Fall, headShare float64) float64 {
	if !f.valid() || !(headShare >= 0) {
		return math.NaN()
	}
	above := headShare * (f.Start + f.End) / 2
	decay := math.Log(1.16 * f.Start / f.End)
	return settle(f.Radius, func(spacing float64) float64 {
		d := EquivalentDepth(spacing, f.DepthToBarrierBelowDrain, f.Radius)
		return math.Pi * math.Sqrt(f.K*(d+above)*f.Time/(f.Porosity*decay))
	})
}

// VanSchilfgaardeSpacing returns the spacing, m, that meets the demand by
//
//	L^2 = 9 K d t / (mu ln[m0 (2d + m) / (m (2d + m0))])
//
// (van Schilfgaarde 1963) with d the equivalent depth at that spacing: the
// time of [BouwerVanSchilfgaardeTime] with C = 8/9. NaN as for
// [GloverDummSpacing], and for a drain that lies on the barrier (d = 0).
func VanSchilfgaardeSpacing(f Fall) float64 {
	if !f.valid() {
		return math.NaN()
	}
	return settle(f.Radius, func(spacing float64) float64 {
		d := EquivalentDepth(spacing, f.DepthToBarrierBelowDrain, f.Radius)
		return math.Sqrt(9 * f.K * d * f.Time / (f.Porosity * recessionLog(d, f.Start, f.End)))
	})
}
