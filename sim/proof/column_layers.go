package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// columnLayers compares the pulses of rain into layered columns (r10a, r10c):
// cells of 1.25 cm with edges on the interfaces.
func columnLayers() ([]Check, error) {
	const hour = 3600.0
	sand := soil.BrooksCorey{ThetaS: 0.4, Entry: 0.1, Lambda: 1.0 / 3, Ksat: 0.02 / hour}
	clay := soil.BrooksCorey{ThetaS: 0.5, Entry: 0.4, Lambda: 1.0 / 9, Ksat: 0.002 / hour}
	sandTable := flowTable(sand)
	var checks []Check
	for _, p := range []struct {
		name, what, source string
		grid               column.Grid
		bottoms            []float64
		soils              []*soil.Table
		initial            float64
		rain, until        float64 // m/s, s
		base               column.Base
	}{
		{"r10a_layered_brooks_corey", "10 h of rain on sand over clay over sand", "materials of Ross 2003; profile computed with two independent schemes",
			column.Uniform(1.2, 96), []float64{0.3, 0.6, 1.2}, []*soil.Table{sandTable, flowTable(clay), sandTable}, -5,
			0.005 / hour, 10 * hour, column.Base{Kind: column.BaseHead, Head: -5}},
		{"r10c_layered_vg", "5 d of rain on silt loam over silty clay loam over sandy loam", "own case; profile computed with two independent schemes",
			column.Uniform(1, 80), []float64{0.25, 0.6, 1}, []*soil.Table{flowTable(classCurve("silt loam", 0)), flowTable(classCurve("silty clay loam", 0)), flowTable(classCurve("sandy loam", 0))}, -2,
			0.01 * perDay, 5 / perDay, column.Base{Kind: column.BaseGravity}},
	} {
		profile, balance := table("richards/"+p.name+"_profile.csv"), table("richards/"+p.name+"_balance.csv")
		c := column.New(p.grid, layered(p.grid, p.bottoms, p.soils), 0)
		c.Base = p.base
		for i := range c.H {
			c.SetHead(i, p.initial)
		}
		start, now := c.Storage(), 0.0
		for k, at := range timesOf(profile) {
			rain := p.rain
			if now >= p.until-1 {
				rain = 0
			}
			if err := advance(c, now, at, 86400, rain); err != nil {
				return nil, fmt.Errorf("%s: %w", p.name, err)
			}
			now = at
			id, when := fmt.Sprintf("richards/%s:%.0f s", p.name, at), fmt.Sprintf("%s, %.3g h: ", p.what, at/hour)
			out, change := balance[k].num("cum_bottom_outflow_m"), balance[k].num("storage_change_m")
			checks = append(checks,
				Check{ID: id, What: when + "water content, RMS gap over depth", Source: p.source, Status: Computed, Unit: "m3/m3",
					Expected: 0, Got: profileGap(c, profile, at), Tolerance: 0.005, Why: "cells of 1.25 cm: linear over a curved front of two or three cells leaves up to 0.005"},
				Check{ID: id, What: when + "flowed out below", Source: p.source, Status: Computed, Unit: "m",
					Expected: out, Got: c.Through[p.grid.Cells()], Tolerance: 0.01 * out, Why: "1 %: the front does not reach the base, whose flux is K of the start"},
				Check{ID: id, What: when + "gain of water", Source: p.source, Status: Computed, Unit: "m",
					Expected: change, Got: c.Storage() - start, Tolerance: 1e-6, Why: "rain that all enters, less 1 % of the outflow, and seven digits of the source"})
		}
	}
	return checks, nil
}

// columnSteadyLayers compares the heads of steady fluxes down and up through three
// layers over a water table at 1.5 m (r10b).
func columnSteadyLayers() ([]Check, error) {
	const cells = 150
	g := column.Uniform(1.5, cells)
	soils := []*soil.Table{flowTable(classCurve("silt loam", 0)), flowTable(classCurve("sandy loam", 0)), flowTable(classCurve("loam", 0))}
	byFlux := map[float64]*column.Column{}
	var checks []Check
	for _, r := range table("richards/r10b_steady_layered.csv") {
		flux, z := r.num("downward_flux_mm_per_d"), r.num("depth_m")
		c := byFlux[flux]
		if c == nil {
			c = column.New(g, layered(g, []float64{0.4, 0.8, 1.5}, soils), 1.5)
			c.Base = column.Base{Kind: column.BaseHead}
			if _, err := settle(c, flux/1000*perDay); err != nil {
				return nil, fmt.Errorf("r10b, %g mm/d: %w", flux, err)
			}
			byFlux[flux] = c
		}
		if z == 0 || z == 1.5 || math.Abs(z-0.4) < 1e-9 || math.Abs(z-0.8) < 1e-9 {
			continue // between the middles of cells, where the head kinks
		}
		want := r.num("pressure_head_m")
		checks = append(checks, Check{ID: fmt.Sprintf("richards/r10b_steady_layered:%g mm/d, %g m", flux, z), What: fmt.Sprintf("steady %g mm/d down through three layers: head at %g m", flux, z),
			Source: "integral of dh/dz = 1 - q/K", Status: Computed, Unit: "m", Expected: want, Got: alongDepth(g.Mid, c.H, z), Tolerance: 0.01 * math.Abs(want),
			Why: "1 %: cells of 1 cm with mean conductivity, in layers whose head bends over 5 cm"})
	}
	return checks, nil
}
