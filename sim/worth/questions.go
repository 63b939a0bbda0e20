package worth

import (
	"fmt"
	"math"

	"mottle/sim/compare"
	"mottle/sim/unit"
)

// drinkingWater is the limit of nitrate in drinking water, mg N/L (40 CFR 141.62).
const drinkingWater = 10

// Line finds a measure of the comparison.
func (r *Result) Line(name string) (compare.Line, error) {
	for _, l := range r.Compare.Lines {
		if l.Name == name {
			return l, nil
		}
	}
	return compare.Line{}, fmt.Errorf("worth: the comparison has no measure %q", name)
}

// span is the range of a measure's difference over what nobody measured, and the input
// over which its sign turns most.
func (r *Result) span(name string) (low, high float64, over string) {
	low, high = math.Inf(1), math.Inf(-1)
	most := math.Inf(-1)
	for _, g := range r.Compare.Ranges {
		if g.Measure != name {
			continue
		}
		low, high = min(low, g.Low), max(high, g.High)
		if turns := min(g.High, -g.Low); turns > most { // how far it goes to both sides of nothing
			most, over = turns, g.Over
		}
	}
	return low, high, over
}

// rising says whether a measure rises by more than what counts: yes, no (it falls, or
// changes by less), depends (the sign hangs on what nobody measured), can't say (the
// years do not tell).
func (r *Result) rising(l compare.Line, counts float64) (Verdict, string) {
	low, high, over := r.span(l.Name)
	switch {
	case math.IsNaN(l.Difference) || math.IsNaN(l.Low):
		return Unknown, "the record has too few years for an interval"
	case !l.Resolved && math.Abs(l.Difference) > counts:
		return Unknown, "the difference is no larger than its change under other time steps"
	case l.Low > 0 && l.Difference > counts:
		if low < -counts {
			return Depends, "over the range of the " + over + " it may also fall"
		}
		return Yes, "the interval lies above nothing"
	case l.High < 0 && l.Difference < -counts:
		if high > counts {
			return Depends, "over the range of the " + over + " it may also rise"
		}
		return No, "it falls, and the interval lies below nothing"
	case math.Abs(l.Difference) <= counts && (l.Low > 0 || l.High < 0), math.Abs(l.Low) <= counts && math.Abs(l.High) <= counts:
		return No, "the change is smaller than what counts"
	}
	return Unknown, "the interval holds rises and falls"
}

// falling is rising turned about.
func (r *Result) falling(l compare.Line, counts float64) (Verdict, string) {
	v, why := r.rising(l, counts)
	switch {
	case v == Yes:
		return No, "it rises, and the interval lies above nothing"
	case v == No && l.High < 0 && l.Difference < -counts:
		return Yes, "the interval lies below nothing"
	}
	return v, why
}

