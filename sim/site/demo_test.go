package site

import (
	"math"
	"strings"
	"testing"

	"mottle/soil"
)

// TestDemo: the embedded file reads, its soil can be derived, and it leaves out
// what it says it leaves out.
func TestDemo(t *testing.T) {
	f := Demo()
	if !f.Invented || !strings.Contains(f.Name, "invented") {
		t.Error("the demo is not marked invented")
	}
	if err := f.Validate(); err != nil {
		t.Error(err)
	}
	for _, profile := range [][]soil.Horizon{f.Horizons, f.Runon.Horizons} {
		materials, err := soil.DeriveProfile(profile)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range materials {
			if sum := m.Sand + m.Silt + m.Clay; sum != 100 {
				t.Errorf("%s: sand, silt and clay make %g", m.Name, sum)
			}
		}
	}
	for _, name := range f.grown() {
		if w, _ := f.Farm.Worth(name); !f.Given(cropKey(name)+".price") || !(w.BestYield.Middle > 0) {
			t.Errorf("%s: %+v", name, w)
		}
	}
	if share := f.Farm.Drained / f.Farm.Whole; math.Abs(share-12./160) > 1e-12 { // acres of the file
		t.Errorf("the wet spot is %g of the field", share)
	}
	for i, h := range f.Horizons {
		if math.IsNaN(h.Ksat) != (i < len(f.Horizons)-1) {
			t.Errorf("%s: ksat %g; only the lowest horizon has one", h.Name, h.Ksat)
		}
	}
	for _, key := range []string{"groundwater.outside_level", "groundwater.resistance", "soil.conductivity_factor", "surface.snow", "evapotranspiration.hargreaves_factor"} {
		if f.Given(key) {
			t.Errorf("%s: given; it is to be an assumption", key)
		}
	}
}
