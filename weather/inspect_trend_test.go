package weather

import (
	"math"
	"testing"
)

func TestTrend(t *testing.T) {
	count := func(n int) []float64 {
		v := make([]float64, n)
		for i := range v {
			v[i] = float64(i + 1)
		}
		return v
	}
	nan := math.NaN()
	for _, c := range []struct {
		what     string
		t, y     []float64
		years    int
		slope, p float64
	}{
		// The example of Sen (1968, J. Am. Stat. Assoc. 63:1379), from memory: 21
		// slopes with a median of 4.
		{"Sen's example", []float64{1, 2, 3, 4, 10, 12, 18}, []float64{9, 15, 19, 20, 45, 55, 78}, 7, 4, nan},
		// Ten values in order: S = 45, var S = 10*9*25/18 = 125, Z = 44/sqrt(125) =
		// 3.9355, two-sided 8.3e-5 by the table of the normal distribution.
		{"ten values in order", count(10), count(10), 10, 1, 8.30e-5},
		// Two values five times each, the second half higher: S = 25; ties take
		// 2*5*4*15 = 600 from 2250: var S = 1650/18 = 91.667, Z = 24/9.5743 = 2.5067,
		// two-sided 0.0122. 25 of the 45 slopes are positive, the 23rd smallest is the
		// third of them: 1/8.
		{"ties", count(10), []float64{1, 1, 1, 1, 1, 2, 2, 2, 2, 2}, 10, 1. / 8, 0.0122},
		{"all the same", count(12), make([]float64, 12), 12, 0, 1},
		{"a gap is left out", []float64{1, 2, 3}, []float64{1, nan, 5}, 2, 2, nan},
		{"one value", []float64{1}, []float64{1}, 1, nan, nan},
	} {
		got := TrendOf(c.t, c.y)
		same := func(a, b, slack float64) bool {
			return math.Abs(a-b) <= slack || math.IsNaN(a) && math.IsNaN(b)
		}
		// p to the digits above.
		if got.Years != c.years || !same(got.Slope, c.slope, 1e-12) || !same(got.P, c.p, 0.005*c.p) {
			t.Errorf("%s: %+v, want %d years, slope %v, p %v", c.what, got, c.years, c.slope, c.p)
		}
	}
}
