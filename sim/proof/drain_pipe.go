package proof

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/drain"
	"mottle/sim/site"
	"mottle/sim/unit"
)

// drainCapacity compares what a pipe carries when full and the area that it serves.
func drainCapacity() ([]Check, error) {
	const (
		file          = "drain_pipe_capacity.csv"
		source        = "Manning with n of ASAE EP480 (n from memory)"
		hectare, acre = 1e4, 4046.8564224 // m2
	)
	var checks []Check
	for i, r := range table(file) {
		id, diameter := fileRow(file, i), r.num("inside_diameter_mm")/1000
		what := fmt.Sprintf("%s in pipe at %s %%: ", r["nominal_in"], r["grade_pct"])
		q := drain.ManningFullPipe(diameter, r.num("grade_pct")/100)
		checks = append(checks,
			printed(id, what+"roughness", source, "s/m^(1/3)", r.num("manning_n"), drain.ManningN(diameter)),
			printed(id, what+"capacity", source, "L/s", r.num("capacity_L_per_s"), 1000*q),
			printed(id, what+"velocity", source, "m/s", r.num("velocity_m_per_s"), q/(math.Pi*diameter*diameter/4)))
		for _, rate := range []string{"0.25", "0.375", "0.5", "0.75", "1"} {
			coefficient, err := unit.Parse(rate+" in/d", unit.Conductivity)
			if err != nil {
				return nil, err
			}
			area := drain.PipeAreaServed(q, coefficient)
			checks = append(checks,
				printed(id, what+"area at "+rate+" in/d", source, "ha", r.num("ha_at_"+rate+"in_d"), area/hectare),
				printed(id, what+"area at "+rate+" in/d", source, "ac", r.num("ac_at_"+rate+"in_d"), area/acre))
		}
	}
	return checks, nil
}

// drainGrade compares least grades with those computed, and with the standard's
// table, which is from memory but follows from its two velocities.
func drainGrade() ([]Check, error) {
	const file = "drain_minimum_grade.csv"
	var checks []Check
	for i, r := range table(file) {
		diameter := r.num("nominal_in") * 0.0254
		for _, c := range []struct {
			pipe             string
			n, velocity      float64
			computed, listed string
		}{
			{"tile", drain.ClayTileN, drain.VelocityCleanWater, "calc_n0.013_v0.152mps_pct", "table_tile_v0.5fps_pct"},
			{"tube", drain.ManningN(diameter), drain.VelocityCleanWater, "calc_cpt_v0.152mps_pct", "table_cpt_v0.5fps_pct"},
			{"tile", drain.ClayTileN, drain.VelocityFineSand, "calc_n0.013_v0.427mps_pct", "table_tile_v1.4fps_pct"},
			{"tube", drain.ManningN(diameter), drain.VelocityFineSand, "calc_cpt_v0.427mps_pct", "table_cpt_v1.4fps_pct"},
		} {
			got := 100 * drain.MinimumGrade(diameter, c.n, c.velocity)
			what := fmt.Sprintf("least grade of %s in %s at %.3g m/s", r["nominal_in"], c.pipe, c.velocity)
			checks = append(checks, printed(fileRow(file, i), what, "Manning at the velocities of ASAE EP480", "%", r.num(c.computed), got))
			if r[c.listed] != "" {
				checks = append(checks, Check{ID: fileRow(file, i), What: what + ", table", Source: "ASAE EP480 and NRCS, table", Status: Memory, Unit: "%",
					Expected: r.num(c.listed), Got: got, Tolerance: 0.0062, Why: "printed to 0.01 %; one entry, 0.3061, is printed as 0.30"})
			}
		}
	}
	return checks, nil
}

// tubeSizes are the trade sizes of the table of radii, metric and in inches, m.
var tubeSizes = map[string][2]float64{"75 mm": {0.075, 0.0762}, "100 mm": {0.100, 0.1016}, "125 mm": {0.125, 0.1270}, "150 mm": {0.150, 0.1524}}

