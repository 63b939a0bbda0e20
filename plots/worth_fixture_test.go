package plots

import (
	"math"
	"slices"
	"testing"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/crop"
	"mottle/sim/money"
	"mottle/sim/site"
	"mottle/sim/worth"
	"mottle/weather"
)

// invent makes a decision of invented numbers over some years: the shapes of a wet
// field with tile that helps, nothing simulated. The demo's field lends its words.
func invent(t testing.TB, n int) *worth.Result {
	t.Helper()
	f := site.Demo()
	series := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), 1, 1)
	r := &worth.Result{Field: &f, Compare: &compare.Result{Field: &f, Series: series}}
	// A number from 0 to 1 for each year and purpose, without a generator.
	chance := func(year, purpose int) float64 {
		x := math.Sin(float64(year)*12.9898+float64(purpose)*78.233) * 43758.5453
		return x - math.Floor(x)
	}
	lies, tiled := days(n), days(n)
	for k := range n {
		year := 1981 + k
		wet, dry := chance(k, 1), chance(k, 2)
		span := sim.YearSpan{Year: year, First: 365 * k, End: 365 * (k + 1)}
		for twin, rec := range []*sim.Record{lies, tiled} {
			rec.Years = append(rec.Years, span)
			share := []float64{1, 0.12}[twin]
			plant := 125 + int(30*wet*share)
			fillYear(rec, span, plant, int(60*wet*share), twin == 1)
			s := worth.Season{Year: year, Crop: []string{"corn", "soybean"}[k%2], Planted: plant, Bears: plant - 10, Ripe: 270, Harvest: 20,
				Saturated: int(60 * wet * share), ECe: 0.8 + 1.6*float64(n-k)/float64(n)*[]float64{1, 0.6}[twin]}
			lost := crop.Shares{0.08 * wet * share, 0.2 * wet * share, 0.1 * dry, 0.01 * []float64{1, 0.5}[twin]}
			s.Yield = worth.Yield{Share: 1 - lost[0] - lost[1] - lost[2] - lost[3], Kept: crop.Shares{1 - lost[0], 1 - lost[1], 1 - lost[2], 1 - lost[3]}, Lost: lost}
			if twin == 0 && wet > 0.95 {
				s.Planted, s.Drowned, s.Ripe, s.Harvest = 0, 1, 0, -1
			}
			if twin == 0 {
				r.AsItLies = append(r.AsItLies, s)
			} else {
				r.WithTile = append(r.WithTile, s)
			}
		}
		r.Years = append(r.Years, year)
		r.Income = append(r.Income, 620*(wet-0.3)+60*(dry-0.5))
	}
	r.Compare.Years = r.Years
	r.Compare.Pair = &compare.Pair{AsItLies: lies, WithTile: tiled}
	for _, m := range sim.Measures() {
		l := compare.Line{Measure: m, Resolved: true, AsItLies: 20, WithTile: 15, Difference: -5, Low: -7, High: -3}
		for i := range r.Years {
			l.YearsAsItLies = append(l.YearsAsItLies, 20*chance(i, 9))
			l.YearsWithTile = append(l.YearsWithTile, 15*chance(i, 9))
		}
		switch m.Name {
		case "days_saturated":
			for i := range r.Years {
				l.YearsAsItLies[i], l.YearsWithTile[i] = float64(r.AsItLies[i].Saturated), float64(r.WithTile[i].Saturated)
			}
			l.AsItLies, l.WithTile, l.Difference, l.Low, l.High = 33.2, 3.9, -29.3, -34, -25
		case "planting_day":
			l.AsItLies, l.WithTile, l.Difference, l.Low, l.High = 141, 127, -14, -17, -10
		case "first_drain_flow":
			l.AsItLies, l.WithTile, l.Difference, l.Low, l.High = math.Inf(1), 82, math.NaN(), math.NaN(), math.NaN()
		}
		r.Compare.Lines = append(r.Compare.Lines, l)
	}
	r.Bill = money.Bill{
		{Item: "laterals", Diameter: 0.1016, Quantity: 3186, Unit: "m", UnitCost: 4.10},
		{Item: "mains, outlet and structures", Quantity: 0.25, Unit: "of laterals", UnitCost: 13063},
		{Item: "engineering", Quantity: 0.05, Unit: "of construction", UnitCost: 16328},
		{Item: "permits and survey", Quantity: 1, Unit: "field", UnitCost: 2000}}
	r.Upkeep = money.Bill{{Item: "upkeep", Quantity: 0.0075, Unit: "of first cost", UnitCost: 19145}}
	r.Money = worth.Money{Outlay: 19145, PerArea: 3942, Income: 237, YearlyCost: 286, NPV: 260, Rate: 0.056,
		Simple: money.Payback{Years: 16.6, Within: 30}, Discounted: money.Payback{Years: 25.1, Within: 30},
		BreakEvenGain: 1.9, BreakEvenPrice: 188, DoingNothing: 371}
	r.Futures = futures(600, 1900)
	r.Map = &worth.Map{Depths: []float64{0.75, 0.9, 1.05, 1.2, 1.35}, Spacings: []float64{8, 11, 15, 20, 27, 36}, Step: "Screening precision, one draw of storms"}
	for i, depth := range r.Map.Depths {
		r.Map.NPV, r.Map.Saturated = append(r.Map.NPV, nil), append(r.Map.Saturated, nil)
		for k, spacing := range r.Map.Spacings {
			npv := 700 - 5200*math.Pow(math.Log(spacing/17), 2) - 2500*math.Pow(depth-1.1, 2)
			wet := 2 + spacing*0.5/depth
			r.Map.NPV[i], r.Map.Saturated[i] = append(r.Map.NPV[i], npv), append(r.Map.Saturated[i], wet)
			here := worth.Design{Depth: depth, Spacing: spacing, NPV: npv, Saturated: wet}
			if i == 2 && k == 2 {
				r.Map.Best = here
			}
			if npv > 400 {
				r.Map.Flat = append(r.Map.Flat, here)
			}
		}
	}
	for _, c := range []float64{0.25, 0.375, 0.5, 0.75} {
		r.Outlets = append(r.Outlets, worth.Outlet{Coefficient: c * 0.0254 / 86400, Saturated: 7 - 5*c, Drain: 170 + 20*c, Peak: 1.2 + c, NPV: 400 - 300*c, Main: math.NaN()})
	}
	r.Outlets = append(r.Outlets, worth.Outlet{Coefficient: math.Inf(1), Saturated: 3, Drain: 190, Peak: 2.4, NPV: 100, Main: 0.254})
	r.Others = []worth.Alternative{
		{Name: "a surface inlet", How: "water stands 2 mm deep and then leaves by the inlet", Saturated: 24, Income: 70, WorthUpTo: 1080, Runoff: 96, Considered: true},
		{Name: "a shallow surface drain", How: "the ground holds no more than that already"},
		{Name: "leaving it wet", How: "nothing is changed", Saturated: 33, Runoff: 81, Considered: true}}
	r.Controlled = worth.Controlled{Calendar: "crest at 0.30 m from 1 November to 15 March, open between (common practice)", Drain: 38, Saturated: 2.1, Income: -9, Nitrate: money.Spread{Low: 3.8, Middle: 6.1, High: 9.5}}
	r.LateralWay = 18.4
	r.Trials = []worth.Trial{
		{Place: "an invented station, 20 years", Soil: "silty clay loam, poorly drained", Gain: map[string][2]float64{"corn": {0.12, 0.17}, "soybean": {0.1, 0.1}}, Source: "invented for this test", Low: -300, High: 900},
		{Place: "another invented station", Soil: "clay", Gain: map[string][2]float64{"corn": {0.2, 0.2}}, Source: "invented for this test", Low: math.NaN(), High: math.NaN()}}
	r.Questions = []worth.Question{
		{Ask: "Does tile raise peak flow below the field?", Verdict: worth.No, Answer: "The yearly largest hour goes from 3.1 mm/h to 2.3 mm/h.", Measure: "peak_hour", Low: -1.1, High: -0.5, Unit: "mm/h", Why: "the interval lies below nothing"},
		{Ask: "Does tile send more water downstream in a year?", Verdict: worth.Yes, Answer: "All outflow rises by 27 mm.", Measure: "all_outflow", Low: 21, High: 32, Unit: "mm", Why: "the interval lies above nothing"},
		{Ask: "Does tile salt the ground?", Verdict: worth.Depends, Answer: "Root-zone salt falls, unless the ground water is saltier than taken here.", Low: -0.4, High: 0.2, Unit: "dS/m", Why: "the sign hangs on the salinity of the ground water"},
		{Ask: "Does tile dry the field out in summer?", Verdict: worth.Unknown, Answer: "Drought costs 5 % of the yield with tile and without.", Low: math.NaN(), High: math.NaN(), Why: "the interval holds rises and falls"}}
	r.Cautions = []worth.Caution{
		{Topic: "state and local permit", Text: "Ask the county, watershed or drainage district first.", Rule: "state drainage law"},
		{Topic: "wetland determination", Text: "Get a certified wetland determination before any tile near a wet spot.", Rule: "16 U.S.C. 3821-3824; 7 CFR Part 12", Strong: true},
		{Topic: "outlet", Text: "Guard against rodents, erosion, submergence and crushed pipe; check every year at peak flow.", Rule: "practice 606"},
		{Topic: "trench safety", Text: "At 5 ft or deeper slope, shore or shield.", Rule: "29 CFR 1926 Subpart P", Strong: true}}
	r.Assumptions = slices.Concat(f.Assumed, f.Farm.Assumed)
	return r
}

