package flood

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// LMoments are the first L-moments of a sample: mean, scale, and the ratios of skew
// and kurtosis (Hosking 1990).
type LMoments struct{ L1, L2, T3, T4 float64 }

// FitLMoments takes them from unbiased probability-weighted moments; fewer than four
// values or values all alike are a [RecordError].
func FitLMoments(values []float64) (LMoments, error) {
	const what = "L-moments"
	if err := check(what, values, 4); err != nil {
		return LMoments{}, err
	}
	x := slices.Clone(values)
	slices.Sort(x)
	n := float64(len(x))
	var b [4]float64
	for i, v := range x {
		weight := 1 / n
		for r := range b {
			b[r] += weight * v
			weight *= (float64(i) - float64(r)) / (n - 1 - float64(r))
		}
	}
	l := LMoments{L1: b[0], L2: 2*b[1] - b[0]}
	if !(l.L2 > 0) {
		return LMoments{}, &RecordError{what, fmt.Sprintf("%d values all %g", len(x), x[0]), "values that differ"}
	}
	l.T3 = (6*b[2] - 6*b[1] + b[0]) / l.L2
	l.T4 = (20*b[3] - 30*b[2] + 12*b[1] - b[0]) / l.L2
	return l, nil
}

// GEV is the generalised extreme value distribution; a positive shape bounds it above
// (Hosking's sign; many write the opposite). Shape 0 is Gumbel's.
type GEV struct{ Location, Scale, Shape float64 }

// Quantile is the value that is exceeded with the given probability, above 0 and below 1.
func (d GEV) Quantile(exceedance float64) float64 {
	y := -math.Log(-math.Log1p(-exceedance)) // Gumbel's reduced variate
	if d.Shape == 0 {
		return d.Location + d.Scale*y
	}
	return d.Location - d.Scale*math.Expm1(-d.Shape*y)/d.Shape
}

// FitGEV is the distribution of the L-moments: the shape solves t3 = 2 (1-3^-k)/(1-2^-k)
// - 3 exactly (Hosking 1990; his quick formula is off in the third decimal).
func FitGEV(l LMoments) (GEV, error) {
	k, err := solve("GEV", l.T3, -1+1e-9, 60, func(k float64) float64 {
		if k == 0 {
			return 2*math.Log(3)/math.Log(2) - 3
		}
		return 2*math.Expm1(-k*math.Log(3))/math.Expm1(-k*math.Ln2) - 3
	})
	if err != nil {
		return GEV{}, err
	}
	if math.Abs(k) < 1e-9 {
		return FitGumbel(l), nil
	}
	gamma := math.Gamma(1 + k)
	scale := -l.L2 * k / (math.Expm1(-k*math.Ln2) * gamma)
	return GEV{l.L1 - scale*(1-gamma)/k, scale, k}, nil
}

// solve finds where a falling function of t3 has the wanted value, by halving.
func solve(what string, t3, low, high float64, at func(float64) float64) (float64, error) {
	if !(t3 < at(low) && t3 > at(high)) {
		return 0, &RecordError{what, fmt.Sprintf("L-skewness %g", t3), fmt.Sprintf("%.6g to %.6g", at(high), at(low))}
	}
	for range 200 {
		middle := (low + high) / 2
		if middle == low || middle == high {
			break
		}
		if at(middle) > t3 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, nil
}

const euler = 0.57721566490153286

// FitGumbel is Gumbel's distribution of the L-moments.
func FitGumbel(l LMoments) GEV {
	scale := l.L2 / math.Ln2
	return GEV{Location: l.L1 - euler*scale, Scale: scale}
}

// FitGumbelMoments is Gumbel's distribution of a record's mean and standard deviation.
func FitGumbelMoments(flows []float64) (GEV, error) {
	if err := check("Gumbel", flows, 2); err != nil {
		return GEV{}, err
	}
	mean, sd := stat.MeanStdDev(flows, nil)
	scale := sd * math.Sqrt(6) / math.Pi
	return GEV{Location: mean - euler*scale, Scale: scale}, nil
}
