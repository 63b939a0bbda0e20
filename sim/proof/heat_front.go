package proof

import (
	"fmt"

	"mottle/sim/column"
	"mottle/sim/heat"
)

// neumann holds the front and the temperatures of a freezing half-space against the
// exact solution (atmosphere-neumann.csv), in two phases and in one.
func neumann() ([]Check, error) {
	const file = "atmosphere-neumann.csv"
	var checks []Check
	byCase := map[string][]row{}
	var names []string
	for _, r := range table(file) {
		name := r["case"]
		if byCase[name] == nil {
			names = append(names, name)
		}
		byCase[name] = append(byCase[name], r)
	}
	for _, name := range names {
		rows := byCase[name]
		r := rows[0]
		f := frostCase{frozenK: r.num("kf"), thawedK: r.num("ku"), frozenHeat: r.num("Cf_J_m3K"), thawHeat: r.num("Cu_J_m3K"),
			latent: r.num("L_J_m3"), surface: r.num("Ts_C"), initial: r.num("Ti_C")}
		var times []float64
		for i, r := range rows {
			if at := r.num("t_d"); i == 0 || at != times[len(times)-1] {
				times = append(times, at)
			}
		}
		const source = "Carslaw and Jaeger 1959, chapter XI (Neumann)"
		// A front off by its share moves the profile above by that share of the fall from
		// ground to surface; interpolation across the front's kink adds as much.
		slack := 2 * frontShare * (f.initial - f.surface)
		err := f.run(times, func(at, front float64, c *heat.Column, g column.Grid) {
			first := true
			for _, r := range rows {
				if r.num("t_d") != at {
					continue
				}
				id := fmt.Sprintf("%s:%s, %g d", file, name, at)
				if first {
					first = false
					checks = append(checks, Check{ID: id + ", front", What: fmt.Sprintf("freezing half-space %s: front after %g d", name, at),
						Source: source, Status: Computed, Unit: "m", Expected: r.num("front_m"), Got: front,
						Tolerance: frontShare * r.num("front_m"), Why: frontWhy})
				}
				z := r.num("z_m")
				checks = append(checks, Check{ID: fmt.Sprintf("%s, %g m", id, z), What: fmt.Sprintf("freezing half-space %s: temperature at %g m after %g d", name, z, at),
					Source: source, Status: Computed, Unit: "C", Expected: r.num("T_C"), Got: alongDepth(g.Mid, c.Temperature, z), Tolerance: slack,
					Why: "2 % of the fall from ground to surface: the front's own 1 %, and as much from reading between cells across its kink"})
			}
		})
		if err != nil {
			return nil, fmt.Errorf("freezing half-space %s: %w", name, err)
		}
	}
	return checks, nil
}

// listedFront is the check of a listed depth of frost (m) by the column.
func listedFront(id string, want, printed, got float64, what string) Check {
	c := listed(listedRow(id), got)
	c.What += what
	c.Unit, c.Expected = "m", want
	c.Tolerance, c.Why = frontShare*want+printed, frontWhy
	return c
}

