package site

import (
	"strings"
	"testing"
)

// sensible is a farm section about which there is nothing to say. INVENTED.
const sensible = quiet + `farm:
  drained_area: 12 ac
  field_area: 160 ac
  crops:
    corn: {best_yield: 190 bu/ac, price: 4.20 USD/bu, extra_cost: 0.50 USD/bu}
    soybean: {best_yield: 55 bu/ac, price: [9.50 USD/bu, 10.50 USD/bu, 12.00 USD/bu]}
  laterals: 1.10 USD/ft
  mains: [{length: 600 ft, diameter: 6 in, grade: 0.3 %}]
  outlet: 1000 USD
  lift: {height: 2 m, station: 30000 USD}
  control_structures: 1
  upkeep: 0.75 %
  interest: 5 %
  life: 30 years
  replanting: 60 USD/ac
`

// TestWarningsOfFarm: each odd value gives one warning at its key and its line. A price
// or a yield is asked about three times beyond what is known: corn above 3 x 6.54 =
// 19.62 USD/bu (the dearest season, from memory) and 3 x 200 bu/ac. A 15 in main,
// n 0.020, stays clean (0.5 ft/s, ASAE EP480) from [0.1524 x 0.020/(0.381/4)^(2/3)]^2 =
// 0.021 % on. A 6 in main, n 0.015, at 0.3 % carries by Manning 0.1524^2 pi/4/0.015
// (0.1524/4)^(2/3) 0.003^0.5 = 7.54 L/s, off 5.13 ha (12.7 ac) at 0.5 in/d (1.47e-7 m/s),
// and at 0.2 % 10.4 ac: less than 12.
func TestWarningsOfFarm(t *testing.T) {
	if w := read(t, sensible).Warnings(nil); len(w) != 0 {
		t.Fatalf("about nothing: %v", w[0])
	}
	for _, c := range []struct{ from, to, key, says string }{
		{"field_area: 160 ac", "field_area: 11 ac", "farm.field_area", "found 4.452 ha; the laterals lie under 4.856 ha, which is more"},
		{"price: 4.20 USD/bu", "price: 420 USD/bu", "farm.crops.corn.price", "found 1.65e+04 USD/t; known are 140 to 257 USD/t: is the unit right?"},
		{"price: 4.20 USD/bu", "price: 19 USD/bu", "", ""},
		{"price: 4.20 USD/bu", "price: 20 USD/bu", "farm.crops.corn.price", "is the unit right?"},
		{"price: 4.20 USD/bu", "price: [1 USD/bu, 4 USD/bu, 5 USD/bu]", "farm.crops.corn.price", "found 39.4 to 197 USD/t"},
		{"best_yield: 190 bu/ac", "best_yield: 610 bu/ac", "farm.crops.corn.best_yield", "is the unit right?"},
		{"best_yield: 55 bu/ac", "best_yield: 1 t/ha", "farm.crops.soybean.best_yield", "is the unit right?"},
		{"extra_cost: 0.50 USD/bu", "extra_cost: 0 USD/bu", "", ""},
		{"extra_cost: 0.50 USD/bu", "extra_cost: 1.10 USD/bu", "farm.crops.corn.extra_cost", "is the unit right?"},
		{"laterals: 1.10 USD/ft", "laterals: 0.25 USD/ft", "farm.laterals", "found 0.25 USD/ft; usual are 0.3 to 5 USD/ft"},
		{"laterals: 1.10 USD/ft", "laterals: [1 USD/ft, 2 USD/ft, 6 USD/ft]", "farm.laterals", "found [1 USD/ft, 2 USD/ft, 6 USD/ft]"},
		{"laterals: 1.10 USD/ft", "laterals: 5 USD/ft", "", ""},
		{"diameter: 6 in, grade: 0.3 %", "diameter: 6 in, grade: 0.2 %", "farm.mains", "the largest carries the drainage coefficient, 12.7 mm/d, off"},
		{"diameter: 6 in, grade: 0.3 %", "diameter: 6 in", "", ""},
		{"diameter: 6 in, grade: 0.3 %", "diameter: 15 in, grade: 0.01 %", "farm.mains[0].grade", "keeps itself clean from"},
		{"outlet: 1000 USD", "outlet: 1000 USD\n  outlets: 2", "", ""},
		{"outlet: 1000 USD", "outlet: 30000 USD", "farm.outlet", "usual are 0 to 10000 USD"},
		{"height: 2 m", "height: 11 m", "farm.lift.height", "found 11 m"},
		{"station: 30000 USD", "station: 3000 USD", "farm.lift.station", "usual are 5000 to 200000 USD"},
		{"station: 30000 USD", "electricity: 12 USD/kWh", "farm.lift.electricity", "usual are 0.02 to 0.6 USD/kWh"},
		{"control_structures: 1", "control_structures: 0", "farm.control_structures", "the weir of the tile stands in one"},
		{"upkeep: 0.75 %", "upkeep: 6 %", "farm.upkeep", "usual are 0 to 5 %"},
		{"interest: 5 %", "interest: 0 %", "farm.interest", "found 0 %"},
		{"interest: 5 %", "interest: 21 %", "farm.interest", "found 21 %"},
		{"interest: 5 %", "interest: 20 %", "", ""},
		{"life: 30 years", "life: 101 years", "farm.life", "usual are 10 to 100 years"},
		{"life: 30 years", "life: 100 years", "", ""},
		{"replanting: 60 USD/ac", "replanting: 600 USD/ac", "farm.replanting", "(30 to 120 USD/ac)"},
	} {
		text := strings.Replace(sensible, c.from, c.to, 1)
		if text == sensible {
			t.Fatalf("%s: is not in the file", c.from)
		}
		got := read(t, text).Warnings(nil)
		switch {
		case c.key == "" && len(got) == 0:
		case c.key == "":
			t.Errorf("%s: %v", c.to, got[0])
		case len(got) != 1 || got[0].Key != c.key || !strings.Contains(got[0].Text, c.says):
			t.Errorf("%s: got %v", c.to, got)
		case got[0].Line < strings.Count(quiet, "\n"):
			t.Errorf("%s: shown in line %d", c.to, got[0].Line)
		}
	}
}

// TestWarningsOfNoFarm: who says nothing of money is not asked about it, and an empty
// section says nothing.
func TestWarningsOfNoFarm(t *testing.T) {
	hay := strings.Replace(quiet, "crop: [corn, soybean]", "crop: alfalfa", 1)
	for text, want := range map[string]int{
		hay: 0, hay + "farm:\n": 0, hay + "farm:\n  crops:\n    alfalfa:\n": 0,
		quiet + "farm: {field_area: 20 ac}\n":                  1, // less than the 10 ha that stand in for drained ground
		hay + "farm: {interest: 5 %}\n":                        2, // price and extra cost
		hay + "farm: {crops: {alfalfa: {price: 180 USD/t}}}\n": 1,
		hay + "farm: {crops: {corn: {best_yield: 11 t/ha}}}\n": 2,
	} {
		if got := read(t, text).Warnings(nil); len(got) != want {
			t.Errorf("%s: got %v", text[len(hay):], got)
		}
	}
}
