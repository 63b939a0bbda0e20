package proof

import (
	"fmt"
	"math"

	"mottle/sim/money"
	"mottle/sim/unit"
)

// moneyPump compares the electricity that lifts water.
func moneyPump() ([]Check, error) {
	var in struct {
		Volume     float64 `json:"volume_acre_ft"`
		Lift       float64 `json:"lift_ft"`
		Efficiency float64 `json:"wire_to_water_efficiency"`
	}
	var out struct{ KWh float64 }
	worked("M25", &in, &out)
	foot := metric(1, "ft", unit.Length)
	c := moneyDigits("M25", "energy to lift an acre-foot by 10 ft", "kWh", out.KWh,
		money.PumpEnergy(in.Volume*metric(1, "ac", unit.Area)*foot, in.Lift*foot, in.Efficiency), 0.0005)
	c.Source = "weight times height over efficiency; recomputed"
	return []Check{c}, nil
}

// moneyReported compares returns that were published with their cost and gain.
func moneyReported() ([]Check, error) {
	const news = "university news, Illinois 2004: 505 USD/ac, 40 USD/ac a year, about 6 %"
	var checks []Check
	for _, c := range []struct {
		years int
		rate  float64 // %
	}{{30, 6.8}, {25, 6.1}} {
		irr, err := money.InternalRate(money.Level(505, 40, c.years))
		if err != nil {
			return nil, err
		}
		checks = append(checks, Check{ID: "money/Illinois", What: fmt.Sprintf("internal rate of return over %d years", c.years), Source: news + "; recomputed", Status: Computed, Unit: "%",
			Expected: c.rate, Got: 100 * irr, Tolerance: 0.051, Why: "recomputed to 0.1 %; the news states neither years nor taxes"})
	}
	checks = append(checks, Check{ID: "money/simple rule", What: "500 USD/ac at 100 USD/ac a year: payback", Source: "extension, simple payback", Status: Published, Unit: "a",
		Expected: 5, Got: money.PaybackTime(0, money.Level(500, 100, 30)).Years, Tolerance: 1e-9, Why: "exact: rounding"})
	// -1,600, +10,000, -10,000: x = 1+r solves 1.6 x2 - 10 x + 10 = 0, 1.25 and 5.
	rates := money.Rates([]float64{-1600, 10000, -10000})
	if len(rates) != 2 {
		return nil, fmt.Errorf("money: %d rates of the oil pump, expected 2", len(rates))
	}
	for i, want := range []float64{25, 400} {
		checks = append(checks, Check{ID: "money/pump", What: fmt.Sprintf("flows of two rates, rate %d", i+1), Source: "Lorie and Savage 1955 (from memory), exact", Status: Computed, Unit: "%",
			Expected: want, Got: 100 * rates[i], Tolerance: 1e-9 * want, Why: "exact: rounding"})
	}
	return checks, nil
}

// moneyBills sets the default bill beside what patterns of tile were reported to cost.
func moneyBills() ([]Check, error) {
	const acres = 80
	var checks []Check
	for _, c := range []struct {
		id, source     string
		status         Status
		least, most    float64 // USD/ac
		spacing, price float64 // ft; USD/ft, 0 for the defaults
		note           string
	}{
		{"money/pattern 2022-2025", "pattern system at 40-60 ft, Iowa, Minnesota, Dakotas, 2022-2025", Memory, 900, 1800, 50, 0, "default prices; rough on both sides: take a bid"},
		{"money/pattern undated", "contractor's statement, northern plains, undated: pattern at 20-50 ft", Published, 800, 1200, 50, 1.10, "at 1.10 USD/ft (extension, North Carolina, undated: pipe 0.50, installing 0.60), with mains for a quarter, engineering and permits. Where above: 1,200 USD/ac at 20 ft leave 0.55 USD/ft for all, prices of an earlier time"},
		{"money/pattern 2010s", "farm press, Midwest, 2010s", Published, 300, 1500, 50, 0, "default prices of the 2020s against the 2010s"},
	} {
		terms := money.DefaultTerms()
		if c.price > 0 {
			terms.Lateral = c.price / metric(1, "ft", unit.Length)
		}
		bill, err := money.DefaultSystem(metric(acres, "ac", unit.Area), metric(c.spacing, "ft", unit.Length)).FirstCost(terms)
		if err != nil {
			return nil, err
		}
		checks = append(checks, Check{ID: c.id, What: fmt.Sprintf("first cost of 80 acres at %g ft", c.spacing), Source: c.source, Status: c.status, Unit: "USD/ac",
			Expected: (c.least + c.most) / 2, Got: bill.Total() / acres, Report: true, Low: c.least, High: c.most, Note: c.note})
	}
	// Mains by size and length against the usual share of laterals.
	system := money.DefaultSystem(metric(acres, "ac", unit.Area), metric(50, "ft", unit.Length))
	quarter := metric(660, "ft", unit.Length)
	for _, inches := range []float64{6, 8, 10, 12} {
		system.Mains = append(system.Mains, money.Pipe{Diameter: metric(inches, "in", unit.Length), Length: quarter})
	}
	bill, err := system.FirstCost(money.DefaultTerms())
	if err != nil {
		return nil, err
	}
	works := 0.0
	for _, l := range bill {
		if l.Item == "main" || l.Item == "outlet" {
			works += l.Cost()
		}
	}
	return append(checks, Check{ID: "money/mains", What: "mains and outlet over laterals: half a mile from 6 to 12 in for 80 acres at 50 ft", Source: "common practice, upper Midwest", Status: Practice, Unit: "%",
		Expected: 25, Got: math.Round(1000*works/bill[0].Cost()) / 10, Report: true, Low: 15, High: 35,
		Note: "prices of mains grow with diameter to the power 1.8, an assumption that this row holds to practice"}), nil
}