// drainRadius compares tube of trade sizes. The radii are from memory: reports to
// the digits printed; the open wall is geometry.
func drainRadius() ([]Check, error) {
	const file = "drain_effective_radius.csv"
	var checks []Check
	for i, r := range table(file) {
		if strings.HasSuffix(r["drain"], "fully open wall") {
			open, outside, err := drain.EffectiveRadius(0.100, drain.Sock)
			if err != nil {
				return nil, err
			}
			checks = append(checks,
				printed(fileRow(file, i), "outside diameter of 100 mm tube", "geometry", "mm", r.num("outside_diameter_mm"), 1000*outside),
				printed(fileRow(file, i), "effective radius of 100 mm tube in a sock", "geometry: the whole wall is open", "mm", r.num("effective_radius_mm"), 1000*open))
			continue
		}
		name, _, _ := strings.Cut(r["drain"], " (")
		sizes, ok := tubeSizes[name]
		if !ok {
			continue // clay tile is no pipe of the product
		}
		effective, outside, err := drain.EffectiveRadius(sizes[0], drain.Bare)
		if err != nil {
			return nil, err
		}
		add := func(what, column string, got, half float64) {
			want := r.num(column)
			checks = append(checks, Check{ID: fileRow(file, i), What: name + " tube: " + what, Source: "Skaggs 1978; Mohammad and Skaggs 1983", Status: Memory, Unit: "mm",
				Expected: want, Got: got, Report: true, Low: want - half, High: want + half, Note: "confidence: " + r["confidence"]})
		}
		add("effective radius", "effective_radius_mm", 1000*effective, 0.05)
		add("outside diameter", "outside_diameter_mm", 1000*outside, 0.5)
	}
	return checks, nil
}

// drainEntrance holds tube of trade sizes to what an effective radius stands for: the
// head that its openings cost, alpha q L/K, here as the head that Kirkham's flow to
// the tube takes above that to an open wall. The table's alpha was computed from
// radii that are from memory, so this holds the copy and the equivalence.
func drainEntrance() ([]Check, error) {
	const (
		file                   = "drain_effective_radius.csv"
		deep, barrier, spacing = 1e4, 1e6, 1e6 // m: a drain far from surface, barrier and neighbour
	)
	var checks []Check
	for i, r := range table(file) {
		name, _, tube := strings.Cut(r["drain"], " (")
		sizes, ok := tubeSizes[name]
		if !tube || !ok {
			continue
		}
		want := r.num("entrance_factor_alpha")
		factor := func(radius float64) float64 { return drain.KirkhamFactor(deep, radius, barrier, spacing) }
		for _, size := range sizes {
			effective, outside, err := drain.EffectiveRadius(size, drain.Bare)
			if err != nil {
				return nil, err
			}
			checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("%g mm tube: head of its openings, alpha of alpha q L/K", 1000*size), Source: "alpha = ln(R/r)/(2 pi), radii of Skaggs 1978; Mohammad and Skaggs 1983 (from memory)", Status: Computed, Unit: "-",
				Expected: want, Got: (factor(effective) - factor(outside/2)) / (4 * math.Pi), Tolerance: (sixDigits + 4e-6) * want,
				Why: "half a unit of the sixth digit, and what a finite depth b adds, (R-r)/b of 4 pi alpha"})
		}
	}
	return checks, nil
}

// drainCoefficients reads the usual drainage coefficients as a field file gives
// them, and reports where the demo's lies.
func drainCoefficients() ([]Check, error) {
	const file, source = "drainage_coefficients.csv", "NRCS NEH 650 ch. 14, ASAE EP480 (from memory)"
	var checks []Check
	demo := site.Demo().Tile.Coefficient
	for i, r := range table(file) {
		name := fmt.Sprintf("%s soil, %s crops, %s inlets: ", r["soil"], r["crop"], r["surface_inlets"])
		for _, end := range []string{"low", "high"} {
			x, err := unit.Parse(r[end+"_in_per_d"]+" in/d", unit.Conductivity)
			if err != nil {
				return nil, err
			}
			checks = append(checks, printed(fileRow(file, i), name+end+" coefficient", "1 in = 25.4 mm; "+source, "mm/d", r.num(end+"_mm_per_d"), x/mmPerDay))
		}
		if r["soil"] == "mineral" && r["crop"] == "field" && r["surface_inlets"] == "none" {
			checks = append(checks, Check{ID: fileRow(file, i), What: "drainage coefficient of the demo field", Source: source, Status: Practice, Unit: "mm/d",
				Expected: r.num("high_mm_per_d"), Got: demo / mmPerDay, Report: true, Low: r.num("low_mm_per_d") * (1 - sixDigits), High: r.num("high_mm_per_d") * (1 + sixDigits),
				Note: "mineral soil, field crops, no surface inlets"})
		}
	}
	return checks, nil
}
