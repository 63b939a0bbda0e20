package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// hatch is a pattern over a fill, so that fills part without colour.
type hatch int

const (
	plain hatch = iota
	rising
	falling
	level
	crossed
)

// slopes of the lines of each hatch.
var slopes = [...][]vg.Length{rising: {1}, falling: {-1}, level: {0}, crossed: {1, -1}}

// shade fills a box and hatches it.
func shade(c draw.Canvas, r vg.Rectangle, fill color.Color, h hatch) {
	c.FillPolygon(fill, []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}})
	hatching(c, h, r)
}

// hatching draws the white lines of a hatch within boxes, in one stroke. The lines
// hang on the canvas, not on a box, so that they run on through neighbours.
func hatching(c draw.Canvas, h hatch, boxes ...vg.Rectangle) {
	const gap = 4
	var path vg.Path
	for _, slope := range slopes[h] {
		for _, r := range boxes {
			inside := draw.Canvas{Canvas: c.Canvas, Rectangle: r}
			low := min(r.Min.Y-slope*r.Min.X, r.Min.Y-slope*r.Max.X)
			high := max(r.Max.Y-slope*r.Min.X, r.Max.Y-slope*r.Max.X)
			for k := int(low / gap); vg.Length(k)*gap <= high; k++ {
				rise := vg.Length(k) * gap
				from, to := vg.Point{X: r.Min.X, Y: slope*r.Min.X + rise}, vg.Point{X: r.Max.X, Y: slope*r.Max.X + rise}
				for _, l := range inside.ClipLinesXY([]vg.Point{from, to}) {
					path.Move(l[0])
					path.Line(l[1])
				}
			}
		}
	}
	if len(path) > 0 {
		c.SetLineStyle(draw.LineStyle{Color: white, Width: 0.8})
		c.Stroke(path)
	}
}
