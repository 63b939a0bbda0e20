package plots

import (
	"fmt"
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/crop"
	"mottle/sim/worth"
)

// wetDays draws the days saturated of each year as two bars in one place.
func (d decision) wetDays() (drawing, error) {
	l, err := d.line("days_saturated")
	if err != nil {
		return drawing{}, err
	}
	return drawing{
		name: "days-saturated", title: "Days saturated in each year", from: "yearly.csv",
		says:   d.verdict("Mean", l),
		notes:  "A day is saturated when the water table stands within 0.30 m (1 ft) of the surface for more than 12 h and the top 0.30 m holds no ice. What shows of the wide bar is what tile takes away.",
		height: 108,
		ink: func(sh *sheet) {
			barKey(sh)
			most := 0.0
			for i := range l.YearsAsItLies {
				most = max(most, l.YearsAsItLies[i], l.YearsWithTile[i])
			}
			p := sh.panel(sh.room(), 0, tickRoom, d.yearAxis(), upFrom(most, 4))
			p.frame(true)
			p.name(letters(textSize, ink), "days")
			for i, y := range d.w.Years {
				x := float64(y)
				p.bar(rust, plain, x-0.42, x+0.42, 0, l.YearsAsItLies[i])
				p.bar(white, plain, x-0.24, x+0.24, 0, l.YearsWithTile[i])
				p.bar(slate, plain, x-0.15, x+0.15, 0, l.YearsWithTile[i])
			}
			p.ground()
		},
	}, nil
}

// ground draws the axis again over what stands on it.
func (p panel) ground() {
	p.StrokeLine2(draw.LineStyle{Color: soft, Width: 0.7}, p.Min.X, p.Min.Y, p.Max.X, p.Min.Y)
}

// monthStarts are the first days of the months of a common year.
var monthStarts = [...]int{1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335}

// springSown says whether a season's crop has a planting date within its year.
func springSown(s worth.Season) bool {
	k, err := crop.Named(s.Crop)
	return err == nil && !k.Autumn && !k.Perennial
}

// plantingDates draws the planting date of each year.
func (d decision) plantingDates() drawing {
	var x, a, b []float64
	first, last := math.Inf(1), math.Inf(-1)
	missed := [2]int{}
	date := func(s worth.Season, twin int) float64 {
		if s.Planted == 0 {
			missed[twin]++
			return math.NaN()
		}
		first, last = min(first, float64(s.Planted)), max(last, float64(s.Planted))
		return float64(s.Planted)
	}
	earlier, later, same := 0, 0, 0
	for i, y := range d.w.Years {
		if springSown(d.w.AsItLies[i]) {
			x = append(x, float64(y))
			p, q := date(d.w.AsItLies[i], 0), date(d.w.WithTile[i], 1)
			a, b = append(a, p), append(b, q)
			switch {
			case q < p || math.IsNaN(p) && !math.IsNaN(q):
				earlier++
			case q > p || math.IsNaN(q) && !math.IsNaN(p):
				later++
			default:
				same++
			}
		}
	}
	says := fmt.Sprintf("With tile planted earlier in %d, later in %d and on the same day in %d of %s", earlier, later, same, count(len(x), "year"))
	if missed[0]+missed[1] > 0 {
		says += fmt.Sprintf("; never planted in %d as it lies, in %d with tile", missed[0], missed[1])
	}
	if len(x) == 0 {
		says = "No crop of the rotation is sown in spring"
		first, last = 91, 166
	}
	vertical := axis{min(first, last) - 4, max(first, last) + 4, plot.LinearScale{}, nil}
	if math.IsInf(first, 0) {
		vertical.min, vertical.max = 91, 166
	}
	missedAt := vertical.max + 0.06*(vertical.max-vertical.min)
	if missed[0]+missed[1] > 0 {
		vertical.max += 0.12 * (vertical.max - vertical.min)
	}
	for m, start := range monthStarts {
		for _, day := range []int{1, 11, 16, 21} {
			if few := vertical.max-vertical.min > 45; day == 11 && few || day == 16 && !few || day == 21 && few {
				continue
			}
			if v := float64(start + day - 1); v >= vertical.min && v <= vertical.max {
				vertical.ticks = append(vertical.ticks, plot.Tick{Value: v, Label: strconv.Itoa(day) + " " + monthNames[m]})
			}
		}
	}
	return drawing{
		name: "planting-dates", title: "Planting date of each year", from: "seasons.csv", says: says + ".",
		notes:  "The day of the last planting. A cross: the ground could not be crossed in time. Late in the window a crop is sown as soon as a machine can pass, before the ground bears well. Crops sown in autumn and those that stand for years have no date here.",
		height: 108,
		ink: func(sh *sheet) {
			entries := []entry{}
			if missed[0]+missed[1] > 0 {
				entries = append(entries, entry{"not planted", stroke(draw.LineStyle{}, cross(ink))})
			}
			pointKey(sh, entries...)
			sh.top += panelHead - 5
			p := sh.panel(sh.room(), 0, tickRoom, d.yearAxis(), vertical)
			p.frame(true)
			for i := range x {
				if !math.IsNaN(a[i]) && !math.IsNaN(b[i]) {
					p.StrokeLine2(draw.LineStyle{Color: soft, Width: 0.5}, p.at(x[i], a[i]).X, p.at(x[i], a[i]).Y, p.at(x[i], b[i]).X, p.at(x[i], b[i]).Y)
				}
				for twin, v := range []float64{a[i], b[i]} {
					if math.IsNaN(v) {
						p.DrawGlyphNoClip(cross([]draw.GlyphStyle{lies.glyph, tiled.glyph}[twin].Color), p.at(x[i]+[]float64{-0.2, 0.2}[twin], missedAt))
					}
				}
			}
			p.points(small(lies.glyph), x, a)
			p.points(small(tiled.glyph), x, b)
		},
	}
}

// cross marks what did not take place.
func cross(c color.Color) draw.GlyphStyle {
	return draw.GlyphStyle{Color: c, Radius: 2.4, Shape: draw.CrossGlyph{}}
}

// small is a glyph for many years.
func small(g draw.GlyphStyle) draw.GlyphStyle {
	g.Radius = vg.Length(2.2)
	return g
}
