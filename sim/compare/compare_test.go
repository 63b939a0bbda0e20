package compare

import (
	"context"
	"errors"
	"math"
	"testing"

	"mottle/sim"
	"mottle/sim/site"
	"mottle/weather"
)

func demoField(t interface{ Fatal(...any) }, years int) (*site.Field, *weather.Series) {
	s := weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), years, 1)
	f, met, err := Meet(site.Demo(), Record{Series: s}, Period{}, false)
	if err != nil {
		t.Fatal(err)
	}
	return f, met
}

// Results do not depend on the number of workers.
func TestWorkersChangeNothing(t *testing.T) {
	f, s := demoField(t, 4)
	one, err := Run(context.Background(), f, s, Options{Ranges: true, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	many, err := Run(context.Background(), f, s, Options{Ranges: true, Workers: 7})
	if err != nil {
		t.Fatal(err)
	}
	same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
	for i, l := range one.Lines {
		m := many.Lines[i]
		if !same(l.Difference, m.Difference) || !same(l.Low, m.Low) || !same(l.Noise, m.Noise) {
			t.Errorf("%s: %g (%g, noise %g) with one worker, %g (%g, noise %g) with seven", l.Name, l.Difference, l.Low, l.Noise, m.Difference, m.Low, m.Noise)
		}
	}
	if len(one.Ranges) == 0 || len(one.Ranges) != len(many.Ranges) {
		t.Fatalf("%d ranges with one worker, %d with seven", len(one.Ranges), len(many.Ranges))
	}
	for i, r := range one.Ranges {
		if !same(r.Low, many.Ranges[i].Low) || !same(r.High, many.Ranges[i].High) {
			t.Errorf("%s over %s differs between workers", r.Measure, r.Over)
		}
	}
}

// Twins without tile are equal, and the difference is exactly nothing.
func TestTwinsWithoutTileAreEqual(t *testing.T) {
	f, s := demoField(t, 4)
	f.Tile = nil
	r, err := Run(context.Background(), f, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		if !math.IsNaN(l.Difference) && l.Difference != 0 || l.Resolved {
			t.Errorf("%s: difference %g between equal twins", l.Name, l.Difference)
		}
	}
}

// With old tile the comparison is old against new: the same tile twice makes no
// difference.
func TestOldTileAgainstItself(t *testing.T) {
	f, s := demoField(t, 4)
	f.Old = f.Tile
	r, err := Run(context.Background(), f, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		if l.Name == "drain_outflow" && (l.AsItLies != l.WithTile || l.AsItLies == 0) {
			t.Errorf("drain outflow %g mm old, %g mm new from the same tile", l.AsItLies, l.WithTile)
		}
	}
}

// The bootstrap of a mean over two years can be counted by hand: of the four
// equally likely draws of the differences 0 and 10 one gives 0, two give 5, one
// gives 10, so the 90 % percentile interval is all of it.
func TestBootstrapByHand(t *testing.T) {
	low, high := bootstrap(sim.Measure{}, []float64{1, 2}, []float64{1, 12})
	if low != 0 || high != 10 {
		t.Errorf("interval %g to %g, by hand 0 to 10", low, high)
	}
	// A constant difference has no spread.
	low, high = bootstrap(sim.Measure{}, []float64{1, 5, 9}, []float64{3, 7, 11})
	if math.Abs(low-2) > 1e-12 || math.Abs(high-2) > 1e-12 {
		t.Errorf("interval %g to %g of a constant difference of 2", low, high)
	}
}

// For many years the percentile interval of a mean approaches the normal one,
// mean -+ 1.645 s/sqrt(n); 5 % of its width allowed for 2,000 draws.
func TestBootstrapAgainstNormal(t *testing.T) {
	n := 200
	a, b := make([]float64, n), make([]float64, n)
	for i := range b {
		b[i] = math.Sin(float64(i) * 12.9898) // spread over -1 to 1
	}
	low, high := bootstrap(sim.Measure{}, a, b)
	mean, ss := 0.0, 0.0
	for _, x := range b {
		mean += x / float64(n)
	}
	for _, x := range b {
		ss += (x - mean) * (x - mean)
	}
	half := 1.645 * math.Sqrt(ss/float64(n)) / math.Sqrt(float64(n))
	if math.Abs(low-(mean-half)) > 0.1*half || math.Abs(high-(mean+half)) > 0.1*half {
		t.Errorf("interval %.4f to %.4f, normal %.4f to %.4f", low, high, mean-half, mean+half)
	}
}

// Dates rank: "never stopped" first, "none" last, and their median is a word
// when most years are.
func TestCentreOfDates(t *testing.T) {
	m := sim.Measure{ByMedian: true}
	never, none := math.Inf(-1), math.Inf(1)
	for _, c := range []struct {
		years []float64
		want  float64
	}{
		{[]float64{100, 90, none}, 100},
		{[]float64{never, never, 80}, never},
		{[]float64{none, 70, none}, none},
		{[]float64{60, 80}, 70},
	} {
		if got := centre(m, c.years); got != c.want {
			t.Errorf("median of %v: %g, want %g", c.years, got, c.want)
		}
	}
}

// Quantiles after definition 7 of Hyndman and Fan (1996): of 1..5, p 0.1 is 1.4.
func TestQuantile(t *testing.T) {
	if got := quantile([]float64{1, 2, 3, 4, 5}, 0.1); math.Abs(got-1.4) > 1e-12 {
		t.Errorf("quantile %g, want 1.4", got)
	}
}

// A cancelled run stops.
func TestCancel(t *testing.T) {
	f, s := demoField(t, 4)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(ctx, f, s, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want cancelled", err)
	}
}
