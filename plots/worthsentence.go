package plots

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"mottle/sim/unit"
	"mottle/sim/worth"
)

// claim is a piece of the answer. From names the figure or table of the page that
// shows it and the file and name it can be traced to, "days-saturated
// yearly.csv:days_saturated"; it is empty where nothing is claimed.
type claim struct{ Text, From string }

// WorthSentence is the answer in one sentence of plain text: whether tile pays, what
// it would have changed, and with what chance and range. Its direction follows from
// the numbers alone. With us it is in US customary units.
func WorthSentence(r *worth.Result, us bool) string {
	var b strings.Builder
	for _, c := range answer(r, system(us)) {
		b.WriteString(c.Text)
	}
	return b.String()
}

func system(us bool) unit.System {
	if us {
		return unit.US
	}
	return unit.SI
}

// Chances from which tile is said to pay or not to, and to do so likely: very likely
// and likely in the calibrated words of Mastrandrea et al. (2010).
const veryLikely, likely = 0.90, 0.66

// stance says which way the decision falls, without its reasons.
func stance(r *worth.Result) string {
	pays, known := r.Money.NPV, !math.IsNaN(r.Money.NPV)
	if r.Futures == nil || len(r.Futures.NPV) == 0 {
		switch {
		case !known:
			return "No one can say from this run whether tile pays here"
		case pays > 0:
			return "At middle prices tile pays here"
		}
		return "At middle prices tile does not pay here"
	}
	if crops := unjudged(r); len(crops) > 0 {
		return "No one can say whether tile pays here, for what wetness costs " + strings.Join(crops, " and ") + " is not published"
	}
	p := shareAboveZero(r.Futures.NPV)
	switch {
	case p >= likely && len(r.Years) < fewYears, p <= 1-likely && len(r.Years) < fewYears:
		return "Too few years say whether tile pays here"
	case p >= likely && beyondTrials(r):
		return "Whether tile pays here depends on a gain in yield beyond that of any trial"
	case p >= veryLikely:
		return "Tile pays here"
	case p >= likely:
		return "Tile likely pays here"
	case p > 1-likely:
		return "It depends" + dependsOn(r.Futures.Inputs) + " whether tile pays here"
	case p > 1-veryLikely:
		return "Tile likely does not pay here"
	}
	return "Tile does not pay here"
}

// fewYears are too few for a firm answer (common practice).
const fewYears = 15

// unjudged lists crops of the rotation whose loss to excess water nobody published.
func unjudged(r *worth.Result) []string {
	var crops []string
	for _, s := range r.AsItLies {
		if slices.Contains(s.Yield.Without, "excess water") && !slices.Contains(crops, s.Crop) {
			crops = append(crops, s.Crop)
		}
	}
	return crops
}

// beyondTrials says whether the simulated gain lies above every trial's while most of
// the trials' gains would not pay here.
func beyondTrials(r *worth.Result) bool {
	highest, n, pay := math.Inf(-1), 0, 0
	for _, t := range r.Trials {
		if math.IsNaN(t.High) {
			continue
		}
		n++
		if t.Low > 0 {
			pay++
		}
		for _, ends := range t.Gain {
			highest = math.Max(highest, ends[1])
		}
	}
	return n > 0 && r.Gain() > highest && 2*pay < n
}

// dependsOn names the first input that turns the answer, or else the one that moves
// it most.
func dependsOn(inputs []worth.Swing) string {
	for _, s := range inputs {
		if s.Low*s.High < 0 {
			return " on " + s.Input
		}
	}
	if len(inputs) > 0 {
		return " most on " + inputs[0].Input
	}
	return ""
}

func shareAboveZero(ascending []float64) float64 {
	n := len(ascending)
	return float64(n-sort.Search(n, func(i int) bool { return ascending[i] > 0 })) / float64(n)
}

