package plots

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"html/template"
	"image/color"
	"regexp"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// pageWidth is the width of a figure on a page, points: half a sheet of paper, or the
// whole of a small screen, with letters that can still be read.
const pageWidth vg.Length = 300

// inks are the colours of figures by the names under which the page's style sheet
// knows them, so that a figure follows the colour scheme of its reader.
var inks = func() map[color.NRGBA]string {
	names := map[color.NRGBA]string{
		white: "paper", ink: "ink", soft: "soft", faint: "faint", rust: "rust", slate: "slate",
		paleSlate: "pale-slate", midSlate: "mid-slate",
	}
	for i := range gains {
		names[gains[i]], names[harms[i]] = fmt.Sprintf("gain-%d", i+1), fmt.Sprintf("harm-%d", i+1)
	}
	return names
}()

var hexColour = regexp.MustCompile(`#[0-9A-Fa-f]{6}\b`)

// onPage renders a drawing without its words, for use within a page.
func (d decision) onPage(one drawing) (template.HTML, error) {
	const key, top, bottom = 18, 9, 6 // points; of the sheet's margins a page shows none
	height := one.height + key
	vector := vgsvg.NewWith(vgsvg.UseWH(pageWidth, height))
	one.ink(newSheet(draw.New(vector)))
	var b bytes.Buffer
	if _, err := vector.WriteTo(&b); err != nil {
		return "", fmt.Errorf("figure %s: SVG: %w", one.name, err)
	}
	_, rest, found := strings.Cut(b.String(), "<svg ")
	_, body, closed := strings.Cut(rest, ">")
	if !found || !closed {
		return "", errors.New("the canvas wrote no svg element")
	}
	names := map[string]string{}
	for c, name := range inks {
		names[fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B)] = name
	}
	body = hexColour.ReplaceAllStringFunc(body, func(hex string) string {
		if name, ok := names[strings.ToUpper(hex)]; ok {
			return "var(--" + name + "," + hex + ")"
		}
		return hex
	})
	body = strings.ReplaceAll(body, "font-family:Liberation Sans;font-variant:none;", "")
	return template.HTML(fmt.Sprintf(`<svg role="img" aria-labelledby="title-%s" viewBox="0 %d %.0f %.0f"><title id="title-%s">%s</title>%s`,
		one.name, top, pageWidth.Points(), height.Points()-top-bottom, one.name, html.EscapeString(one.title), body)), nil
}
