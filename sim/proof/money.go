package proof

import (
	"context"
	"fmt"

	"mottle/sim/money"
	"mottle/sim/unit"
)

// moneyChecks holds what tile costs and is worth, and the pipes that it is billed for.
func moneyChecks(ctx context.Context) ([]Check, error) {
	return inTurn(ctx, moneyLaterals, moneyInvestment, moneyRates, moneyLoss, moneyBreakEven, moneyPump, moneyReported, moneyBills,
		moneyPipe, moneyPipeGrade)
}

const moneyWorked = "worked investment: payments at the year's end, cost at time 0; recomputed"

// moneyDigits is a check against a value of a worked case, half a unit of its last digit off
// at most.
func moneyDigits(id, what, unit string, want, got, half float64) Check {
	return Check{ID: id, What: what, Source: moneyWorked, Status: Computed, Unit: unit,
		Expected: want, Got: got, Tolerance: 1.02 * half, Why: "half a unit of the last digit printed"}
}

// metric is a value of a table in the unit of its dimension.
func metric(x float64, u string, d unit.Dimension) float64 {
	y, err := unit.Parse(fmt.Sprintf("%.17g %s", x, u), d)
	if err != nil {
		panic(err) // the unit is the check's own
	}
	return y
}

// moneyLaterals compares the length of lateral on an area.
func moneyLaterals() ([]Check, error) {
	var in struct {
		Feet   []float64 `json:"spacing_ft"`
		Metres []float64 `json:"spacing_m"`
	}
	var out struct {
		Feet   []float64 `json:"ft_per_ac"`
		Metres []float64 `json:"m_per_ha"`
	}
	worked("M21", &in, &out)
	var checks []Check
	add := func(area float64, of string, spacing, foot float64, text string, want float64) error {
		bill, err := money.DefaultSystem(area, spacing).FirstCost(money.DefaultTerms())
		if err != nil {
			return err
		}
		c := moneyDigits("M21", "laterals billed at a spacing of "+text, of, want, bill[0].Quantity/foot, 0.05)
		c.Source = "geometry: area over spacing"
		checks = append(checks, c)
		return nil
	}
	for i, s := range in.Feet {
		if err := add(metric(1, "ac", unit.Area), "ft/ac", metric(s, "ft", unit.Length), metric(1, "ft", unit.Length), fmt.Sprintf("%g ft", s), out.Feet[i]); err != nil {
			return nil, err
		}
	}
	for i, s := range in.Metres {
		if err := add(1e4, "m/ha", s, 1, fmt.Sprintf("%g m", s), out.Metres[i]); err != nil {
			return nil, err
		}
	}
	return checks, nil
}

// moneyCase is the worked investment.
type moneyCase struct {
	Spacing   float64 `json:"spacing_ft"`
	Lateral   float64 `json:"lateral_USD_ft"`
	Mains     float64 `json:"mains_share_of_lateral"`
	Permits   float64 `json:"permits_survey_USD"`
	Area      float64 `json:"area_ac"`
	CornGain  float64 `json:"corn_gain_bu"`
	CornPrice float64 `json:"corn_price"`
	CornExtra float64 `json:"corn_extra_cost_per_bu"`
	SoyGain   float64 `json:"soy_gain_bu"`
	SoyPrice  float64 `json:"soy_price"`
	SoyExtra  float64 `json:"soy_extra_cost_per_bu"`
	CornShare float64 `json:"corn_share"`
	Upkeep    float64 `json:"upkeep_pct_of_cost"`
	Rate      float64 `json:"rate_pct"`
	Years     int
}

// appraised is the case as the product has it, by the acre.
type appraised struct {
	laterals           float64 // ft
	cost, upkeep, gain float64 // USD, USD a year
	flows              []float64
}

