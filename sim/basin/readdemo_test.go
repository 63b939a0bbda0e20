package basin

import (
	"math"
	"slices"
	"strings"
	"testing"

	"mottle/soil"
)

// TestDemo: the demo is what it says it is, invented throughout, and its soils can
// be derived.
func TestDemo(t *testing.T) {
	b := Demo()
	if len(b.Units) != 60 || len(b.Soils) != 3 || !b.Invented || !strings.Contains(b.Name, "invented") {
		t.Errorf("%d units, %d soils, invented %v, %q", len(b.Units), len(b.Soils), b.Invented, b.Name)
	}
	if len(b.Notes) > 0 {
		t.Errorf("notes %q", b.Notes)
	}
	for name, f := range b.Soils {
		if _, err := soil.DeriveProfile(f.Horizons); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	units, reaches, err := b.Order()
	if err != nil || len(units) != 60 || len(reaches) != 13 {
		t.Fatalf("%d units, %d reaches: %v", len(units), len(reaches), err)
	}
	total, tributary := 0.0, 0.0
	covered := map[string]bool{}
	for i, u := range b.Units {
		total += u.Area
		covered[u.Soil] = true
		// Drawn with areas rounded to 0.1 ha; hollows have 6 ha and more.
		if a := areaOf(t, u.Geometry); math.Abs(a-u.Area) > 0.05e4+0.002*u.Area {
			t.Errorf("unit %s: %g ha given, %g ha drawn", u.ID, u.Area/1e4, a/1e4)
		}
		f, err := b.Field(&b.Units[i])
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Validate(); err != nil {
			t.Errorf("unit %s: %v", u.ID, err)
		}
	}
	arrived := 0.0
	for i, a := range b.AreaAbove() {
		if b.Reaches[i].To == Outlet {
			arrived += a
		}
		if b.Reaches[i].ID == "T3" {
			tributary = a
		}
	}
	if math.Abs(arrived/total-1) > 1e-12 || tributary <= 0 || len(covered) != 3 {
		t.Errorf("%g of %g m2 arrive, %g by the tributary, on %d soils", arrived, total, tributary, len(covered))
	}
	if share := DrainedShare(b.Units); share < 0.1 || share > 0.6 {
		t.Errorf("%g of the land is drained today; between none and all there is to be room both ways", share)
	}
	var names []string
	for _, s := range b.Scenarios {
		names = append(names, s.Name)
		if _, err := b.Under(&s, make([]float64, len(b.Units))); err != nil {
			t.Error(err)
		}
	}
	if !slices.Equal(names, []string{"today", "none", "all", "proposed", "controlled", "wetlands"}) {
		t.Errorf("scenarios %v", names)
	}
}