// ask answers the questions that people ask from this field's own numbers. Sizes that
// count are choices (common practice): 5 % of the figure as the field lies, 10 mm of
// yearly water, 0.1 dS/m.
func (r *Result) ask(u unit.System) error {
	say := func(x float64, siUnit string) string { return u.Format(x, siUnit) }
	change := func(l compare.Line) string {
		return fmt.Sprintf("%s to %s, a change of %s (90 %% interval %s to %s)", say(l.AsItLies, l.Unit), say(l.WithTile, l.Unit),
			say(l.Difference, l.Unit), say(l.Low, l.Unit), say(l.High, l.Unit))
	}
	add := func(q Question, l compare.Line) {
		q.Measure, q.Low, q.High, q.Unit = l.Name, l.Low, l.High, l.Unit
		r.Questions = append(r.Questions, q)
	}
	lines := map[string]compare.Line{}
	for _, name := range []string{"peak_hour_spring", "peak_hour", "all_outflow", "evapotranspiration", "root_zone_ece", "salinity_index", "drain_outflow", "peak_hour_rest"} {
		l, err := r.Line(name)
		if err != nil {
			return err
		}
		lines[name] = l
	}

	spring := lines["peak_hour_spring"]
	v, why := r.rising(spring, 0.05*spring.AsItLies)
	add(Question{Ask: "Does tile add to the spring flood here?", Verdict: v, Why: why,
		Answer: fmt.Sprintf("The largest hour of March to May goes from %s at the field's edge. Ditches, channel works and what other fields do are not in this figure.", change(spring))}, spring)

	peak := lines["peak_hour"]
	v, why = r.falling(peak, 0.05*peak.AsItLies)
	add(Question{Ask: "Does it lower peak flow?", Verdict: v, Why: why,
		Answer: fmt.Sprintf("The largest hour of the year goes from %s.", change(peak))}, peak)

	thirst := func(seasons []Season) float64 {
		missed, asked := 0.0, 0.0
		for _, s := range seasons {
			for k := range s.Thirst.Asked {
				missed += s.Thirst.Missed[k] / float64(len(seasons))
				asked += s.Thirst.Asked[k] / float64(len(seasons))
			}
		}
		if asked == 0 {
			return 0
		}
		return 100 * missed / asked
	}
	dryLies, dryTile := thirst(r.AsItLies), thirst(r.WithTile)
	q := Question{Ask: "Does it dry the summer?", Unit: "%", Low: math.NaN(), High: math.NaN(),
		Answer: fmt.Sprintf("Of the water that the crop asks for, dryness costs %.1f %% as the field lies and %.1f %% with tile.", dryLies, dryTile)}
	switch d := dryTile - dryLies; {
	case d > 2:
		q.Verdict, q.Why = Yes, "the crop goes short of more water with tile, by more than 2 % of what it asks for"
	default:
		q.Verdict, q.Why = No, "the change is less than 2 % of what the crop asks for"
	}
	r.Questions = append(r.Questions, q)

	yearly := lines["all_outflow"]
	v, why = r.rising(yearly, 10)
	if v == No && yearly.Difference < -10 {
		v, why = Yes, "less leaves in a year"
	}
	add(Question{Ask: "Does it change the yearly flow?", Verdict: v, Why: why,
		Answer: fmt.Sprintf("All water that leaves, seepage less what is let in included, goes from %s. What the change is made of: evapotranspiration changes by %s.", change(yearly), say(lines["evapotranspiration"].Difference, "mm"))}, yearly)

	ece := lines["root_zone_ece"]
	v, why = r.falling(ece, 0.1)
	switch v {
	case Yes:
		why = "it helps: the root zone freshens"
	case No:
		if ece.Difference > 0.1 {
			why = "it hurts: the root zone becomes saltier"
		} else {
			why = "there is little salt to lose"
		}
	}
	add(Question{Ask: "Does it help against salt?", Verdict: v, Why: why,
		Answer: fmt.Sprintf("Root-zone ECe of the season goes from %s; yield begins to fall at an index of 1, which goes from %.2f to %.2f.", change(ece), lines["salinity_index"].AsItLies, lines["salinity_index"].WithTile)}, ece)

	flow := lines["drain_outflow"]
	extra := flow.Difference
	add(Question{Ask: "Does nitrate leave with the water?", Verdict: map[bool]Verdict{true: Yes, false: No}[extra > 1],
		Why: fmt.Sprintf("drain water typically carries %.0f to %.0f mg N/L where corn and soybean grow (from memory), and the limit of drinking water is %d; this model moves no nitrogen", nitrate.Low, nitrate.High, drinkingWater),
		Answer: fmt.Sprintf("%s more a year leave by the drain, which at typical concentrations carry %s to %s of nitrogen.", say(extra, "mm"),
			say(load(extra, nitrate.Low), "kg/ha"), say(load(extra, nitrate.High), "kg/ha"))}, flow)
	runoff, err := r.Line("surface_runoff")
	if err != nil {
		return err
	}
	add(Question{Ask: "Does phosphorus leave with the water?", Verdict: Depends,
		Why:    "soil test, tillage and surface inlets decide, and none of them is in this model; dissolved loads of 0.04 (tilled) to 0.12 kg/ha a year (no-till) were measured in drain water (Christianson et al. 2016)",
		Answer: fmt.Sprintf("Surface runoff, which carries soil and its phosphorus, goes from %s; drain water carries dissolved phosphorus.", change(runoff))}, runoff)
	return nil
}