// appraise builds, bills and grows the case.
func (in moneyCase) appraise() (appraised, error) {
	foot := metric(1, "ft", unit.Length)
	terms := money.DefaultTerms()
	terms.Lateral, terms.MainsShare, terms.Engineering, terms.Permits = in.Lateral/foot, in.Mains, 0, in.Permits
	terms.Upkeep = in.Upkeep / 100
	system := money.DefaultSystem(metric(in.Area, "ac", unit.Area), in.Spacing*foot)
	first, err := system.FirstCost(terms)
	if err != nil {
		return appraised{}, err
	}
	yearly, err := system.RunningCost(terms, first.Total(), 0)
	if err != nil {
		return appraised{}, err
	}
	a := appraised{laterals: system.Laterals() / foot / in.Area, cost: first.Total() / in.Area, upkeep: yearly.Total() / in.Area}
	a.gain = money.Income([]money.Added{
		{Share: in.CornShare, Gain: in.CornGain, Price: in.CornPrice, ExtraCost: in.CornExtra},
		{Share: 1 - in.CornShare, Gain: in.SoyGain, Price: in.SoyPrice, ExtraCost: in.SoyExtra}})
	a.flows = money.Level(a.cost, a.gain-a.upkeep, in.Years)
	return a, nil
}

// theCase reads the worked investment.
func theCase() moneyCase {
	var in moneyCase
	worked("M22", &in, &struct{}{})
	return in
}

// moneyInvestment compares cost, worth, return and payback of 80 acres.
func moneyInvestment() ([]Check, error) {
	var out struct {
		Laterals   float64 `json:"lateral_ft_ac"`
		Cost       float64 `json:"cost_USD_ac"`
		Gross      float64 `json:"gross_gain_USD_ac"`
		Net        float64 `json:"net_gain_USD_ac"`
		NPV        float64 `json:"NPV_USD_ac"`
		IRR        float64 `json:"IRR_pct"`
		Simple     float64 `json:"simple_payback_yr"`
		Discounted float64 `json:"discounted_payback_yr"`
		Yearly     float64 `json:"annual_cost_USD_ac"`
		Ratio      float64 `json:"benefit_cost_ratio"`
		All        float64 `json:"NPV_80_ac_USD"`
	}
	worked("M22", &struct{}{}, &out)
	in := theCase()
	a, err := in.appraise()
	if err != nil {
		return nil, err
	}
	irr, err := money.InternalRate(a.flows)
	if err != nil {
		return nil, err
	}
	rate := in.Rate / 100
	npv := money.PresentValue(rate, a.flows)
	return []Check{
		moneyDigits("M22", "laterals", "ft/ac", out.Laterals, a.laterals, 0.05),
		moneyDigits("M22", "first cost", "USD/ac", out.Cost, a.cost, 0.005),
		moneyDigits("M22", "income from added yield", "USD/ac", out.Gross, a.gain, 0.0005),
		moneyDigits("M22", "income less upkeep", "USD/ac", out.Net, a.flows[1], 0.0005),
		moneyDigits("M22", "net present value", "USD/ac", out.NPV, npv, 0.005),
		moneyDigits("M22", "net present value of the field", "USD", out.All, npv*in.Area, 0.005),
		moneyDigits("M22", "internal rate of return", "%", out.IRR, 100*irr, 0.0005),
		moneyDigits("M22", "simple payback", "a", out.Simple, money.PaybackTime(0, a.flows).Years, 0.0005),
		moneyDigits("M22", "discounted payback", "a", out.Discounted, money.PaybackTime(rate, a.flows).Years, 0.0005),
		moneyDigits("M22", "yearly cost", "USD/ac", out.Yearly, money.YearlyCost(a.cost, a.upkeep, rate, in.Years), 0.0005),
		moneyDigits("M22", "benefit over cost", "-", out.Ratio, money.BenefitCostRatio(rate, a.flows), 0.00005),
	}, nil
}

// never is how a payback that does not come is written among numbers: past every year
// looked at.
func never(p money.Payback) float64 {
	if p.Never() {
		return float64(p.Within + 1)
	}
	return p.Years
}

