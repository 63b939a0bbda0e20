package compare

import (
	"context"
	"math"
	"testing"
	"time"

	"mottle/sim"
	"mottle/sim/site"
)

// The screening precision against the full one, over shallow and deep, close and wide.
func TestScreening(t *testing.T) {
	f, s := demoField(t, 20)
	ctx := context.Background()
	full, err := Prepare(ctx, f, s, Full())
	if err != nil {
		t.Fatal(err)
	}
	coarse, err := Prepare(ctx, f, s, Screening())
	if err != nil {
		t.Fatal(err)
	}
	var took [2]time.Duration
	for _, d := range []struct{ depth, spacing float64 }{{0.6, 6}, {0.9, 15}, {1.1, 15}, {1.1, 30}, {1.5, 40}} {
		tile := *f.Tile
		tile.Depth, tile.Spacing = d.depth, d.spacing
		var mean [2]map[string]float64
		for k, p := range []*Designs{full, coarse} {
			began := time.Now()
			r, err := p.Run(ctx, &tile)
			if err != nil {
				t.Fatal(err)
			}
			took[k] += time.Since(began)
			mean[k] = map[string]float64{}
			for _, m := range sim.Measures() {
				mean[k][m.Name] = centre(m, yearly(m, r))
			}
		}
		a, b := mean[0], mean[1]
		t.Logf("%v: saturated %.1f %.1f, drain %.0f %.0f, runoff %.0f %.0f, planting %.0f %.0f, excess %.0f %.0f", d, a["days_saturated"], b["days_saturated"],
			a["drain_outflow"], b["drain_outflow"], a["surface_runoff"], b["surface_runoff"], a["planting_day"], b["planting_day"], a["excess_water_sum"], b["excess_water_sum"])
		if math.Abs(a["days_saturated"]-b["days_saturated"]) > 1 || math.Abs(b["drain_outflow"]/a["drain_outflow"]-1) > 0.03 {
			t.Errorf("%v: too far apart", d)
		}
	}
	t.Logf("time full %v, screening %v", took[0], took[1])
}

// A design run from prepared parts is the twin of a comparison, to the bit.
func TestDesignIsTwin(t *testing.T) {
	f, s := demoField(t, 3)
	ctx := context.Background()
	d, err := Prepare(ctx, f, s, Full())
	if err != nil {
		t.Fatal(err)
	}
	r, err := Run(ctx, f, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		tile *site.Tile
		want *sim.Record
	}{{f.Tile, r.Pair.WithTile}, {f.Old, r.Pair.AsItLies}} {
		got, err := d.Run(ctx, c.tile)
		if err != nil {
			t.Fatal(err)
		}
		for i := range got.Days.Table {
			if got.Days.Table[i] != c.want.Days.Table[i] || got.Days.Runoff[i] != c.want.Days.Runoff[i] {
				t.Fatalf("day %d: table %g, runoff %g mm; the twin's %g, %g", i, got.Days.Table[i], got.Days.Runoff[i], c.want.Days.Table[i], c.want.Days.Runoff[i])
			}
		}
	}
}
