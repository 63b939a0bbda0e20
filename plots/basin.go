package plots

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/basin"
	"mottle/sim/unit"
)

// watershed is what the figures of a basin are about.
type watershed struct {
	r     *basin.Result
	units unit.System
	us    bool
	// other is the scenario whose drained share lies farthest from the first's; nil
	// when there is only one.
	other *basin.Outcome
}

// survey checks that a basin's result can be shown.
func survey(r *basin.Result, us bool) (watershed, error) {
	switch {
	case r == nil || r.Basin == nil:
		return watershed{}, errors.New("basin: the result holds no basin")
	case len(r.Scenarios) == 0 || len(r.Years) == 0:
		return watershed{}, fmt.Errorf("basin: the result holds %s and %s; allowed: at least one of each", count(len(r.Scenarios), "scenario"), count(len(r.Years), "complete year"))
	}
	days := 0
	for k, s := range r.Scenarios {
		if len(s.Nodes) == 0 {
			return watershed{}, fmt.Errorf("basin: scenario %q holds no outlet; allowed: its nodes, the last the outlet", s.Name)
		}
		out := outlet(&s)
		if k == 0 {
			days = len(out.Daily)
		}
		n := len(r.Years)
		if len(out.Yearly) != n || len(out.Peaks.Year) != n || len(out.Peaks.Spring) != n || len(out.Lows) != n {
			return watershed{}, fmt.Errorf("basin: scenario %q holds other years than the result's %d; allowed: yearly flow, peaks and lows of each", s.Name, n)
		}
		if len(out.Daily) != days || len(s.Units) != len(r.Basin.Units) {
			return watershed{}, fmt.Errorf("basin: scenario %q holds %d days and %d units; allowed: %d and %d, as the first and the basin have", s.Name, len(out.Daily), len(s.Units), days, len(r.Basin.Units))
		}
	}
	w := watershed{r: r, units: system(us), us: us}
	for k := 1; k < len(r.Scenarios); k++ {
		far := func(s *basin.Outcome) float64 { return math.Abs(s.Share - r.Scenarios[0].Share) }
		if w.other == nil || far(&r.Scenarios[k]) > far(w.other) {
			w.other = &r.Scenarios[k]
		}
	}
	return w, nil
}

// outlet is where all water leaves.
func outlet(s *basin.Outcome) *basin.Node { return &s.Nodes[len(s.Nodes)-1] }

// first is what the other scenarios are held against.
func (w watershed) first() *basin.Outcome { return &w.r.Scenarios[0] }

// Parts of the water, as basin.Parts has them.
const (
	surfacePart = iota
	drainPart
	seepagePart
)

// total of the parts.
func total(q [3]float64) float64 { return q[surfacePart] + q[drainPart] + q[seepagePart] }

// totals of a series.
func totals(q [][3]float64) []float64 {
	out := make([]float64, len(q))
	for i := range q {
		out[i] = total(q[i])
	}
	return out
}

// mean of values, NaN of none.
func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// cubicFoot in m3, exact by the foot of 0.3048 m.
const cubicFoot = 0.3048 * 0.3048 * 0.3048

// flow turns m3/s into the unit of the axes.
func (w watershed) flow(q float64) float64 {
	if w.us {
		return q / cubicFoot
	}
	return q
}

// flows turns a series.
func (w watershed) flows(q []float64) []float64 {
	out := make([]float64, len(q))
	for i := range q {
		out[i] = w.flow(q[i])
	}
	return out
}

// flowUnit names the unit of flow.
func (w watershed) flowUnit() string {
	if w.us {
		return "cfs"
	}
	return "m³/s"
}

// value turns a value in a unit of results into the unit of the axes.
func (w watershed) value(x float64, si string) float64 {
	v, _ := w.units.Value(x, si)
	return v
}

// unit names the unit of the axes.
func (w watershed) unit(si string) string {
	_, u := w.units.Value(0, si)
	return u
}

// weatherInvented says whether a station of the basin has made-up weather of its own. A
// record that the run's caller supplied is not known here.
func (w watershed) weatherInvented() bool {
	for _, s := range w.r.Basin.Stations {
		if s.Record.Series != nil && s.Record.Series.Invented {
			return true
		}
	}
	return false
}

// stamp is the warning at the head of what shows no real basin or no real weather.
func (w watershed) stamp() string {
	switch b, weather := w.r.Basin.Invented, w.weatherInvented(); {
	case b && weather:
		return "INVENTED BASIN AND WEATHER"
	case b:
		return "INVENTED BASIN"
	case weather:
		return "INVENTED WEATHER"
	}
	return ""
}

