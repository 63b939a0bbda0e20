package plots

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/soil"
)

// Colours of the ground: pale for sand, greyer with clay.
var (
	sandFill = rgb(0xEBD7A8)
	loamFill = rgb(0xC9A67C)
	siltFill = rgb(0xB9B48C)
	clayFill = rgb(0x9C98A8)
	rockFill = rgb(0x6B7078)
)

// earth is how a texture looks: clayey from 35 % clay, as in the particle-size
// classes of Soil Taxonomy, then silty from 50 % silt and sandy from 70 % sand.
func earth(m soil.Material) (name string, fill color.Color, h hatch) {
	switch {
	case m.Clay >= 35:
		return "clayey", clayFill, crossed
	case m.Silt >= 50:
		return "silty", siltFill, level
	case m.Sand >= 70:
		return "sandy", sandFill, plain
	}
	return "loamy", loamFill, rising
}

// drawProfile draws the horizons to scale with what is known of each beside them.
func (s ground) drawProfile() (Figure, error) {
	const title = "The soil to scale"
	const pit vg.Length = 150 // width of the column drawn
	height := max(330, 130+40*vg.Length(len(s.Materials)))
	return render("soil-profile", title, height, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, s.Facts, s.stamp())
		sh.notes("K: saturated conductivity with structure. Drains: pore space between saturation and "+s.units.Format(1, "m")+" suction.", s.origin())
		bottom := s.Materials[len(s.Materials)-1].Bottom
		end, stops := bottom, !math.IsNaN(s.Restrictive)
		if stops && s.Restrictive >= bottom-1e-9 {
			end = 1.06 * s.Restrictive // room for what lies beneath the soil
		}
		looks := func(m soil.Material) (string, color.Color, hatch) {
			if stops && m.Top >= s.Restrictive-1e-9 {
				return "stops water", rockFill, falling
			}
			return earth(m)
		}
		var keys []entry
		shown := map[string]bool{}
		for _, m := range s.Materials {
			if name, fill, h := looks(m); !shown[name] {
				shown[name] = true
				keys = append(keys, entry{name, swatch(fill, h)})
			}
		}
		if end > bottom {
			keys = append(keys, entry{"stops water", swatch(rockFill, falling)})
		}
		sh.key(keys...)
		beside := sh.Max.X - edge - dataLeft - pit
		across := axis{0, 1, plot.LinearScale{}, nil}
		p := sh.panel(sh.room(), beside, 8, across, downTo(0, s.value(end, "m"), 8))
		p.frame(false)
		depth := func(m float64) float64 { return s.value(m, "m") }
		var tags []tag
		for _, m := range s.Materials {
			_, fill, h := looks(m)
			p.bar(fill, h, 0, 1, depth(m.Top), depth(m.Bottom))
			p.level(draw.LineStyle{Color: ink, Width: 0.8}, depth(m.Bottom))
			tags = append(tags, tag{depth(m.Top+m.Bottom) / 2, s.described(m), ink})
		}
		if end > bottom {
			p.bar(rockFill, falling, 0, 1, depth(s.Restrictive), depth(end))
		}
		if stops {
			p.level(draw.LineStyle{Color: ink, Width: 2.4}, depth(s.Restrictive))
			tags = append(tags, tag{depth(s.Restrictive), []string{"water is stopped at " + s.units.Format(s.Restrictive, "m")}, rust})
		}
		p.name(letters(textSize, ink), "depth ("+s.unit("m")+")")
		p.tags(p.Max.X, tags...)
	})
}

// described is what is known of a horizon, in lines.
func (s ground) described(m soil.Material) []string {
	from, u := s.units.Value(m.Top, "m")
	to, _ := s.units.Value(m.Bottom, "m")
	head := fmt.Sprintf("%.2f–%.2f %s", from, to, u)
	if m.Name != "" {
		head = m.Name + ", " + head
	}
	texture := "texture not given"
	if !math.IsNaN(m.Sand) {
		texture = fmt.Sprintf("sand %.0f, silt %.0f, clay %.0f %%", m.Sand, m.Silt, m.Clay)
	}
	return []string{
		head + ": " + m.Texture,
		fmt.Sprintf("%s; organic matter %.1f %%; %.2f Mg/m3", texture, m.Organic, m.BulkDensity),
		fmt.Sprintf("K %s; drains %.3f m3/m3; ECe %.1f dS/m", s.units.Format(m.Ksat*86400, "m/d"), m.Curve.ThetaS-m.FieldCapacity, m.SalinityEC),
	}
}
