package plots

import (
	"encoding/json"
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/basin"
)

// drainedShare draws what the outlet does as more of the land is drained, wettest first.
func (w watershed) drainedShare() drawing {
	type side struct {
		name string
		of   func(p *basin.Point) float64
	}
	sides := []side{
		{"mean yearly peak (" + w.flowUnit() + ")", func(p *basin.Point) float64 { return w.flow(mean(p.Peaks.Year)) }},
		{"yearly flow (" + w.unit("mm") + ")", func(p *basin.Point) float64 { return w.value(mean(totals(p.Yearly)), "mm") }},
		{"flashiness (Richards-Baker)", func(p *basin.Point) float64 { return p.Flashiness }},
		{"days saturated a year", func(p *basin.Point) float64 { return p.Saturated }},
	}
	var x []float64
	for _, p := range w.r.Curve {
		x = append(x, 100*p.Drained)
	}
	ends := func(s side) string {
		return shortFlow(s.of(&w.r.Curve[0])) + " to " + shortFlow(s.of(&w.r.Curve[len(w.r.Curve)-1]))
	}
	pen := draw.LineStyle{Color: slate, Width: 1.2}
	return drawing{
		name: "drained-share", title: "The outlet as more of the land is drained", from: "curve.csv", height: 190,
		says: fmt.Sprintf("From %.0f to %.0f %% drained: mean yearly peak %s %s, yearly flow %s %s, days saturated %s a year.", x[0], x[len(x)-1],
			ends(sides[0]), w.flowUnit(), ends(sides[1]), w.unit("mm"), ends(sides[3])),
		notes: "Share of the drainable land that has tile, the wettest first, as far as whole units reach it. Each scale begins at 0. The network of ditches stays as it is." + bandNote(w.r),
		ink: func(sh *sheet) {
			for k, s := range sides {
				var y []float64
				most := 0.0
				for i := range w.r.Curve {
					y = append(y, s.of(&w.r.Curve[i]))
					most = max(most, y[i])
				}
				var at, bands [][]float64
				for i := range w.r.Bands {
					var drained, z []float64
					for j := range w.r.Bands[i].Curve {
						point := &w.r.Bands[i].Curve[j]
						drained, z = append(drained, 100*point.Drained), append(z, s.of(point))
						most = max(most, z[j])
					}
					at, bands = append(at, drained), append(bands, z)
				}
				p := sh.pane(k, len(sides), 2, 46, tickRoom+12, axis{0, 100, plot.LinearScale{}, marks(0, 100, 20)}, upFrom(most, 4))
				p.frame(true)
				p.name(fine(), s.name)
				if k >= 2 {
					p.FillText(centred(fine()), vg.Point{X: p.Center().X, Y: p.Min.Y - 21}, "drained share (%)")
				}
				for i, z := range bands {
					p.curve(draw.LineStyle{Color: soft, Width: 0.8, Dashes: []vg.Length{2, 2}}, at[i], z)
				}
				p.curve(pen, x, y)
				p.points(draw.GlyphStyle{Color: slate, Radius: 2, Shape: draw.CircleGlyph{}}, x, y)
			}
		},
	}
}

// bandNote says what the thin lines are.
func bandNote(r *basin.Result) string {
	if len(r.Bands) == 0 {
		return ""
	}
	var factors []string
	for _, b := range r.Bands {
		factors = append(factors, fmt.Sprintf("%g", b.Factor))
	}
	return " Thin: with every conductivity " + strings.Join(factors, " and ") + " times as great."
}

// waters are the looks of the parts of the water, those that the water balance of a
// field has too.
var waters = [3]struct {
	name string
	fill color.Color
	h    hatch
}{
	surfacePart: {"surface", orange, falling},
	drainPart:   {"drain", blue, plain},
	seepagePart: {"seepage", purple, rising},
}

// monthly draws the outlet's mean flow of each month by part, under two scenarios.
func (w watershed) monthly() drawing {
	scenarios := [2]*basin.Outcome{w.first(), w.other}
	most, largest := 0.0, [2]int{}
	for k, s := range scenarios {
		for m, q := range outlet(s).Monthly {
			most = max(most, w.value(total(q), "mm"))
			if total(q) > total(outlet(s).Monthly[largest[k]]) {
				largest[k] = m
			}
		}
	}
	x := axis{0.4, 12.6, plot.LinearScale{}, nil}
	for m, name := range monthNames {
		x.ticks = append(x.ticks, plot.Tick{Value: float64(m + 1), Label: name})
	}
	said := func(k int) string {
		return fmt.Sprintf("%s under %s", monthNames[largest[k]], quoted(scenarios[k]))
	}
	return drawing{
		name: "monthly", title: "Flow of each month at the outlet by its way", from: "monthly.csv", height: 130,
		says:  fmt.Sprintf("The month with the most flow: %s, %s.", said(0), said(1)),
		notes: "Means of the complete years over the land above the outlet. Surface: over the ground. Drain: through tile. Seepage: through the ground. The foot of a bar says which scenario it is.",
		ink: func(sh *sheet) {
			foot := func(c color.Color) sample {
				return func(d draw.Canvas) {
					r := d.Rectangle
					r.Min.Y, r.Max.Y = r.Min.Y+3, r.Min.Y+6
					shade(d, r, c, plain)
				}
			}
			entries := []entry{{clipped(w.first().Name) + " (left)", foot(rust)}, {clipped(w.other.Name) + " (right)", foot(slate)}}
			for _, one := range waters {
				entries = append(entries, entry{one.name, swatch(one.fill, one.h)})
			}
			sh.keyRows(entries...)
			p := sh.panel(sh.room(), 0, tickRoom+3, x, upFrom(most, 4))
			p.name(letters(textSize, ink), w.unit("mm")+" a month")
			bare := p
			bare.x.ticks = nil
			bare.frame(false)
			for k, s := range scenarios {
				for m, q := range outlet(s).Monthly {
					from := float64(m+1) - 0.38 + 0.40*float64(k)
					sum := 0.0
					for part, one := range waters {
						v := w.value(q[part], "mm")
						p.bar(one.fill, one.h, from, from+0.36, sum, sum+v)
						sum += v
					}
					r := p.box(from, from+0.36, 0, 0)
					r.Min.Y -= 4
					r.Max.Y--
					shade(p.Canvas, r, []color.Color{rust, slate}[k], plain)
				}
			}
			for _, t := range x.ticks {
				p.FillText(centred(fine()), vg.Point{X: p.at(t.Value, 0).X, Y: p.Min.Y - 12}, t.Label)
			}
		},
	}
}

