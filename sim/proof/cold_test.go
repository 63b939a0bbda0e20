package proof

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"mottle/weather"
)

// Measured soil temperature: the scores are printed (go test -v -run ColdRecords).
// Asserted is sanity: the start is forgotten, and the more snow stays the warmer
// the soil of January-April, in the median over stations.
func TestColdRecords(t *testing.T) {
	needs(t, stationRecords+"/uscrn")
	r, err := Cold(context.Background(), os.DirFS(stationRecords+"/uscrn"))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := r.Write(&b); err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + b.String())
	for _, run := range r.Runs {
		if !run.Forgotten {
			t.Errorf("%s, %s: the start was not forgotten in %d passes", run.Station, run.Exposure, run.Passes)
		}
	}
	for k, z := range weather.SoilDepths {
		sheltered, open, swept := r.Bias("sheltered", lateWinter, k), r.Bias("open", lateWinter, k), r.Bias("swept", lateWinter, k)
		if !(sheltered > open && open > swept) {
			t.Errorf("at %g m the soil is not the warmer the more snow stays: %.2f, %.2f, %.2f C", z, sheltered, open, swept)
		}
	}
}

// The straight line between probes (its own arithmetic by hand): -1 C at 20 cm and
// +2 C at 50 cm cross 0 C a third of the way, at 30 cm; a deepest probe below
// freezing gives its depth as a least.
func TestFrostBetween(t *testing.T) {
	for _, c := range []struct {
		t      [len(weather.SoilDepths)]float64
		depth  float64
		beyond bool
	}{
		{[5]float64{-3, -2, -1, 2, 4}, 0.30, false},
		{[5]float64{-3, -2, -1, -1, -0.5}, 1, true},
		{[5]float64{1, 1, 2, 3, 4}, 0, false},
		{[5]float64{1, 0.5, -1, 1, 4}, 0.35, false}, // frost going out from above
	} {
		if depth, beyond, _ := frostBetween(c.t, c.t); math.Abs(depth-c.depth) > 1e-9 || beyond != c.beyond {
			t.Errorf("%v: found %g m, beyond %v; expected %g, %v", c.t, depth, beyond, c.depth, c.beyond)
		}
	}
}
