package basin

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// tree is a basin whose units and reaches drain as the pairs say, reaches by names
// that begin with r.
func tree(pairs ...string) *Basin {
	b := &Basin{}
	for i, p := range pairs {
		id, to, _ := strings.Cut(p, ">")
		if strings.HasPrefix(id, "r") {
			b.Reaches = append(b.Reaches, Reach{ID: id, To: to, Row: i})
		} else {
			b.Units = append(b.Units, Unit{ID: id, To: to, Row: i, Area: 1})
		}
	}
	return b
}

// TestOrder: worked by hand.
func TestOrder(t *testing.T) {
	for _, test := range []struct {
		name           string
		b              *Basin
		units, reaches []string
		err            string
	}{
		{"one unit", tree("a>outlet"), []string{"a"}, nil, ""},
		{"chain against the order of the file", tree("c>r1", "b>c", "a>b", "r1>r2", "r2>outlet"), []string{"a", "b", "c"}, []string{"r1", "r2"}, ""},
		{"by id among equals", tree("b>outlet", "a>outlet", "d>a"), []string{"b", "d", "a"}, nil, ""},
		{"two arms", tree("a>r3", "r3>r9", "r1>r2", "r2>r9", "r9>outlet"), []string{"a"}, []string{"r1", "r2", "r3", "r9"}, ""},
		{"circle", tree("a>b", "b>c", "c>b"), nil, nil, "unit drains in a circle: b -> c -> b"},
		{"circle of reaches", tree("a>r1", "r1>r2", "r2>r1"), nil, nil, "reach drains in a circle: r1 -> r2 -> r1"},
		{"nowhere", tree("a>x"), nil, nil, `unit a drains to "x": allowed is a reach or outlet, of a unit also a unit`},
		{"into a unit", tree("a>outlet", "r1>a"), nil, nil, `reach r1 drains to "a": allowed is a reach or outlet, of a unit also a unit`},
	} {
		units, reaches, err := test.b.Order()
		if said := fmt.Sprint(err); err != nil && said != test.err || err == nil && test.err != "" {
			t.Errorf("%s: got error %v, want %s", test.name, err, test.err)
			continue
		}
		var gotUnits, gotReaches []string
		for _, i := range units {
			gotUnits = append(gotUnits, test.b.Units[i].ID)
		}
		for _, i := range reaches {
			gotReaches = append(gotReaches, test.b.Reaches[i].ID)
		}
		if diff := cmp.Diff(test.units, gotUnits) + cmp.Diff(test.reaches, gotReaches); diff != "" {
			t.Errorf("%s: %s", test.name, diff)
		}
	}
}

// TestOrderOfAny: in any network without circles everything stands before what it
// drains to, all of the land arrives, and the order of the rows changes nothing.
func TestOrderOfAny(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units, reaches := rapid.IntRange(1, 30).Draw(t, "units"), rapid.IntRange(0, 10).Draw(t, "reaches")
		var pairs []string
		toReach := func(from int) string {
			if from >= reaches {
				return Outlet
			}
			return fmt.Sprintf("r%d", rapid.IntRange(from, reaches-1).Draw(t, "to reach"))
		}
		for i := range reaches {
			to := Outlet
			if rapid.Bool().Draw(t, "on") {
				to = toReach(i + 1)
			}
			pairs = append(pairs, fmt.Sprintf("r%d>%s", i, to))
		}
		for i := range units {
			to := toReach(0)
			if i+1 < units && rapid.Bool().Draw(t, "to a unit") {
				to = fmt.Sprintf("u%d", rapid.IntRange(i+1, units-1).Draw(t, "unit"))
			}
			pairs = append(pairs, fmt.Sprintf("u%d>%s", i, to))
		}
		ids := func(pairs []string) []string {
			b := tree(pairs...)
			us, rs, err := b.Order()
			if err != nil || len(us) != units || len(rs) != reaches {
				t.Fatalf("%v: %v, %v, %v", pairs, us, rs, err)
			}
			var list []string
			for _, i := range us {
				list = append(list, b.Units[i].ID)
			}
			for _, i := range rs {
				list = append(list, b.Reaches[i].ID)
			}
			arrived := 0.0
			for i, a := range b.AreaAbove() {
				if b.Reaches[i].To == Outlet {
					arrived += a
				}
			}
			for _, u := range b.Units {
				if u.To == Outlet {
					arrived += unitsAbove(b, u.ID)
				}
			}
			if arrived != float64(units) {
				t.Fatalf("%v: %g of %d units arrive", pairs, arrived, units)
			}
			return list
		}
		order := ids(pairs)
		for _, p := range pairs {
			id, to, _ := strings.Cut(p, ">")
			if to != Outlet && slices.Index(order, id) >= slices.Index(order, to) {
				t.Fatalf("%s stands behind %s in %v", id, to, order)
			}
		}
		if again := ids(rapid.Permutation(pairs).Draw(t, "rows")); !slices.Equal(order, again) {
			t.Fatalf("rows in another order: %v, %v", order, again)
		}
	})
}

// unitsAbove counts a unit of area 1 and those that drain through it.
func unitsAbove(b *Basin, id string) float64 {
	n := 1.0
	for _, u := range b.Units {
		if u.To == id {
			n += unitsAbove(b, u.ID)
		}
	}
	return n
}

