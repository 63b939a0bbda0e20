package drain

import (
	"math"
	"strings"
	"testing"
)

// Skaggs 1978; Mohammad & Skaggs 1983 (from memory).
func TestEffectiveRadius(t *testing.T) {
	sizes := map[string][2]float64{"75 mm": {0.075, 0.0762}, "100 mm": {0.100, 0.1016}, "125 mm": {0.125, 0.1270}, "150 mm": {0.150, 0.1524}}
	found := 0
	for _, r := range table(t, "drain_effective_radius.csv", 6) {
		name, _, corrugated := strings.Cut(r.fields["drain"], " (")
		if !corrugated || !strings.HasSuffix(r.fields["drain"], "standard openings") {
			continue // clay tile and the open wall are not trade sizes of tube
		}
		found++
		for _, size := range sizes[name] {
			effective, outside, err := EffectiveRadius(size, Bare)
			if err != nil {
				t.Fatal(err)
			}
			near(t, name+" effective", effective, r.num("effective_radius_mm")/1000, 1e-12)
			near(t, name+" outside", outside, r.num("outside_diameter_mm")/1000, 1e-12)
			near(t, name+" alpha", math.Log(outside/2/effective)/(2*math.Pi), r.num("entrance_factor_alpha"), sixDigits)
		}
	}
	if found != len(sizes) {
		t.Errorf("%d sizes checked, want %d", found, len(sizes))
	}
}

// Between sizes the table is linear: halfway from 4 in (101.6 mm) to 125 mm
// lies the mean of their radii, (5.1 + 10.3)/2 mm.
func TestEffectiveRadiusBetween(t *testing.T) {
	effective, outside, err := EffectiveRadius((0.1016+0.125)/2, Bare)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "effective", effective, 0.0077, 1e-9)
	near(t, "outside", outside, 0.127, 1e-9)
}

// A sock opens the whole wall: geometry, 114/2 mm.
func TestEffectiveRadiusSock(t *testing.T) {
	effective, _, err := EffectiveRadius(0.1, Sock)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "effective", effective, 0.057, 1e-12)
}

func TestEffectiveRadiusOutsideTable(t *testing.T) {
	for _, size := range []float64{0.05, 0.2, 0, -0.1, math.NaN()} {
		if _, _, err := EffectiveRadius(size, Bare); err == nil || !strings.Contains(err.Error(), "75-152.4 mm") {
			t.Errorf("%g m: error %v, want one that names the sizes allowed", size, err)
		}
	}
	if _, _, err := EffectiveRadius(0.1, Wrap(7)); err == nil {
		t.Error("unknown wrap: want an error")
	}
}
