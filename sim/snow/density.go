package snow

import "math"

// FreshDensity returns the density of new snow, kg/m3, at air temperature
// t, C: 67.92 + 51.25 exp(t/2.59) (Hedstrom & Pomeroy 1998, from memory).
// Other published forms are 25-42 % above it between 0 and -5 C.
func FreshDensity(t float64) float64 {
	return 67.92 + 51.25*math.Exp(t/2.59)
}

// settlingPerDay is the exponent of a day of settling, 0.01 per hour
// (Verseghy 1991, from memory).
const settlingPerDay = 0.01 * 24

// settle lets the pack grow denser for a day,
//
//	rho = (rho - settled) exp(-0.01 hours) + settled
//
// (Verseghy 1991). Snow denser than the settled density stays as it is.
func (p *Pack) settle(settled float64) {
	if p.SWE > 0 && p.Density < settled {
		p.Density = (p.Density-settled)*math.Exp(-settlingPerDay) + settled
	}
}
