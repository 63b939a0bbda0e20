package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/drain"
	"mottle/soil"
)

// drained is a closed column of one soil with a free drain in it, its table at a
// depth (m).
func drained(t *soil.Table, barrier float64, cells int, table, spacing, depth, equivalent float64) *column.Column {
	g := column.Uniform(barrier, cells)
	c := column.New(g, filled(t, g), table)
	c.Base = column.Base{Kind: column.BaseClosed}
	c.AddLateral(column.Lateral{Spacing: spacing, Depth: depth, Level: depth, EquivalentDepth: equivalent,
		Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1})
	return c
}

// drainColumnSteady carries the column under steady rain to its steady table.
func drainColumnSteady() ([]Check, error) {
	const k, spacing, depth, barrier, radius = 0.5 * perDay, 20.0, 1.2, 2.0, 0.0051 // m/s, m
	loam := classCurve("loam", soil.AirEntry)
	loam.KMatrix = k
	soils := flowTable(loam)
	d := drain.EquivalentDepth(spacing, barrier-depth, radius)
	var checks []Check
	for _, rain := range []float64{1, 2, 4} { // mm/d
		q := rain * mmPerDay
		c := drained(soils, barrier, 60, depth, spacing, depth, d)
		if err := advance(c, 0, 400/perDay, 1/perDay, q); err != nil {
			return nil, err
		}
		id := fmt.Sprintf("drain/steady:%g mm/d", rain)
		// q L^2 = 8 K d m + 4 K m^2, solved for m.
		table := -d + math.Sqrt(d*d+q*spacing*spacing/(4*k))
		checks = append(checks,
			Check{ID: id, What: fmt.Sprintf("column under %g mm/d of rain: table above the drain", rain), Source: "Hooghoudt 1940, solved for the table", Status: Computed, Unit: "m",
				Expected: table, Got: depth - c.WaterTable(), Tolerance: 0.01 * table,
				Why: "the column adds the head of the way down past the drain, about 8 d D/(3 L2) of the table's height: 0.3 % here; the rest is for cells of 3 cm"},
			Check{ID: id, What: fmt.Sprintf("column under %g mm/d of rain: drain flow", rain), Source: "conservation of mass", Status: Computed, Unit: "mm/d",
				Expected: rain, Got: c.Last.Lateral / mmPerDay, Tolerance: 1e-6 * rain, Why: "steady after 400 days; the table's time scale is about ten"})
	}
	return checks, nil
}

// drainColumnFalling lets a table fall to the drain of a column without rain. It
// follows the quasi-steady law of its own sink, dm/dt = -q/mu with mu from the
// column's retention. Glover and Dumm's h is the height at mid-spacing while
// q follows from the mean height of the parabola; the column knows one height,
// and falls sooner.
func drainColumnFalling() ([]Check, error) {
	const (
		k, spacing, radius = 2 * perDay, 60.0, 0.1 // m/s, m
		depth, barrier     = 1.5, 11.5             // m
		start              = 0.25                  // m above the drain
		days, step         = 10, 60.0              // of the law, s
	)
	// Exponential soil that conducts well above the table, so that its water
	// follows at once, as the law takes it to.
	soils := flowTable(soil.Exponential{ThetaR: 0.06, ThetaS: 0.4, Alpha: 1, Ksat: k})
	d := drain.EquivalentDepth(spacing, barrier-depth, radius)
	c := drained(soils, barrier, 230, depth-start, spacing, depth, d)
	yield := func(m float64) float64 { return soils.ThetaS - soils.Theta(m-depth) }
	fall := func(m float64) float64 { return drain.Hooghoudt(k, k, d, m, spacing) / yield(m) }

	m, now := start, 0.0
	var checks []Check
	for day := 1; day <= days; day++ {
		until := float64(day) / perDay
		if err := advance(c, now, until, 3600, 0); err != nil {
			return nil, err
		}
		for ; now < until-1e-6; now += step {
			m -= step * fall(m-step/2*fall(m)) // midpoint rule
		}
		got := (depth - c.WaterTable()) / start
		id := fmt.Sprintf("drain/falling:%d d", day)
		// T = K D t/(mu L^2) with a flow depth D = d + h0/2.
		scaled := k * (d + start/2) * now / (yield(start/2) * spacing * spacing)
		checks = append(checks,
			Check{ID: id, What: fmt.Sprintf("column without rain, day %d: share of the table's height left", day), Source: "Hooghoudt's flow out of the column's own pores", Status: Computed, Unit: "-",
				Expected: m / start, Got: got, Tolerance: 0.02, Why: "water above the table follows within hours, not at once; cells of 5 cm"},
			Check{ID: id, What: fmt.Sprintf("column without rain, day %d: share left, against a parabola's", day), Source: "Glover and Dumm, Dumm 1960, fourth-degree start", Status: Computed, Unit: "-",
				Expected: drain.GloverDummQuartic(scaled), Got: got, Tolerance: 0.08,
				Why: "with d well above m the law is exp(-8 T), which lies up to 0.076 below the series, at T = 0.02; the rest for cells of 5 cm"})
	}
	return checks, nil
}
