package proof

import (
	"math"
	"slices"

	"mottle/sim/flood"
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
// three times or where either series does not vary.
func score(measured, simulated []float64) Scores {
	s := Scores{N: len(measured), NSE: math.NaN(), KGE: math.NaN()}
	for i := range measured {
		s.Measured += measured[i]
		s.Simulated += simulated[i]
	}
	if s.N < 3 {
		return s
	}
	if kge := flood.KGE(measured, simulated); !math.IsNaN(kge) {
		s.NSE, s.KGE = flood.NSE(measured, simulated), kge
	}
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
