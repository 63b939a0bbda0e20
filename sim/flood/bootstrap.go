package flood

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Statistic is a number of two records of the same years; NaN where they have none.
type Statistic func(first, second []float64) float64

// Resampled holds what a statistic came to over resamples of the years, from the least
// up, without those that had none.
type Resampled struct {
	Sorted  []float64
	Without int // resamples for which the statistic was not a number
}

// Drawing says how years are drawn.
type Drawing struct {
	Draws int    // resamples
	Block int    // years drawn in a row, around the end to the beginning; 1 where years do not hang together
	Seed  uint64 // the same seed repeats a run
}

// Bootstrap draws years with replacement, both records' together, and takes the
// statistic of each draw (Efron 1979; in blocks, Politis and Romano 1992).
func Bootstrap(first, second []float64, statistic Statistic, d Drawing) (Resampled, error) {
	const what = "bootstrap"
	if err := pairs(what, first, second, 2); err != nil {
		return Resampled{}, err
	}
	n := len(first)
	if d.Draws < 1 || d.Block < 1 || d.Block > n {
		return Resampled{}, &RecordError{what, fmt.Sprintf("%d draws of %d years in a row", d.Draws, d.Block), fmt.Sprintf("1 draw or more, of 1 to %d", n)}
	}
	rng := rand.New(rand.NewPCG(d.Seed, uint64(n)))
	r := newResampler(first, second, statistic, d.Draws)
	for range d.Draws {
		for j := 0; j < n; j += d.Block {
			from := rng.IntN(n)
			for k := j; k < min(j+d.Block, n); k++ {
				r.years[k] = (from + k - j) % n
			}
		}
		r.take()
	}
	return r.sorted()
}

// mostExact bounds the resamples that are listed one by one: seven years.
const mostExact = 7

// ExactBootstrap takes the statistic of every one of the n^n resamples of n pairs, 2
// to 7, each as likely as the others: what [Bootstrap] approaches with many draws.
func ExactBootstrap(first, second []float64, statistic Statistic) (Resampled, error) {
	const what = "exact bootstrap"
	if err := pairs(what, first, second, 2); err != nil {
		return Resampled{}, err
	}
	n := len(first)
	if n > mostExact {
		return Resampled{}, &RecordError{what, fmt.Sprintf("%d years", n), fmt.Sprintf("at most %d", mostExact)}
	}
	r := newResampler(first, second, statistic, int(math.Pow(float64(n), float64(n))))
	for {
		r.take()
		i := 0
		for ; i < n; i++ { // count up, as an odometer does
			if r.years[i]++; r.years[i] < n {
				break
			}
			r.years[i] = 0
		}
		if i == n {
			return r.sorted()
		}
	}
}

// resampler holds one draw and what the draws came to.
type resampler struct {
	first, second []float64
	a, b          []float64 // the draw
	years         []int
	statistic     Statistic
	out           Resampled
}

func newResampler(first, second []float64, statistic Statistic, draws int) *resampler {
	n := len(first)
	return &resampler{first, second, make([]float64, n), make([]float64, n), make([]int, n), statistic, Resampled{Sorted: make([]float64, 0, draws)}}
}

// take adds the statistic of the years drawn.
func (r *resampler) take() {
	for i, year := range r.years {
		r.a[i], r.b[i] = r.first[year], r.second[year]
	}
	if x := r.statistic(r.a, r.b); math.IsNaN(x) {
		r.out.Without++
	} else {
		r.out.Sorted = append(r.out.Sorted, x)
	}
}

// sorted ends the drawing; a statistic that never was a number is a RecordError.
func (r *resampler) sorted() (Resampled, error) {
	if len(r.out.Sorted) == 0 {
		return Resampled{}, &RecordError{"bootstrap", "no resample with a statistic", "at least one"}
	}
	slices.Sort(r.out.Sorted)
	return r.out, nil
}

// SE is the standard deviation of the statistic over the resamples.
func (r Resampled) SE() float64 {
	mean, squares := 0.0, 0.0
	for _, x := range r.Sorted {
		mean += x / float64(len(r.Sorted))
	}
	for _, x := range r.Sorted {
		squares += (x - mean) * (x - mean)
	}
	return math.Sqrt(squares / float64(len(r.Sorted)))
}

// Quantile is the least value that at least the share p of the resamples does not
// exceed (the inverse of their distribution, type 1 of Hyndman and Fan 1996).
func (r Resampled) Quantile(p float64) float64 {
	n := len(r.Sorted)
	i := int(math.Ceil(p*float64(n)-1e-9)) - 1
	return r.Sorted[min(max(i, 0), n-1)]
}

// Interval is the percentile interval. With few years it is too narrow: for six pairs
// its 95 % hold less than Student's.
func (r Resampled) Interval(confidence float64) (low, high float64) {
	return r.Quantile((1 - confidence) / 2), r.Quantile((1 + confidence) / 2)
}

// AtOrBelow is the share of the resamples at or below x.
func (r Resampled) AtOrBelow(x float64) float64 {
	i, _ := slices.BinarySearchFunc(r.Sorted, x, func(v, x float64) int {
		if v > x {
			return 1
		}
		return -1
	})
	return float64(i) / float64(len(r.Sorted))
}
