package plots

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/worth"
)

// decision is what the figures of a decision are about.
type decision struct {
	subject
	w *worth.Result
}

// drawing is a figure of a decision before it is given paper: on a page its words
// stand beside it as text, in a file within it.
type drawing struct {
	name, title string
	says        string // what it comes to
	notes       string // what one must know to read it
	from        string // the file in which its numbers stand; "" for the days of a year
	height      vg.Length
	ink         func(sh *sheet)
}

// decide checks that a result can be shown.
func decide(r *worth.Result, us bool) (decision, error) {
	switch {
	case r.Field == nil || r.Compare == nil || r.Compare.Series == nil || r.Compare.Pair == nil:
		return decision{}, errors.New("worth: the result holds no field, or no comparison; allowed: both, with weather and twins")
	case len(r.Years) == 0 || len(r.Compare.Years) != len(r.Years):
		return decision{}, fmt.Errorf("worth: the result holds %s, its comparison %d; allowed: the same complete calendar years, one at least", count(len(r.Years), "year"), len(r.Compare.Years))
	case len(r.AsItLies) != len(r.Years) || len(r.WithTile) != len(r.Years):
		return decision{}, fmt.Errorf("worth: %d and %d seasons for %s; allowed: a season of each twin for each year", len(r.AsItLies), len(r.WithTile), count(len(r.Years), "year"))
	}
	c := *r.Compare
	c.Field, c.Years = r.Field, r.Years
	return decision{subject{&c, system(us)}, r}, nil
}

// drawings are the figures in the order of the page. Those of futures and designs are
// left out of a result that has none.
func (d decision) drawings() ([]drawing, error) {
	wet, err := d.wetDays()
	if err != nil {
		return nil, err
	}
	calendars, err := d.calendars()
	if err != nil {
		return nil, err
	}
	list := append([]drawing{wet, d.plantingDates()}, calendars...)
	list = append(list, d.extraIncome())
	if f := d.w.Futures; f != nil && len(f.Fan) > 1 {
		list = append(list, d.payback())
	}
	if m := d.w.Map; m != nil && len(m.Depths) > 0 && len(m.Spacings) > 0 {
		list = append(list, d.worthMap(), d.wetMap())
	}
	return append(list, d.losses(), d.seasonSalt()), nil
}

// WorthFigures draws the figures of a decision for files, in the order of the page:
// "days-saturated", "planting-dates", "calendar-median", "calendar-wettest",
// "extra-income", "payback", "map-npv", "map-saturated", "yield-losses" and
// "root-zone-salt". Payback and maps are left out of a result without futures or
// designs. The same result gives the same bytes. It is an error when the result lacks
// what a figure shows.
func WorthFigures(r *worth.Result, us bool) ([]Figure, error) {
	d, err := decide(r, us)
	if err != nil {
		return nil, err
	}
	drawings, err := d.drawings()
	if err != nil {
		return nil, err
	}
	var figures []Figure
	for _, one := range drawings {
		f, err := d.onPaper(one)
		if err != nil {
			return nil, err
		}
		figures = append(figures, f)
	}
	return figures, nil
}

// onPaper gives a drawing its words and renders it for a file.
func (d decision) onPaper(one drawing) (Figure, error) {
	const words = 110 // heading, notes and source
	return render(one.name, one.title, one.height*1.8+words, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(one.title, one.says, d.stamp())
		sh.notes(one.notes, d.source())
		one.ink(sh)
	})
}

// pointKey is the key of figures whose twins are points.
func pointKey(sh *sheet, more ...entry) {
	sh.key(append([]entry{
		{lies.name, stroke(draw.LineStyle{}, lies.glyph)},
		{tiled.name, stroke(draw.LineStyle{}, tiled.glyph)}}, more...)...)
}

// barKey is the key of figures whose twins are bars.
func barKey(sh *sheet) {
	sh.key(entry{lies.name, swatch(rust, plain)}, entry{tiled.name, func(c draw.Canvas) {
		r := c.Rectangle
		r.Min.Y, r.Max.Y = r.Min.Y+2.5, r.Max.Y-2.5
		shade(c, r, slate, plain)
	}})
}

// yearAxis is the axis of the decision's years.
func (d decision) yearAxis() axis { return years(d.w.Years[0], d.w.Years[len(d.w.Years)-1]) }

// throughZero is an axis that holds zero and both ends, with about n marks.
func throughZero(low, high float64, n int) axis {
	low, high = min(low, 0), max(high, 0)
	if low == high {
		high = 1
	}
	step := round((high - low) / float64(n))
	room := 0.04 * (high - low)
	first := step * math.Ceil(low/step-1e-9)
	return axis{low - room, high + room, plot.LinearScale{}, marks(first, high, step)}
}
