package site

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"mottle/sim/crop"
	"mottle/sim/money"
	"mottle/soil"
)

func sure(x float64) money.Spread { return money.Spread{Low: x, Middle: x, High: x} }

// TestFarm reads every key of the farm once. Wanted values are the file's, turned by
// hand with 1 ac = 4046.8564224 m2, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg (agreement
// of 1959) and bushels of 56 lb of corn and 60 lb of soybean (trade standard): 25.40117272
// and 27.2155422 kg. Rounding, 1e-14, is allowed.
func TestFarm(t *testing.T) {
	const acre, foot, corn, soybean, ton, cwt = 0.40468564224, 0.3048, 0.02540117272, 0.0272155422, 0.90718474, 0.045359237 // ha, m, t
	got := open(t, "full.yaml").Farm
	for _, w := range []Worth{
		{"corn", corn * 1000, sure(190 * corn / acre), sure(4.20 / corn), money.Spread{Low: 0.30 / corn, Middle: 0.40 / corn, High: 0.50 / corn}},
		{"soybean", soybean * 1000, sure(3.5), money.Spread{Low: 9.50 / soybean, Middle: 10.50 / soybean, High: 12 / soybean}, sure(18)},
		{"alfalfa", 0, money.Spread{Low: 3 * ton / acre, Middle: 4 * ton / acre, High: 5 * ton / acre}, sure(180 / ton), sure(1 / cwt)},
	} {
		found, ok := got.Worth(w.Crop)
		if diff := cmp.Diff(w, found, cmpopts.EquateApprox(1e-14, 0)); !ok || diff != "" {
			t.Error(diff)
		}
	}
	if _, ok := got.Worth("maize"); ok || len(got.Crops) != len(crop.Names()) {
		t.Errorf("%d crops, maize %v", len(got.Crops), ok)
	}
	want := Farm{Drained: 12 * acre * 1e4, Whole: 160 * acre * 1e4, Outlets: 2, LiftStations: 1, Lift: 2, ControlStructures: 1,
		Mains:      []Main{{money.Pipe{Diameter: 0.1524, Length: 182.88}, 0.002}, {money.Pipe{Submain: true, Diameter: 0.2, Length: 100}, Unknown}},
		Replanting: sure(60 / acre), Crops: got.Crops, Ranges: got.Ranges, Assumed: got.Assumed}
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.EquateApprox(1e-14, 0)); diff != "" {
		t.Error(diff)
	}
	spreads := []money.Spread{
		laterals: sure(1.10 / foot), sizeExponent: sure(1.7), mainsShare: money.Ranges()[mainsShare].Spread, outlet: {Low: 1000, Middle: 2000, High: 3000},
		station: sure(25000), efficiency: sure(0.55), electricity: sure(0.11), structure: sure(1500), engineering: sure(0.04),
		permits: sure(800), upkeep: sure(0.0075), life: sure(40), interest: {Low: 0.02, Middle: 0.04, High: 0.06},
	}
	for i, r := range got.Ranges {
		if diff := cmp.Diff(spreads[i], r.Spread, cmpopts.EquateApprox(1e-14, 0)); diff != "" {
			t.Errorf("%s: %s", r.Item, diff)
		}
	}
	middle := got.Terms(func(r money.Range) float64 { return r.Middle })
	share := money.DefaultTerms().MainsShare
	if diff := cmp.Diff(money.Terms{Lateral: 1.10 / foot, SizeExponent: 1.7, MainsShare: share, Outlet: 2000, LiftStation: 25000, PumpEfficiency: 0.55, Electricity: 0.11,
		ControlStructure: 1500, Engineering: 0.04, Permits: 800, Upkeep: 0.0075, Years: 40, Rate: 0.04}, middle, cmpopts.EquateApprox(1e-14, 0)); diff != "" {
		t.Error(diff)
	}
}

// TestFarmSystem: the bill of the file's system is by hand that of its items at 1.10
// USD/ft, pipe growing with diameter to the power 1.7: 12 ac (522720 ft2) at 60 ft are
// 8712 ft of 4 in lateral, then 600 ft of 6 in main, 1.5^1.7 as dear, and 100 m of 200 mm
// submain, (200/101.6)^1.7; two outlets of 2000, a station of 25000 and a structure of
// 1500 USD; 4 % of all that for engineering, and permits of 800 USD. Rounding only: 1e-6 USD.
func TestFarmSystem(t *testing.T) {
	f := open(t, "full.yaml")
	bill, err := f.Farm.System(f.Tile).FirstCost(f.Farm.Terms(func(r money.Range) float64 { return r.Middle }))
	if err != nil {
		t.Fatal(err)
	}
	built := 1.10*(8712+600*math.Pow(1.5, 1.7)+100/0.3048*math.Pow(200/101.6, 1.7)) + 2*2000 + 25000 + 1500
	if want := 1.04*built + 800; math.Abs(bill.Total()-want) > 1e-6 {
		t.Errorf("got %.6f USD, want %.6f", bill.Total(), want)
	}
}

