package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim"
)

// oneYear draws a year's water table, frost and snow over the days, with
// precipitation and drain flow beneath. The year is given by its place among
// the complete ones and by what it is, relative to days saturated.
func (s subject) oneYear(name, what string, k int) (Figure, error) {
	l, err := s.line("days_saturated")
	if err != nil {
		return Figure{}, err
	}
	a, b := s.r.Pair.AsItLies, s.r.Pair.WithTile
	y := a.Years[k]
	title := fmt.Sprintf("The field through %d", y.Year)
	says := fmt.Sprintf("The year %s days saturated: %.0f as it lies, %.0f with tile.", what, l.YearsAsItLies[k], l.YearsWithTile[k])
	return render(name, title, 560, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, says, s.stamp())
		sh.notes("Water table: mean of the day; on the dense layer it may be deeper. Frost: down to the deepest ice; above that it may have thawed. Snow: "+lies.name+".", s.source())
		sh.key(
			entry{"water table " + lies.name, stroke(lies.line, draw.GlyphStyle{})},
			entry{tiled.name, stroke(tiled.line, draw.GlyphStyle{})},
			entry{"frost " + lies.name, swatch(paleBlue, rising)},
			entry{tiled.name, stroke(frostTiled, draw.GlyphStyle{})},
			entry{"snow", swatch(snowGrey, plain)})

		days := yearDays(a.Forcing, y)
		rainHigh, drainHigh := vg.Length(72), vg.Length(96)
		s.ground(sh.panel(sh.room()-rainHigh-drainHigh, rightRoom, 6, days, axis{}), y)

		rain := s.values(a.Days.Precipitation[y.First:y.End], "mm")
		p := sh.panel(rainHigh, rightRoom, 6, days, upFrom(rain[largest(rain)], 2))
		p.frame(false)
		p.name(letters(textSize, ink), "rain and snow ("+s.unit("mm/d")+" of water)")
		p.months(a.Forcing, y, false)
		for i, v := range rain {
			p.bar(skyBlue, plain, float64(i)+0.1, float64(i)+0.9, 0, v)
		}

		before, after := s.values(a.Days.Drain[y.First:y.End], "mm/d"), s.values(b.Days.Drain[y.First:y.End], "mm/d")
		p = sh.panel(drainHigh, rightRoom, tickRoom, days, upFrom(math.Max(before[largest(before)], after[largest(after)]), 3))
		p.frame(false)
		p.months(a.Forcing, y, true)
		p.area(rgb(0xC9D3DE), 0, middays(after), after)
		p.curve(draw.LineStyle{Color: slate, Width: 1.1}, middays(after), after)
		flow := "drain flow " + tiled.name
		if s.r.Field.Old != nil {
			flow += ", and " + lies.name + " through the old tile"
			p.curve(draw.LineStyle{Color: rust, Width: 1.1}, middays(before), before)
		}
		p.name(letters(textSize, ink), flow+" ("+s.unit("mm/d")+")")
	})
}

const rightRoom vg.Length = 86

var (
	snowGrey   = rgb(0xC3C8CE)
	frostTiled = draw.LineStyle{Color: blue, Width: 1, Dashes: []vg.Length{1.5, 1.5}}
)

