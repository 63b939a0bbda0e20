package plots

import (
	"fmt"
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim"
	"mottle/sim/crop"
)

// leastFlow is the drain flow from which a drain is said to run, mm/d, as in the date
// of first drain flow.
const leastFlow = 0.1

// states of the field through a year, from the top of the strip down.
var states = []struct {
	name string
	is   func(d *sim.Days, i int) bool
}{
	{"crop", func(d *sim.Days, i int) bool { return d.Phase[i] != crop.NoPhase }},
	{"bears", func(d *sim.Days, i int) bool { return d.Bears[i] }},
	{"saturated", func(d *sim.Days, i int) bool { return d.Saturated(i) }},
	{"flooded", func(d *sim.Days, i int) bool { return d.Pond[i] > 0 }},
	{"drains", func(d *sim.Days, i int) bool { return d.Drain[i] > leastFlow }},
	{"frozen", func(d *sim.Days, i int) bool { return d.Frost[i] > 0 }},
}

// calendars are the strips of the year nearest the median of days saturated and of
// the wettest; one strip where they are one.
func (d decision) calendars() ([]drawing, error) {
	l, err := d.line("days_saturated")
	if err != nil {
		return nil, err
	}
	median, wettest := nearestMedian(l.YearsAsItLies), largest(l.YearsAsItLies)
	list := []drawing{d.calendar("calendar-median", "a year near the median", median)}
	if wettest != median {
		list = append(list, d.calendar("calendar-wettest", "the wettest year", wettest))
	}
	return list, nil
}

// calendar draws what the field is on each day of a year, a thin strip for each twin.
func (d decision) calendar(name, what string, k int) drawing {
	a, b := d.r.Pair.AsItLies, d.r.Pair.WithTile
	y := a.Years[k]
	days := func(r *sim.Record, of int) int {
		n := 0
		for i := y.First; i < y.End; i++ {
			if states[of].is(r.Days, i) {
				n++
			}
		}
		return n
	}
	return drawing{
		name: name, title: fmt.Sprintf("The field through %d, %s", y.Year, what),
		says: fmt.Sprintf("The ground bears a machine on %d days as it lies, %d with tile; it is saturated on %d and %d, under water at the end of %d and %d.",
			days(a, 1), days(b, 1), days(a, 2), days(b, 2), days(a, 3), days(b, 3)),
		notes:  "Crop: it stands. Bears: a fieldwork day. Flooded: water stands on the ground at the day’s end. Drains: more than 0.1 mm a day runs from a drain. Frozen: ice somewhere in the ground.",
		height: 108,
		ink: func(sh *sheet) {
			sh.key(entry{lies.name + " (upper)", swatch(rust, plain)}, entry{tiled.name + " (lower)", swatch(slate, plain)})
			rows := float64(len(states))
			sh.top += panelHead - 5
			p := sh.panel(sh.room()+4, 0, tickRoom, yearDays(a.Forcing, y), axis{0, rows, inverted, nil})
			p.Min.X += 10 // the names are longer than numbers
			for i := range states {
				p.StrokeLine2(draw.LineStyle{Color: faint, Width: 0.6}, p.Min.X, p.at(0, float64(i+1)).Y, p.Max.X, p.at(0, float64(i+1)).Y)
			}
			p.frame(false)
			p.months(a.Forcing, y, true)
			for row, s := range states {
				at := p.at(0, float64(row)+0.5)
				at.X = p.Min.X - 4
				p.FillText(toTheLeft(letters(textSize, soft)), at, s.name)
				p.strip(a, y, s.is, rust, float64(row)+0.14, float64(row)+0.46)
				p.strip(b, y, s.is, slate, float64(row)+0.54, float64(row)+0.86)
			}
		},
	}
}

// strip fills the days of a year on which something holds, run by run.
func (p panel) strip(r *sim.Record, y sim.YearSpan, is func(d *sim.Days, i int) bool, fill color.Color, top, bottom float64) {
	for i := y.First; i < y.End; i++ {
		if !is(r.Days, i) {
			continue
		}
		from := i
		for i < y.End && is(r.Days, i) {
			i++
		}
		p.bar(fill, plain, float64(from-y.First), float64(i-y.First), top, bottom)
	}
}

// inverted runs from the top down.
var inverted = plot.InvertedScale{Normalizer: plot.LinearScale{}}
