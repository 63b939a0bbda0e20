package proof

import (
	"fmt"
	"math"

	"mottle/sim/drain"
)

// kirkham is the source of the ponded flow.
const kirkham = "Kirkham 1957 (form from memory, verified against an image sum)"

// drainPonded compares Kirkham's flow under a ponded surface.
func drainPonded() ([]Check, error) {
	const file = "check_kirkham_ponded.csv"
	var checks []Check
	for i, r := range table(file) {
		b, radius, h, l := r.num("drain_centre_depth_m"), r.num("r_m"), r.num("barrier_depth_m"), r.num("L_m")
		what := fmt.Sprintf("K %s m/d, pond %s m, drain %s m, r %s m, barrier %s m, L %s m: ", r["K_m_per_d"], r["ponded_depth_m"], r["drain_centre_depth_m"], r["r_m"], r["barrier_depth_m"], r["L_m"])
		checks = append(checks,
			printed(fileRow(file, i), what+"g", kirkham, "-", r.num("g"), drain.KirkhamFactor(b, radius, h, l)),
			printed(fileRow(file, i), what+"flux", kirkham, "mm/d", r.num("q_mm_per_d"),
				drain.KirkhamPonded(r.num("K_m_per_d")*perDay, r.num("ponded_depth_m"), b, radius, h, l)/mmPerDay))
	}
	return checks, nil
}

// drainPondedWorked compares three examples with all their digits, at other
// conductivities than the table's.
func drainPondedWorked() ([]Check, error) {
	var checks []Check
	for i, c := range []struct{ k, pond, depth, radius, barrier, spacing, g, q float64 }{ // m/d, m
		{1, 0.01, 1, 0.0051, 2, 20, 12.418440, 50.843526},
		{1, 0, 1, 0.05, 2, 10, 7.785053, 153.34580},
		{0.5, 0.02, 1.2, 0.0051, 3, 30, 12.592848, 20.205760},
	} {
		id := fmt.Sprintf("drain/ponded:%d", i+1)
		what := fmt.Sprintf("K %g m/d, pond %g m, drain %g m, r %g m, barrier %g m, L %g m: ", c.k, c.pond, c.depth, c.radius, c.barrier, c.spacing)
		const why = "half a unit of the last digit printed"
		checks = append(checks,
			Check{ID: id, What: what + "g", Source: kirkham, Status: Computed, Unit: "-",
				Expected: c.g, Got: drain.KirkhamFactor(c.depth, c.radius, c.barrier, c.spacing), Tolerance: 5.1e-7, Why: why},
			Check{ID: id, What: what + "flux", Source: kirkham, Status: Computed, Unit: "mm/d",
				Expected: c.q, Got: drain.KirkhamPonded(c.k*perDay, c.pond, c.depth, c.radius, c.barrier, c.spacing) / mmPerDay, Tolerance: c.q * 4e-8, Why: why + ", 4e-8 of it at most"})
	}
	return checks, nil
}

// drainPondedShare compares the ponded flow with Hooghoudt's under a table at the
// surface: what a model without Kirkham's flow misses.
func drainPondedShare() ([]Check, error) {
	const k, radius = 0.5 * perDay, 0.0051
	var checks []Check
	for _, c := range []struct {
		spacing   float64
		low, high float64 // of the ratio, barrier at 1.8 to 3 m
		tight     [2]float64
	}{
		{10, 1.1, 1.4, [2]float64{1.4, 1.8}},
		{20, 1.7, 2.4, [2]float64{2.7, 3.6}},
		{30, 2.3, 3.4, [2]float64{4.0, 5.3}},
	} {
		ratio := func(depth, barrier float64) float64 {
			d := drain.EquivalentDepth(c.spacing, barrier-depth, radius)
			return drain.KirkhamPonded(k, 0, depth, radius, barrier, c.spacing) / drain.Hooghoudt(k, k, d, depth, c.spacing)
		}
		low, high, tightLow, tightHigh := math.Inf(1), 0.0, math.Inf(1), 0.0
		for _, depth := range []float64{0.9, 1, 1.1, 1.2} {
			for _, barrier := range []float64{1.8, 2, 2.5, 3} {
				low, high = min(low, ratio(depth, barrier)), max(high, ratio(depth, barrier))
			}
			tightLow, tightHigh = min(tightLow, ratio(depth, depth+0.2)), max(tightHigh, ratio(depth, depth+0.2))
		}
		for _, e := range []struct {
			what      string
			want, got float64
		}{
			{"barrier at 1.8-3 m, least", c.low, low}, {"barrier at 1.8-3 m, most", c.high, high},
			{"barrier 0.2 m below, least", c.tight[0], tightLow}, {"barrier 0.2 m below, most", c.tight[1], tightHigh},
		} {
			checks = append(checks, Check{ID: fmt.Sprintf("drain/ponded share:%g m", c.spacing), What: fmt.Sprintf("ponded flow over flow with the table at the surface, drains at 0.9-1.2 m, L %g m, %s", c.spacing, e.what),
				Source: "Kirkham 1957 over Hooghoudt 1940, computed", Status: Computed, Unit: "-", Expected: e.want, Got: e.got, Tolerance: 0.051, Why: "printed to 0.1"})
		}
	}
	return checks, nil
}