// ground draws what happens below and above the surface into a panel whose
// vertical axis is still to be set.
func (s subject) ground(p panel, y sim.YearSpan) {
	a, b, f := s.r.Pair.AsItLies.Days, s.r.Pair.WithTile.Days, s.r.Field
	of := func(x []float64) []float64 { return s.values(x[y.First:y.End], "m") }
	snow, frost, frostB := of(a.SnowDepth), of(a.Frost), of(b.Frost)
	table, tableB := of(a.Table), of(b.Table)
	x := middays(snow)

	dense := s.value(f.Restrictive, "m")
	deepest := max(dense, frost[largest(frost)], frostB[largest(frostB)])
	p.y = downTo(snow[largest(snow)]*1.1, deepest*1.04, 8)
	p.frame(false)
	p.name(letters(textSize, ink), "depth below the surface, snow above it ("+s.unit("m")+")")
	p.months(s.r.Pair.AsItLies.Forcing, y, false)

	p.area(paleBlue, 0, x, frost)
	p.within(x, frost, rising)
	p.curve(draw.LineStyle{Color: skyBlue, Width: 0.8}, x, whereSome(frost))
	p.curve(frostTiled, x, whereSome(frostB))
	up := make([]float64, len(snow))
	for i, v := range snow {
		up[i] = -v
	}
	p.area(snowGrey, 0, x, up)
	p.bar(rgb(0xDAD5CE), rising, p.x.min, p.x.max, dense, p.y.max)

	p.level(draw.LineStyle{Color: ink, Width: 1.1}, 0)
	mark := draw.LineStyle{Color: soft, Width: 0.7, Dashes: []vg.Length{1, 2}}
	topsoil := s.value(0.30, "m")
	p.level(mark, topsoil)
	tags := []tag{{0, []string{"surface"}, ink}, {topsoil, []string{short(topsoil) + " " + s.unit("m")}, soft}, {dense, []string{"dense layer"}, soft}}
	if f.Tile != nil {
		depth := s.value(f.Tile.Depth, "m")
		p.level(draw.LineStyle{Color: slate, Width: 0.7, Dashes: []vg.Length{1, 2}}, depth)
		tags = append(tags, tag{depth, []string{"tile"}, slate})
	}
	p.tags(p.Max.X, tags...)
	p.curve(lies.line, x, table)
	p.curve(tiled.line, x, tableB)
}

// within hatches between the axis' zero and the values, day by day.
func (p panel) within(x, y []float64, h hatch) {
	var boxes []vg.Rectangle
	for i, v := range y {
		if v != 0 {
			boxes = append(boxes, p.box(x[i]-0.5, x[i]+0.5, 0, v))
		}
	}
	hatching(p.Canvas, h, boxes...)
}

// whereSome parts a series where it is zero, but for the days next to others.
func whereSome(y []float64) []float64 {
	some := make([]float64, len(y))
	for i := range y {
		some[i] = math.NaN()
		if y[i] > 0 || i > 0 && y[i-1] > 0 || i+1 < len(y) && y[i+1] > 0 {
			some[i] = y[i]
		}
	}
	return some
}

// middays are the middles of the days, counted from the year's start.
func middays(x []float64) []float64 {
	t := make([]float64, len(x))
	for i := range t {
		t[i] = float64(i) + 0.5
	}
	return t
}

// yearDays is the axis of a year's days with a mark at the start of each month.
func yearDays(f *sim.Forcing, y sim.YearSpan) axis {
	a := axis{0, float64(y.End - y.First), plot.LinearScale{}, nil}
	for i := y.First; i < y.End; i++ {
		if i == y.First || f.Month[i] != f.Month[i-1] {
			a.ticks = append(a.ticks, plot.Tick{Value: float64(i - y.First), Label: ""})
		}
	}
	return a
}

var monthNames = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// months draws a line at the start of each month and, with labels, its name.
func (p panel) months(f *sim.Forcing, y sim.YearSpan, labels bool) {
	for k, t := range p.x.ticks {
		x := p.at(t.Value, 0).X
		if k > 0 {
			p.StrokeLine2(draw.LineStyle{Color: faint, Width: 0.6}, x, p.Min.Y, x, p.Max.Y)
		}
		if labels {
			end := p.x.max
			if k+1 < len(p.x.ticks) {
				end = p.x.ticks[k+1].Value
			}
			style := letters(textSize, soft)
			style.XAlign = text.XCenter
			month := f.Month[y.First+int(t.Value)]
			p.FillText(style, vg.Point{X: p.at((t.Value+end)/2, 0).X, Y: p.Min.Y - 10}, monthNames[month-1])
		}
	}
}