// frostDepths run the column where screening formulas are exact: Stefan's without
// heat capacity, the modified Berggren form with one conductivity and capacity.
func frostDepths() ([]Check, error) {
	all := map[string]given{}
	for _, id := range []string{"H06a", "H06b", "H08", "H09"} {
		in, err := parseGiven(listedRow(id)["inputs"], nil)
		if err != nil {
			return nil, fmt.Errorf("row %s: %w", id, err)
		}
		all[id] = in
	}
	const nothing = 2e3 // J/m3/K, next to a latent heat of 8e7 J/m3
	var checks []Check
	front := func(id string, f frostCase, days, want, printed float64, what string) error {
		got, err := f.front(days)
		if err != nil {
			return fmt.Errorf("row %s: %w", id, err)
		}
		checks = append(checks, listedFront(id, want, printed, got, what))
		return nil
	}

	a, b := all["H06a"], all["H06b"]
	for _, f := range []struct {
		id    string
		depth float64
	}{{"H06a", heat.StefanDepth(a["k"], a["nF_Cd"], a["L"])},
		{"H06b", heat.StefanDepthUnder(b["snow_m"]/b["ksnow"], b["k"], b["F_Cd"], b["L"])}} {
		formula := listed(listedRow(f.id), f.depth)
		formula.ID += ", formula"
		checks = append(checks, formula)
	}
	const days = 100
	stefan := frostCase{frozenK: a["k"], thawedK: a["k"], frozenHeat: nothing, thawHeat: nothing, latent: a["L"], surface: -a["nF_Cd"] / days}
	if err := front("H06a", stefan, days, listedRow("H06a").num("expected"), 0, ": the column without heat capacity"); err != nil {
		return nil, err
	}
	stefan.snow = b["snow_m"] / b["ksnow"]
	if err := front("H06b", stefan, days, listedRow("H06b").num("expected"), 0, ": the column without heat capacity"); err != nil {
		return nil, err
	}
	for _, id := range []string{"H08", "H09"} {
		in := all[id]
		f := frostCase{frozenK: in["k"], thawedK: in["k"], frozenHeat: in["C"], thawHeat: in["C"], latent: in["theta"] * in["Lf"] * 1000,
			surface: -in["n"] * in["F_Cd"] / in["t_d"], initial: in["v0_C"]}
		if err := front(id, f, in["t_d"], listedRow(id).num("expected"), 0, ": the column"); err != nil {
			return nil, err
		}
	}

	// The homogeneous soil of TM 5-852-6, in SI.
	const (
		foot   = 0.3048               // m
		btuK   = 1.7307346            // W/m/K in a Btu/ft/h/F
		rankin = 1 / 1.8              // C in a degree F
		heat3  = btuFt3 / rankin      // J/m3/K in a Btu/ft3/F
		latent = 2160 * btuFt3        // rows H07a and H07b
		heatC  = 28.25 * heat3        // J/m3/K
		above  = (37.2 - 32) * rankin // C, mean annual temperature over freezing
	)
	in, err := parseGiven(listedRow("H07c")["inputs"], nil)
	if err != nil {
		return nil, fmt.Errorf("row H07c: %w", err)
	}
	k := in["K"] * btuK
	f := frostCase{frozenK: k, thawedK: k, frozenHeat: heatC, thawHeat: heatC, latent: latent, surface: -in["nF_Fd"] / in["t_d"] * rankin, initial: above}
	if err := front("H07c", f, in["t_d"], listedRow("H07c").num("expected")*foot, 0.05*foot, ": the column, in SI"); err != nil {
		return nil, err
	}
	share := listed(listedRow("H07d"), checks[len(checks)-1].Got/heat.StefanDepth(k, -f.surface*in["t_d"], latent))
	share.What, share.Tolerance, share.Why = "depth of frost over Stefan's, same soil", frontShare*share.Expected, frontWhy
	short := listed(listedRow("H07e"), share.Got)
	const apart = 0.30
	short.What, short.Tolerance = "the same share against the common approximation", apart*short.Expected
	short.Why = "the approximation and the exact root lie up to 30 % apart, most at high thermal ratios"
	return append(checks, share, short), nil
}

const btuFt3 = 37258.95 // J/m3 in a Btu/ft3

// berggren holds the column's depth of frost, as a share of Stefan's, against the
// exact coefficient for soils of one conductivity and capacity
// (atmosphere-berggren-lambda.csv).
func berggren() ([]Check, error) {
	const (
		file    = "atmosphere-berggren-lambda.csv"
		latent  = 1e8 // J/m3
		surface = 5.0 // C below freezing
		k       = 2.0 // W/m/K
	)
	var checks []Check
	for _, r := range table(file) {
		alpha, mu := r.num("thermal_ratio_alpha"), r.num("fusion_parameter_mu")
		capacity := mu * latent / surface
		f := frostCase{frozenK: k, thawedK: k, frozenHeat: capacity, thawHeat: capacity, latent: latent, surface: -surface, initial: alpha * surface}
		const days = 60
		front, err := f.front(days)
		if err != nil {
			return nil, fmt.Errorf("thermal ratio %g, fusion parameter %g: %w", alpha, mu, err)
		}
		want := r.num("lambda_exact")
		checks = append(checks, Check{ID: fmt.Sprintf("%s:%g, %g", file, alpha, mu),
			What:   fmt.Sprintf("depth of frost over Stefan's, thermal ratio %g, fusion parameter %g", alpha, mu),
			Source: "exact root of the equal-property Neumann solution (modified Berggren)", Status: Computed, Unit: "-",
			Expected: want, Got: front / heat.StefanDepth(k, surface*days, latent), Tolerance: frontShare * want, Why: frontWhy})
	}
	return checks, nil
}
