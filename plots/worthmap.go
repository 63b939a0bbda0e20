package plots

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/worth"
)

// Shades of the maps on either side of nothing, the fainter the nearer to it.
var gains, harms = ramp(0xE6EDF4, 0x7FA1C6), ramp(0xFAEADF, 0xDB9560)

// ramp is a row of even shades between two colours.
func ramp(from, to uint32) []color.NRGBA {
	const shades = 6
	list := make([]color.NRGBA, shades)
	a, b := rgb(from), rgb(to)
	mix := func(x, y uint8, i int) uint8 { return uint8((int(x)*(shades-1-i) + int(y)*i) / (shades - 1)) }
	for i := range list {
		list[i] = color.NRGBA{R: mix(a.R, b.R, i), G: mix(a.G, b.G, i), B: mix(a.B, b.B, i), A: 255}
	}
	return list
}

// worthMap draws the net present value of designs over depth and spacing.
func (d decision) worthMap() drawing {
	m := d.w.Map
	best := fmt.Sprintf("Best on the map: %s deep, %s apart, %s", d.units.Format(m.Best.Depth, "m"), d.units.Format(m.Best.Spacing, "m"), dollars(m.Best.NPV, d.units))
	if n := len(m.Flat); n > 1 {
		best += fmt.Sprintf("; %d designs within the outline are about as good", n)
	}
	return d.designs("map-npv", "Net present value by depth and spacing", best+".", m.NPV, "USD/ha", true)
}

// wetMap draws the days saturated with tile over depth and spacing.
func (d decision) wetMap() drawing {
	says := fmt.Sprintf("The best has %s days saturated a year", round3(d.w.Map.Best.Saturated))
	if l, err := d.line("days_saturated"); err == nil {
		says += fmt.Sprintf("; the field as it lies has %s", round3(l.AsItLies))
	}
	return d.designs("map-saturated", "Days saturated with tile by depth and spacing", says+".", d.w.Map.Saturated, "d", false)
}

// designs draws a value of each design as a shaded cell with its number. Depth grows
// downward. good says whether more of it is good.
func (d decision) designs(name, title, says string, values [][]float64, si string, good bool) drawing {
	m := d.w.Map
	notes := "Square: the best. Outline: designs within a tenth of the outlay of the best."
	if d.r.Field.Tile != nil {
		notes += map[bool]string{true: " Dot: the design judged here.", false: " The design judged here lies outside the map."}[d.onMap()]
	}
	if m.Step != "" {
		notes += " " + strings.ToUpper(m.Step[:1]) + strings.TrimSuffix(m.Step[1:], ".") + "."
	}
	c := classesOf(values, func(v float64) float64 { return d.value(v, si) }, good)
	return drawing{
		name: name, title: title, says: says, notes: notes, from: "map.csv", height: 114,
		ink: func(sh *sheet) {
			c.key(sh)
			rows, columns := float64(len(m.Depths)), float64(len(m.Spacings))
			x := axis{0, columns, plot.LinearScale{}, nil}
			y := axis{0, rows, inverted, nil}
			for k, v := range m.Spacings {
				x.ticks = append(x.ticks, plot.Tick{Value: float64(k) + 0.5, Label: every(k, len(m.Spacings), d.value(v, "m"))})
			}
			for k, v := range m.Depths {
				y.ticks = append(y.ticks, plot.Tick{Value: float64(k) + 0.5, Label: every(k, len(m.Depths), d.value(v, "m"))})
			}
			p := sh.panel(sh.room(), 0, 2*tickRoom-6, x, y)
			p.name(letters(textSize, ink), fmt.Sprintf("%s; depth of tile (%s)", d.unit(si), d.unit("m")))
			p.below("spacing of laterals (" + d.unit("m") + ")")
			p.frame(true)
			for i, row := range values {
				for k, v := range row {
					p.cell(i, k, c.shade(d.value(v, si)), round3(d.value(v, si)))
				}
			}
			p.outline(m)
			// Where the cells have room for numbers, marks stand beside them.
			cell := p.box(0, 1, 0, 1)
			aside := vg.Length(0)
			if wide := cell.Max.X - cell.Min.X; wide > 32 {
				aside = wide/2 - 6.5
			}
			mark := func(g draw.GlyphStyle, spacing, depth float64) {
				x, y := place(m.Spacings, spacing), place(m.Depths, depth)
				at := p.at(x, y)
				if x-math.Floor(x) == 0.5 && y-math.Floor(y) == 0.5 {
					at.X += aside
				}
				p.DrawGlyphNoClip(g, at)
			}
			mark(draw.GlyphStyle{Color: ink, Radius: 4.8, Shape: openSquare{}}, m.Best.Spacing, m.Best.Depth)
			if t := d.r.Field.Tile; d.onMap() {
				mark(draw.GlyphStyle{Color: white, Radius: 3.2, Shape: draw.CircleGlyph{}}, t.Spacing, t.Depth)
				mark(draw.GlyphStyle{Color: ink, Radius: 2.4, Shape: draw.CircleGlyph{}}, t.Spacing, t.Depth)
			}
		},
	}
}

// every writes a depth or spacing on an axis, every second one where there are many.
func every(k, of int, x float64) string {
	if of > 8 && k%2 == 1 {
		return ""
	}
	return fmt.Sprintf("%.3g", x)
}

