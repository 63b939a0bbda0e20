package worth

import (
	"math"
	"testing"

	"mottle/sim/money"
	"mottle/sim/site"
)

const (
	acre = 4046.8564224 // m2
	foot = 0.3048       // m
)

// worked is the farm of the worked investment of the tests below: 80 ac of corn and
// soybean, half and half, laterals 50 ft apart.
func worked() *Result {
	fixed := func(x float64) money.Spread { return money.Spread{Low: x, Middle: x, High: x} }
	f := &site.Field{Tile: &site.Tile{Depth: 1, Spacing: 50 * foot, Diameter: 0.1016, Coefficient: math.Inf(1)}}
	const bushelCorn, bushelSoybean = 25.4011727, 27.2155422 // kg: 56 and 60 lb
	crop := func(name string, bushel, best, price, extra float64) site.Worth {
		return site.Worth{Crop: name, Bushel: bushel, BestYield: fixed(best * bushel / 1000 / (acre / hectare)), Price: fixed(price / bushel * 1000), ExtraCost: fixed(extra / bushel * 1000)}
	}
	f.Farm = site.Farm{Drained: 80 * acre, Whole: math.NaN(), Outlets: 1, Ranges: money.Ranges(), Replanting: fixed(0),
		Crops: []site.Worth{crop("corn", bushelCorn, 200, 4.20, 0.35), crop("soybean", bushelSoybean, 60, 10.50, 0.45)}}
	for i, x := range []float64{1.10 / foot, 1.8, 0.20, 1000, 30000, 0.6, 0.12, 1000, 0, 2000, 0.0075, 30, 0.05} {
		f.Farm.Ranges[i].Spread = fixed(x)
	}
	return &Result{Field: f}
}

// The worked investment: 35 bu of corn and 8 bu of soybean added every year of each
// make 98.76 USD/ac after upkeep, NPV 343.24 USD/ac at 5 % over 30 years, 7.43 %, paid
// back in 11.9 and, discounted, 18.5 years: the relations of engineering economy
// computed apart from this code. Digits as printed.
func TestWorkedInvestment(t *testing.T) {
	r := worked()
	g := []gain{{crop: "corn", share: 35.0 / 200}, {crop: "soybean", share: 8.0 / 60}}
	r.AsItLies = make([]Season, 2)
	for i := range g {
		r.AsItLies[i] = Season{Crop: g[i].crop, Yield: Yield{Share: 0.8}}
	}
	if err := r.settle([]string{"corn", "soybean"}, g); err != nil {
		t.Fatal(err)
	}
	perAcre := acre / hectare
	m := r.Money
	for _, c := range []struct {
		what             string
		got, want, slack float64
	}{
		{"outlay USD/ac", m.PerArea * perAcre, 1174.98, 0.01},
		{"income less upkeep USD/ac", m.Income*perAcre - 0.0075*1174.98, 98.76, 0.01},
		{"NPV USD/ac", m.NPV * perAcre, 343.24, 0.05},
		{"rate %", 100 * m.Rate, 7.43, 0.01},
		{"payback, years", m.Simple.Years, 11.9, 0.05},
		{"discounted, years", m.Discounted.Years, 18.5, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.slack {
			t.Errorf("%s: %.4f, want %g", c.what, c.got, c.want)
		}
	}
	// Break-even figures turn the present value into nothing.
	rate, years := 0.05, 30
	corn := r.Field.Farm.Crops[0]
	level := money.Level(m.PerArea, m.BreakEvenGain*(corn.Price.Middle-corn.ExtraCost.Middle)-r.Upkeep.Total()/(r.Field.Farm.Drained/hectare), years)
	if npv := money.PresentValue(rate, level); math.Abs(npv) > 1e-6*m.PerArea {
		t.Errorf("at the break-even gain the present value is %g USD/ha", npv)
	}
}

// A year that tile makes worse counts against it, and a stand less to sow again for it.
func TestIncomeSigns(t *testing.T) {
	r := worked()
	p := middlePrices(&r.Field.Farm, []string{"corn", "soybean"})
	p.replanting = 100
	if x := p.income(gain{crop: "corn", share: -0.1}); x >= 0 {
		t.Errorf("a tenth less yield is worth %g USD/ha", x)
	}
	if x := p.income(gain{crop: "corn", replant: 1}); x != 100 {
		t.Errorf("a stand saved is worth %g USD/ha, want 100", x)
	}
	if x := p.income(gain{crop: "soybean"}); x != 0 {
		t.Errorf("no change is worth %g USD/ha", x)
	}
}
