package plots

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Margins of the sheet and of the data within it, points.
const (
	edge     vg.Length = 12
	dataLeft vg.Length = 46
)

// sheet is a figure's paper: words fill it from the top and from the foot, the
// panels take the room between.
type sheet struct {
	draw.Canvas
	top, foot vg.Length
}

func newSheet(c draw.Canvas) *sheet {
	return &sheet{c, c.Max.Y - edge, c.Min.Y + edge - 2}
}

// heading writes the title, what the figure says, and a stamp in the corner.
func (s *sheet) heading(title, says, stamp string) {
	s.FillText(bold(toTheLeft(letters(noteSize, soft))), vg.Point{X: s.Max.X - edge, Y: s.top - titleSize/2}, stamp)
	s.FillText(bold(letters(titleSize, ink)), vg.Point{X: edge, Y: s.top - titleSize/2}, title)
	s.top -= titleSize + 5
	style := letters(textSize, soft)
	for _, l := range wrap(style, says, s.Max.X-2*edge) {
		s.FillText(style, vg.Point{X: edge, Y: s.top - textSize/2}, l)
		s.top -= textSize + 3
	}
	s.top -= 5
}

// notes writes what one must know to read the figure, and its source, at the foot.
func (s *sheet) notes(paragraphs ...string) {
	style := letters(noteSize, soft)
	var lines []string
	for _, p := range paragraphs {
		lines = append(lines, wrap(style, p, s.Max.X-2*edge)...)
	}
	const row = noteSize + 2.5
	head := s.foot + row*vg.Length(len(lines))
	for i, l := range lines {
		s.FillText(style, vg.Point{X: edge, Y: head - row*vg.Length(i+1) + noteSize/2}, l)
	}
	s.foot = head + 4
}

// sample draws what a key entry stands for into a small box.
type sample func(c draw.Canvas)

// entry is one word of the key.
type entry struct {
	name string
	show sample
}

// key writes a row of samples and their names.
func (s *sheet) key(entries ...entry) {
	const wide, high = 20, 9
	style := letters(textSize, ink)
	x := edge
	for _, e := range entries {
		c := s.Canvas
		c.Rectangle = vg.Rectangle{Min: vg.Point{X: x, Y: s.top - high}, Max: vg.Point{X: x + wide, Y: s.top}}
		e.show(c)
		x += wide + 5
		s.FillText(style, vg.Point{X: x, Y: s.top - high/2}, e.name)
		x += style.Width(e.name) + 16
	}
	s.top -= high + 8
}

// panel takes a share of the height between the words, from the top down, and
// leaves room on the right and below for labels.
func (s *sheet) panel(height, right, below vg.Length, x, y axis) panel {
	c := s.Canvas
	c.Rectangle = vg.Rectangle{
		Min: vg.Point{X: dataLeft, Y: s.top - height + below},
		Max: vg.Point{X: s.Max.X - edge - right, Y: s.top - panelHead},
	}
	s.top -= height
	return panel{c, x, y}
}

// room is the height that is left for panels.
func (s *sheet) room() vg.Length { return s.top - s.foot }

// wrap breaks words into lines of a width.
func wrap(style text.Style, words string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(words) {
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && style.Width(longer) > width {
			lines = append(lines, line)
			longer = w
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// swatch is a sample of a filled area.
func swatch(fill color.Color, h hatch) sample {
	return func(c draw.Canvas) { shade(c, c.Rectangle, fill, h) }
}

// stroke is a sample of a line, with a glyph when it has one.
func stroke(l draw.LineStyle, g draw.GlyphStyle) sample {
	return func(c draw.Canvas) {
		y := (c.Min.Y + c.Max.Y) / 2
		c.StrokeLine2(l, c.Min.X, y, c.Max.X, y)
		c.DrawGlyph(g, vg.Point{X: (c.Min.X + c.Max.X) / 2, Y: y})
	}
}
