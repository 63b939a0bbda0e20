package site

import (
	"fmt"
	"math"

	"mottle/sim/money"
)

// farm reports values of the farm that cannot be meant, far beyond what is usual.
func (c *checks) farm(f *Field) {
	a := &f.Farm
	c.within("farm.drained_area", a.Drained, 1e-4, 1e-3, 1e5, "ha")
	if !math.IsNaN(a.Whole) {
		c.within("farm.field_area", a.Whole, 1e-4, 1e-3, 1e5, "ha")
	}
	for _, w := range a.Crops {
		at := cropKey(w.Crop)
		c.spread(at+".best_yield", w.BestYield, 1, 0.01, 300, "t/ha")
		if !math.IsNaN(w.Price.Middle) {
			c.spread(at+".price", w.Price, 1, 0, 1e5, "USD/t")
		}
		if !math.IsNaN(w.ExtraCost.Middle) {
			c.spread(at+".extra_cost", w.ExtraCost, 1, 0, 1e5, "USD/t")
		}
	}
	for i, m := range a.Mains {
		at := fmt.Sprintf("farm.mains[%d]", i)
		c.within(at+".length", m.Length, 1, 0.1, 1e5, "m")
		c.within(at+".diameter", m.Diameter, 1000, 50, 2000, "mm")
		if !math.IsNaN(m.Grade) {
			c.within(at+".grade", m.Grade, 100, 0.01, 20, "%")
		}
	}
	if len(a.Mains) > 0 {
		c.within("farm.outlets", float64(a.Outlets), 1, 1, 100, "")
	}
	if a.LiftStations > 0 || a.Lift != 0 {
		c.within("farm.lift.stations", float64(a.LiftStations), 1, 1, 100, "")
		c.within("farm.lift.height", a.Lift, 1, 0.1, 30, "m")
	}
	c.within("farm.control_structures", float64(a.ControlStructures), 1, 0, 1000, "")
	for i, r := range a.Ranges {
		t := terms[i]
		c.spread("farm."+t.key, r.Spread, 1/t.one, t.low, t.high, t.unit)
	}
	c.spread("farm.replanting", a.Replanting, 1, 0, 1e5, "USD/ha")
}

// spread reports a value of a spread outside a range of the unit, or values that do
// not ascend.
func (c *checks) spread(key string, s money.Spread, scale, low, high float64, unit string) {
	for _, x := range []float64{s.Low, s.Middle, s.High} {
		if v := x * scale; !(v >= low && v <= high) {
			c.within(key, x, scale, low, high, unit)
			return
		}
	}
	if s.Validate() != nil {
		c.add(key, "found %.5g, %.5g, %.5g %s; allowed a low, a likely and a high value, in this order", s.Low*scale, s.Middle*scale, s.High*scale, unit)
	}
}
