package plots

import (
	"image/color"
	"math"
	"sort"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	panelHead vg.Length = 14 // above the data, for the name of the axis
	tickRoom  vg.Length = 16 // below the data, for labels
)

// panel is an area of data between two axes; the canvas is the area.
type panel struct {
	draw.Canvas
	x, y axis
}

func (p panel) at(x, y float64) vg.Point {
	return vg.Point{X: p.X(p.x.norm(x)), Y: p.Y(p.y.norm(y))}
}

// frame draws grid and marks; with labels also the words of the horizontal axis.
func (p panel) frame(labels bool) {
	grid := draw.LineStyle{Color: faint, Width: 0.6}
	word := letters(textSize, soft)
	for _, t := range p.y.ticks {
		y := p.at(p.x.min, t.Value).Y
		p.StrokeLine2(grid, p.Min.X, y, p.Max.X, y)
		p.FillText(toTheLeft(word), vg.Point{X: p.Min.X - 5, Y: y}, t.Label)
	}
	axis := draw.LineStyle{Color: soft, Width: 0.7}
	p.StrokeLine2(axis, p.Min.X, p.Min.Y, p.Max.X, p.Min.Y)
	for _, t := range p.x.ticks {
		x := p.at(t.Value, p.y.min).X
		long := vg.Length(4)
		if t.IsMinor() {
			long = 2
		}
		p.StrokeLine2(axis, x, p.Min.Y, x, p.Min.Y-long)
		if labels {
			p.FillText(centred(word), vg.Point{X: x, Y: p.Min.Y - 10}, t.Label)
		}
	}
}

// name writes what the vertical axis shows above its head.
func (p panel) name(s text.Style, words string) {
	p.FillText(s, vg.Point{X: p.Min.X, Y: p.Max.Y + panelHead/2}, words)
}

// below writes what the horizontal axis shows under its labels.
func (p panel) below(words string) {
	p.FillText(centred(letters(textSize, ink)), vg.Point{X: p.Center().X, Y: p.Min.Y - 22}, words)
}

// curve draws a line through the points that are numbers; others part it.
func (p panel) curve(s draw.LineStyle, x, y []float64) {
	var run []vg.Point
	flush := func() {
		if len(run) > 1 {
			p.StrokeLines(s, run)
		}
		run = nil
	}
	for i := range x {
		if math.IsNaN(y[i]) {
			flush()
			continue
		}
		run = append(run, p.at(x[i], y[i]))
	}
	flush()
}

// points draws a glyph at each point that is a number.
func (p panel) points(s draw.GlyphStyle, x, y []float64) {
	for i := range x {
		if !math.IsNaN(y[i]) {
			p.DrawGlyphNoClip(s, p.at(x[i], y[i]))
		}
	}
}

// area fills from a level to the values.
func (p panel) area(fill color.Color, level float64, x, y []float64) {
	outline := []vg.Point{p.at(x[0], level)}
	for i := range x {
		outline = append(outline, p.at(x[i], y[i]))
	}
	p.FillPolygon(fill, append(outline, p.at(x[len(x)-1], level)))
}

// box is the rectangle between two values of each axis.
func (p panel) box(x0, x1, y0, y1 float64) vg.Rectangle {
	a, b := p.at(x0, y0), p.at(x1, y1)
	return vg.Rectangle{
		Min: vg.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)},
		Max: vg.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)},
	}
}

// bar fills a box between two values of each axis.
func (p panel) bar(fill color.Color, h hatch, x0, x1, y0, y1 float64) {
	if r := p.box(x0, x1, y0, y1); r.Max.Y > r.Min.Y {
		shade(p.Canvas, r, fill, h)
	}
}

// level draws a line across the data at a value.
func (p panel) level(s draw.LineStyle, y float64) {
	at := p.at(p.x.min, y).Y
	p.StrokeLine2(s, p.Min.X, at, p.Max.X, at)
}

// tag is a label beside the data, on the right.
type tag struct {
	y     float64
	lines []string
	color color.Color
}

// tags writes labels to the right of the data at their values, pushed apart
// where they would touch, each with a thread to its value. The first of several
// lines is its head.
func (p panel) tags(from vg.Length, list ...tag) {
	const row = textSize + 2
	sort.SliceStable(list, func(i, j int) bool { return p.at(0, list[i].y).Y < p.at(0, list[j].y).Y })
	half := func(t tag) vg.Length { return row * vg.Length(len(t.lines)) / 2 }
	at := make([]vg.Length, len(list))
	floor := p.Min.Y - textSize/2
	for i, t := range list {
		at[i] = max(p.at(0, t.y).Y, floor+half(t))
		floor = at[i] + half(t)
	}
	ceiling := p.Max.Y + textSize
	for i := len(list) - 1; i >= 0; i-- {
		at[i] = min(at[i], ceiling-half(list[i]))
		ceiling = at[i] - half(list[i])
	}
	for i, t := range list {
		y := p.at(0, t.y).Y
		p.StrokeLines(draw.LineStyle{Color: t.color, Width: 0.7},
			[]vg.Point{{X: from + 2, Y: y}, {X: from + 6, Y: y}, {X: from + 11, Y: at[i]}, {X: from + 14, Y: at[i]}})
		for k, l := range t.lines {
			style := letters(textSize, ink)
			if k == 0 {
				style = letters(textSize, t.color)
			}
			if k == 0 && len(t.lines) > 1 {
				style = bold(style)
			}
			p.FillText(style, vg.Point{X: from + 17, Y: at[i] + half(t) - row*(vg.Length(k)+0.5)}, l)
		}
	}
}
