package flow

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// peakRateUnit turns a peak-rate factor in ft3/s per mi2, in and h into the share of
// the volume that would pass in one time to peak at the peak's rate: 1 in in 1 h from
// 1 mi2 is 645.333 ft3/s.
const peakRateUnit = 5280 * 5280 / (12 * 3600.0)

// Shape is a unit hydrograph without dimension: flow over its peak against time over
// the time to peak.
type Shape struct {
	prf    float64
	base   float64                 // where it ends, in times to peak
	height func(x float64) float64 // flow over peak at x
}

// PeakRateFactor is the factor (ft3/s per mi2, in and h) that the shape belongs to:
// about 600 on steep land to 300 and less on flat land (NRCS, National Engineering
// Handbook 630, chapter 16; from memory).
func (s Shape) PeakRateFactor() float64 { return s.prf }

// At is the flow over its peak at x times to peak.
func (s Shape) At(x float64) float64 {
	if x <= 0 || x >= s.base {
		return 0
	}
	return s.height(x)
}

// Peak is the peak (m3/s) of the excess (m) from an area (m2) with time to peak tp
// (s): qp = PRF A Q / Tp.
func (s Shape) Peak(area, excess, tp float64) float64 {
	return s.prf / peakRateUnit * area * excess / tp
}

// tabled is the standard dimensionless unit hydrograph (NRCS, National Engineering
// Handbook 630, chapter 16, table 16-1; from memory; its area, share before the peak
// and worked example agree).
var tabled = [][2]float64{
	{0, 0}, {0.1, 0.03}, {0.2, 0.1}, {0.3, 0.19}, {0.4, 0.31}, {0.5, 0.47}, {0.6, 0.66}, {0.7, 0.82}, {0.8, 0.93}, {0.9, 0.99},
	{1, 1}, {1.1, 0.99}, {1.2, 0.93}, {1.3, 0.86}, {1.4, 0.78}, {1.5, 0.68}, {1.6, 0.56}, {1.7, 0.46}, {1.8, 0.39}, {1.9, 0.33},
	{2, 0.28}, {2.2, 0.207}, {2.4, 0.147}, {2.6, 0.107}, {2.8, 0.077}, {3, 0.055}, {3.2, 0.04}, {3.4, 0.029}, {3.6, 0.021},
	{3.8, 0.015}, {4, 0.011}, {4.5, 0.005}, {5, 0},
}

// Standard is the tabled shape of peak-rate factor 484, straight between its points.
func Standard() Shape {
	return Shape{484, tabled[len(tabled)-1][0], func(x float64) float64 {
		i := 1
		for tabled[i][0] < x {
			i++
		}
		a, b := tabled[i-1], tabled[i]
		return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
	}}
}

// Triangle is the straight-sided shape of a peak-rate factor, its base 2/PRF times to
// peak in the factor's unit, 2.667 at 484.
func Triangle(prf float64) (Shape, error) {
	base := 2 * peakRateUnit / prf
	if err := within("peak-rate factor", prf, 50, 1000, "the handbook's are 100 to 600"); err != nil {
		return Shape{}, err
	}
	return Shape{prf, base, func(x float64) float64 { return math.Min(x, (base-x)/(base-1)) }}, nil
}

// gammaTail is the share of the volume that the gamma shape leaves beyond its base.
const gammaTail = 1e-6

// Gamma is the shape (x e^(1-x))^m, with m from the peak-rate factor as
// [GammaExponent] gives it: a Nash cascade of m+1 stores of Tp/m each.
func Gamma(prf float64) (Shape, error) {
	m, err := GammaExponent(prf)
	if err != nil {
		return Shape{}, err
	}
	base := mathext.GammaIncRegCompInv(m+1, gammaTail) / m
	return Shape{prf, base, func(x float64) float64 { return math.Exp(m * (math.Log(x) + 1 - x)) }}, nil
}

// GammaExponent is m of the gamma shape that holds the peak-rate factor, 50 to 1000:
// PRF = 645.333 m^(m+1) / (e^m Gamma(m+1)).
func GammaExponent(prf float64) (float64, error) {
	if err := within("peak-rate factor", prf, 50, 1000, "the handbook's are 100 to 600"); err != nil {
		return 0, err
	}
	low, high := 1e-3, 100.0
	for high-low > 1e-14*high {
		m := (low + high) / 2
		if m == low || m == high {
			break
		}
		if gamma, _ := math.Lgamma(m + 1); math.Exp((m+1)*math.Log(m)-m-gamma) < prf/peakRateUnit {
			low = m
		} else {
			high = m
		}
	}
	return (low + high) / 2, nil
}

// TimeToPeak is the time (s) from the beginning of excess rain of the given duration
// (s) to the peak, for a time of concentration tc (s): D/2 + 0.6 Tc.
func TimeToPeak(duration, tc float64) float64 { return duration/2 + LagShare*tc }
