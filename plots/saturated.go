package plots

import (
	"gonum.org/v1/plot/vg/draw"
)

// daysSaturated draws the days saturated of each year as two bars in one place:
// what shows of the wide one is what the tile takes away.
func (s subject) daysSaturated() (Figure, error) {
	l, err := s.line("days_saturated")
	if err != nil {
		return Figure{}, err
	}
	const title = "Days saturated in each year"
	return render("days-saturated", title, 310, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, s.verdict("Mean", l), s.stamp())
		sh.notes("A day is saturated when the water table stands within 0.30 m (1 ft) of the surface for more than 12 h and the top 0.30 m holds no ice.", s.source())
		sh.key(entry{"as it lies (wide bar)", swatch(rust, plain)}, entry{"with tile (narrow bar)", func(c draw.Canvas) {
			r := c.Rectangle
			r.Min.Y, r.Max.Y = r.Min.Y+2.5, r.Max.Y-2.5
			shade(c, r, slate, plain)
		}})
		most := 0.0
		for i := range l.YearsAsItLies {
			most = max(most, l.YearsAsItLies[i], l.YearsWithTile[i])
		}
		years := years(s.r.Years[0], s.r.Years[len(s.r.Years)-1])
		p := sh.panel(sh.room(), 92, tickRoom, years, upFrom(most, 6))
		p.frame(true)
		p.name(letters(textSize, ink), "days")
		for i, y := range s.r.Years {
			x := float64(y)
			p.bar(rust, plain, x-0.40, x+0.40, 0, l.YearsAsItLies[i])
			p.bar(white, plain, x-0.22, x+0.22, 0, l.YearsWithTile[i])
			p.bar(slate, plain, x-0.14, x+0.14, 0, l.YearsWithTile[i])
		}
		p.tags(p.Max.X,
			tag{l.AsItLies, []string{lies.name, "mean " + short(l.AsItLies) + " d"}, rust},
			tag{l.WithTile, []string{tiled.name, "mean " + short(l.WithTile) + " d"}, slate})
		p.StrokeLine2(draw.LineStyle{Color: soft, Width: 0.7}, p.Min.X, p.Min.Y, p.Max.X, p.Min.Y)
	})
}
