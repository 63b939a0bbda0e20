package drain

import "math"

// EquivalentDepth returns Hooghoudt's equivalent depth d, m: the thickness of a
// layer in which flow to ditches that reach the barrier meets the same
// resistance as radial flow to pipes in the true layer,
//
//	d = (pi L/8) / [ln(L/(pi r)) + F(x)],  x = 2 pi D/L,
//	F = sum over odd n of 4 e^(-2nx) / [n (1 - e^(-2nx))]
//
// with spacing L, depth D of the barrier below the drain and effective radius
// r, all m (van der Molen & Wesseling 1991, Agric. Water Manage. 19:1). The
// drain lies at the top of the layer and runs half full.
//
// The result never exceeds D: a layer thinner than pi r puts no radial
// resistance in the way. D = +Inf gives F = 0. As L grows, F tends to
// pi L/(8D) + ln(D/L), so d tends to D and that is returned for L = +Inf.
// NaN when L <= pi r, D < 0 or r <= 0.
func EquivalentDepth(spacing, depthToBarrierBelowDrain, radius float64) float64 {
	l, depth, r := spacing, depthToBarrierBelowDrain, radius
	switch {
	case !positive(l, r) || !(depth >= 0) || l <= math.Pi*r:
		return math.NaN()
	case depth == 0 || math.IsInf(l, 1):
		return depth
	}
	d := math.Pi * l / 8 / (math.Log(l/(math.Pi*r)) + barrierImages(2*math.Pi*depth/l))
	return math.Min(d, depth)
}

// barrierImages is F(x) of van der Molen & Wesseling 1991: what the images of
// the drain below the barrier add to the resistance. Below x = 0.5 the limit
// pi^2/(4x) + ln(x/(2 pi)) is used; its error there is less than
// 2 exp(-pi^2/x) = 6e-9.
func barrierImages(x float64) float64 {
	if x < 0.5 {
		return math.Pi*math.Pi/(4*x) + math.Log(x/(2*math.Pi))
	}
	sum := 0.0
	for n := 1.0; ; n += 2 {
		e := math.Exp(-2 * n * x)
		term := 4 * e / (n * (1 - e))
		sum += term
		if term <= 1e-17 {
			return sum
		}
	}
}
