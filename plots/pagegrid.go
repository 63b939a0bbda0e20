package plots

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/compare"
	"mottle/sim/unit"
	"mottle/sim/worth"
)

// grid is a table of the page.
type grid struct {
	ID, Caption string
	Note        string // under the caption
	Head        []string
	Words       int // columns from the left that hold words; the others hold numbers
	Rows        []gridRow
}

// gridRow is a row, its first cell the row's head.
type gridRow struct {
	Cells []string
	Total bool
}

func row(cells ...string) gridRow { return gridRow{Cells: cells} }

// Name is the row's head.
func (r gridRow) Name() string { return r.Cells[0] }

// Rest are the cells after it.
func (r gridRow) Rest() []string { return r.Cells[1:] }

// shown are the measures of the comparison that the page lists.
var shown = []string{"days_saturated", "days_saturated_apr_jun", "fieldwork_days_spring", "planting_day", "peak_hour", "peak_day",
	"drain_outflow", "surface_runoff", "all_outflow", "evapotranspiration", "first_drain_flow", "root_zone_ece"}

// changes lists what tile changes, with words that follow from the numbers.
func (d decision) changes() grid {
	g := grid{ID: "changes", Caption: "What tile changes, mean of the years (of dates the median)",
		Head: []string{"measure", "as it lies", "with tile", "difference", "90 % interval", "in words"}, Words: 1}
	for _, name := range shown {
		l, err := d.line(name)
		if err != nil {
			continue
		}
		label := l.Label
		u := d.unit(l.Unit)
		if u != "" && !l.ByMedian {
			label += " (" + u + ")"
		}
		difference := func(x float64) string {
			v, _ := d.units.Difference(x, l.Unit)
			if math.IsNaN(v) {
				return "–"
			}
			return signed(v)
		}
		value := func(x float64) string {
			switch {
			case l.ByMedian:
				return date(l, x)
			case math.IsNaN(x):
				return "–"
			}
			return short(d.value(x, l.Unit))
		}
		interval := difference(l.Low) + " to " + difference(l.High)
		if math.IsNaN(l.Low) || math.IsNaN(l.High) {
			interval = "–"
		}
		days := ""
		if l.ByMedian && !math.IsNaN(l.Difference) {
			days = " d"
		}
		g.Rows = append(g.Rows, row(label, value(l.AsItLies), value(l.WithTile), difference(l.Difference)+days, interval, inWords(l)))
	}
	return g
}

// inWords says which way a measure goes.
func inWords(l compare.Line) string {
	up, down := "rises", "falls"
	if l.ByMedian {
		up, down = "later", "earlier"
	}
	switch {
	case math.IsNaN(l.Difference):
		return "cannot be told"
	case !l.Resolved:
		return "no difference beyond noise"
	case math.IsNaN(l.Low) || math.IsNaN(l.High) || l.Low <= 0 && l.High >= 0:
		return "unclear: may rise or fall"
	case l.Difference > 0:
		return up
	}
	return down
}

// date writes a day of the year, or the word for what stands in its place.
func date(l compare.Line, x float64) string {
	switch {
	case math.IsInf(x, -1):
		return l.Measure.Low
	case math.IsInf(x, 1):
		return l.Measure.High
	case math.IsNaN(x):
		return "–"
	}
	return dayOfYear(int(math.Round(x)))
}

// dayOfYear writes a day of a common year.
func dayOfYear(day int) string {
	m := len(monthStarts) - 1
	for ; m > 0 && monthStarts[m] > day; m-- {
	}
	return fmt.Sprintf("%d %s", day-monthStarts[m]+1, monthNames[m])
}

// outlets lists what the drainage coefficient does.
func (d decision) outlets() grid {
	g := grid{ID: "outlets", Caption: "What the outlet carries", Words: 0, Head: []string{"drainage coefficient (" + d.unit("mm/d") + ")", "days saturated a year",
		"drain flow (" + d.unit("mm") + " a year)", "peak (" + d.unit("mm/h") + ")", "net present value (" + d.unit("USD/ha") + ")", "least main (" + d.unit("mm") + ")"}}
	for _, o := range d.w.Outlets {
		coefficient, main := "no limit", "–"
		if !math.IsInf(o.Coefficient, 1) {
			coefficient = short(d.value(o.Coefficient*86400*1000, "mm/d"))
		}
		if !math.IsNaN(o.Main) {
			main = fmt.Sprintf("%.3g", d.value(o.Main*1000, "mm"))
		}
		g.Rows = append(g.Rows, row(coefficient, round3(o.Saturated), short(d.value(o.Drain, "mm")), short(d.value(o.Peak, "mm/h")), round3(d.value(o.NPV, "USD/ha")), main))
	}
	return g
}

// others lists what could be done in place of tile.
func (d decision) others() grid {
	g := grid{ID: "others", Caption: "In place of tile", Words: 1, Head: []string{"what", "days saturated a year", "extra income (" + d.unit("USD/ha") + " a year)",
		"worth an outlay up to (" + d.unit("USD/ha") + ")", "runoff (" + d.unit("mm") + " a year)"}}
	for _, a := range d.w.Others {
		name := a.Name
		if a.How != "" {
			name += ": " + a.How
		}
		if !a.Considered {
			g.Rows = append(g.Rows, row(name, "not on this field", "–", "–", "–"))
			continue
		}
		g.Rows = append(g.Rows, row(name, round3(a.Saturated), round3(d.value(a.Income, "USD/ha")), round3(d.value(a.WorthUpTo, "USD/ha")), short(d.value(a.Runoff, "mm"))))
	}
	return g
}

// controlled is the same tile behind a weir.
func (d decision) controlled() grid {
	c := d.w.Controlled
	g := grid{ID: "controlled", Caption: "The same tile behind a weir", Note: c.Calendar, Words: 1, Head: []string{"against free drainage", "value"}}
	nitrate := func(x float64) string { return short(d.value(x, "kg/ha")) }
	g.Rows = []gridRow{
		row("drain flow kept back", d.units.Format(c.Drain, "mm")+" a year"),
		row("days saturated", signed(c.Saturated)+" a year"),
		row("income", plus(d.value(c.Income, "USD/ha"))+" "+d.unit("USD/ha")+" a year"),
		row("nitrate-N kept from the ditch", nitrate(c.Nitrate.Low)+" to "+nitrate(c.Nitrate.High)+" "+d.unit("kg/ha")+" a year"),
	}
	return g
}

// isUnit says whether results are shown in a unit, and so have it in both systems.
func isUnit(si string) bool {
	for _, p := range unit.Pairs {
		if p.SI == si {
			return true
		}
	}
	return false
}

// questions are what people ask, with their intervals in the system's units.
func (d decision) questions() []question {
	var list []question
	for _, q := range d.w.Questions {
		one := question{Question: q}
		if !math.IsNaN(q.Low) && !math.IsNaN(q.High) && !(q.Low == 0 && q.High == 0 && q.Unit == "") {
			low, high, u := q.Low, q.High, q.Unit
			if isUnit(u) {
				low, u = d.units.Difference(q.Low, q.Unit)
				high, _ = d.units.Difference(q.High, q.Unit)
			}
			one.Interval = strings.TrimSpace(figure(low) + " to " + figure(high) + " " + u)
		}
		list = append(list, one)
	}
	return list
}

// question is one with its interval written out.
type question struct {
	worth.Question
	Interval string
}
