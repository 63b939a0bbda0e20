package plots

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/unit"
	"mottle/soil"
)

// Profile is a soil as its figures show it.
type Profile struct {
	Name        string // of the field or the soil
	Source      string // where its horizons come from
	Invented    bool
	Restrictive float64         // depth of the layer that stops water, m; NaN when none is known
	Facts       string          // what else is known, one sentence, "" for nothing
	Materials   []soil.Material // derived by the relation chosen
	Other       []soil.Material // the same horizons by another relation, to stand beside
}

// Soil draws the figures of a profile: "soil-profile", "soil-retention",
// "soil-conductivity" and "soil-drainable", in this order. With us the axes carry
// US customary units. The same profile gives the same bytes. A profile without a
// horizon is an error.
func Soil(p Profile, us bool) ([]Figure, error) {
	if len(p.Materials) == 0 {
		return nil, errors.New("figures: the soil has no horizon; allowed: at least one")
	}
	s := ground{Profile: p}
	if us {
		s.units = unit.US
	}
	var figures []Figure
	for _, drawn := range []func() (Figure, error){s.drawProfile, s.drawRetention, s.drawConductivity, s.drawDrainable} {
		f, err := drawn()
		if err != nil {
			return nil, err
		}
		figures = append(figures, f)
	}
	return figures, nil
}

// ground is what the figures of a soil are about.
type ground struct {
	Profile
	units unit.System
}

func (s ground) value(x float64, si string) float64 { v, _ := s.units.Value(x, si); return v }

func (s ground) unit(si string) string { _, u := s.units.Value(0, si); return u }

// stamp is the warning at the head of a figure of no real soil.
func (s ground) stamp() string {
	if s.Invented {
		return "INVENTED SOIL"
	}
	return ""
}

// cited names the relation that the horizons were derived by.
func (s ground) cited() string { return s.Materials[0].Relation.Cited() }

// origin says where the soil comes from, for the foot of a figure.
func (s ground) origin() string {
	return fmt.Sprintf("Soil%s: %s, from %s. What was not measured is derived by %s.", invented(s.Invented), s.Name, s.Source, s.cited())
}

// called is how a horizon is named in keys.
func called(m soil.Material) string {
	if m.Name == "" {
		return m.Texture
	}
	return m.Name
}

// horizonLines part the horizons by colour and by dashes.
var horizonLines = []draw.LineStyle{
	{Color: rust, Width: 1.5},
	{Color: blue, Width: 1.5, Dashes: []vg.Length{6, 2}},
	{Color: orange, Width: 1.5},
	{Color: slate, Width: 1.5, Dashes: []vg.Length{2, 2}},
	{Color: purple, Width: 1.5},
	{Color: skyBlue, Width: 1.5, Dashes: []vg.Length{6, 2, 1.5, 2}},
}

func horizonLine(i int) draw.LineStyle {
	l := horizonLines[i%len(horizonLines)]
	l.Width += 0.7 * vg.Length(i/len(horizonLines))
	return l
}

// horizonKey names the lines, as many in a row as the sheet holds.
func (s ground) horizonKey(sh *sheet) {
	style, x := letters(textSize, ink), edge
	var row []entry
	for i, m := range s.Materials {
		wide := 41 + style.Width(called(m))
		if x+wide > sh.Max.X-edge {
			sh.key(row...)
			row, x = nil, edge
		}
		row, x = append(row, entry{called(m), stroke(horizonLine(i), draw.GlyphStyle{Shape: noGlyph{}})}), x+wide
	}
	sh.key(row...)
}

// noGlyph leaves the middle of a sample free.
type noGlyph struct{}

// DrawGlyph draws nothing.
func (noGlyph) DrawGlyph(*draw.Canvas, draw.GlyphStyle, vg.Point) {}

// tenfold is a logarithmic axis between two powers of ten, a label at each.
func tenfold(low, high int) axis {
	a := axis{math.Pow10(low), math.Pow10(high), plot.LogScale{}, nil}
	for e := low; e <= high; e++ {
		label := fmt.Sprintf("%.*f", max(0, -e), math.Pow10(e))
		a.ticks = append(a.ticks, plot.Tick{Value: math.Pow10(e), Label: label})
		for k := 2.0; k < 10 && e < high; k++ {
			a.ticks = append(a.ticks, plot.Tick{Value: k * math.Pow10(e)})
		}
	}
	return a
}