// futures are a hundred resampled decisions, evenly spread about a middle, USD/ha.
func futures(middle, width float64) *worth.Futures {
	f := &worth.Futures{Draws: 1000, Seed: 1}
	for i := range 100 {
		f.NPV = append(f.NPV, middle+width*(float64(i)-49.5)/49.5)
	}
	at := func(p float64) float64 { return middle + width*(2*p-1) }
	for y := range 31 {
		u := float64(y) / 30
		start := -3900 * (1 - u)
		f.Fan = append(f.Fan, worth.FanYear{Year: y, Q05: start + u*at(0.05), Q25: start + u*at(0.25), Median: start + u*at(0.5), Q75: start + u*at(0.75), Q95: start + u*at(0.95)})
	}
	end := shareAboveZero(f.NPV)
	f.Pays = []worth.Chance{{Within: 10, Share: 0.47 * end}, {Within: 15, Share: 0.79 * end}, {Within: 20, Share: 0.92 * end}, {Within: 30, Share: end}}
	f.Inputs = []worth.Swing{{Input: "price of corn", Low: middle - 600, High: middle + 800}, {Input: "lateral, installed, 4 in", Low: middle + 500, High: middle - 450}, {Input: "soil", Low: middle - 100, High: middle + 120}}
	return f
}

