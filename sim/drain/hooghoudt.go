package drain

import "math"

// Hooghoudt returns the steady flux to drains, m/s over the drained area,
//
//	q = (8 Kb d m + 4 Ka m^2) / L^2
//
// (Hooghoudt 1940) with kAbove and kBelow the conductivities above and below
// the drain, m/s, d the equivalent depth, m, m the height of the water table
// midway between drains above the drain, m, and L the spacing, m. A water table
// at or below the drain (m <= 0) yields no flow; that is the drain's physics,
// not a clamp.
func Hooghoudt(kAbove, kBelow, d, m, spacing float64) float64 {
	if m <= 0 {
		return 0
	}
	return (8*kBelow*d*m + 4*kAbove*m*m) / (spacing * spacing)
}

// HooghoudtSpacing returns the spacing, m, at which the steady flux q (m/s)
// holds the water table m above the drain midway, for conductivities above
// and below the drain (m/s), the depth of the barrier below the drain and the
// effective radius (m): Hooghoudt 1940 with the depth of [EquivalentDepth] at
// that same spacing. A barrier at +Inf is allowed. NaN when q, m or the radius
// is not positive, or no spacing wider than the drain itself serves.
func HooghoudtSpacing(kAbove, kBelow, depthToBarrierBelowDrain, radius, m, q float64) float64 {
	if !positive(q, m, radius) || !(kAbove >= 0) || !(kBelow >= 0) {
		return math.NaN()
	}
	return settle(radius, func(spacing float64) float64 {
		d := EquivalentDepth(spacing, depthToBarrierBelowDrain, radius)
		return math.Sqrt((8*kBelow*d*m + 4*kAbove*m*m) / q)
	})
}

// settle returns the spacing L = next(L) by repeated substitution. Every
// spacing formula here is a square root of a depth that grows no faster than
// L itself, so each pass at least halves the relative error, for L above
// pi e r, where d begins to grow with L. NaN when the passes leave that range.
func settle(radius float64, next func(spacing float64) float64) float64 {
	spacing := 1e3 * radius
	for range 100 {
		wider := next(spacing)
		if !(wider > math.Pi*math.E*radius) {
			return math.NaN()
		}
		if math.Abs(wider-spacing) <= 1e-14*wider {
			return wider
		}
		spacing = wider
	}
	return spacing
}
