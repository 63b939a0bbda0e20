package money

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Closed forms: a triangular distribution has its peak at the share (m-a)/(b-a), its
// mean at (a+m+b)/3 and a variance of (a2+m2+b2-am-ab-mb)/18; a uniform one (a+b)/2
// and (b-a)2/12 (any textbook).
func TestDrawMoments(t *testing.T) {
	const n = 200000
	s := Spread{2, 3, 7}
	for _, c := range []struct {
		shape          Shape
		mean, variance float64
	}{{Triangular, 4, (4 + 9 + 49 - 6 - 14 - 21) / 18.}, {Uniform, 4.5, 25 / 12.}} {
		rng := rand.New(rand.NewPCG(1, 2))
		sum, squares := 0.0, 0.0
		for range n {
			x := s.Draw(c.shape, rng)
			sum += x
			squares += (x - c.mean) * (x - c.mean)
		}
		// Four standard errors; that of the variance is at most variance*sqrt(2/n).
		near(t, "mean", sum/n, c.mean, 4*math.Sqrt(c.variance/n))
		near(t, "variance", squares/n, c.variance, 4*c.variance*math.Sqrt(2./n))
	}
}

func TestQuantiles(t *testing.T) {
	s := Spread{2, 3, 7}
	for _, c := range []struct {
		shape   Shape
		p, want float64
	}{
		{Triangular, 0, 2}, {Triangular, 0.2, 3}, {Triangular, 1, 7},
		{Triangular, 0.05, 2.5}, // (x-2)^2/(5*1) = 0.05
		{Triangular, 0.8, 5},    // (7-x)^2/(5*4) = 0.2
		{Uniform, 0.3, 3.5},
		{Lognormal, 0.05, 2}, {Lognormal, 0.5, 3}, {Lognormal, 0.95, 7},
		// One standard deviation up, 84.134 % (normal table): 1/1.6449 of the way in the logarithm.
		{Lognormal, 0.8413447460685429, 3 * math.Pow(7/3., 1/1.6448536269514722)},
	} {
		near(t, "quantile", s.Quantile(c.shape, c.p), c.want, 1e-9)
	}
	flat := Spread{4, 4, 4}
	for _, shape := range []Shape{Triangular, Uniform, Lognormal} {
		for _, p := range []float64{0, 0.3, 0.5, 1} {
			near(t, "no width", flat.Quantile(shape, p), 4, 0)
		}
	}
	for what, v := range map[string]float64{
		"disorder": Spread{2, 1, 3}.Quantile(Uniform, 0.5), "share": s.Quantile(Uniform, 1.1), "shape": s.Quantile(9, 0.5),
		"lognormal from 0": Spread{0, 1, 2}.Quantile(Lognormal, 0.5),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %g, want NaN", what, v)
		}
	}
}

// Quantiles rise, stay within low and high where these are ends, and one seed gives
// one series.
func TestDrawHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ends := rapid.SliceOfN(rapid.Float64Range(0.01, 100), 3, 3).Draw(t, "spread")
		slices.Sort(ends)
		s := Spread{ends[0], ends[1], ends[2]}
		shape := rapid.SampledFrom([]Shape{Triangular, Uniform, Lognormal}).Draw(t, "shape")
		last := math.Inf(-1)
		for p := 0.01; p < 1; p += 0.01 {
			x := s.Quantile(shape, p)
			if !(x >= last*(1-1e-12)) || shape != Lognormal && (x < s.Low*(1-1e-12) || x > s.High*(1+1e-12)) {
				t.Fatalf("%v at %g: %g after %g", s, p, x, last)
			}
			last = x
		}
		seed := rapid.Uint64().Draw(t, "seed")
		a, b := rand.New(rand.NewPCG(seed, 0)), rand.New(rand.NewPCG(seed, 0))
		if x, y := s.Draw(shape, a), s.Draw(shape, b); x != y || math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%v: %g and %g of one seed", s, x, y)
		}
		fresh := rand.New(rand.NewPCG(seed, 0))
		fresh.Uint64()
		if a.Uint64() != fresh.Uint64() {
			t.Fatal("not one number to a draw")
		}
	})
}

func TestBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "record")
		block := rapid.IntRange(1, n).Draw(t, "block")
		years := rapid.IntRange(0, 100).Draw(t, "years")
		seed := rapid.Uint64().Draw(t, "seed")
		drawn := Blocks(n, block, years, rand.New(rand.NewPCG(seed, 0)))
		if len(drawn) != years {
			t.Fatalf("%d years, want %d", len(drawn), years)
		}
		for i, y := range drawn {
			if y < 0 || y >= n || i%block > 0 && y != drawn[i-1]+1 {
				t.Fatalf("%v is not in blocks of %d from %d years", drawn, block, n)
			}
		}
		if !slices.Equal(drawn, Blocks(n, block, years, rand.New(rand.NewPCG(seed, 0)))) {
			t.Fatal("one seed, two series")
		}
	})
	// Kunsch 1989: block starts are even over n-b+1 places, so year 0 comes up once and
	// year b-1 b times in each (n-b+1)/b of a series: 1/8 of 1/3 and so on for 10 and 3.
	const series = 300000
	counts := make([]float64, 10)
	for _, y := range Blocks(10, 3, series, rand.New(rand.NewPCG(7, 7))) {
		counts[y]++
	}
	for y, places := range []float64{1, 2, 3, 3, 3, 3, 3, 3, 2, 1} {
		want := places / (8 * 3)
		near(t, "share of a year", counts[y]/series, want, 4*math.Sqrt(want/(series/3)))
	}
	for _, c := range [][3]int{{0, 1, 1}, {5, 6, 1}, {5, 0, 1}, {5, 1, -1}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%v: no panic", c)
				}
			}()
			Blocks(c[0], c[1], c[2], rand.New(rand.NewPCG(1, 1)))
		}()
	}
}

func BenchmarkAppraisal(b *testing.B) {
	flows := Level(1175, 98.763, 30)
	flows[30] = -10 // so that rates are looked for between turning points
	for b.Loop() {
		PresentValue(0.05, flows)
		PaybackTime(0.05, flows)
		Rates(flows)
	}
}
