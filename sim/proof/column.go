package proof

import (
	"context"
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// perDay turns a rate per day into one per second.
const perDay = 1.0 / 86400

// columnGroup holds the flow of water in the column against computed profiles,
// exact solutions and steady states.
func columnGroup(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		columnProfiles, columnConvergence, columnLayers, columnSteadyLayers, columnPonding,
		columnDrained, columnEvaporation, columnCapillaryRise, columnGreenAmpt,
	)
}

// flowTable tabulates a form; the forms of the cases are known to be sound.
func flowTable(f soil.Form) *soil.Table {
	t, err := soil.NewFormTable(f)
	if err != nil {
		panic(err)
	}
	return t
}

// classCurve is the average soil of a class after Carsel and Parrish (1988), with
// an air entry (m).
func classCurve(class string, entry float64) soil.Curve {
	for _, r := range table("soil_vg_carsel_parrish_1988.csv") {
		if r["texture_class"] == class {
			return soil.Curve{ThetaR: r.num("theta_r"), ThetaS: r.num("theta_s"), Alpha: r.num("alpha_per_m"), N: r.num("n"), L: 0.5,
				Entry: entry, KMatrix: r.num("Ks_m_per_d") * perDay}
		}
	}
	panic(fmt.Errorf("no class %q", class))
}

// filled is one soil in every cell.
func filled(t *soil.Table, g column.Grid) []*soil.Table {
	soils := make([]*soil.Table, g.Cells())
	for i := range soils {
		soils[i] = t
	}
	return soils
}

// layered gives each cell the soil of the layer that holds its middle.
func layered(g column.Grid, bottoms []float64, soils []*soil.Table) []*soil.Table {
	out := make([]*soil.Table, g.Cells())
	for i, z := range g.Mid {
		for j, b := range bottoms {
			if z < b {
				out[i] = soils[j]
				break
			}
		}
	}
	return out
}

// advance carries a column from now to until (s) with water arriving at supply
// (m/s) in steps of at most limit (s).
func advance(c *column.Column, now, until, limit, supply float64) error {
	for until-now > 1e-9*until {
		dt, err := c.Step(math.Min(until-now, limit), supply)
		if err != nil {
			return fmt.Errorf("at %.6g s: %w", now, err)
		}
		now += dt
	}
	return nil
}

// settle carries a column to its steady state and returns the flux down through
// it (m/s).
func settle(c *column.Column, supply float64) (float64, error) {
	const (
		endless = 1e16 // s
		close   = 1e-7
	)
	before := math.Inf(1)
	for range 5000 {
		if _, err := c.Step(endless, supply); err != nil {
			return 0, err
		}
		in, out := c.Last.Infiltration, c.Last.BaseOut
		if math.Abs(in-out) <= close*math.Abs(out) && math.Abs(out-before) <= close*math.Abs(out) {
			return out, nil
		}
		before = out
	}
	return 0, fmt.Errorf("no steady state after 5000 steps: %.6g m/s in, %.6g m/s out", c.Last.Infiltration, c.Last.BaseOut)
}

// alongDepth is linear between the points (x, y), and goes on so beyond the first
// and last.
func alongDepth(x, y []float64, at float64) float64 {
	i := 1
	for i < len(x)-1 && at > x[i] {
		i++
	}
	return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
}

// profileGap is the root mean square of the differences in water content from the
// rows of a profile that belong to a time.
func profileGap(c *column.Column, rows []row, at float64) float64 {
	return gapTo(rows, at, "theta", c.Grid.Mid, c.Water)
}

// headGap is the same of the pressure head, m.
func headGap(c *column.Column, rows []row, at float64) float64 {
	return gapTo(rows, at, "pressure_head_m", c.Grid.Mid, c.H)
}

func gapTo(rows []row, at float64, name string, depth, values []float64) float64 {
	sum, n := 0.0, 0
	for _, r := range rows {
		if r.num("time_s") == at {
			gap := alongDepth(depth, values, r.num("depth_m")) - r.num(name)
			sum += gap * gap
			n++
		}
	}
	return math.Sqrt(sum / float64(n))
}

// timesOf lists the times of a table, each once.
func timesOf(rows []row) []float64 {
	var times []float64
	for _, r := range rows {
		if at := r.num("time_s"); len(times) == 0 || times[len(times)-1] != at {
			times = append(times, at)
		}
	}
	return times
}