// decadesOnly leaves the labelled marks of an axis, for a grid.
func decadesOnly(a axis) axis {
	var ticks []plot.Tick
	for _, t := range a.ticks {
		if !t.IsMinor() {
			ticks = append(ticks, t)
		}
	}
	a.ticks = ticks
	return a
}

// Decades of suction shown, of the axis' unit.
const (
	wettest = -2
	driest  = 3
)

// suctions are points along the axis, in the axis' unit and in m.
func (s ground) suctions() (shown, metres []float64) {
	const each = 40 // of a decade
	perMetre := s.value(1, "m")
	for i := 0; i <= each*(driest-wettest); i++ {
		x := math.Pow(10, wettest+float64(i)/each)
		shown, metres = append(shown, x), append(metres, x/perMetre)
	}
	return shown, metres
}

// standardSuctions marks the three suctions that soils are told by; the words hang
// from the top of the data.
func (s ground) standardSuctions(p panel) {
	style := letters(noteSize, soft)
	thin := draw.LineStyle{Color: soft, Width: 0.7, Dashes: []vg.Length{1.5, 2}}
	oneMetre := s.units.Format(1, "m")
	for _, m := range []struct {
		suction float64
		words   string
	}{{1, oneMetre}, {soil.Suction33kPa, "33 kPa"}, {soil.Suction1500kPa, "1500 kPa"}} {
		x := p.at(s.value(m.suction, "m"), p.y.max).X
		p.StrokeLine2(thin, x, p.Min.Y, x, p.Max.Y)
		at := vg.Point{X: x + 3, Y: p.Max.Y - 5}
		if at.X+style.Width(m.words) > p.Max.X {
			style, at.X = toTheLeft(style), x-3
		}
		p.FillText(style, at, m.words)
	}
}

func (s ground) drawRetention() (Figure, error) {
	const title = "Water that the soil holds"
	return render("soil-retention", title, 360, func(c draw.Canvas) {
		sh := newSheet(c)
		first := s.Materials[0]
		sh.heading(title, fmt.Sprintf("%s holds %.2f m3/m3 when saturated, %.2f at %s suction and %.2f at 1500 kPa, where plants wilt.",
			called(first), first.Curve.ThetaS, first.FieldCapacity, s.units.Format(1, "m"), first.WiltingPoint), s.stamp())
		sh.notes("Suction as a height of water. A drain can take what lies between the left edge and the suction that is the height above its table.", s.origin())
		s.horizonKey(sh)
		most := 0.0
		for _, m := range s.Materials {
			most = max(most, m.Curve.ThetaS)
		}
		p := sh.panel(sh.room(), 10, tickRoom+14, tenfold(wettest, driest), upFrom(most, 6))
		p.frame(true)
		p.name(letters(textSize, ink), "water content (m3/m3)")
		p.below("suction (" + s.unit("m") + " of water)")
		s.standardSuctions(p)
		shown, metres := s.suctions()
		for i, m := range s.Materials {
			theta := make([]float64, len(metres))
			for k, x := range metres {
				theta[k] = m.Curve.Theta(-x)
			}
			p.curve(horizonLine(i), shown, theta)
		}
	})
}

func (s ground) drawConductivity() (Figure, error) {
	const title = "How fast water moves through the soil"
	const decades, least = 7, -5 // smaller numbers have no room beside the axis
	return render("soil-conductivity", title, 370, func(c draw.Canvas) {
		rate := func(ms float64) float64 { return s.value(ms*86400, "m/d") }
		sh := newSheet(c)
		var tight, open soil.Material
		for i, m := range s.Materials {
			if i == 0 || m.Ksat < tight.Ksat {
				tight = m
			}
			if i == 0 || m.Ksat > open.Ksat {
				open = m
			}
		}
		says := fmt.Sprintf("Saturated, %s passes %s", called(open), s.units.Format(open.Ksat*86400, "m/d"))
		if len(s.Materials) > 1 {
			says += fmt.Sprintf(" and %s %s", called(tight), s.units.Format(tight.Ksat*86400, "m/d"))
		}
		sh.heading(title, says+".", s.stamp())
		sh.notes("The steep fall on the left is structure: cracks and root channels carry most of the water and empty within half a metre (20 in) of suction.", s.origin())
		s.horizonKey(sh)
		top := int(math.Ceil(math.Log10(rate(open.Curve.Ksat())) + 1e-9))
		y := decadesOnly(tenfold(min(max(top-decades, least), top-2), top))
		p := sh.panel(sh.room(), 10, tickRoom+14, tenfold(wettest, driest), y)
		p.frame(true)
		p.name(letters(textSize, ink), "conductivity ("+s.unit("m/d")+")")
		p.below("suction (" + s.unit("m") + " of water)")
		s.standardSuctions(p)
		shown, metres := s.suctions()
		for i, m := range s.Materials {
			k := make([]float64, len(metres))
			for j, x := range metres {
				if k[j] = rate(m.Curve.K(-x)); k[j] < y.min {
					k[j] = math.NaN()
				}
			}
			p.curve(horizonLine(i), shown, k)
		}
	})
}

