package soil

import "math"

// Cosby holds what the regressions of Cosby, Hornberger, Clapp and Ginn (1984,
// Water Resour. Res. 20:682) give for one texture: the power-law soil
// theta = ThetaS (s/Entry)^(-1/B) at suctions s beyond Entry.
type Cosby struct {
	B      float64 // exponent, -
	Entry  float64 // suction at which air enters, m
	ThetaS float64 // water content at saturation, m3/m3
	Ksat   float64 // m/s
}

// NewCosby evaluates the multivariate regressions (from memory). Sand and clay
// are mass fractions of the fine earth (0-1). They know neither organic matter
// nor density.
func NewCosby(sand, clay float64) Cosby {
	s, c := 100*sand, 100*clay
	silt := 100 - s - c
	const inchPerHour = 0.0254 / 3600 // m/s
	return Cosby{
		B:      3.10 + .157*c - .003*s,
		Entry:  math.Pow(10, 1.54-.0095*s+.0063*silt) / 100,
		ThetaS: (50.5 - .142*s - .037*c) / 100,
		Ksat:   math.Pow(10, -.60+.0126*s-.0064*c) * inchPerHour,
	}
}

// AtDensity takes the pores from a bulk density (Mg/m3) and fills them in the
// same proportion at every suction. The relation says nothing of density, so the
// conductivity stays: in dense till it is far too high unless measured.
func (p Cosby) AtDensity(bulk float64) Cosby {
	p.ThetaS = 1 - bulk/ParticleDensity
	return p
}

// Theta is the water content (m3/m3) at a suction (m).
func (p Cosby) Theta(suction float64) float64 {
	return p.ThetaS * math.Pow(math.Max(suction/p.Entry, 1), -1/p.B)
}

// shape is the van Genuchten curve that has the power law for its dry branch:
// n - 1 = 1/B and alpha = 1/Entry (van Genuchten 1980, on the curve of Brooks and
// Corey). The corner at the air entry becomes a bend, as in a field soil.
func (p Cosby) shape() (alpha, n float64) { return 1 / p.Entry, 1 + 1/p.B }
