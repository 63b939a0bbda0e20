package plots

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/basin"
	"mottle/sim/flood"
	"mottle/weather"
)

// fitted is a log-Pearson III line with its limits over reduced variates, NaN where
// there is none.
type fitted struct{ flow, low, high []float64 }

// fitOver draws the distribution of a record at return periods.
func (w watershed) fitOver(peaks, years []float64) (f fitted, ok bool) {
	d, err := flood.FitLogPearson3(peaks)
	if err != nil {
		return fitted{}, false // too few years with flow
	}
	for _, t := range years {
		low, high, err := d.Limits(1/t, shownConfidence)
		if err != nil {
			low, high = math.NaN(), math.NaN()
		}
		f.flow, f.low, f.high = append(f.flow, w.flow(d.Quantile(1/t))), append(f.low, w.flow(low)), append(f.high, w.flow(high))
	}
	return f, true
}

// floodFrequency draws the outlet's yearly largest hours against how often such a one
// comes, each scenario ranked by itself, with the distribution fitted to each.
func (w watershed) floodFrequency() drawing {
	fromLargest := func(s *basin.Outcome) []float64 {
		y := w.flows(outlet(s).Peaks.Year)
		sort.Sort(sort.Reverse(sort.Float64Slice(y)))
		return y
	}
	a, b := fromLargest(w.first()), fromLargest(w.other)
	n := len(a)
	x := returnPeriods(n)
	for i, t := range x {
		x[i] = gumbel(t)
	}
	axisX := returnAxis(n)
	const steps = 40
	var at, periods []float64
	for i := range steps + 1 {
		v := axisX.min + (axisX.max-axisX.min)*float64(i)/steps
		at, periods = append(at, v), append(periods, 1/(1-math.Exp(-math.Exp(-v))))
	}
	before, okBefore := w.fitOver(outlet(w.first()).Peaks.Year, periods)
	after, okAfter := w.fitOver(outlet(w.other).Peaks.Year, periods)
	most := max(a[0], b[0])
	for i := range at {
		if okBefore {
			most = max(most, before.flow[i])
		}
		if okAfter {
			most = max(most, after.flow[i])
		}
	}
	axisY := upFrom(1.25*most, 5)
	cut := false // limits above the figure
	for _, f := range []fitted{before, after} {
		for _, limit := range [][]float64{f.low, f.high} {
			for i, v := range limit {
				if v > axisY.max {
					limit[i], cut = math.NaN(), true
				}
			}
		}
	}
	notes := fmt.Sprintf("Points: Weibull’s plotting position, (%d + 1) / rank, each scenario ranked by itself. ", n)
	if okBefore || okAfter {
		notes += "Lines: log-Pearson III with station skew; thin: its 90 % limits, which take the skew for known."
	} else {
		notes += "Too few years with flow for a distribution."
	}
	if list := outlet(w.other).Changes; len(list) > 0 && list[len(list)-1].ReturnPeriod > float64(n+1) {
		notes += fmt.Sprintf(" Changes of floods rarer than once in %d years reach beyond the record.", n+1)
	}
	if cut {
		notes += " Limits above the figure are cut off."
	}
	return drawing{
		name: "flood-frequency", title: "Floods at the outlet and how often they come", says: w.floodWords(), notes: notes, from: "floods.csv", height: 140,
		ink: func(sh *sheet) {
			w.pairKey(sh, pointOf)
			p := sh.panel(sh.room(), 0, 2*tickRoom-4, axisX, axisY)
			p.frame(true)
			p.name(letters(textSize, ink), "largest hour of the year ("+w.flowUnit()+")")
			p.below("return period (years)")
			for k, f := range []fitted{before, after} {
				t := []twin{lies, tiled}[k]
				limit := thin(t.line)
				limit.Width = 0.6
				p.curve(limit, at, f.low)
				p.curve(limit, at, f.high)
				p.curve(t.line, at, f.flow)
			}
			p.points(lies.glyph, x, a)
			p.points(tiled.glyph, x, b)
		},
	}
}

// The days about an event's largest.
const eventBefore, eventAfter = 5, 10 // days

// events are the days of the largest daily flows of the first scenario, each with the
// days about it, apart from each other and whole within the record.
func (w watershed) events(most int) []int {
	q := totals(outlet(w.first()).Daily)
	order := make([]int, 0, len(q))
	for d := eventBefore; d+eventAfter < len(q); d++ {
		order = append(order, d)
	}
	sort.SliceStable(order, func(i, j int) bool { return q[order[i]] > q[order[j]] })
	var found []int
	for _, d := range order {
		apart := q[d] > 0
		for _, e := range found {
			apart = apart && (d > e+eventBefore+eventAfter || e > d+eventBefore+eventAfter)
		}
		if apart {
			found = append(found, d)
		}
		if len(found) == most {
			break
		}
	}
	return found
}

