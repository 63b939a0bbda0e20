package trial

import (
	"fmt"
	"io"
	"math"

	"mottle/sim/column"
	"mottle/sim/site"
	"mottle/sim/unit"
)

// Read reads a case file. Every fault is reported, each on a line of its own with
// the name, the line and the key.
func Read(name string, r io.Reader) (*Case, error) {
	c := &Case{}
	err := site.ReadKeys(name, r, "case", "horizons, grid, initial, top, base and times", func(s *site.Section) {
		c.Title = s.Text("title")
		for _, h := range s.Sections("horizons") {
			c.Horizons = append(c.Horizons, horizon(h))
		}
		c.layers(s)
		c.grid(s)
		c.initial(s)
		if x, ok := known(s, "standing_water", unit.Length); ok {
			atLeast(s, "standing_water", x, 0, "0 mm")
			c.Standing = x
		}
		c.top(s)
		c.base(s)
		c.drain(s)
		c.times(s)
		s.End()
	})
	if err != nil {
		return nil, err
	}
	return c, nil
}

// known returns a value that may be left out.
func known(s *site.Section, key string, dim unit.Dimension) (float64, bool) {
	x := s.Optional(key, dim)
	return x, !math.IsNaN(x)
}

// or returns a value or what stands in for it.
func or(s *site.Section, key string, dim unit.Dimension, fallback float64) float64 {
	if x, ok := known(s, key, dim); ok {
		return x
	}
	return fallback
}

// positive is a needed value above zero.
func positive(s *site.Section, key string, dim unit.Dimension) float64 {
	x := s.Required(key, dim)
	if x <= 0 {
		s.Fault(key, "found %.4g; allowed more than 0", x)
	}
	return x
}

func atLeast(s *site.Section, key string, x, least float64, written string) {
	if x < least {
		s.Fault(key, "found %.4g; allowed %s or more", x, written)
	}
}

// layers checks that the horizons follow one another.
func (c *Case) layers(s *site.Section) {
	if len(c.Horizons) == 0 {
		s.Fault("horizons", "missing; give at least one")
	}
	top := 0.0
	for i, h := range c.Horizons {
		if h.Bottom <= top {
			s.Fault(fmt.Sprintf("horizons[%d].to", i), "found %.4g m; allowed more than %.4g m, where the layer begins", h.Bottom, top)
		}
		top = h.Bottom
	}
}

func (c *Case) depth() float64 {
	if len(c.Horizons) == 0 {
		return math.NaN()
	}
	return c.Horizons[len(c.Horizons)-1].Bottom
}

func (c *Case) grid(s *site.Section) {
	g := s.Group("grid")
	defer g.End()
	if g.Has("cells") {
		n := g.Required("cells", unit.Number)
		for _, key := range []string{"thinnest", "thickest", "growth"} {
			if g.Has(key) {
				g.Fault(key, "found beside cells; give one or the other")
			}
		}
		if !(n >= 2 && n <= 10000 && n == math.Trunc(n)) && !math.IsNaN(n) {
			g.Fault("cells", "found %.6g; allowed a whole number from 2 to 10000", n)
		}
		if !s.Sound() {
			return
		}
		c.Grid = column.Uniform(c.depth(), int(n))
		for i, h := range c.Horizons {
			if k := h.Bottom / c.depth() * n; math.Abs(k-math.Round(k)) > 1e-6 {
				s.Fault(fmt.Sprintf("horizons[%d].to", i), "found %.4g m, which lies within one of the %g cells; choose cells that end there", h.Bottom, n)
			}
		}
		return
	}
	if !g.Has("thinnest") && !g.Has("thickest") && !g.Has("growth") {
		g.Fault("cells", "missing; give a number of equal cells, or thinnest, thickest and growth")
		return
	}
	thin, thick, growth := positive(g, "thinnest", unit.Length), positive(g, "thickest", unit.Length), g.Required("growth", unit.Number)
	if growth < 1 || growth > 2 {
		g.Fault("growth", "found %.4g; allowed 1 to 2", growth)
	}
	if thick < thin {
		g.Fault("thickest", "found %.4g m; allowed the thinnest, %.4g m, or more", thick, thin)
	}
	if c.depth()/thin > 10000 {
		g.Fault("thinnest", "found %.4g m; allowed a ten-thousandth of the depth, %.4g m, or more", thin, c.depth()/10000)
	}
	if !s.Sound() {
		return
	}
	var bottoms []float64
	for _, h := range c.Horizons {
		bottoms = append(bottoms, h.Bottom)
	}
	var err error
	if c.Grid, err = column.Graded(c.depth(), thin, thick, growth, bottoms[:len(bottoms)-1]); err != nil {
		g.Fault("thinnest", "%v", err)
	}
}

