package flood

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Pearson3 is the Pearson type III distribution by its first three moments.
type Pearson3 struct{ Mean, SD, Skew float64 }

// Quantile is the value that is exceeded with the given probability, above 0 and below 1.
func (d Pearson3) Quantile(exceedance float64) float64 {
	return d.Mean + FrequencyFactor(exceedance, d.Skew)*d.SD
}

// nearlyNormal is the skew below which the gamma quantile loses more digits than the
// expansion about the normal leaves out.
const nearlyNormal = 1e-4

// FrequencyFactor is K of mean + K SD, the standard Pearson III quantile exceeded with
// the given probability at a skew: the gamma quantile of shape 4/G^2, exact (tabled in
// Bulletin 17B, appendix 3).
func FrequencyFactor(exceedance, skew float64) float64 {
	if math.Abs(skew) < nearlyNormal {
		z := distuv.UnitNormal.Quantile(1 - exceedance)
		return z + (z*z-1)*skew/6
	}
	shape := 4 / (skew * skew)
	var gamma float64
	if skew > 0 {
		gamma = mathext.GammaIncRegCompInv(shape, exceedance)
	} else {
		gamma = mathext.GammaIncRegInv(shape, exceedance)
	}
	return skew / 2 * (gamma - shape)
}

// FitPearson3 is the distribution of the L-moments: the gamma shape a solves |t3| =
// 6 I(1/3; a, 2a) - 3, and l2 = SD Gamma(a+1/2)/((pi a)^0.5 Gamma(a)) (Hosking and
// Wallis 1997, exact in place of their rational fit).
func FitPearson3(l LMoments) (Pearson3, error) {
	const nearlyEven = 2e-3 // below it t3 = (3 pi a)^-0.5 to 2 parts in a million, and the beta function loses digits
	if math.Abs(l.T3) < nearlyEven {
		return Pearson3{l.L1, l.L2 * math.Sqrt(math.Pi), 2 * math.Sqrt(3*math.Pi) * l.T3}, nil
	}
	logShape, err := solve("Pearson III", math.Abs(l.T3), math.Log(1e-3), math.Log(1e5), func(s float64) float64 {
		return 6*mathext.RegIncBeta(math.Exp(s), 2*math.Exp(s), 1./3) - 3
	})
	if err != nil {
		return Pearson3{}, err
	}
	shape := math.Exp(logShape)
	top, _ := math.Lgamma(shape)
	bottom, _ := math.Lgamma(shape + 0.5)
	return Pearson3{l.L1, l.L2 * math.Sqrt(math.Pi*shape) * math.Exp(top-bottom), math.Copysign(2/math.Sqrt(shape), l.T3)}, nil
}