// source says where and when, for the foot of a figure.
func (w watershed) source() string {
	b := w.r.Basin
	words := "Basin" + invented(b.Invented) + ": " + b.Name
	if b.Place != "" {
		words += ", " + b.Place
	}
	words += ". Weather" + invented(w.weatherInvented()) + ": " + strconv.Itoa(w.r.Years[0])
	if last := w.r.Years[len(w.r.Years)-1]; last != w.r.Years[0] {
		words += "–" + strconv.Itoa(last)
	}
	return words + ". Simulated hour by hour with Mottle, not measured."
}

// clipped is a name that a key has room for.
func clipped(name string) string {
	const most = 22 // letters
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return name
}

// quoted is a scenario's name within a sentence.
func quoted(s *basin.Outcome) string { return "“" + clipped(s.Name) + "”" }

// drawings are a basin's figures. Those that compare are left out where there is one
// scenario only, others where their data are absent.
func (w watershed) drawings() ([]drawing, error) {
	var list []drawing
	if w.other != nil {
		list = append(list, w.floodFrequency())
		if events := w.events(5); len(events) > 0 {
			list = append(list, w.hydrographs(events))
		}
	}
	if len(w.r.Curve) > 1 {
		list = append(list, w.drainedShare())
	}
	if d, ok := w.duration(); ok {
		list = append(list, d)
	}
	if w.other != nil {
		d, ok, err := w.unitMap()
		if err != nil {
			return nil, err
		}
		if ok {
			list = append(list, d)
		}
		list = append(list, w.monthly())
	}
	return list, nil
}

// BasinFigures draws the figures of a basin for files: "flood-frequency",
// "hydrograph-pairs", "drained-share", "duration", "map" and "monthly", in this order,
// all of the outlet but the map. Where two scenarios are drawn they are the first and
// the one whose drained share lies farthest from it. A figure whose data are absent is
// left out: without a second scenario the first two and the last two, without a curve
// "drained-share", without outlines "map". With us the axes carry US customary units,
// flows cubic feet a second. The same result gives the same bytes. It is an error when
// the result holds no scenario or year, or its parts do not fit together.
func BasinFigures(r *basin.Result, us bool) ([]Figure, error) {
	w, err := survey(r, us)
	if err != nil {
		return nil, err
	}
	drawings, err := w.drawings()
	if err != nil {
		return nil, err
	}
	var figures []Figure
	for _, one := range drawings {
		f, err := w.onPaper(one)
		if err != nil {
			return nil, err
		}
		figures = append(figures, f)
	}
	return figures, nil
}

// onPaper gives a drawing its words and renders it for a file.
func (w watershed) onPaper(one drawing) (Figure, error) {
	const words = 110 // heading, notes and source
	return render(one.name, one.title, one.height*1.8+words, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(one.title, one.says, w.stamp())
		sh.notes(one.notes, w.source())
		one.ink(sh)
	})
}

// keyRows writes a key in as many rows as it needs.
func (s *sheet) keyRows(entries ...entry) {
	style := letters(textSize, ink)
	from, x := 0, edge
	for i, e := range entries {
		wide := 25 + style.Width(e.name) + 16
		if i > from && x+wide > s.Max.X-edge+16 {
			s.key(entries[from:i]...)
			s.top += 4 // rows of one key stand closer than what follows
			from, x = i, edge
		}
		x += wide
	}
	s.key(entries[from:]...)
}

// pane is one of several panels side by side, counted from the top left, that share
// what room the sheet has left.
func (s *sheet) pane(k, of, columns int, gap, below vg.Length, x, y axis) panel {
	rows := (of + columns - 1) / columns
	high := s.room() / vg.Length(rows)
	left := dataLeft - 8
	wide := (s.Max.X - edge - left + gap) / vg.Length(columns)
	c := s.Canvas
	top := s.top - high*vg.Length(k/columns)
	c.Rectangle = vg.Rectangle{
		Min: vg.Point{X: left + wide*vg.Length(k%columns), Y: top - high + below},
		Max: vg.Point{X: left + wide*vg.Length(k%columns+1) - gap, Y: top - panelHead},
	}
	return panel{c, x, y}
}

// pairKey is the key of figures of two scenarios.
func (w watershed) pairKey(sh *sheet, show func(t twin) sample, more ...entry) {
	sh.keyRows(append([]entry{{clipped(w.first().Name), show(lies)}, {clipped(w.other.Name), show(tiled)}}, more...)...)
}

// lineOf is a sample of a twin's line.
func lineOf(t twin) sample {
	return func(c draw.Canvas) {
		y := (c.Min.Y + c.Max.Y) / 2
		c.StrokeLine2(t.line, c.Min.X, y, c.Max.X, y)
	}
}

// pointOf is a sample of a twin's line and glyph.
func pointOf(t twin) sample { return stroke(thin(t.line), t.glyph) }

// fine is the text of panels that stand side by side.
func fine() text.Style { return letters(noteSize, ink) }
