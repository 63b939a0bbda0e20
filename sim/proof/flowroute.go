package proof

import (
	"fmt"
	"math"

	"mottle/sim/flow"
	"mottle/sim/washoff"
)

// storesOfFlow are rows L1 to L5; the trapezoid scheme of L2 is Muskingum's with X = 0.
func storesOfFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	linear, err := flow.NewCascade(1, 3*hourLength, hourLength)
	if err != nil {
		return nil, err
	}
	for i, want := range at("L1").numbers() {
		q := 0.0
		if i < 4 {
			q = []float64{0, 4, 6, 2}[i]
		}
		linear.Step(q)
		at("L1").add(fmt.Sprintf("linear store of 3 h after %d h", i), "-", want, linear.Outflow(), 5.1e-6, lastPrinted)
	}
	trapezoid, err := flow.NewMuskingum(3*hourLength, 0, 1, hourLength)
	if err != nil {
		return nil, err
	}
	for i, want := range at("L2").numbers() {
		q := 0.0
		if i < 4 {
			q = []float64{0, 4, 6, 2}[i]
		}
		at("L2").add(fmt.Sprintf("linear store of 3 h by trapezoid after %d h", i), "-", want, trapezoid.Step(q), 5.1e-6, lastPrinted)
	}
	at("L3").add("unit hydrograph of 3 stores of 2 h at its peak", "1/h", math.Exp(-2), hourLength*flow.NashFlow(3, 2*hourLength, 4*hourLength), 1e-9, "exact: e^-2 / 1 h")
	cascade, err := flow.NewCascade(3, 2*hourLength, hourLength)
	if err != nil {
		return nil, err
	}
	convolved, err := flow.NewNash(3, 2*hourLength, hourLength)
	if err != nil {
		return nil, err
	}
	for i, want := range at("L4").numbers() {
		q := 0.0
		if i == 0 {
			q = 1
		}
		cascade.Step(q)
		at("L4").add(fmt.Sprintf("1 h pulse through 3 stores of 2 h, stepped, after %d h", i+1), "1/h", want, cascade.Outflow(), 5.1e-6, lastPrinted)
		at("L4").add(fmt.Sprintf("1 h pulse through 3 stores of 2 h, convolved, after %d h", i+1), "1/h", want, convolved.Step(q), 5.1e-6, lastPrinted)
	}
	at("L5").add("step response of 3 stores of 2 h after 6 h", "-", at("L5").numbers()[0], flow.NashStep(3, 2*hourLength, 6*hourLength), 5.1e-6, lastPrinted)
	return checks, nil
}