// TestTerms: the keys stand for the ranges of the same unit, in their order, and every
// default reads back as the range it comes from, within twelve written digits; what may
// stand in the file, money takes too.
func TestTerms(t *testing.T) {
	units := map[string]string{"USD/ft": "USD/m", "%": "", "USD": "USD", "USD/kWh": "USD/kWh", "years": "years", "": "power"}
	ranges := money.Ranges()
	if len(ranges) != len(terms) {
		t.Fatalf("%d keys for %d ranges", len(terms), len(ranges))
	}
	f := open(t, "minimal.yaml")
	for i, r := range ranges {
		said := strings.TrimSuffix(r.Unit, " each")
		if want := units[terms[i].unit]; want != "" && want != said || terms[i].unit == "%" && strings.ContainsAny(said, "U") {
			t.Errorf("%s in %s stands for %s in %s", terms[i].key, terms[i].unit, r.Item, r.Unit)
		}
		s := spreadText(r.Spread, terms[i].one, terms[i].unit)
		for j, text := range entries(s) {
			x, err := of(terms[i].dim).read(text)
			wants := []float64{r.Low, r.Middle, r.High}
			if err != nil || math.Abs(x-wants[j]) > 1e-11*math.Abs(wants[j]) {
				t.Errorf("%s: %s read as %g, %v, want %g", terms[i].key, text, x, err, wants[j])
			}
		}
		for _, x := range []float64{terms[i].low, terms[i].high} {
			f := f.Farm
			f.Ranges = money.Ranges()
			f.Ranges[i].Spread = sure(x * terms[i].one)
			if err := f.Terms(func(r money.Range) float64 { return r.Middle }).Validate(); err != nil {
				t.Errorf("%s: %v", terms[i].key, err)
			}
		}
	}
	if diff := cmp.Diff(money.DefaultTerms(), f.Farm.Terms(func(r money.Range) float64 { return r.Middle })); diff != "" {
		t.Errorf("without a word the terms are not the defaults: %s", diff)
	}
}

// TestFarmAssumed: all is assumed when nothing is said, of the rotation's crops alone,
// and kept apart from what the engine runs on; what is said is no assumption, and money
// calls its source.
func TestFarmAssumed(t *testing.T) {
	f := open(t, "minimal.yaml")
	keys := map[string]string{}
	for _, a := range f.Farm.Assumed {
		if keys[a.Key] = a.Value; a.Reason == "" || f.Given(a.Key) {
			t.Errorf("%+v: given %v", a, f.Given(a.Key))
		}
	}
	want := map[string]string{
		"farm.drained_area":          "10 ha",
		"farm.crops.corn.best_yield": "[150 bu/ac, 170 bu/ac, 200 bu/ac]", "farm.crops.corn.extra_cost": "0.35 USD/bu",
		"farm.crops.corn.price":         "[3.56 USD/bu, 4.54 USD/bu, 6.54 USD/bu]", // least, median, greatest of six seasons (federal averages, from memory)
		"farm.crops.soybean.best_yield": "[45 bu/ac, 55 bu/ac, 62 bu/ac]", "farm.crops.soybean.extra_cost": "0.45 USD/bu",
		"farm.crops.soybean.price": "[8.57 USD/bu, 11.6 USD/bu, 14.2 USD/bu]",
		"farm.laterals":            "[0.9 USD/ft, 1.25 USD/ft, 1.6 USD/ft]", "farm.size_exponent": "[1.5, 1.8, 2]", "farm.mains_share": "[15 %, 25 %, 35 %]",
		"farm.lift": "none", "farm.control_structures": "0", "farm.control_structure": "[500 USD, 1000 USD, 2000 USD]",
		"farm.engineering": "[0 %, 5 %, 10 %]", "farm.permits": "[500 USD, 2000 USD, 5000 USD]", "farm.upkeep": "[0.5 %, 0.75 %, 1 %]",
		"farm.interest": "[3 %, 5 %, 9 %]", "farm.life": "[30 years, 30 years, 50 years]", "farm.replanting": "[30 USD/ac, 60 USD/ac, 120 USD/ac]",
	}
	if diff := cmp.Diff(want, keys); diff != "" {
		t.Error(diff)
	}
	for _, a := range f.Assumed {
		if strings.HasPrefix(a.Key, "farm") {
			t.Errorf("%s: among the field's own", a.Key)
		}
	}
	if f.Farm.Drained != 1e5 || !math.IsNaN(f.Farm.Whole) || f.Farm.Outlets != 1 || f.Farm.LiftStations != 0 {
		t.Errorf("%+v", f.Farm)
	}
	if f = open(t, "full.yaml"); !f.Given("farm.laterals") || f.Farm.Ranges[laterals].Status != money.Read {
		t.Errorf("%+v", f.Farm.Ranges[laterals])
	}
}

// TestUnpriced: a price that nobody knows is asked for, and not invented.
func TestUnpriced(t *testing.T) {
	const hay = "crop: [corn, alfalfa, alfalfa]\nfarm: {crops: {alfalfa: {price: 180 USD/t}}}"
	for to, want := range map[string][]string{
		"crop: corn":            nil,
		"crop: [alfalfa, corn]": {"farm.crops.alfalfa.price", "farm.crops.alfalfa.extra_cost"},
		hay:                     {"farm.crops.alfalfa.extra_cost"},
	} {
		f := read(t, strings.Replace(quiet, "crop: [corn, soybean]", to, 1)).Field
		if diff := cmp.Diff(want, f.Unpriced()); diff != "" {
			t.Errorf("%s: %s", to, diff)
		}
	}
}

// TestRelation: one relation holds for every horizon, that of the land above too.
func TestRelation(t *testing.T) {
	f := read(t, strings.Replace(quiet, "soil:\n", "soil:\n  relation: cosby\n", 1)).Field
	for _, h := range append(f.Horizons, f.Runon.Horizons...) {
		if h.Relation != soil.Cosby1984 {
			t.Errorf("%s: %v", h.Name, h.Relation)
		}
	}
	if !f.Given("soil.relation") {
		t.Error("assumed")
	}
	if f = read(t, quiet).Field; f.Horizons[1].Relation != soil.SaxtonRawls2006 || f.Given("soil.relation") {
		t.Errorf("%v", f.Horizons[1].Relation)
	}
}
