package crop

import "math"

// bareKcmin is FAO-56's least basal coefficient, of dry bare soil, in eq. 76.
const bareKcmin = 0.15

// Cover is the share of the ground that a stand with a basal coefficient kcb and a
// height (m) shades, where ceiling is the greatest coefficient of any cropped
// surface: FAO-56 (Allen et al. 1998) eq. 76, its ratio held above 0.01.
func Cover(kcb, ceiling, height float64) float64 {
	return math.Pow(max((kcb-bareKcmin)/(ceiling-bareKcmin), 0.01), 1+0.5*height)
}

// Evaporable is the water that a layer at the surface can lose by evaporation, in
// the unit of its thickness: from field capacity down to half the wilting point
// (FAO-56 eq. 73), m3/m3 both.
func Evaporable(fieldCapacity, wilting, thickness float64) float64 {
	return (fieldCapacity - wilting/2) * thickness
}

// SurfaceEvaporation is what the ground between and under a crop evaporates
// (FAO-56 eq. 71): the reduced part of what is left of the upper limit, at most
// what the exposed ground would lose wet. All three in one unit.
func SurfaceEvaporation(reduction, left, exposed float64) float64 {
	return min(reduction*left, exposed)
}

// SurfaceReduction is FAO-56's Kr (eq. 74): 1 until the surface has lost what
// evaporates easily, then in a straight line to 0 at the total that it can lose. All
// three in one unit of water.
func SurfaceReduction(lost, easy, total float64) float64 {
	if lost <= easy {
		return 1
	}
	return max(0, (total-lost)/(total-easy))
}
