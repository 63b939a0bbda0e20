package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// columnConvergence checks that the cases come nearer on finer grids and steps,
// and the order of it where the solution is smooth.
func columnConvergence() ([]Check, error) {
	var checks []Check
	for _, f := range flowCases() {
		profile := table("richards/" + f.name + "_profile.csv")
		var gaps []float64
		set := column.DefaultSettings()
		for _, cells := range []int{20, 40, 80} {
			sum, n := 0.0, 0.0
			if _, err := f.run(cells, set, timesOf(profile), func(at float64, c *column.Column) {
				gap := profileGap(c, profile, at)
				sum += gap * gap
				n++
			}); err != nil {
				return nil, err
			}
			gaps = append(gaps, math.Sqrt(sum/n))
			set.Target, set.Tolerance = set.Target/4, set.Tolerance/4
		}
		checks = append(checks, Check{ID: "richards/" + f.name + ":refined", What: f.what + ": gap with 80 cells and a sixteenth of the step, over that with 20 cells",
			Source: f.source, Status: f.status, Unit: "", Expected: 0, Got: gaps[2] / gaps[0], Tolerance: 0.4,
			Why: "a smooth solution falls to 1/16, a front that jumps within a cell to 1/2: these fronts span one or two"})
	}
	time, err := orderInTime()
	if err != nil {
		return nil, err
	}
	space, err := orderInSpace()
	if err != nil {
		return nil, err
	}
	return append(checks, time, space), nil
}

// orderInTime halves the step twice on one grid: Srivastava and Yeh's fine soil,
// 5 h into the rain.
func orderInTime() (Check, error) {
	var f flowCase
	for _, f = range flowCases() {
		if f.name == "r05b_srivastava_yeh_wetting_fine" {
			break
		}
	}
	var water [][]float64
	for _, dt := range []float64{600, 300, 150} {
		g := column.Uniform(f.depth, defaultCells)
		c := column.New(g, filled(f.soil, g), 0)
		// Steps as told, each solved out.
		c.Settings = column.Settings{Target: 1, Tolerance: 1e-7, Volume: 1, Iterated: true}
		c.Base = f.base(0)
		for i, z := range g.Mid {
			c.SetHead(i, f.initial(z))
		}
		if err := advance(c, 0, 18000, dt, f.top); err != nil {
			return Check{}, fmt.Errorf("order in time: %w", err)
		}
		water = append(water, c.Water)
	}
	apart := func(a, b []float64) float64 {
		sum := 0.0
		for i := range a {
			sum += (a[i] - b[i]) * (a[i] - b[i])
		}
		return math.Sqrt(sum)
	}
	return Check{ID: "richards/order:time", What: "order of convergence in time: steps of 600, 300, 150 s", Source: "theory of backward Euler", Status: Computed,
		Unit: "", Expected: 1, Got: math.Log2(apart(water[0], water[1]) / apart(water[1], water[2])), Tolerance: 0.05,
		Why: "the term of second order is the step (600 s) over the time of change (18,000 s), 3 %"}, nil
}

// orderInSpace doubles the cells twice under a steady flux through exponential
// soil, whose heads are known exactly. Differences of the errors leave out the
// part that no grid removes, 5e-6 m from the table of conductivity.
func orderInSpace() (Check, error) {
	e := soil.Exponential{ThetaR: 0.06, ThetaS: 0.4, Alpha: 10, Ksat: 1.0 / 360000}
	exact := steadyExponential(0.5*e.Ksat, e)
	var gaps []float64
	for _, cells := range []int{40, 80, 160} {
		g := column.Uniform(1, cells)
		c := column.New(g, filled(flowTable(e), g), 1)
		c.Base = column.Base{Kind: column.BaseHead}
		if _, err := settle(c, 0.5*e.Ksat); err != nil {
			return Check{}, fmt.Errorf("order in space: %w", err)
		}
		sum := 0.0
		for i, z := range g.Mid {
			sum += (c.H[i] - exact(z)) * (c.H[i] - exact(z))
		}
		gaps = append(gaps, math.Sqrt(sum/float64(cells)))
	}
	return Check{ID: "richards/order:space", What: "order of convergence in space: steady flux through 40, 80 and 160 cells", Source: "theory of central differences; steady profile after Gardner 1958", Status: Computed,
		Unit: "", Expected: 2, Got: math.Log2((gaps[0] - gaps[1]) / (gaps[1] - gaps[2])), Tolerance: 0.1,
		Why: "cells of a quarter of the soil's length 1/alpha still carry a term of next order, (dz alpha)^2 = 6 %"}, nil
}