func (c *Case) initial(s *site.Section) {
	g := s.Group("initial")
	defer g.End()
	one(g, "water_table", "head", "water", "heads")
	c.Initial = Initial{
		WaterTable: g.Optional("water_table", unit.Length), Head: g.Optional("head", unit.Length),
		Water: g.Optional("water", unit.Fraction), Temperature: g.Optional("temperature", unit.Temperature),
	}
	if t := c.Initial.Temperature; t < 0 {
		g.Fault("temperature", "found %.4g C; allowed 0 C or more: the column starts without ice", t)
	}
	for _, h := range c.Horizons {
		if w := c.Initial.Water; w <= h.ThetaR || w > h.ThetaS {
			g.Fault("water", "found %.4g; allowed more than %.4g and up to %.4g, theta_r and theta_s of a horizon", w, h.ThetaR, h.ThetaS)
			break
		}
	}
	for _, h := range g.Sections("heads") {
		c.Initial.Depths = append(c.Initial.Depths, h.Required("depth", unit.Length))
		c.Initial.Heads = append(c.Initial.Heads, h.Required("head", unit.Length))
		h.End()
	}
	if n := len(c.Initial.Depths); g.Has("heads") && n < 2 {
		g.Fault("heads", "found %d; allowed two or more", n)
	} else if !rising(c.Initial.Depths) {
		g.Fault("heads", "found depths that do not rise; list them from the surface down")
	}
}

// one notes when not exactly one of the keys is given.
func one(s *site.Section, keys ...string) string {
	var found []string
	for _, key := range keys {
		if s.Has(key) {
			found = append(found, key)
		}
	}
	switch {
	case len(found) == 0:
		s.Fault(keys[0], "missing; give one of %v", keys)
		return ""
	case len(found) > 1:
		s.Fault(found[1], "found beside %s; give one of %v", found[0], keys)
	}
	return found[0]
}

func rising(x []float64) bool {
	for i := 1; i < len(x); i++ {
		if x[i] <= x[i-1] {
			return false
		}
	}
	return true
}

func (c *Case) top(s *site.Section) {
	before := 0.0
	periods := s.Sections("top")
	if len(periods) == 0 {
		s.Fault("top", "missing; give at least one period")
	}
	for i, g := range periods {
		p := Period{Until: g.Optional("until", unit.Time), Head: math.NaN(), Surface: g.Optional("surface", unit.Temperature)}
		switch last := i == len(periods)-1; {
		case last && g.Has("until"):
			g.Fault("until", "found in the last period; leave it out there")
		case last:
			p.Until = math.Inf(1)
		case !g.Has("until"):
			g.Fault("until", "missing; every period but the last needs an end")
		case p.Until <= before:
			g.Fault("until", "found %.6g s; allowed more than %.6g s, where the period begins", p.Until, before)
		}
		before = p.Until
		switch one(g, "rain", "head", "evaporation") {
		case "rain":
			p.Supply = g.Required("rain", unit.Conductivity)
			atLeast(g, "rain", p.Supply, 0, "0 mm/h")
		case "head":
			p.Head = g.Required("head", unit.Length)
		case "evaporation":
			p.Supply = -g.Required("evaporation", unit.Conductivity)
			atLeast(g, "evaporation", -p.Supply, 0, "0 mm/d")
			if p.Driest = or(g, "driest", unit.Length, 0); p.Driest > 0 || p.Driest == 0 && g.Has("driest") {
				g.Fault("driest", "found %.4g m; allowed a head below 0", p.Driest)
			}
		}
		if frost := !math.IsNaN(c.Initial.Temperature); frost != g.Has("surface") {
			g.Fault("surface", "%s", map[bool]string{true: "missing; with initial.temperature every period needs the temperature of the surface", false: "found without initial.temperature, which turns frost on"}[frost])
		}
		c.Top = append(c.Top, p)
		g.End()
	}
}

func (c *Case) base(s *site.Section) {
	g := s.Group("base")
	defer g.End()
	if !g.Has("kind") {
		g.Fault("kind", "missing; allowed gravity, closed, head, water table")
		return
	}
	switch g.Choice("kind", []string{"gravity", "closed", "head", "water table"}, "closed", "") {
	case "gravity":
		c.Base.Kind = column.BaseGravity
	case "closed":
		c.Base.Kind = column.BaseClosed
	case "head":
		c.Base = column.Base{Kind: column.BaseHead, Head: g.Required("head", unit.Length)}
	case "water table":
		c.Base = column.Base{Kind: column.BaseHead, Head: c.depth() - g.Required("depth", unit.Length)}
	}
}

func (c *Case) drain(s *site.Section) {
	if !s.Has("drain") {
		return
	}
	g := s.Group("drain")
	defer g.End()
	c.Drain = &Drain{Depth: positive(g, "depth", unit.Length), Spacing: positive(g, "spacing", unit.Length), Radius: positive(g, "radius", unit.Length)}
	if c.Drain.Depth >= c.depth() {
		g.Fault("depth", "found %.4g m; allowed less than the column's %.4g m", c.Drain.Depth, c.depth())
	}
}

func (c *Case) times(s *site.Section) {
	c.Times = s.Quantities("times", unit.Time)
	switch {
	case len(c.Times) == 0:
		s.Fault("times", "missing; give a list, [1 h, 2 h]")
	case c.Times[0] <= 0 || !rising(c.Times):
		s.Fault("times", "found times that do not rise from above 0")
	}
}