// outlines are the rings of a unit: of each polygon the outer first, then its holes;
// longitude and latitude, degrees.
type outlines [][][][2]float64

// outlinesOf reads a GeoJSON geometry (RFC 7946), Polygon or MultiPolygon; others have
// no outline.
func outlinesOf(geometry []byte) (outlines, error) {
	var g struct {
		Type        string          `json:"type"`
		Coordinates json.RawMessage `json:"coordinates"`
	}
	if err := json.Unmarshal(geometry, &g); err != nil {
		return nil, err
	}
	var o outlines
	var err error
	switch g.Type {
	case "Polygon":
		o = make(outlines, 1)
		err = json.Unmarshal(g.Coordinates, &o[0])
	case "MultiPolygon":
		err = json.Unmarshal(g.Coordinates, &o)
	}
	return o, err
}

// doubled is twice the area of a ring, above 0 when it runs against the clock.
func doubled(ring [][2]float64) (sum float64) {
	for i := range ring {
		a, b := ring[i], ring[(i+1)%len(ring)]
		sum += a[0]*b[1] - b[0]*a[1]
	}
	return sum
}

// ringPath is an outline as a path to fill: holes run against their outer ring, so that
// they stay empty under either rule of filling.
func (o outlines) ringPath(at func(p [2]float64) vg.Point) vg.Path {
	var path vg.Path
	for _, polygon := range o {
		for k, ring := range polygon {
			n := len(ring)
			for i := range ring {
				j := i
				if (doubled(ring) > 0) != (k == 0) {
					j = n - 1 - i
				}
				if i == 0 {
					path.Move(at(ring[j]))
				} else {
					path.Line(at(ring[j]))
				}
			}
			if n > 0 {
				path.Close()
			}
		}
	}
	return path
}

// unitMap draws the units by the days saturated that the second scenario takes from
// the first. Without outlines there is none.
func (w watershed) unitMap() (drawing, bool, error) {
	units := w.r.Basin.Units
	shapes := make([]outlines, len(units))
	less := make([]float64, len(units))
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	drawn, fewer, area := 0, 0.0, 0.0
	for i, u := range units {
		less[i] = w.first().Units[i].Saturated - w.other.Units[i].Saturated
		fewer, area = fewer+less[i]*u.Area, area+u.Area
		if u.Geometry == nil {
			continue
		}
		var err error
		if shapes[i], err = outlinesOf(u.Geometry); err != nil {
			return drawing{}, false, fmt.Errorf("map: outline of unit %q: %w", u.ID, err)
		}
		if len(shapes[i]) > 0 {
			drawn++
		}
		for _, polygon := range shapes[i] {
			for _, ring := range polygon {
				for _, p := range ring {
					for c := range p {
						low[c], high[c] = min(low[c], p[c]), max(high[c], p[c])
					}
				}
			}
		}
	}
	if drawn == 0 || !(high[0] > low[0] && high[1] > low[1]) {
		return drawing{}, false, nil
	}
	notes := "Days saturated a year under " + quoted(w.first()) + " less those under " + quoted(w.other) + ". North is up. Reaches are not drawn."
	if drawn < len(units) {
		notes += fmt.Sprintf(" %d of %s have no outline.", len(units)-drawn, count(len(units), "unit"))
	}
	c := classesOf([][]float64{less}, func(v float64) float64 { return v }, true)
	squeeze := math.Cos((low[1] + high[1]) / 2 * math.Pi / 180) // of a degree of longitude against one of latitude
	return drawing{
		name: "map", title: "Days saturated that go, by unit", from: "units.csv", height: 190, notes: notes,
		says: fmt.Sprintf("From %s to %s, days saturated a year change by %s on the mean of the land.", quoted(w.first()), quoted(w.other), signed(-fewer/area)),
		ink: func(sh *sheet) {
			c.key(sh)
			wide, high0 := vg.Length((high[0]-low[0])*squeeze), vg.Length(high[1]-low[1])
			scale := min((sh.Max.X-2*edge)/wide, (sh.room()-4)/high0)
			left := (sh.Max.X - wide*scale) / 2
			at := func(p [2]float64) vg.Point {
				return vg.Point{X: left + vg.Length((p[0]-low[0])*squeeze)*scale, Y: sh.foot + 2 + vg.Length(p[1]-low[1])*scale}
			}
			for i, o := range shapes {
				if len(o) == 0 {
					continue
				}
				path := o.ringPath(at)
				sh.SetColor(c.shade(less[i]))
				sh.Fill(path)
				sh.SetLineStyle(draw.LineStyle{Color: soft, Width: 0.6})
				sh.Stroke(path)
			}
		},
	}, true, nil
}
