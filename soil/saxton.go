package soil

import "math"

// Suctions of the two standard points of retention, in metres of water:
// 33 kPa and 1500 kPa over rho_w g = 9.80665 kPa/m.
const (
	Suction33kPa   = 33 / 9.80665
	Suction1500kPa = 1500 / 9.80665
)

// SaxtonRawls holds what the pedotransfer of Saxton and Rawls (2006, Soil Sci.
// Soc. Am. J. 70:1569) gives for one texture.
type SaxtonRawls struct {
	Theta1500   float64 // water content at 1500 kPa, m3/m3
	Theta33     float64 // water content at 33 kPa, m3/m3
	ThetaS      float64 // water content at saturation, m3/m3
	BulkDensity float64 // Mg/m3
	Ksat        float64 // m/s
}

// NewSaxtonRawls evaluates the relation at normal density. Sand and clay are
// mass fractions of the fine earth (0-1), organic is organic matter in percent
// by mass. The relation was fitted below 8 % organic matter and 60 % clay.
func NewSaxtonRawls(sand, clay, organic float64) SaxtonRawls {
	s, c, om := sand, clay, organic
	t15 := -.024*s + .487*c + .006*om + .005*s*om - .013*c*om + .068*s*c + .031
	theta1500 := t15 + .14*t15 - .02
	t33 := -.251*s + .195*c + .011*om + .006*s*om - .027*c*om + .452*s*c + .299
	theta33 := t33 + 1.283*t33*t33 - .374*t33 - .015
	ts := .278*s + .034*c + .022*om - .018*s*om - .027*c*om - .584*s*c + .078
	thetaS33 := ts + .636*ts - .107
	thetaS := theta33 + thetaS33 - .097*s + .043
	return SaxtonRawls{
		Theta1500: theta1500, Theta33: theta33, ThetaS: thetaS,
		BulkDensity: ParticleDensity * (1 - thetaS),
		Ksat:        saxtonKsat(thetaS, theta33, theta1500),
	}
}

// AtDensity corrects for a bulk density (Mg/m3) other than the normal one,
// after the density factor of the same paper.
func (p SaxtonRawls) AtDensity(bulk float64) SaxtonRawls {
	thetaS := 1 - bulk/ParticleDensity
	theta33 := p.Theta33 - .2*(p.ThetaS-thetaS)
	// In very dense soil the corrected 33 kPa water would exceed the pores; some
	// air always stays, here 0.03 (assumption, as in the invented profiles).
	theta33 = math.Min(theta33, thetaS-0.03)
	theta1500 := math.Min(p.Theta1500, theta33-0.02)
	return SaxtonRawls{
		Theta1500: theta1500, Theta33: theta33, ThetaS: thetaS, BulkDensity: bulk,
		Ksat: saxtonKsat(thetaS, theta33, theta1500),
	}
}

// saxtonKsat is Ks = 1930 (thetaS - theta33)^(3-lambda) mm/h, returned in m/s.
func saxtonKsat(thetaS, theta33, theta1500 float64) float64 {
	lambda := (math.Log(theta33) - math.Log(theta1500)) / (math.Log(1500) - math.Log(33))
	return 1930 * math.Pow(thetaS-theta33, 3-lambda) / 1000 / 3600
}

// saxtonOrganic is the most organic matter that the relation was fitted to, percent.
const saxtonOrganic = 8.0

// ParticleDensity is that of mineral grains, Mg/m3 (common practice).
const ParticleDensity = 2.65