// answer builds the sentence.
func answer(r *worth.Result, units unit.System) []claim {
	from := "payback futures.csv:npv"
	if r.Futures == nil {
		from = "money money.csv:npv"
	}
	list := []claim{{stance(r), from}, {": in ", ""}, {count(len(r.Years), "year"), "days-saturated yearly.csv:year"}, {" of weather, tile", ""}}
	if t := r.Field.Tile; t != nil {
		list = append(list, claim{" " + units.Format(t.Depth, "m") + " deep and " + units.Format(t.Spacing, "m") + " apart", "money money.csv:tile_depth"})
	}
	list = append(list, claim{" would have ", ""})
	if text := daysTaken(r); text != "" {
		list = append(list, claim{text, "days-saturated yearly.csv:days_saturated"}, claim{" and ", ""})
	}
	list = append(list, claim{incomeAdded(r, units), "extra-income income.csv:extra_income_USD_per_ha"})
	f := r.Futures
	if f == nil || len(f.NPV) == 0 {
		npv := "no chance of paying back can be given, for no futures were drawn; at middle prices its net present value is " + dollars(r.Money.NPV, units)
		list = append(list, claim{"; ", ""}, claim{npv, "money money.csv:npv"}, claim{".", ""})
		return append(list, besideTrials(r)...)
	}
	list = append(list, claim{"; ", ""})
	if c, ok := middleChance(r); ok {
		list = append(list, claim{fmt.Sprintf("it paid back within %s in %s of 100 resampled futures", count(c.Within, "year"), ofHundred(c.Share)), "payback futures.csv:paid_back"}, claim{", and ", ""})
	}
	npv := fmt.Sprintf("its median net present value%s was %s (%s in nine futures of ten)",
		over(r), dollars(quantile(f.NPV, 0.5), units), dollarRange(quantile(f.NPV, 0.05), quantile(f.NPV, 0.95), units))
	list = append(list, claim{npv, "payback futures.csv:npv"}, claim{".", ""})
	return append(list, besideTrials(r)...)
}

// besideTrials sets the simulated gain in yield beside those that were weighed in
// trials, and what they would be worth here.
func besideTrials(r *worth.Result) []claim {
	gain, n, pay, might := r.Gain(), 0, 0, 0
	low, high := math.Inf(1), math.Inf(-1)
	for _, t := range r.Trials {
		if math.IsNaN(t.High) {
			continue
		}
		n++
		if t.Low > 0 {
			pay++
		} else if t.High > 0 {
			might++
		}
		for _, ends := range t.Gain {
			low, high = math.Min(low, ends[0]), math.Max(high, ends[1])
		}
	}
	if n == 0 || math.IsNaN(gain) {
		return nil
	}
	if math.Abs(gain) < 0.01 { // the trials were on wet ground
		return []claim{{" ", ""}, {"Here yield hardly changes in the simulation", "trials money.csv:yield_gain"},
			{", and the trials that weighed gains elsewhere were on poorly drained ground.", ""}}
	}
	ours := "Here yield gains " + percent(gain)
	if math.IsInf(gain, 0) {
		ours = "Here nothing grows without tile"
	}
	worth := fmt.Sprintf("at their gains it would pay here in %d of %d", pay, n)
	if might > 0 {
		worth += fmt.Sprintf(" and might in %d", might)
	}
	return []claim{{" ", ""}, {ours, "trials money.csv:yield_gain"}, {", in the simulation; trials elsewhere weighed ", ""},
		{percent(low) + " to " + percent(high), "trials trials.csv:gain_high"}, {", and ", ""}, {worth, "trials trials.csv:npv_high_USD_per_ha"}, {".", ""}}
}

// over is the time over which the decision is judged.
func over(r *worth.Result) string {
	if n := r.Money.Discounted.Within; n > 0 {
		return " over " + count(n, "year")
	}
	return ""
}

// middleChance is the chance of paying back within about half of the time judged.
func middleChance(r *worth.Result) (best worth.Chance, ok bool) {
	half := float64(r.Money.Discounted.Within) / 2
	for i, c := range r.Futures.Pays {
		if i == 0 || math.Abs(float64(c.Within)-half) < math.Abs(float64(best.Within)-half) {
			best = c
		}
	}
	return best, len(r.Futures.Pays) > 0
}