// moneyRates judges the same investment at other rates.
func moneyRates() ([]Check, error) {
	var in struct {
		Rates []float64 `json:"rates_pct"`
	}
	var out struct {
		NPV     []float64  `json:"NPV_USD_ac"`
		Payback []*float64 `json:"discounted_payback_yr"` // null: never within the years
	}
	worked("M23", &in, &out)
	a, err := theCase().appraise()
	if err != nil {
		return nil, err
	}
	var checks []Check
	for i, r := range in.Rates {
		at := fmt.Sprintf(" at %g %%", r)
		p := money.PaybackTime(r/100, a.flows)
		want, name := float64(p.Within+1), "discounted payback (31: never within 30)"
		if out.Payback[i] != nil {
			want = *out.Payback[i]
		}
		checks = append(checks,
			moneyDigits("M23", "net present value"+at, "USD/ac", out.NPV[i], money.PresentValue(r/100, a.flows), 0.005),
			moneyDigits("M23", name+at, "a", want, never(p), 0.0005))
	}
	return checks, nil
}

// moneyLoss judges the same cost with the measured gain of a field where it does not
// pay.
func moneyLoss() ([]Check, error) {
	in := theCase()
	var out struct {
		Net float64 `json:"net_gain_USD_ac"`
		NPV float64 `json:"NPV_USD_ac"`
		IRR float64 `json:"IRR_pct"`
	}
	worked("M34", &in, &out) // the two gains that differ stand over those of M22
	a, err := in.appraise()
	if err != nil {
		return nil, err
	}
	irr, err := money.InternalRate(a.flows)
	if err != nil {
		return nil, err
	}
	return []Check{
		moneyDigits("M34", "Indiana's gain: income less upkeep", "USD/ac", out.Net, a.flows[1], 0.0005),
		moneyDigits("M34", "Indiana's gain: net present value", "USD/ac", out.NPV, money.PresentValue(in.Rate/100, a.flows), 0.005),
		moneyDigits("M34", "Indiana's gain: internal rate of return", "%", out.IRR, 100*irr, 0.0005),
		moneyDigits("M34", "Indiana's gain: discounted payback (31: never within 30)", "a", 31, never(money.PaybackTime(in.Rate/100, a.flows)), 0.0005),
	}, nil
}

// moneyBreakEven compares the gain of every year that pays the yearly cost, and the
// price at which that gain does.
func moneyBreakEven() ([]Check, error) {
	var in struct {
		Cost   float64 `json:"cost_USD_ac"`
		Rate   float64 `json:"rate_pct"`
		Years  int
		Upkeep float64 `json:"upkeep_USD_ac"`
		Price  float64 `json:"price_net_USD_bu"`
	}
	var out struct {
		Recovery float64 `json:"capital_recovery"`
		Yearly   float64 `json:"annual_cost_USD_ac"`
		Gain     float64 `json:"gain_bu_ac_every_year"`
	}
	worked("M24", &in, &out)
	yearly := money.YearlyCost(in.Cost, in.Upkeep, in.Rate/100, in.Years)
	const extra = 0.35 // USD/bu, on both sides of a price that the case states net
	gain := money.BreakEvenGain(yearly, in.Price+extra, extra)
	gains := make([]float64, in.Years)
	for i := range gains {
		gains[i] = out.Gain
	}
	return []Check{
		moneyDigits("M24", "capital recovery", "-", out.Recovery, money.CapitalRecovery(in.Rate/100, in.Years), 5e-7),
		moneyDigits("M24", "yearly cost", "USD/ac", out.Yearly, yearly, 0.0005),
		moneyDigits("M24", "break-even gain of corn, every year", "bu/ac", out.Gain, gain, 0.0005),
		moneyDigits("M24", "break-even price at that gain", "USD/bu", in.Price+extra,
			money.BreakEvenPrice(yearly, money.LevelYearly(in.Rate/100, gains), extra), 0.0005*in.Price/out.Gain),
	}, nil
}