// TestUnder: what each scenario makes of the base, worked by hand. Drainable are a
// (40 ha, drained today), b (20 ha) and d (30 ha); c is grass.
func TestUnder(t *testing.T) {
	b, err := read(nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, elevation := range []float64{305, 301, 300, 303} {
		b.Units[i].Elevation = elevation
	}
	wetness := []float64{10, 30, 50, 40} // of a, b, c, d
	for _, test := range []struct {
		name    string
		s       Scenario
		drained string
		share   float64
	}{
		{"today", Scenario{}, "a", 40. / 90},
		{"none", Scenario{Drained: Undrained}, "", 0},
		{"all", Scenario{Drained: AllDrained}, "abd", 1},
		{"listed", Scenario{Drained: Listed, Units: []string{"d"}}, "ad", 70. / 90},
		{"a group", Scenario{Drained: Listed, Units: []string{"low"}}, "abc", 70. / 100}, // grass too, when named
		// 0.6 of 90 ha is 54 ha: a to 40, the middle of d at 55.
		{"wettest, 60 %", Scenario{Drained: WettestFirst, Share: 0.60}, "a", 40. / 90},
		{"wettest, 62 %", Scenario{Drained: WettestFirst, Share: 0.62}, "ad", 70. / 90}, // 55.8 ha
		{"wettest, 100 %", Scenario{Drained: WettestFirst, Share: 1}, "abd", 1},
		{"wettest, 0 %", Scenario{Drained: WettestFirst}, "", 0},
		{"lowest, 60 %", Scenario{Drained: LowestFirst, Share: 0.60}, "ab", 60. / 90}, // the middle of b at 50 ha
		{"wetlands", Scenario{Drained: AllDrained, Wetlands: []string{"low"}, WetlandStorage: 0.3}, "ad", 1},
	} {
		units, err := b.Under(&test.s, wetness)
		if err != nil {
			t.Fatal(err)
		}
		drained := ""
		for _, u := range units {
			if u.Tile != nil {
				drained += u.ID
			}
		}
		if drained != test.drained || math.Abs(DrainedShare(units)-test.share) > 1e-12 {
			t.Errorf("%s: drained %q, %g of the land; want %q, %g", test.name, drained, DrainedShare(units), test.drained, test.share)
		}
	}
	if b.Units[0].Tile == nil || b.Units[1].Tile != nil {
		t.Error("the basin itself has changed")
	}
	if _, err := b.Under(&Scenario{Drained: WettestFirst}, nil); err == nil {
		t.Error("the wettest first without a wetness")
	}
}

// TestUnderChanges: tile of the scenario only where none lies, weirs on the flattest,
// wetlands under grass.
func TestUnderChanges(t *testing.T) {
	b, err := read(nil)
	if err != nil {
		t.Fatal(err)
	}
	shallow := b.Units[3].Design
	shallow.Depth = 0.8
	weir := Demo().Scenarios[4].Weir
	if len(weir) != 2 {
		t.Fatalf("the demo's weir: %v", weir)
	}
	s := Scenario{Drained: AllDrained, Tile: &shallow, Weir: weir, ControlledShare: 0.3, Wetlands: []string{"c"}, WetlandStorage: 0.3}
	units, err := b.Under(&s, nil)
	if err != nil {
		t.Fatal(err)
	}
	// Drained are a (slope 1.5 %), b (0.2 %) and d (0.8 %), 90 ha; 27 ha: b to 20, the
	// middle of d at 35.
	depths := []float64{1.1, 0.8, 0, 0.8}
	for i, u := range units {
		switch {
		case depths[i] == 0:
			if u.Tile != nil || u.Storage != 0.3 || len(u.Cover) != 1 || u.Cover[0].Name != "grass" {
				t.Errorf("wetland %+v", u)
			}
		case u.Tile == nil || u.Tile.Depth != depths[i]:
			t.Errorf("unit %s: tile %+v", u.ID, u.Tile)
		case (len(u.Tile.Weir) > 0) != (u.ID == "b"):
			t.Errorf("unit %s: weir %v", u.ID, u.Tile.Weir)
		}
	}
	if b.Units[0].Tile.Weir != nil || shallow.Weir != nil {
		t.Error("the weir stands in the basin or the scenario itself")
	}
}

// TestShareGrows: of two shares the greater holds the smaller, and a share is met
// within half of the largest unit.
func TestShareGrows(t *testing.T) {
	b := Demo()
	wetness := make([]float64, len(b.Units))
	largest, land := 0.0, 0.0
	for i, u := range b.Units {
		wetness[i] = u.Storage
		if u.drainable() {
			land += u.Area
			largest = math.Max(largest, u.Area)
		}
	}
	var before []Unit
	for step := range 11 {
		s := Scenario{Drained: WettestFirst, Share: float64(step) / 10}
		units, err := b.Under(&s, wetness)
		if err != nil {
			t.Fatal(err)
		}
		if got := DrainedShare(units); math.Abs(got-s.Share) > largest/land/2+1e-12 {
			t.Errorf("share %g: got %g", s.Share, got)
		}
		for i, u := range before {
			if u.Tile != nil && units[i].Tile == nil {
				t.Errorf("unit %s: drained at a smaller share, not at %g", u.ID, s.Share)
			}
		}
		before = units
	}
}