// days is the empty record of some common years.
func days(years int) *sim.Record {
	n := 365 * years
	r := &sim.Record{Days: &sim.Days{Bears: make([]bool, n), Season: make([]bool, n), Drowned: make([]bool, n), Phase: make([]crop.Phase, n)},
		Forcing: &sim.Forcing{Month: make([]uint8, n), YearDay: make([]uint16, n), Year: make([]int32, n)}}
	for _, s := range []*[]float64{&r.Days.WetHours, &r.Days.IceTop, &r.Days.Pond, &r.Days.Drain, &r.Days.Frost} {
		*s = make([]float64, n)
	}
	return r
}

// fillYear gives a year its frost, crop, wet spells and fieldwork days.
func fillYear(r *sim.Record, y sim.YearSpan, plant, saturated int, drained bool) {
	month := 0
	for i := y.First; i < y.End; i++ {
		day := i - y.First + 1
		for month+1 < len(monthStarts) && day >= monthStarts[month+1] {
			month++
		}
		r.Forcing.Month[i], r.Forcing.YearDay[i], r.Forcing.Year[i] = uint8(month+1), uint16(day), int32(y.Year)
		d := r.Days
		if day < 95 || day > 335 {
			d.Frost[i], d.IceTop[i] = 0.4, 0.1
		}
		if day >= plant && day < 272 {
			d.Phase[i] = crop.Flowering
		}
		spell := day - 100
		if spell >= 0 && spell < 3*saturated/2 && spell%3 != 2 {
			d.WetHours[i] = 24
			if spell%6 == 0 && !drained {
				d.Pond[i] = 12
			}
		}
		d.Bears[i] = day > plant-12 && day < 320 && day%4 != 0 && d.WetHours[i] == 0
		if drained && day > 100 && day < 200 && day%5 != 0 {
			d.Drain[i] = 2
		}
	}
}