// daysTaken says what tile does to days saturated, "" where nobody counted them.
func daysTaken(r *worth.Result) string {
	l, err := subject{r: r.Compare}.line("days_saturated")
	if err != nil {
		return ""
	}
	if !l.Resolved {
		return fmt.Sprintf("changed the %s days saturated a year by no more than the noise of the simulation", round3(l.AsItLies))
	}
	interval := "too few years for an interval"
	if !math.IsNaN(l.Low) && !math.IsNaN(l.High) {
		low, high := -l.High, -l.Low
		if l.Difference > 0 {
			low, high = l.Low, l.High
		}
		interval = fmt.Sprintf("90 %% interval %s to %s", round3(low), round3(high))
	}
	if l.Difference > 0 {
		return fmt.Sprintf("added %s days saturated a year to %s (%s)", round3(l.Difference), round3(l.AsItLies), interval)
	}
	return fmt.Sprintf("taken %s of %s days saturated a year (%s)", round3(-l.Difference), round3(l.AsItLies), interval)
}

// incomeAdded says what tile does to the income of a year, and its range over years.
func incomeAdded(r *worth.Result, units unit.System) string {
	mean, u := units.Value(r.Money.Income, "USD/ha")
	text := ""
	switch {
	case math.IsNaN(mean):
		return "left an income that nobody can tell"
	case math.Abs(mean) < 0.5:
		text = "changed income by less than 1 " + u + " a year"
	case mean > 0:
		text = "added " + round3(mean) + " " + u + " of income a year"
	default:
		text = "cost " + round3(-mean) + " " + u + " of income a year"
	}
	if y := sorted(r.Income); len(y) > 1 {
		text += " (" + dollarRange(quantile(y, 0.05), quantile(y, 0.95), units) + " in nine years of ten)"
	}
	return text
}

// dollars writes an amount by the area, USD/ha, in the system's unit.
func dollars(x float64, units unit.System) string {
	v, u := units.Value(x, "USD/ha")
	return round3(v) + " " + u
}

// dollarRange writes the ends of a range without their unit.
func dollarRange(low, high float64, units unit.System) string {
	a, _ := units.Value(low, "USD/ha")
	b, _ := units.Value(high, "USD/ha")
	return round3(a) + " to " + round3(b)
}

// ofHundred writes a share so that only a certain one reads 0 or 100.
func ofHundred(share float64) string {
	switch n := math.Round(100 * share); {
	case n == 0 && share > 0:
		return "fewer than 1"
	case n == 100 && share < 1:
		return "more than 99"
	default:
		return strconv.FormatFloat(n, 'f', 0, 64)
	}
}

// sorted is an ascending copy of the values that are numbers.
func sorted(x []float64) []float64 {
	var y []float64
	for _, v := range x {
		if !math.IsNaN(v) {
			y = append(y, v)
		}
	}
	sort.Float64s(y)
	return y
}

// quantile of ascending values, linear between them (Hyndman and Fan 1996, type 7);
// NaN of none.
func quantile(ascending []float64, p float64) float64 {
	n := len(ascending)
	if n == 0 {
		return math.NaN()
	}
	at := p * float64(n-1)
	i := min(int(at), n-1)
	j := min(i+1, n-1)
	return ascending[i] + (at-float64(i))*(ascending[j]-ascending[i])
}

// round3 writes a number for people: whole from 10 on, its thousands parted, one
// decimal below.
func round3(x float64) string {
	switch {
	case math.IsNaN(x):
		return "unknown"
	case math.IsInf(x, 1):
		return "∞"
	case math.IsInf(x, -1):
		return "−∞"
	}
	decimals := 0
	if math.Abs(x) < 9.95 && math.Round(x) != x {
		decimals = 1
	}
	text := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	text = strings.TrimSuffix(text, ".0")
	for i := len(text) - 3; decimals == 0 && i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	if x < 0 && strings.Trim(text, "0.") != "" {
		text = "−" + text
	}
	return text
}
