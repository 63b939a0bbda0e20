package proof

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Scores compare a simulated with a measured series over the times that were
// measured.
type Scores struct {
	N         int
	Measured  float64 // sum
	Simulated float64 // sum
	NSE       float64 // Nash and Sutcliffe (1970): 1 perfect, 0 no better than the mean
	KGE       float64 // Gupta et al. (2009): 1 perfect, -0.41 no better than the mean
}

// Bias is the simulated sum over the measured one less 1, in percent.
func (s Scores) Bias() float64 { return 100 * (s.Simulated/s.Measured - 1) }

// score compares two series of equal length; its marks are NaN for fewer than
// three times or a measured series that does not vary.
func score(measured, simulated []float64) Scores {
	s := Scores{N: len(measured), NSE: math.NaN(), KGE: math.NaN()}
	for i := range measured {
		s.Measured += measured[i]
		s.Simulated += simulated[i]
	}
	if s.N < 3 {
		return s
	}
	mean, spread := stat.MeanStdDev(measured, nil)
	simMean, simSpread := stat.MeanStdDev(simulated, nil)
	if spread == 0 || simSpread == 0 {
		return s
	}
	squares := 0.0
	for i := range measured {
		squares += (measured[i] - simulated[i]) * (measured[i] - simulated[i])
	}
	s.NSE = 1 - squares/(float64(s.N-1)*spread*spread)
	r := stat.Correlation(measured, simulated, nil)
	s.KGE = 1 - math.Sqrt((r-1)*(r-1)+(simSpread/spread-1)*(simSpread/spread-1)+(simMean/mean-1)*(simMean/mean-1))
	return s
}

// median of the values that are numbers, NaN when none is.
func median(x []float64) float64 {
	x = slices.DeleteFunc(slices.Clone(x), math.IsNaN)
	if len(x) == 0 {
		return math.NaN()
	}
	slices.Sort(x)
	return (x[(len(x)-1)/2] + x[len(x)/2]) / 2
}