// hydrographs draws the largest events of the first scenario under both.
func (w watershed) hydrographs(events []int) drawing {
	var x []float64
	for d := -eventBefore; d <= eventAfter; d++ {
		x = append(x, float64(d))
	}
	of := func(s *basin.Outcome, day int) []float64 {
		return w.flows(totals(outlet(s).Daily[day-eventBefore : day+eventAfter+1]))
	}
	most, lower := 0.0, 0
	for _, d := range events {
		a, b := largestOf(of(w.first(), d)), largestOf(of(w.other, d))
		most = max(most, a, b)
		if b < a {
			lower++
		}
	}
	return drawing{
		name: "hydrograph-pairs", title: "The largest events, both ways", from: "daily.csv", height: 190,
		says:  fmt.Sprintf("Of the %s with the largest daily flow under %s, %d have a lower largest day under %s.", count(len(events), "event"), quoted(w.first()), lower, quoted(w.other)),
		notes: "Mean flow of each day at the outlet, surface, drain and seepage together, one scale. Day 0: the largest under the first scenario. Events are chosen by the first scenario; the other’s own largest may be others.",
		ink: func(sh *sheet) {
			w.pairKey(sh, lineOf, entry{"daily flow (" + w.flowUnit() + ")", func(draw.Canvas) {}})
			columns := len(events)
			if sh.Max.X < 400 {
				columns = min(columns, 3)
			}
			for k, d := range events {
				ax := axis{-eventBefore, eventAfter, plot.LinearScale{}, []plot.Tick{{Value: -5, Label: "−5"}, {Value: 0, Label: "0"}, {Value: 5, Label: "5"}, {Value: 10, Label: " "}}}
				p := sh.pane(k, len(events), columns, 14, tickRoom, ax, upFrom(most, 5))
				if k%columns > 0 { // the scale stands on the left
					p.y.ticks = unlabelled(p.y.ticks)
				}
				p.frame(true)
				year, month, day := (w.r.First + weather.Date(d)).Civil()
				name := fmt.Sprintf("%d %s %d", day, monthNames[month-1], year)
				p.FillText(centred(fine()), vg.Point{X: p.Center().X, Y: p.Max.Y + panelHead/2}, name)
				p.curve(lies.line, x, of(w.first(), d))
				p.curve(tiled.line, x, of(w.other, d))
			}
		},
	}
}

// pens are the lines of all scenarios: the pair's own, the others by colour and dashes.
func (w watershed) pens() []draw.LineStyle {
	others := []draw.LineStyle{
		{Color: orange, Width: 1.4, Dashes: []vg.Length{1.5, 1.5}},
		{Color: blue, Width: 1.4, Dashes: []vg.Length{7, 2, 1.5, 2}},
		{Color: purple, Width: 1.4, Dashes: []vg.Length{3, 1.2}},
		{Color: skyBlue, Width: 1.4, Dashes: []vg.Length{9, 3}}}
	list, n := []draw.LineStyle{lies.line}, 0
	for k := 1; k < len(w.r.Scenarios); k++ {
		if &w.r.Scenarios[k] == w.other {
			list = append(list, tiled.line)
			continue
		}
		pen := others[n%len(others)]
		pen.Width += vg.Length(n/len(others)) * 0.8 // used again: wider
		list, n = append(list, pen), n+1
	}
	return list
}

// duration draws the daily flow that is exceeded in shares of the days.
func (w watershed) duration() (drawing, bool) {
	least, most := math.Inf(1), 0.0
	dry := false
	for k := range w.r.Scenarios {
		curve := outlet(&w.r.Scenarios[k]).Duration
		if len(curve) != len(basin.Exceeded) {
			return drawing{}, false
		}
		for _, q := range curve {
			dry = dry || q <= 0
			if q = w.flow(q); q > 0 {
				least, most = min(least, q), max(most, q)
			}
		}
	}
	if most == 0 {
		return drawing{}, false
	}
	const decades = 5 // more would flatten what matters
	top := math.Ceil(math.Log10(most) - 1e-9)
	foot := math.Floor(math.Log10(least) + 1e-9)
	notes := "Daily flow at the outlet, surface, drain and seepage together, exceeded in a share of the days of the complete years."
	if foot < top-decades {
		foot = top - decades
		notes += " Flows below the figure are not drawn."
	} else if dry {
		notes += " Days without flow are not drawn."
	}
	if foot == top {
		foot--
	}
	y := axis{math.Pow(10, foot), math.Pow(10, top), plot.LogScale{}, nil}
	for e := foot; e <= top; e++ {
		v := math.Pow(10, e)
		y.ticks = append(y.ticks, plot.Tick{Value: v, Label: strconv.FormatFloat(v, 'f', -1, 64)})
	}
	x := axis{0, 100, plot.LinearScale{}, marks(0, 100, 20)}
	var at []float64
	for _, e := range basin.Exceeded {
		at = append(at, 100*e)
	}
	return drawing{
		name: "duration", title: "How long flows last at the outlet", notes: notes, from: "duration.csv", height: 140,
		says: w.durationWords(),
		ink: func(sh *sheet) {
			pens := w.pens()
			var entries []entry
			for k, s := range w.r.Scenarios {
				entries = append(entries, entry{clipped(s.Name), lineOf(twin{line: pens[k]})})
			}
			sh.keyRows(entries...)
			p := sh.panel(sh.room(), 0, 2*tickRoom-4, x, y)
			p.frame(true)
			p.name(letters(textSize, ink), "daily flow ("+w.flowUnit()+")")
			p.below("share of days on which it is exceeded (%)")
			for k := range w.r.Scenarios {
				q := w.flows(outlet(&w.r.Scenarios[k]).Duration)
				for i := range q {
					if q[i] < y.min {
						q[i] = math.NaN()
					}
				}
				p.curve(pens[k], at, q)
			}
		},
	}, true
}

// durationWords sets the middle day of the scenarios side by side.
func (w watershed) durationWords() string {
	middle := func(s *basin.Outcome) string {
		for i, e := range basin.Exceeded {
			if e == 0.50 {
				return shortFlow(w.flow(outlet(s).Duration[i])) + " " + w.flowUnit()
			}
		}
		return "unknown"
	}
	words := fmt.Sprintf("On half of the days more than %s leave under %s", middle(w.first()), quoted(w.first()))
	if w.other != nil {
		words += fmt.Sprintf(", %s under %s", middle(w.other), quoted(w.other))
	}
	return words + "."
}

// shortFlow writes a flow, however small.
func shortFlow(q float64) string {
	if q == 0 {
		return "0"
	}
	return short(q)
}
