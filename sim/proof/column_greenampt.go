package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// steep is the pore-size index of a soil whose front is nearly a step, as Green
// and Ampt (1911) take it to be.
const steep = 4

// stepSoil is a soil that Green and Ampt's equation nearly describes: suction at
// the front psi (m), conductivity k (m/s), and a water content that rises by
// dtheta. The suction of a Brooks-Corey soil is the integral of K/Ks over suction
// (Neuman 1976): he n/(n-1) with n = 2+3 lambda.
func stepSoil(r row) *soil.Table {
	n := 2.0 + 3*steep
	return flowTable(soil.BrooksCorey{ThetaS: r.num("delta_theta"), Entry: r.num("suction_head_m") * (n - 1) / n, Lambda: steep, Ksat: r.num("K_mm_per_h") / 3.6e6})
}

// stepColumn is a dry column of it, 1.2 m deep.
func stepColumn(r row) (*column.Column, error) {
	g, err := column.Graded(1.2, 0.0002, 0.01, 1.1, nil)
	if err != nil {
		return nil, err
	}
	c := column.New(g, filled(stepSoil(r), g), 3)
	c.Base = column.Base{Kind: column.BaseGravity}
	for i := range c.H {
		c.SetHead(i, -10*r.num("suction_head_m"))
	}
	return c, nil
}

// columnGreenAmpt reports how near the column comes to Green and Ampt's sharp
// front in a soil with a steep one: they are an approximation, so that 5 % is a
// range and not a tolerance.
func columnGreenAmpt() ([]Check, error) {
	const share = 0.05
	var checks []Check
	report := func(file string, r row, quantity, unit string, want, got float64) {
		checks = append(checks, Check{ID: fmt.Sprintf("%s:%s, %s", file, r["soil"], quantity), What: fmt.Sprintf("sharp front, %s: %s", r["soil"], quantity),
			Source: "Green and Ampt 1911; Mein and Larson 1973", Status: Computed, Unit: unit, Expected: want, Got: got,
			Report: true, Low: want * (1 - share), High: want * (1 + share), Note: "approximate: the column's front is steep, not sharp",
			Tolerance: share * want, Why: "5 %: a front of finite width and cells of 0.2-10 mm"})
	}
	byName := map[string]*column.Column{}
	hours := map[string]float64{}
	for _, r := range table("check_green_ampt.csv") {
		c := byName[r["soil"]]
		if c == nil {
			var err error
			if c, err = stepColumn(r); err != nil {
				return nil, err
			}
			c.Surface.HeldHead = 0
			byName[r["soil"]] = c
		}
		h := r.num("t_h")
		if err := advance(c, hours[r["soil"]]*3600, h*3600, 3600, 0); err != nil {
			return nil, fmt.Errorf("sharp front, %s: %w", r["soil"], err)
		}
		hours[r["soil"]] = h
		report("check_green_ampt", r, fmt.Sprintf("infiltrated in %g h", h), "mm", r.num("F_mm"), c.Through[0]*1000)
	}
	var c *column.Column
	now, last := 0.0, ""
	for _, r := range table("check_green_ampt_ponding.csv") {
		rain := r.num("rain_mm_per_h") / 3.6e6
		what := fmt.Sprintf("%.0f mm/h, ", r.num("rain_mm_per_h"))
		if name := what + r["soil"]; name != last {
			last, now = name, 0
			var err error
			if c, err = stepColumn(r); err != nil {
				return nil, err
			}
		}
		starts, at := r.num("tp_h")*3600, r.num("t_h")*3600
		if now == 0 && starts < at {
			for now < 2*starts && c.Last.Runoff == 0 {
				dt, err := c.Step(starts/200, rain)
				if err != nil {
					return nil, fmt.Errorf("sharp front, %s: %w", last, err)
				}
				now += dt
			}
			report("check_green_ampt_ponding", r, what+"time to ponding", "h", starts/3600, now/3600)
		}
		if err := advance(c, now, at, 3600, rain); err != nil {
			return nil, fmt.Errorf("sharp front, %s: %w", last, err)
		}
		now = math.Max(now, at)
		report("check_green_ampt_ponding", r, fmt.Sprintf("%sinfiltrated in %g h", what, at/3600), "mm", r.num("F_mm"), c.Through[0]*1000)
	}
	return checks, nil
}
