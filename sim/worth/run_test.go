package worth

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// invented is a record of the demo's climate, some years of it.
func invented(years int) *weather.Series {
	return weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), years, 1)
}

// meet brings a field and an invented record together.
func meet(t testing.TB, f site.Field, years int) (*site.Field, *weather.Series) {
	t.Helper()
	met, s, err := compare.Meet(f, compare.Record{Series: invented(years)}, compare.Period{}, false)
	if err != nil {
		t.Fatal(err)
	}
	return met, s
}

// fieldFile reads one of the invented fields of testdata.
func fieldFile(t testing.TB, name string) site.Field {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "fields", "worth", name)
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	f, err := site.ReadField(path, file)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A sandy field over deep water gains nothing, and is told so; wet ground with a dear
// outlet hangs on what is drawn; the demo's hollow gains in nearly every future. Bounds
// are wide on either side of what forty years give (0, 0.5 and 0.9).
func TestFieldsDiffer(t *testing.T) {
	chance := func(f site.Field) (*Result, float64) {
		met, s := meet(t, f, 15)
		r, err := Run(context.Background(), met, s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		n := 0.0
		for _, x := range r.Futures.NPV {
			if x > 0 {
				n++
			}
		}
		return r, n / float64(len(r.Futures.NPV))
	}
	sandy, p := chance(fieldFile(t, "sandy.yaml"))
	if p > 0.01 || sandy.Money.NPV >= 0 || !sandy.Money.Simple.Never() || math.Abs(sandy.Gain()) > 0.02 {
		t.Errorf("sandy: chance %.2f, NPV %.0f, payback %v, gain %.3f", p, sandy.Money.NPV, sandy.Money.Simple, sandy.Gain())
	}
	if _, p := chance(fieldFile(t, "dear-outlet.yaml")); p < 0.15 || p > 0.85 {
		t.Errorf("dear outlet: chance %.2f", p)
	}
	wet, p := chance(site.Demo())
	if p < 0.75 || wet.Money.NPV <= 0 {
		t.Errorf("hollow: chance %.2f, NPV %.0f", p, wet.Money.NPV)
	}
	for i, y := range wet.Years {
		a, b := wet.AsItLies[i].Yield, wet.WithTile[i].Yield
		for what, s := range map[string]Yield{"as it lies": a, "with tile": b} {
			sum := s.Share
			for _, x := range s.Lost {
				sum += x
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%d %s: yield and losses add up to %g", y, what, sum)
			}
		}
	}
}

// Two runs of one field are equal, whatever the order in which its parts were done.
func TestRunRepeats(t *testing.T) {
	met, s := meet(t, site.Demo(), 4)
	var results [2]*Result
	for i := range results {
		r, err := Run(context.Background(), met, s, Options{})
		if err != nil {
			t.Fatal(err)
		}
		results[i] = r
	}
	a, b := results[0], results[1]
	for i := range a.Futures.NPV {
		if a.Futures.NPV[i] != b.Futures.NPV[i] {
			t.Fatalf("future %d: %g and %g", i, a.Futures.NPV[i], b.Futures.NPV[i])
		}
	}
	for i := range a.Map.NPV {
		for j := range a.Map.NPV[i] {
			if a.Map.NPV[i][j] != b.Map.NPV[i][j] {
				t.Fatalf("map %d, %d: %g and %g", i, j, a.Map.NPV[i][j], b.Map.NPV[i][j])
			}
		}
	}
}

// What cannot be judged is an error that says why.
func TestRefusals(t *testing.T) {
	met, s := meet(t, site.Demo(), 2)
	untiled := *met
	untiled.Tile = nil
	if _, err := Run(context.Background(), &untiled, s, Options{}); err == nil {
		t.Error("judged without tile")
	}
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(cancelled, met, s, Options{}); err == nil {
		t.Error("ran on after it was cancelled")
	}
}