// classes are even steps of a value with zero at an edge, six at most on each side.
type classes struct {
	step      float64
	low, high int // of the first step and after the last, in steps from zero
	good      bool
}

// classesOf finds the steps that hold all values.
func classesOf(values [][]float64, in func(float64) float64, good bool) classes {
	low, high := math.Inf(1), math.Inf(-1)
	for _, row := range values {
		for _, v := range row {
			if v = in(v); !math.IsNaN(v) {
				low, high = min(low, v), max(high, v)
			}
		}
	}
	if low > high {
		low, high = 0, 0
	}
	span := max(high-low, high/6, -low/6, 1e-9)
	for n := 5.0; ; n -= 0.5 {
		step := round(span / n)
		c := classes{step, int(math.Floor(low / step)), int(math.Floor(high/step)) + 1, good}
		if c.high-c.low <= 6 || n <= 2 {
			return c
		}
	}
}

// shade of a value.
func (c classes) shade(v float64) color.Color {
	if math.IsNaN(v) {
		return white
	}
	return c.fill(int(math.Floor(v / c.step)))
}

// fill is the shade of a step: the steps of a side share out its shades, the nearest
// to zero the faintest.
func (c classes) fill(k int) color.Color {
	ramp, at, of := gains, k-max(c.low, 0), c.high-max(c.low, 0)
	if k < 0 {
		last := min(c.high, 0) // the step after the last below zero
		at, of = last-1-k, last-c.low
	}
	if (k >= 0) != c.good {
		ramp = harms
	}
	if of < 2 {
		return ramp[at]
	}
	return ramp[min(at, of-1)*(len(ramp)-1)/(of-1)]
}

// key writes a box for each step with its lower edge.
func (c classes) key(sh *sheet) {
	const wide, high = 44, 10
	x := edge
	for k := c.low; k < c.high; k++ {
		r := vg.Rectangle{Min: vg.Point{X: x, Y: sh.top - high}, Max: vg.Point{X: x + wide, Y: sh.top}}
		shade(sh.Canvas, r, c.fill(k), plain)
		words := "≥ " + round3(float64(k)*c.step)
		if k == c.low {
			words = "< " + round3(float64(k+1)*c.step)
		}
		sh.FillText(centred(letters(noteSize, ink)), vg.Point{X: x + wide/2, Y: sh.top - high/2}, words)
		x += wide + 1.5
	}
	sh.top -= high + 5
}

// cell fills a place of the map and writes its number where there is room.
func (p panel) cell(i, k int, fill color.Color, words string) {
	r := p.box(float64(k), float64(k+1), float64(i), float64(i+1))
	r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = r.Min.X+0.6, r.Min.Y+0.6, r.Max.X-0.6, r.Max.Y-0.6
	shade(p.Canvas, r, fill, plain)
	for _, size := range []vg.Length{textSize, noteSize} {
		if style := letters(size, ink); style.Width(words) < r.Max.X-r.Min.X-2 && r.Max.Y-r.Min.Y > size {
			p.FillText(centred(style), vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}, words)
			return
		}
	}
}

// outline draws the edge of the flat region.
func (p panel) outline(m *worth.Map) {
	flat := map[[2]int]bool{}
	for _, f := range m.Flat {
		for i, depth := range m.Depths {
			for k, spacing := range m.Spacings {
				if f.Depth == depth && f.Spacing == spacing {
					flat[[2]int{i, k}] = true
				}
			}
		}
	}
	pen := draw.LineStyle{Color: ink, Width: 1.6}
	for i := range m.Depths {
		for k := range m.Spacings {
			if !flat[[2]int{i, k}] {
				continue
			}
			r := p.box(float64(k), float64(k+1), float64(i), float64(i+1))
			for _, side := range []struct {
				to             [2]int
				x0, y0, x1, y1 vg.Length
			}{
				{[2]int{i - 1, k}, r.Min.X, r.Max.Y, r.Max.X, r.Max.Y}, {[2]int{i + 1, k}, r.Min.X, r.Min.Y, r.Max.X, r.Min.Y},
				{[2]int{i, k - 1}, r.Min.X, r.Min.Y, r.Min.X, r.Max.Y}, {[2]int{i, k + 1}, r.Max.X, r.Min.Y, r.Max.X, r.Max.Y},
			} {
				if !flat[side.to] {
					p.StrokeLine2(pen, side.x0, side.y0, side.x1, side.y1)
				}
			}
		}
	}
}

// onMap says whether the design that is judged lies within the map.
func (d decision) onMap() bool {
	t := d.r.Field.Tile
	return t != nil && !math.IsNaN(place(d.w.Map.Spacings, t.Spacing)) && !math.IsNaN(place(d.w.Map.Depths, t.Depth))
}

// place is where a value stands among ascending cells, in cells from the first one's
// edge; NaN beyond half a cell outside.
func place(cells []float64, v float64) float64 {
	const close = 0.02 // of the value: what is written in round feet
	for i, c := range cells {
		if math.Abs(v-c) <= close*c {
			return float64(i) + 0.5
		}
		if i > 0 && v > cells[i-1] && v < c {
			return float64(i) - 0.5 + (v-cells[i-1])/(c-cells[i-1])
		}
	}
	return math.NaN()
}
