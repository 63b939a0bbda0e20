package compare

import (
	"math"
	"math/rand/v2"
	"sort"

	"mottle/sim"
)

// centre is what a measure amounts to over years: the mean, or for dates the
// median, in which "never stopped" ranks first and "none" last.
func centre(m sim.Measure, x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	if !m.ByMedian {
		sum := 0.0
		for _, v := range x {
			sum += v
		}
		return sum / float64(len(x))
	}
	s := append([]float64(nil), x...)
	sort.Float64s(s)
	return median(s)
}

// median of sorted values that may be infinite.
func median(s []float64) float64 {
	n := len(s)
	lo, hi := s[(n-1)/2], s[n/2]
	if lo == hi {
		return lo
	}
	if math.IsInf(lo, 0) {
		return lo
	}
	if math.IsInf(hi, 0) {
		return hi
	}
	return (lo + hi) / 2
}

// gap is the difference of two centres, NaN when one is not a number of days.
func gap(m sim.Measure, a, b []float64) float64 {
	d := centre(m, b) - centre(m, a)
	if math.IsInf(d, 0) {
		return math.NaN()
	}
	return d
}

const (
	resamples  = 2000
	confidence = 0.90
)

// bootstrap returns the 90 % interval of the difference over paired years
// (Efron 1979, percentile method): years are drawn with replacement, both twins'
// together. It is seeded, so that a run repeats.
func bootstrap(m sim.Measure, a, b []float64) (low, high float64) {
	n := len(a)
	if n < 2 {
		return math.NaN(), math.NaN()
	}
	rng := rand.New(rand.NewPCG(1979, uint64(n)))
	xa, xb := make([]float64, n), make([]float64, n)
	d := make([]float64, 0, resamples)
	for range resamples {
		for j := range n {
			k := rng.IntN(n)
			xa[j], xb[j] = a[k], b[k]
		}
		if g := gap(m, xa, xb); !math.IsNaN(g) {
			d = append(d, g)
		}
	}
	if len(d) < resamples/2 {
		return math.NaN(), math.NaN()
	}
	sort.Float64s(d)
	return quantile(d, (1-confidence)/2), quantile(d, (1+confidence)/2)
}

// quantile of sorted values, linear between order statistics (type 7 of
// Hyndman and Fan 1996).
func quantile(s []float64, p float64) float64 {
	h := p * float64(len(s)-1)
	i := int(h)
	if i+1 >= len(s) {
		return s[len(s)-1]
	}
	return s[i] + (h-float64(i))*(s[i+1]-s[i])
}
