package plots

import (
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/unit"
	"mottle/weather"
)

// share is a class of completeness and how it looks: the more is missing, the
// stronger.
type share struct {
	least float64 // of the days of a year
	name  string
	fill  color.Color
	h     hatch
}

var shares = []share{
	{0.99, "99 % and more", paleBlue, plain},
	{0.95, "from 95 %", skyBlue, plain},
	{0.80, "from 80 %", orange, rising},
	{math.SmallestNonzeroFloat64, "less", rust, crossed},
}

// classOf finds the class, false for a year without any value.
func classOf(v float64) (share, bool) {
	for _, s := range shares {
		if v >= s.least {
			return s, true
		}
	}
	return share{}, false
}

// rowNames are the elements as the axis names them.
var rowNames = map[string]string{"precipitation": "precip.", "vapour pressure": "vapour", "snow depth": "snow"}

// Record draws what there is of a weather record: how complete each element is by
// year, the precipitation of each year with its trend, and the freezing index of
// each winter. With us the axes carry US customary units. The same inspection gives
// the same bytes.
func Record(r *weather.Inspection, us bool) (Figure, error) {
	const title = "What the weather record holds"
	units := unit.SI
	if us {
		units = unit.US
	}
	rows := len(r.Complete)
	mapHeight := panelHead + tickRoom + 13*vg.Length(rows)
	return render("weather-record", title, 360+mapHeight, func(c draw.Canvas) {
		sh := newSheet(c)
		stamp := ""
		if r.Invented {
			stamp = "INVENTED WEATHER"
		}
		sh.heading(title, recordSays(r, units), stamp)
		sh.notes("Completeness: share of the calendar days of a year that have a value; a blank cell has none. Precipitation: years with at least 350 days known; trend by the median of pairwise slopes (Theil 1950, Sen 1968), tested by ranks (Mann 1945, Kendall 1975). Freezing index: daily means below freezing, summed from July to June, shown at the year in which the winter begins.",
			"Weather"+invented(r.Invented)+": "+strings.Join(words(r.Layout, r.Station.ID, strings.TrimSpace(r.Station.Name)), ", ")+".")
		var entries []entry
		for _, s := range shares {
			entries = append(entries, entry{s.name, swatch(s.fill, s.h)})
		}
		sh.key(entries...)
		first, last := r.Years[0], r.Years[len(r.Years)-1]
		completenessMap(sh.panel(mapHeight, 8, tickRoom, years(first, last), rowsDown(r.Complete)), r)
		sh.top -= 6
		half := (sh.room() - 6) / 2
		annualBars(sh, half, r, units)
		sh.top -= 6
		winterBars(sh, half, r, units)
	})
}

// words leaves out what is empty.
func words(list ...string) (out []string) {
	for _, w := range list {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// recordSays is the figure in a sentence or two.
func recordSays(r *weather.Inspection, units unit.System) string {
	text := fmt.Sprintf("%v to %v.", r.First, r.Last)
	if !math.IsNaN(r.MeanPrecip) {
		text += " " + units.Format(r.MeanPrecip, "mm") + " of precipitation a year."
	}
	if t := r.PrecipTrend; !math.IsNaN(t.P) {
		slope, u := units.Difference(10*t.Slope, "mm")
		chance := fmt.Sprintf("p %.2g", t.P)
		if t.P < 0.001 {
			chance = "p below 0.001"
		}
		text += fmt.Sprintf(" Trend of %s: %s %s a decade, %s.", count(t.Years, "year"), signed(slope), u, chance)
	}
	if !math.IsNaN(r.Design) {
		text += fmt.Sprintf(" Design freezing index %s, from the last %d winters.", units.Format(r.Design, "C-d"), r.DesignYears)
	}
	return text
}

// rowsDown is an axis of rows from the top down, a tick in the middle of each.
func rowsDown(rows []weather.Completeness) axis {
	a := axis{0, float64(len(rows)), plot.InvertedScale{Normalizer: plot.LinearScale{}}, nil}
	for i, row := range rows {
		name := row.Element
		if short, ok := rowNames[name]; ok {
			name = short
		}
		a.ticks = append(a.ticks, plot.Tick{Value: float64(i) + 0.5, Label: name})
	}
	return a
}

// completenessMap fills a cell for each element and year.
func completenessMap(p panel, r *weather.Inspection) {
	p.frame(true)
	p.name(letters(textSize, ink), "share of days with a value")
	for i, row := range r.Complete {
		for k, v := range row.Share {
			if s, ok := classOf(v); ok {
				y := float64(r.Years[k])
				p.bar(s.fill, s.h, y-0.46, y+0.46, float64(i)+0.06, float64(i)+0.94)
			}
		}
	}
}

// annualBars draws the precipitation of the full years and its trend.
func annualBars(sh *sheet, height vg.Length, r *weather.Inspection, units unit.System) {
	values := make([]float64, len(r.AnnualPrecip))
	top := 0.0
	for k, v := range r.AnnualPrecip {
		if values[k], _ = units.Value(v, "mm"); values[k] > top {
			top = values[k]
		}
	}
	_, u := units.Value(0, "mm")
	p := sh.panel(height, 8, tickRoom, years(r.Years[0], r.Years[len(r.Years)-1]), upFrom(top, 4))
	p.frame(true)
	p.name(letters(textSize, ink), "precipitation of the year ("+u+")")
	for k, y := range r.Years {
		if !math.IsNaN(values[k]) {
			p.bar(skyBlue, plain, float64(y)-0.36, float64(y)+0.36, 0, values[k])
		}
	}
	trend := r.PrecipTrend
	if math.IsNaN(trend.P) {
		return
	}
	at := func(year float64) float64 {
		v, _ := units.Value(trend.Level+trend.Slope*(year-trend.At), "mm")
		return v
	}
	from, to := float64(r.Years[0])-0.5, float64(r.Years[len(r.Years)-1])+0.5
	p.curve(draw.LineStyle{Color: ink, Width: 1.4, Dashes: []vg.Length{4.5, 2}}, []float64{from, to}, []float64{at(from), at(to)})
}

// winterBars draws the freezing index of each winter.
func winterBars(sh *sheet, height vg.Length, r *weather.Inspection, units unit.System) {
	top := 0.0
	for _, w := range r.Winters {
		if v, _ := units.Value(w.FreezingIndex, "C-d"); v > top {
			top = v
		}
	}
	_, u := units.Value(0, "C-d")
	p := sh.panel(height, 8, tickRoom, years(r.Years[0], r.Years[len(r.Years)-1]), upFrom(top, 4))
	p.frame(true)
	p.name(letters(textSize, ink), "freezing index of the winter ("+u+")")
	for _, w := range r.Winters {
		if v, _ := units.Value(w.FreezingIndex, "C-d"); v > 0 {
			p.bar(slate, plain, float64(w.Begins)-0.36, float64(w.Begins)+0.36, 0, v)
		}
	}
	if design, _ := units.Value(r.Design, "C-d"); !math.IsNaN(design) && design <= p.y.max {
		p.level(draw.LineStyle{Color: rust, Width: 1.2, Dashes: []vg.Length{2, 2}}, design)
		p.FillText(toTheLeft(letters(noteSize, rust)), vg.Point{X: p.Max.X, Y: p.at(0, design).Y + noteSize/2 + 1}, "design "+strconv.Itoa(int(math.Round(design))))
	}
}
