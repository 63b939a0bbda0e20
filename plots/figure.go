package plots

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"mottle/sim/compare"
	"mottle/sim/unit"
)

// Figure is one figure in both formats.
type Figure struct {
	Name  string // stable, fit for a file name
	Title string // as it stands in the figure
	SVG   []byte // stands alone or within a page; text stays text
	PNG   []byte // two pixels to each of the page's
}

// Compare draws the figures of a comparison: "days-saturated", "year-median",
// "year-wettest", "water-balance", "peak-flow" and "root-zone-salt", in this
// order. The two years are chosen by days saturated as the field lies; of a short
// record they may be one. With us the axes carry US customary units. The same result gives the
// same bytes. It is an error when the record holds no complete calendar year or
// the result lacks a measure that a figure shows.
func Compare(r *compare.Result, us bool) ([]Figure, error) {
	if len(r.Years) == 0 {
		return nil, errors.New("figures: the record holds no complete calendar year; allowed: at least one, 1 January to 31 December")
	}
	s := subject{r: r}
	if us {
		s.units = unit.US
	}
	saturated, err := s.line("days_saturated")
	if err != nil {
		return nil, err
	}
	median, wettest := nearestMedian(saturated.YearsAsItLies), largest(saturated.YearsAsItLies)
	var figures []Figure
	for _, drawn := range []func() (Figure, error){
		s.daysSaturated,
		func() (Figure, error) { return s.oneYear("year-median", "nearest the median of", median) },
		func() (Figure, error) { return s.oneYear("year-wettest", "with the most", wettest) },
		s.waterBalance,
		s.peakFlow,
		s.rootZoneSalt,
	} {
		f, err := drawn()
		if err != nil {
			return nil, err
		}
		figures = append(figures, f)
	}
	return figures, nil
}

// width of every figure, points: 800 pixels of a page.
const width vg.Length = 600

const (
	pagePixels  = 96.0 / 72 // of a page to the point
	pngDotsInch = 2 * 96
)

// render draws a figure of a height in both formats.
func render(name, title string, height vg.Length, ink func(c draw.Canvas)) (Figure, error) {
	f := Figure{Name: name, Title: title}
	vector := vgsvg.NewWith(vgsvg.UseWH(width, height))
	ink(draw.New(vector))
	var b bytes.Buffer
	if _, err := vector.WriteTo(&b); err != nil {
		return Figure{}, fmt.Errorf("figure %s: SVG: %w", name, err)
	}
	var err error
	if f.SVG, err = forPages(b.String(), title, height); err != nil {
		return Figure{}, fmt.Errorf("figure %s: SVG: %w", name, err)
	}
	raster := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(pngDotsInch))}
	ink(draw.New(raster))
	b.Reset()
	if _, err := raster.WriteTo(&b); err != nil {
		return Figure{}, fmt.Errorf("figure %s: PNG: %w", name, err)
	}
	f.PNG = bytes.Clone(b.Bytes())
	return f, nil
}

// forPages gives the SVG its role and title for those who listen (W3C SVG 1.1,
// section 5.4; WAI-ARIA 1.1, role img), a size that shrinks with the page, and
// fonts that stand in where Liberation Sans is missing, of the same widths first.
func forPages(svg, title string, height vg.Length) ([]byte, error) {
	_, rest, found := strings.Cut(svg, "<svg ")
	_, body, closed := strings.Cut(rest, ">")
	if !found || !closed {
		return nil, errors.New("the canvas wrote no svg element")
	}
	body = strings.ReplaceAll(body, "font-family:Liberation Sans;", "font-family:Liberation Sans,Arial,Helvetica,sans-serif;")
	head := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" role="img" width="%.0f" height="%.0f" viewBox="0 0 %.0f %.0f" style="max-width:100%%;height:auto">
<title>%s</title>
<rect width="100%%" height="100%%" fill="#FFFFFF"/>`,
		width.Points()*pagePixels, height.Points()*pagePixels, width.Points(), height.Points(), html.EscapeString(title))
	return []byte(head + body), nil
}
