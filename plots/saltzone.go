package plots

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/crop"
	"mottle/sim/salt"
)

// rootZoneSalt draws the salt of the root zone through the years against what
// the crops of the rotation bear.
func (s subject) rootZoneSalt() (Figure, error) {
	l, err := s.line("root_zone_ece")
	if err != nil {
		return Figure{}, err
	}
	const title = "Salt in the root zone, year by year"
	a, b := s.values(l.YearsAsItLies, l.Unit), s.values(l.YearsWithTile, l.Unit)
	crops := byThreshold(s.r.Field.Rotation)
	most := 0.0
	for i := range a {
		for _, v := range []float64{a[i], b[i]} {
			if v > most { // false for a year without a value
				most = v
			}
		}
	}
	if len(crops) > 0 {
		most = math.Max(most, crops[0].Threshold)
	}
	vertical := upFrom(most*1.1, 6)
	return render("root-zone-salt", title, 330, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, s.verdict("Mean", l), s.stamp())
		note := "ECe: electrical conductivity of the saturation extract, mean over the crop’s rooting depth and season."
		var above []string
		var tags []tag
		for _, k := range crops {
			if k.Threshold > vertical.max {
				above = append(above, fmt.Sprintf("%s %s %s", k.Crop, short(k.Threshold), l.Unit))
				continue
			}
			tags = append(tags, tag{k.Threshold, []string{k.Crop, "yield falls above " + short(k.Threshold)}, soft})
		}
		if len(above) > 0 {
			note += " Above this scale: threshold of " + strings.Join(above, ", ") + "."
		}
		sh.notes(note, s.source())
		sh.key(
			entry{lies.name, stroke(lies.line, lies.glyph)},
			entry{tiled.name, stroke(tiled.line, tiled.glyph)},
			entry{"crop’s threshold", stroke(threshold, draw.GlyphStyle{})})
		p := sh.panel(sh.room(), 118, tickRoom, years(s.r.Years[0], s.r.Years[len(s.r.Years)-1]), vertical)
		p.frame(true)
		p.name(letters(textSize, ink), "ECe ("+s.unit(l.Unit)+")")
		for _, t := range tags {
			p.level(threshold, t.y)
		}
		x := make([]float64, len(s.r.Years))
		for i, y := range s.r.Years {
			x[i] = float64(y)
		}
		p.curve(lies.line, x, a)
		p.curve(tiled.line, x, b)
		p.points(lies.glyph, x, a)
		p.points(tiled.glyph, x, b)
		p.tags(p.Max.X, tags...)
	})
}

var threshold = draw.LineStyle{Color: soft, Width: 1, Dashes: []vg.Length{1.5, 2}}

// byThreshold lists the crops of a rotation once each, the most tender first.
func byThreshold(rotation []crop.Kind) []salt.Tolerance {
	var crops []salt.Tolerance
	seen := map[string]bool{}
	for _, k := range rotation {
		if !seen[k.Name] {
			seen[k.Name] = true
			if t, err := salt.ToleranceOf(k.Name); err == nil {
				crops = append(crops, t)
			}
		}
	}
	sort.SliceStable(crops, func(i, j int) bool { return crops[i].Threshold < crops[j].Threshold })
	return crops
}
