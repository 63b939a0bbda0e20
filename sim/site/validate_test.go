package site

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/sim/drain"
)

// TestValidate: after a change each fault names its key, and several come at once.
func TestValidate(t *testing.T) {
	for _, c := range []struct {
		change func(*Field)
		keys   []string
	}{
		{func(f *Field) {}, nil},
		{func(f *Field) { f.Tile = nil }, nil},
		{func(f *Field) { f.Tile.Spacing = math.Inf(1) }, nil},
		{func(f *Field) { f.Latitude, f.Elevation, f.ReadHour = Unknown, Unknown, Unknown }, nil},
		{func(f *Field) { f.Tile.Depth = 2 }, []string{"tile.depth"}},
		{func(f *Field) { f.Tile.Depth, f.Tile.Spacing = 2.5, 0 }, []string{"tile.depth", "tile.spacing"}},
		{func(f *Field) { f.Tile.Spacing = -3 }, []string{"tile.spacing"}},
		{func(f *Field) { f.Tile.Spacing = math.NaN() }, []string{"tile.spacing"}},
		{func(f *Field) { f.Tile.Diameter = 0.3 }, []string{"tile.diameter"}},
		{func(f *Field) { f.Tile.Weir = drain.WeirSchedule{{CrestDepth: 0.4}} }, []string{"tile.weir", "tile.weir"}}, // two days that do not exist
		{func(f *Field) { f.Old = &Tile{} }, []string{"old_tile.depth", "old_tile.spacing", "old_tile.diameter", "old_tile.drainage_coefficient"}},
		{func(f *Field) { f.Ditch = &Ditch{Depth: 3, Distance: 0} }, []string{"ditch.depth", "ditch.distance"}},
		{func(f *Field) { f.Restrictive = 2.5 }, []string{"soil.horizons[4].to"}},
		{func(f *Field) { f.Horizons[1].Sand = 80 }, []string{"soil.horizons[1]"}},
		{func(f *Field) { f.Horizons = nil }, []string{"soil.horizons"}},
		{func(f *Field) { f.Latitude = 91 }, []string{"latitude"}},
		{func(f *Field) { f.Conductance, f.Anisotropy = 0, math.NaN() }, []string{"soil.conductivity_factor", "soil.lateral_over_vertical"}},
		{func(f *Field) { f.Rotation = nil }, []string{"crop"}},
		{func(f *Field) { f.Surface.Residue = 1.3 }, []string{"surface.residue"}},
		{func(f *Field) { f.Restrictive = math.NaN() }, []string{"soil.restrictive_layer"}},
		{func(f *Field) { f.Base = Base{Kind: Seepage, Flux: -1}; f.Runon = nil }, []string{"groundwater.seepage"}},
		{func(f *Field) { f.Base.Resistance = 0 }, []string{"groundwater.resistance"}},
		{func(f *Field) { f.Runon.Ratio = 0 }, []string{"run_on.area_ratio"}},
		{func(f *Field) { f.Farm.Drained, f.Farm.Whole = math.NaN(), 0 }, []string{"farm.drained_area", "farm.field_area"}},
		{func(f *Field) { f.Farm.Whole = Unknown }, nil},
		{func(f *Field) { f.Farm.Crops[1].BestYield = unknown }, []string{"farm.crops.corn.best_yield"}},
		{func(f *Field) { f.Farm.Crops[1].Price = unknown }, nil},
		{func(f *Field) { f.Farm.Crops[1].Price.Low = -1 }, []string{"farm.crops.corn.price"}},
		{func(f *Field) { f.Farm.Crops[1].Price.Low = 1e4 }, []string{"farm.crops.corn.price"}}, // above the likely one
		{func(f *Field) { f.Farm.LiftStations = 1 }, []string{"farm.lift.height"}},
		{func(f *Field) { f.Farm.Lift = 2 }, []string{"farm.lift.stations"}},
		{func(f *Field) { f.Farm.Outlets, f.Farm.ControlStructures = 0, -1 }, []string{"farm.outlets", "farm.control_structures"}},
		{func(f *Field) { f.Farm.Mains[0] = Main{} }, []string{"farm.mains[0].length", "farm.mains[0].diameter", "farm.mains[0].grade"}},
		{func(f *Field) { f.Farm.Ranges[interest].High = 1.01 }, []string{"farm.interest"}},
		{func(f *Field) { f.Farm.Replanting.High = math.Inf(1) }, []string{"farm.replanting"}},
	} {
		f := Demo()
		c.change(&f)
		var keys []string
		if err := f.Validate(); err != nil {
			for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
				var fault *Fault
				if !errors.As(e, &fault) || strings.Contains(e.Error(), "\n") {
					t.Fatalf("%v is no fault of one line", e)
				}
				keys = append(keys, fault.Key)
			}
		}
		if diff := cmp.Diff(c.keys, keys); diff != "" {
			t.Errorf("want %v: %s", c.keys, diff)
		}
	}
}
