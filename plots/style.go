package plots

import (
	"image/color"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// The house's own colours.
var (
	white = rgb(0xFFFFFF)
	ink   = rgb(0x24292F)
	soft  = rgb(0x5B636D) // for what stands beside the data
	faint = rgb(0xE3E6EA) // the grid
	rust  = rgb(0xB65A1F)
	slate = rgb(0x2C4664)
)

// Colours of Okabe and Ito (2008), Color Universal Design.
var (
	orange    = rgb(0xE69F00)
	skyBlue   = rgb(0x56B4E9)
	blue      = rgb(0x0072B2)
	purple    = rgb(0xCC79A7)
	paleBlue  = rgb(0xCFE8F8) // sky blue on white, a quarter
	paleGreen = rgb(0xA6DCCB) // bluish green 0x009E73 on white, a third
)

// twin is how one of the pair looks.
type twin struct {
	name  string
	line  draw.LineStyle
	glyph draw.GlyphStyle
}

var (
	lies = twin{"as it lies",
		draw.LineStyle{Color: rust, Width: 1.4},
		draw.GlyphStyle{Color: rust, Radius: 3, Shape: draw.CircleGlyph{}}}
	tiled = twin{"with tile",
		draw.LineStyle{Color: slate, Width: 1.4, Dashes: []vg.Length{4.5, 2}},
		draw.GlyphStyle{Color: slate, Radius: 3, Shape: openSquare{}}}
)

// openSquare is a white square with an outline.
type openSquare struct{}

// DrawGlyph draws the square about a point.
func (openSquare) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	r := s.Radius * 0.9
	box := []vg.Point{{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y - r}, {X: at.X + r, Y: at.Y + r}, {X: at.X - r, Y: at.Y + r}}
	c.FillPolygon(white, box)
	c.StrokeLines(draw.LineStyle{Color: s.Color, Width: 1.2}, append(box, box[0], box[1]))
}

// middle puts a line of text with the middle of its capitals at a point; its own
// centre counts room for descenders and stands too low.
const middle draw.YAlignment = -0.40

// letters is a text style, left-aligned on its middle line.
func letters(size vg.Length, c color.Color) text.Style {
	return text.Style{Color: c, Handler: plot.DefaultTextHandler, XAlign: text.XLeft, YAlign: middle,
		Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}}
}

func bold(s text.Style) text.Style {
	s.Font.Weight = xfont.WeightBold
	return s
}

func centred(s text.Style) text.Style {
	s.XAlign = text.XCenter
	return s
}

func toTheLeft(s text.Style) text.Style {
	s.XAlign = text.XRight
	return s
}

// Sizes of letters, points.
const (
	titleSize vg.Length = 13
	textSize  vg.Length = 9
	noteSize  vg.Length = 7.5
)
