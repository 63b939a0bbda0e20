package drain

import "math"

// ErnstSoil describes the three paths of Ernst's drainage formula.
type ErnstSoil struct {
	VerticalThickness float64 // Dv: thickness crossed by vertical flow, m
	KVertical         float64 // Kv: conductivity of that thickness, m/s
	Transmissivity    float64 // sum of K times thickness of the layers of horizontal flow, m2/s
	KRadial           float64 // Kr: conductivity of the layer of radial flow, m/s
	RadialThickness   float64 // Dr: thickness of that layer, m
	GeometryFactor    float64 // a: 1 in one layer; from Ernst's chart in two
	WetPerimeter      float64 // u: pi r of a pipe; trench width + 2 x envelope height, m
}

// Ernst returns the heads lost on the vertical, horizontal and radial paths, m,
// by the steady flux q (m/s) to drains at spacing L (m); their sum is the
// height of the water table midway above the drain:
//
//	h = q Dv/Kv + q L^2/(8 sum KD) + (q L/(pi Kr)) ln(a Dr/u)
//
// (Ernst 1962; ILRI Bulletin 15). Where the upper layer conducts better than
// the lower, [Hooghoudt] is the formula to use. NaN when the flux is negative,
// a quantity of the soil is not positive, or a Dr < u, where the radial head
// would be negative.
func Ernst(q, spacing float64, s ErnstSoil) (vertical, horizontal, radial float64) {
	if !(q >= 0) || !positive(spacing, s.VerticalThickness, s.KVertical, s.Transmissivity,
		s.KRadial, s.RadialThickness, s.GeometryFactor, s.WetPerimeter) ||
		s.GeometryFactor*s.RadialThickness < s.WetPerimeter {
		return math.NaN(), math.NaN(), math.NaN()
	}
	vertical = q * s.VerticalThickness / s.KVertical
	horizontal = q * spacing * spacing / (8 * s.Transmissivity)
	radial = q * spacing / (math.Pi * s.KRadial) * math.Log(s.GeometryFactor*s.RadialThickness/s.WetPerimeter)
	return vertical, horizontal, radial
}