// reachesOfFlow are rows M1 to M5 and the two tables of routed flow.
func reachesOfFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	triple := func(id string, want []float64, c flow.Coefficients, tolerance float64, why string) {
		for i, got := range []float64{c.C1, c.C2, c.C3} {
			at(id).add(fmt.Sprintf("coefficient %d", i+1), "-", want[i], got, tolerance, why)
		}
	}
	triple("M1", at("M1").numbers(), flow.MuskingumCoefficients(2.3*hourLength, 0.15, hourLength), 5e-5, lastPrinted)
	triple("M3", at("M3").numbers(), flow.MuskingumCoefficients(hourLength, 0.2, hourLength), 5e-4, lastPrinted)

	m, err := flow.NewMuskingum(2.3*hourLength, 0.15, 1, hourLength)
	if err != nil {
		return nil, err
	}
	peak, when, printed, recomputed := 0.0, 0.0, 0.0, 0.0
	rows := table("watershed-muskingum.csv")
	for i, r := range rows {
		if i == 0 {
			m.Settle(r.num("inflow"), r.num("outflow_published"))
			continue
		}
		got := m.Step(r.num("inflow"))
		printed = math.Max(printed, math.Abs(got-r.num("outflow_published")))
		recomputed = math.Max(recomputed, math.Abs(got-r.num("outflow_recomputed")))
		if got > peak {
			peak, when = got, r.num("hour")
		}
	}
	at("M2").add("peak of the outflow", "cfs", at("M2").numbers()[0], peak, 0.6, "the book carries its coefficients with four decimals")
	at("M2").add("hour of the peak", "h", at("M2").numbers()[1], when, 0.1, "an hour of the table")
	chow := "Chow, Maidment and Mays 1988 ex. 8.4.1 (from memory, recomputed)"
	checks = append(checks,
		Check{ID: "watershed-muskingum.csv:outflow_published", What: fmt.Sprintf("largest gap of %d routed flows", len(rows)-1), Source: chow, Status: Computed, Unit: "cfs", Got: printed, Tolerance: 0.51, Why: "whole numbers printed, carried with coefficients of four decimals"},
		Check{ID: "watershed-muskingum.csv:outflow_recomputed", What: fmt.Sprintf("largest gap of %d routed flows", len(rows)-1), Source: chow, Status: Computed, Unit: "cfs", Got: recomputed, Tolerance: 5.1e-4, Why: lastPrinted})

	ponce := flow.Wave{Celerity: 1.6 * 2.5, UnitFlow: 10, Slope: 0.000868}
	c, err := flow.NewMuskingumCunge(ponce, 14400, 0, hourLength)
	if err != nil {
		return nil, err
	}
	at("M4").add("Courant number", "-", 1, ponce.Celerity*hourLength/14400, 1e-9, "exact in the example's numbers")
	at("M4").add("diffusion number", "-", 0.2, ponce.Spread()/14400, 0.0002, "the slope has three digits")
	triple("M4", []float64{0.0909, 0.8182, 0.0909}, c.Coefficients(), 0.0002, "the slope has three digits")
	gap, top, hour := 0.0, 0.0, 0.0
	rows = table("watershed-muskingum-cunge.csv")
	for _, r := range rows {
		got := c.Step(r.num("inflow_m3s"))
		gap = math.Max(gap, math.Abs(got-r.num("outflow_m3s")))
		if got > top {
			top, hour = got, r.num("hour")
		}
	}
	at("M5").add("peak of the routed triangle", "m3/s", at("M5").numbers()[0], top, 0.01, "the row's digits; D from the slope is 0.19998")
	at("M5").add("hour of the peak", "h", at("M5").numbers()[1], hour, 0.1, "an hour of the table")
	checks = append(checks, Check{ID: "watershed-muskingum-cunge.csv:outflow_m3s", What: fmt.Sprintf("largest gap of %d routed flows", len(rows)), Source: "Ponce 1989 text example's coefficients (from memory, recomputed)",
		Status: Computed, Unit: "m3/s", Got: gap, Tolerance: 0.02, Why: "1000 m3/s times what 0.2 for 0.19998 moves a coefficient, 1.4e-5, and the last digit"})
	return checks, nil
}

// soilInFlow are rows E1, E1b, E2 and E3: what the water carries.
func soilInFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	const (
		ton  = 907.18474    // kg
		acre = 4046.8564224 // m2
	)
	for _, e := range []struct {
		id   string
		n    int
		r    float64
		land washoff.Land
		tol  float64
	}{
		{"E1", 0, 185, washoff.Land{K: 0.37, LS: 1.41, C: 0.119, P: 1}, 0.05}, {"E1", 1, 185, washoff.Land{K: 0.37, LS: 1.41, C: 0.119, P: 0.6}, 0.05},
		{"E1b", 0, 200, washoff.Land{K: 0.37, LS: 1.08, C: 0.49, P: 0.25}, 0.005},
	} {
		loss, err := washoff.Yearly(e.r, e.land)
		if err != nil {
			return nil, err
		}
		at(e.id).add(fmt.Sprintf("yearly soil loss, R %g, LS %g, P %g", e.r, e.land.LS, e.land.P), "ton/ac", at(e.id).numbers()[e.n], loss*acre/ton, e.tol, lastPrinted)
	}
	for _, s := range []struct {
		id                string
		feet, slope, want float64
	}{{"E1", 200, 0.08, 1.402}, {"E1b", 250, 0.06, 1.063}} {
		ls, err := washoff.Steepness(s.feet*footLength, s.slope)
		if err != nil {
			return nil, err
		}
		at(s.id).add(fmt.Sprintf("LS of %g ft at %g %%, formula", s.feet, 100*s.slope), "-", s.want, ls, 5e-4, lastPrinted)
	}
	storm, err := washoff.Storm(3.333*43560*footSecond, 30*footSecond, washoff.Land{K: 0.32, LS: 0.35, C: 0.2, P: 1})
	if err != nil {
		return nil, err
	}
	at("E2").add("sediment of a storm, against the US form", "ton", at("E2").numbers()[0], storm/ton, 0.0016*28.05, "the constants of the two forms lie 0.15 % apart")
	at("E2").add("sediment of a storm, SI form", "t", 25.49, storm/1000, 0.005, lastPrinted)
	at("E3").add("load of 250 mm at 15 mg/L", "kg/ha", at("E3").numbers()[0], washoff.Load(0.250, 15)*1e4, 1e-6, "exact")
	return checks, nil
}
