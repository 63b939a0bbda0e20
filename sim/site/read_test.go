package site

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/snow"
	"mottle/soil"
	"mottle/weather"
)

const fields = "../../testdata/fields"

// open reads a field file of the test data.
func open(t *testing.T, name string) Field {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(fields, name))
	if err != nil {
		t.Fatal(err)
	}
	f, err := ReadField(name, bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestFull reads every key once. Wanted values are the file's, turned to SI by
// hand: 1 in = 0.0254 m, 1 ft = 0.3048 m and 1 lb/ft3 = 0.016018463 Mg/m3 (NIST
// Handbook 44, appendix C), 1 mmho/cm = 1 dS/m. A rounding of a double, 1e-14, is
// allowed; the density is known to 1e-8.
func TestFull(t *testing.T) {
	kind := func(name string) crop.Kind {
		k, err := crop.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	horizon := func(top, bottom float64, change func(*soil.Horizon)) soil.Horizon {
		h := soil.NewHorizon(top, bottom)
		h.Water33, h.Water1500, h.Relation = Unknown, Unknown, soil.Cosby1984
		change(&h)
		return h
	}
	const d = 86400.0
	want := Field{
		Name: "Every key (invented)", Place: "an invented county", Invented: true,
		Latitude: 46.5, Elevation: 304.8, ReadHour: 7,
		Restrictive: 2.032, Conductance: 1.5, Anisotropy: 2,
		Horizons: []soil.Horizon{
			horizon(0, 0.2032, func(h *soil.Horizon) {
				h.Name, h.Sand, h.Silt, h.Clay, h.Organic, h.BulkDensity = "Ap", 20, 50, 30, 5, 75*0.01601846337
				h.Ksat, h.Structure, h.SalinityEC = 0.0127/3600, 4, 1.2
			}),
			horizon(0.2032, 1.016, func(h *soil.Horizon) {
				h.Name, h.Ksat, h.ThetaR, h.ThetaS, h.Alpha, h.N, h.SalinityEC = "Bg", 2e-6, 0.08, 0.47, 1.5, 1.25, 1.5
			}),
			horizon(1.016, 2.032, func(h *soil.Horizon) {
				h.Name, h.Silt, h.Clay, h.BulkDensity, h.Ksat = "Cg", 40, 28, 1.65, 0.026/d
			}),
		},
		Surface: Surface{Storage: 0.0127, CrustK: 0.002 / 3600, Residue: 0.4, Exposure: snow.Swept},
		Base:    Base{Kind: Regional, Level: 1.524, Resistance: 1000 * d, EC: 3},
		Runon: &Runon{Ratio: 2.5, Storage: 0.006, Level: 3, Horizons: []soil.Horizon{
			horizon(0, 0.3, func(h *soil.Horizon) { h.Name, h.Sand, h.Silt, h.Clay = "Ap", 40, 38, 22 }),
			horizon(0.3, 1.8, func(h *soil.Horizon) { h.Name, h.Sand, h.Silt, h.Clay, h.BulkDensity = "C", 42, 35, 23, 1.7 }),
		}},
		Ditch: &Ditch{Depth: 1.2192, Distance: 152.4},
		Old: &Tile{Depth: 0.9144, Spacing: 60.96, Diameter: 0.127, Wrap: drain.Bare, Coefficient: 0.00635 / d,
			OutletWater: math.Inf(1)},
		Tile: &Tile{Depth: 1.2192, Spacing: 18.288, Diameter: 0.1016, Wrap: drain.Sock, Coefficient: 0.0127 / d, OutletWater: 0.9144,
			Weir: drain.WeirSchedule{
				{FromDay: drain.MonthDay{Month: 10, Day: 15}, ToDay: drain.MonthDay{Month: 4, Day: 15}, CrestDepth: 0.4064},
				{FromDay: drain.MonthDay{Month: 6, Day: 1}, ToDay: drain.MonthDay{Month: 8, Day: 31}, CrestDepth: 0.6096},
			}},
		Rotation: []crop.Kind{kind("corn"), kind("soybean"), kind("spring wheat"), kind("grass")},
		ET:       weather.ETChoice{Method: weather.Hargreaves, HargreavesFactor: 0.9},
		Storms:   Storms{Seed: 7, Draw: 2},
		RainEC:   0.03,
		// No weir is no assumption, and the old tile has all but that.
	}
	got := open(t, "full.yaml")
	want.Farm = got.Farm // TestFarm
	density := got.Horizons[0].BulkDensity
	if math.Abs(density-want.Horizons[0].BulkDensity) > 1e-8 {
		t.Errorf("75 lb/ft3: got %.10g Mg/m3", density)
	}
	want.Horizons[0].BulkDensity = density
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.EquateApprox(1e-14, 0)); diff != "" {
		t.Error(diff)
	}
}

// TestMinimal: a texture alone makes a field. The base is what three measured
// fields agreed on, standing water lies in the 2 to 50 mm of field practice, tile
// is of a common make; each is said to be assumed.
func TestMinimal(t *testing.T) {
	f := open(t, "minimal.yaml")
	want := map[string]string{
		"soil.restrictive_layer": "3 m", "soil.relation": "saxton-rawls", "soil.conductivity_factor": "1", "soil.lateral_over_vertical": "1",
		"surface.standing_water": "12 mm", "surface.crust": "none", "surface.residue": "40 %", "surface.snow": "open",
		"run_on": "none", "ditch": "none", "old_tile": "none",
		"groundwater.kind": "regional", "groundwater.outside_level": "1.4 m", "groundwater.resistance": "1500 d", "groundwater.salinity": "2 dS/m",
		"tile.depth": "1.1 m", "tile.spacing": "15 m", "tile.diameter": "4 in", "tile.envelope": "none",
		"tile.drainage_coefficient": "0.5 in/d", "tile.outlet_water": "none",
		"crop": "corn, soybean", "evapotranspiration.method": "auto", "evapotranspiration.hargreaves_factor": "0.88",
		"storms.seed": "1", "storms.draw": "0", "rain_salinity": "0.02 dS/m",
	}
	got := map[string]string{}
	for _, a := range f.Assumed {
		got[a.Key] = a.Value
		if a.Reason == "" {
			t.Errorf("%s: no reason", a.Key)
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if f.Base.Level != 1.4 || f.Base.Resistance != 1500*86400 || f.Tile.Depth != 1.1 || f.Surface.Storage != 0.012 || !math.IsInf(f.Surface.CrustK, 1) {
		t.Errorf("values differ from what is said of them: %+v %+v %+v", f.Base, f.Tile, f.Surface)
	}
	if f.Runon != nil || f.Ditch != nil || f.Old != nil || len(f.Rotation) != 2 {
		t.Errorf("something that nobody stated: %+v", f)
	}
	for key, x := range map[string]float64{"latitude": f.Latitude, "elevation": f.Elevation, "rain_read_at": f.ReadHour} {
		if !math.IsNaN(x) || !f.Given(key) {
			t.Errorf("%s: found %g; the weather file is to give it", key, x)
		}
	}
}

// TestOldTile: what is stated is no assumption, what is left out is one.
func TestOldTile(t *testing.T) {
	f := open(t, "old-tile.yaml")
	if f.Old == nil || math.Abs(f.Old.Spacing-36.576) > 1e-12 || f.Tile == nil || f.Base.Kind != Seepage {
		t.Fatalf("got %+v", f)
	}
	if math.Abs(f.Base.Flux*86400-0.0003) > 1e-12 {
		t.Errorf("seepage: got %g m/d, want 0.0003", f.Base.Flux*86400)
	}
	for key, given := range map[string]bool{"old_tile.spacing": true, "old_tile.diameter": false, "tile.depth": true, "groundwater.seepage": true,
		"groundwater.outside_level": true, "crop": true, "ditch": false} {
		if f.Given(key) != given {
			t.Errorf("%s: given %v, want %v", key, f.Given(key), given)
		}
	}
}

// TestMeasuredConductivity: with ksat in every horizon its factor is no
// assumption, and tile: none leaves no tile.
func TestMeasuredConductivity(t *testing.T) {
	f := open(t, "as-it-lies.yaml")
	if !f.Given("soil.conductivity_factor") || f.Conductance != 1 {
		t.Errorf("conductivity factor: got %g, given %v", f.Conductance, f.Given("soil.conductivity_factor"))
	}
	if f.Tile != nil || f.Base.Kind != Closed || !f.Given("tile.depth") {
		t.Errorf("got tile %+v, base %+v", f.Tile, f.Base)
	}
}

// TestByteOrderMark: an editor's mark before the first key is no part of it.
func TestByteOrderMark(t *testing.T) {
	f, err := ReadField("marked.yaml", bytes.NewReader(append([]byte("\ufeff"), demo...)))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(Demo(), f, cmpopts.EquateNaNs()); diff != "" {
		t.Error(diff)
	}
}
