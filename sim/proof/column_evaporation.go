package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// thinEnds is a grid whose cells grow from both ends to the middle, for steady
// flow from a water table to a dry surface: conductivity changes most at the
// ends.
func thinEnds(depth float64) column.Grid {
	const (
		thin  = 1e-4 // m
		ratio = 1.07
	)
	half := []float64{0}
	for step := thin; half[len(half)-1] < depth/2; step = math.Min(step*ratio, depth/150) {
		half = append(half, half[len(half)-1]+step)
	}
	n := len(half) - 1
	scale := depth / 2 / half[n]
	edges := make([]float64, 2*n+1)
	for i, z := range half {
		edges[i], edges[2*n-i] = z*scale, depth-z*scale
	}
	g, err := column.NewGrid(edges)
	if err != nil {
		panic(err)
	}
	return g
}

// overTable is a column of one soil on a water table, from rest.
func overTable(t *soil.Table, depth float64) *column.Column {
	g := thinEnds(depth)
	c := column.New(g, filled(t, g), depth)
	c.Base = column.Base{Kind: column.BaseHead}
	return c
}

// evaporation is the most that a column of soil over a water table (m) gives to a
// surface whose head (m) the air can bring down to driest, mm/d.
func evaporation(t *soil.Table, depth, driest float64) (float64, error) {
	c := overTable(t, depth)
	c.Surface.Driest = driest
	const demand = 1e-4 // m/s, 9 m/d: more than any soil yields
	q, err := settle(c, -demand)
	return -q / perDay * 1000, err
}

const (
	evaporationWhy = "0.5 %: cells of 0.1 mm at both ends, of 1/150 of the depth between; conductivity linear between 32 suctions an octave, up to 0.3 % too high for K ~ s^-5"
	airDry         = -2e5 // m, at which what a dry surface would still add is below 0.01 %
)

// columnEvaporation compares the steady maximum evaporation from a water table
// (r06a, r06b, r06c) with the exact integrals.
func columnEvaporation() ([]Check, error) {
	var checks []Check
	add := func(file string, r row, name string, t *soil.Table, driest, want, share float64, why, source string) error {
		d := r.num("water_table_depth_m")
		got, err := evaporation(t, d, driest)
		if err != nil {
			return fmt.Errorf("%s, %s, %g m: %w", file, name, d, err)
		}
		checks = append(checks, Check{ID: fmt.Sprintf("richards/%s:%s, %g m", file, name, d), What: fmt.Sprintf("maximum evaporation, %s, table at %g m", name, d),
			Source: source, Status: Computed, Unit: "mm/d", Expected: want, Got: got, Tolerance: share * want, Why: why})
		return nil
	}
	for _, r := range table("richards/r06a_gardner_max_evaporation.csv") {
		a, b, n := r.num("a_cm^(n+1)_per_d"), r.num("b_cm^n"), r.num("n")
		// K = a/(b+s^n), cm/d and cm. Water content does not matter to a steady flow.
		t, err := soil.NewTable(
			func(h float64) float64 { return 0.4 / (1 - h) },
			func(h float64) float64 { return a / (b + math.Pow(-100*h, n)) / 100 * perDay })
		if err != nil {
			return nil, err
		}
		if err := add("r06a_gardner_max_evaporation", r, r["soil"], t, airDry, r.num("Emax_exact_mm_per_d"), 0.005, evaporationWhy, "Gardner 1958, exact form"); err != nil {
			return nil, err
		}
	}
	for _, r := range table("richards/r06b_exponential_max_evaporation.csv") {
		t := flowTable(soil.Exponential{ThetaS: 0.4, Alpha: r.num("alpha_per_m"), Ksat: r.num("Ks_m_per_d") * perDay})
		// The table's K lies above an exponential by (alpha ds)^2/12 in the mean, ds at
		// most a 32nd of the suction, which is the depth at most.
		bend := r.num("alpha_per_m") * r.num("water_table_depth_m") / 32
		if err := add("r06b_exponential_max_evaporation", r, r["soil"], t, airDry, r.num("Emax_mm_per_d"), 0.005+bend*bend/12,
			"0.5 % for the cells, and what linear conductivity between 32 suctions an octave adds to an exponential", "E = Ks/(exp(alpha d) - 1), exponential soil of Gardner 1958"); err != nil {
			return nil, err
		}
	}
	for _, r := range table("richards/r06c_vg_max_evaporation.csv") {
		class := r["texture_class_carsel_parrish"]
		if err := add("r06c_vg_max_evaporation", r, class, flowTable(classCurve(class, 0)), -153, r.num("Emax_mm_per_d_surface_at_-153m_head"), 0.005, evaporationWhy, "integral of ds/(1+E/K), classes of Carsel and Parrish 1988"); err != nil {
			return nil, err
		}
	}
	return checks, nil
}

// columnCapillaryRise compares steady upward flow (r07): the column is as high as
// the flux reaches at 153 m of suction, which is held at the surface. The flux
// and the heights of the other suctions must come out.
func columnCapillaryRise() ([]Check, error) {
	const source = "integral of ds/(1+q/K), classes of Carsel and Parrish 1988"
	rows := table("richards/r07_steady_capillary_rise.csv")
	var checks []Check
	for first := 0; first < len(rows); {
		class, flux := rows[first]["texture_class_carsel_parrish"], rows[first].num("upward_flux_mm_per_d")
		last := first
		for last+1 < len(rows) && rows[last+1]["texture_class_carsel_parrish"] == class && rows[last+1].num("upward_flux_mm_per_d") == flux {
			last++
		}
		height := rows[last].num("height_above_water_table_m")
		c := overTable(flowTable(classCurve(class, 0)), height)
		c.Surface.HeldHead = rows[last].num("pressure_head_m")
		q, err := settle(c, 0)
		if err != nil {
			return nil, fmt.Errorf("r07, %s, %g mm/d: %w", class, flux, err)
		}
		name := fmt.Sprintf("%s, %g mm/d", class, flux)
		checks = append(checks, Check{ID: "richards/r07_steady_capillary_rise:" + name, What: fmt.Sprintf("capillary rise, %s: flux to %.3g m", name, height), Source: source, Status: Computed,
			Unit: "mm/d", Expected: flux, Got: -q / perDay * 1000, Tolerance: 0.005 * flux, Why: evaporationWhy})
		for _, r := range rows[first:last] {
			head, want := r.num("pressure_head_m"), r.num("height_above_water_table_m")
			checks = append(checks, Check{ID: fmt.Sprintf("richards/r07_steady_capillary_rise:%s, %g m", name, head), What: fmt.Sprintf("capillary rise, %s: height of %g m of head", name, head), Source: source, Status: Computed,
				Unit: "m", Expected: want, Got: heightOf(c, head), Tolerance: 0.005 * want, Why: evaporationWhy})
		}
		first = last + 1
	}
	return checks, nil
}

// heightOf is the height above the base (m) at which a column that dries upward
// has the head h (m).
func heightOf(c *column.Column, h float64) float64 {
	z, head := c.Grid.Mid, c.H
	for i := len(head) - 2; i >= 0; i-- {
		if head[i] <= h {
			// Suction bends far more than its logarithm.
			share := math.Log(h/head[i+1]) / math.Log(head[i]/head[i+1])
			return c.Grid.Depth() - (z[i+1] + (z[i]-z[i+1])*share)
		}
	}
	return c.Grid.Depth()
}
