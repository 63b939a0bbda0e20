package proof

import (
	"context"
	"fmt"
	"math"

	"mottle/sim/drain"
)

// mmPerDay is 1 mm/d in m/s.
const mmPerDay = perDay / 1000

// drainGroup holds the formulas of parallel drains, the pipe, and the column with
// a drain in it.
func drainGroup(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		drainDepth, drainPrinted, drainPrintedSum, drainSteady, drainErnst, drainPonded, drainPondedWorked, drainPondedShare,
		drainFallingCurve, drainFallingTime, drainFallingSpacing, drainFallingFirstTerm, drainFallingEqual,
		drainCapacity, drainGrade, drainRadius, drainEntrance, drainCoefficients,
		drainColumnSteady, drainColumnFalling,
	)
}

// drainDepth compares the equivalent depth with the exact series, computed
// independently for two files of radii.
func drainDepth() ([]Check, error) {
	const source = "Hooghoudt's equivalent depth, series of van der Molen and Wesseling 1991"
	var checks []Check
	for _, file := range []string{"equivalent_depth_computed.csv", "equivalent_depth_r0.1m.csv"} {
		for i, r := range table(file) {
			what := fmt.Sprintf("equivalent depth: L %s m, D %s m, r %s m", r["L_m"], r["D_m"], r["r_m"])
			checks = append(checks, printed(fileRow(file, i), what, source, "m",
				r.num("vandermolen_wesseling_m"), drain.EquivalentDepth(r.num("L_m"), r.num("D_m"), r.num("r_m"))))
		}
	}
	return checks, nil
}

// drainPrinted sets the equivalent depth beside Hooghoudt's printed table, which
// was made with his own approximation and is from memory: a report.
func drainPrinted() ([]Check, error) {
	const file = "equivalent_depth_r0.1m.csv"
	var checks []Check
	for i, r := range table(file) {
		if r["table_value_from_memory"] == "" {
			continue
		}
		listed, depth := r.num("table_value_from_memory"), r.num("D_m")
		c := Check{ID: fileRow(file, i), What: fmt.Sprintf("printed equivalent depth: L %s m, D %s m", r["L_m"], r["D_m"]),
			Source: "Hooghoudt's table, ILRI Publication 16", Status: Memory, Unit: "m",
			Expected: listed, Got: drain.EquivalentDepth(r.num("L_m"), depth, r.num("r_m")), Report: true,
			Low: 0.93 * listed, High: 1.07 * listed, Note: "the table's approximation lies up to 7 % above the exact series"}
		if math.IsInf(depth, 1) { // one logarithm in both
			c.Low, c.High, c.Note = listed-0.01, listed+0.01, "printed to two decimals"
		}
		checks = append(checks, c)
	}
	return checks, nil
}

// drainPrintedSum compares how far the printed table lies from the exact series over
// its cells with a barrier.
func drainPrintedSum() ([]Check, error) {
	const file, source = "equivalent_depth_r0.1m.csv", "Hooghoudt's table (from memory) against the series of van der Molen and Wesseling 1991, recomputed"
	sum, most, cells := 0.0, 0.0, 0.0
	for _, r := range table(file) {
		depth := r.num("D_m")
		if r["table_value_from_memory"] == "" || math.IsInf(depth, 1) {
			continue
		}
		listed := r.num("table_value_from_memory")
		off := math.Abs(drain.EquivalentDepth(r.num("L_m"), depth, r.num("r_m"))/listed - 1)
		sum, most, cells = sum+off, max(most, off), cells+1
	}
	add := func(what string, want, got float64) Check {
		return Check{ID: file, What: "printed equivalent depths against the series: " + what, Source: source, Status: Computed, Unit: "%",
			Expected: want, Got: 100 * got, Tolerance: 0.051, Why: "printed to 0.1 %"}
	}
	return []Check{add("mean difference", 3.0, sum/cells), add("largest difference", 6.8, most)}, nil
}

// drainSteady compares Hooghoudt's flux and spacing.
func drainSteady() ([]Check, error) {
	const source = "Hooghoudt 1940"
	var checks []Check
	for i, r := range table("check_hooghoudt_flow.csv") {
		id := fileRow("check_hooghoudt_flow.csv", i)
		k, l := r.num("K_m_per_d")*perDay, r.num("L_m")
		d := drain.EquivalentDepth(l, r.num("D_m"), r.num("r_m"))
		what := fmt.Sprintf("K %s m/d, L %s m, D %s m, table %s m above: ", r["K_m_per_d"], r["L_m"], r["D_m"], r["m_mid_m"])
		checks = append(checks,
			printed(id, what+"equivalent depth", source, "m", r.num("d_equiv_m"), d),
			printed(id, what+"flux", source, "mm/d", r.num("q_mm_per_d"), drain.Hooghoudt(k, k, d, r.num("m_mid_m"), l)/mmPerDay))
	}
	for i, r := range table("check_hooghoudt_spacing.csv") {
		id := fileRow("check_hooghoudt_spacing.csv", i)
		l := drain.HooghoudtSpacing(r.num("K_above_m_per_d")*perDay, r.num("K_below_m_per_d")*perDay,
			r.num("D_m"), r.num("r_m"), r.num("m_mid_m"), r.num("q_mm_per_d")*mmPerDay)
		checks = append(checks,
			printed(id, r["case"]+": spacing", source, "m", r.num("L_m"), l),
			printed(id, r["case"]+": equivalent depth there", source, "m", r.num("d_equiv_m"), drain.EquivalentDepth(l, r.num("D_m"), r.num("r_m"))))
	}
	return checks, nil
}

// drainErnst compares Ernst's three heads.
func drainErnst() ([]Check, error) {
	const file, source = "check_ernst.csv", "Ernst 1962, ILRI Bulletin 15"
	var checks []Check
	for i, r := range table(file) {
		v, h, rad := drain.Ernst(r.num("q_mm_per_d")*mmPerDay, r.num("L_m"), drain.ErnstSoil{
			VerticalThickness: r.num("Dv_m"), KVertical: r.num("Kv_m_per_d") * perDay,
			Transmissivity: r.num("sumKD_m2_per_d") * perDay,
			KRadial:        r.num("Kr_m_per_d") * perDay, RadialThickness: r.num("Dr_m"),
			GeometryFactor: r.num("a"), WetPerimeter: r.num("u_m"),
		})
		what := fmt.Sprintf("%s mm/d, L %s m: ", r["q_mm_per_d"], r["L_m"])
		for _, q := range []struct {
			name, column string
			got          float64
		}{{"vertical head", "h_vertical_m", v}, {"horizontal head", "h_horizontal_m", h}, {"radial head", "h_radial_m", rad}, {"table above the drain", "h_total_m", v + h + rad}} {
			checks = append(checks, printed(fileRow(file, i), what+q.name, source, "m", r.num(q.column), q.got))
		}
	}
	return checks, nil
}