func (s ground) drawDrainable() (Figure, error) {
	const title = "Water that drains when the table falls"
	const fallen = 1.0 // m
	return render("soil-drainable", title, 380, func(c draw.Canvas) {
		sh := newSheet(c)
		says := fmt.Sprintf("From saturation to a table at %s the soil gives %s", s.units.Format(fallen, "m"), s.units.Format(1000*soil.Drained(s.Materials, fallen), "mm"))
		if len(s.Other) > 0 {
			says += fmt.Sprintf("; by %s it would be %s", s.Other[0].Relation.Cited(), s.units.Format(1000*soil.Drained(s.Other, fallen), "mm"))
		}
		sh.heading(title, says+".", s.stamp())
		sh.notes("All water above the table at rest. Drainable pore space is the water that a table falling by a unit of depth gives: near the surface little, so that a small rain lifts a high table far.", s.origin())
		chosen, other := draw.LineStyle{Color: slate, Width: 1.6}, draw.LineStyle{Color: rust, Width: 1.4, Dashes: []vg.Length{4.5, 2}}
		lines := []struct {
			profile []soil.Material
			style   draw.LineStyle
		}{{s.Materials, chosen}}
		free := draw.GlyphStyle{Shape: noGlyph{}}
		keys := []entry{{s.cited(), stroke(chosen, free)}}
		if len(s.Other) > 0 {
			lines = append(lines, struct {
				profile []soil.Material
				style   draw.LineStyle
			}{s.Other, other})
			keys = append(keys, entry{s.Other[0].Relation.Cited(), stroke(other, free)})
		}
		sh.key(keys...)

		deepest := math.Min(s.Materials[len(s.Materials)-1].Bottom, 2)
		const steps = 200
		depth, most, widest := make([]float64, steps+1), 0.0, 0.0
		drained, yield := make([][]float64, len(lines)), make([][]float64, len(lines))
		for i, l := range lines {
			for k := range depth {
				d := deepest * float64(k) / steps
				depth[k] = s.value(d, "m")
				drained[i] = append(drained[i], s.value(1000*soil.Drained(l.profile, d), "mm"))
				yield[i] = append(yield[i], soil.SpecificYield(l.profile, d))
			}
			most, widest = max(most, drained[i][steps]), max(widest, largestOf(yield[i]))
		}
		down := downTo(0, s.value(deepest, "m"), 6)
		full := sh.panel(sh.room(), 10, tickRoom+14, down, down)
		middle := (full.Min.X + full.Max.X) / 2
		left, right := full, full
		left.Max.X, right.Min.X = middle-24, middle+24
		left.x, right.x = upFrom(most, 5), upFrom(widest, 5)
		right.y.ticks = unlabelled(right.y.ticks)
		for i, p := range []panel{left, right} {
			p.frame(true)
			p.below([]string{"water drained (" + s.unit("mm") + ")", "drainable pore space (m3/m3)"}[i])
			for k, l := range lines {
				p.curve(l.style, [][][]float64{drained, yield}[i][k], depth)
			}
		}
		left.name(letters(textSize, ink), "depth of the water table ("+s.unit("m")+")")
	})
}

// largestOf is the largest of some values.
func largestOf(x []float64) float64 { return x[largest(x)] }

// unlabelled keeps marks and drops their words.
func unlabelled(ticks []plot.Tick) []plot.Tick {
	var bare []plot.Tick
	for _, t := range ticks {
		t.Label = strings.Repeat(" ", min(1, len(t.Label)))
		bare = append(bare, t)
	}
	return bare
}
