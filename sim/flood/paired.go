package flood

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Paired is what two records of the same years differ by: the same weather drives
// both, so that the difference of a year is known far better than either flow.
type Paired struct {
	N           int
	Mean        float64 // of the first less the second
	SD          float64 // of the differences
	SE          float64 // of the mean difference
	UnpairedSE  float64 // what it would be without the pairs
	Correlation float64
}

// Compare pairs two records year by year. Fewer than two pairs, or records of unequal
// length, are a [RecordError].
func Compare(first, second []float64) (Paired, error) {
	if err := pairs("paired difference", first, second, 2); err != nil {
		return Paired{}, err
	}
	n := float64(len(first))
	diff := make([]float64, len(first))
	for i := range first {
		diff[i] = first[i] - second[i]
	}
	p := Paired{N: len(first), Correlation: stat.Correlation(first, second, nil)}
	p.Mean, p.SD = stat.MeanStdDev(diff, nil)
	p.SE = p.SD / math.Sqrt(n)
	p.UnpairedSE = math.Sqrt((stat.Variance(first, nil) + stat.Variance(second, nil)) / n)
	return p, nil
}

// Interval is Student's interval of the mean difference at a confidence.
func (p Paired) Interval(confidence float64) (low, high float64) {
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(p.N - 1)}.Quantile((1 + confidence) / 2)
	return p.Mean - t*p.SE, p.Mean + t*p.SE
}

// ChangeOfMeans is the mean of the changed record over that of the other less 1.
func ChangeOfMeans(was, is []float64) float64 { return stat.Mean(is, nil)/stat.Mean(was, nil) - 1 }

// MeanChange is the mean of the yearly changes, each over its own year: another number
// than [ChangeOfMeans], and one that small years decide.
func MeanChange(was, is []float64) float64 {
	sum := 0.0
	for i := range was {
		sum += is[i]/was[i] - 1
	}
	return sum / float64(len(was))
}

// GeometricChange is the change of the geometric means.
func GeometricChange(was, is []float64) float64 {
	sum := 0.0
	for i := range was {
		sum += math.Log(is[i] / was[i])
	}
	return math.Expm1(sum / float64(len(was)))
}

// pairs is nil for two records of equal length, at least so long.
func pairs(what string, first, second []float64, atLeast int) error {
	if len(first) != len(second) {
		return &RecordError{what, fmt.Sprintf("%d and %d years", len(first), len(second)), "as many of each"}
	}
	if err := check(what, first, atLeast); err != nil {
		return err
	}
	return check(what, second, atLeast)
}
