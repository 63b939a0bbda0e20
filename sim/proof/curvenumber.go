package proof

import (
	"fmt"
	"math"
	"slices"

	"mottle/sim/flow"
)

const (
	handbook10 = "NRCS, National Engineering Handbook 630 chapter 10 (from memory, recomputed)"
	inch       = 0.0254 // m
)

// curveNumberChecks hold the formulas behind the runoff reports against worked
// examples and tables.
func curveNumberChecks() []Check {
	checks := workedRunoff()
	var depths []string
	for _, r := range table("watershed-cn-runoff.csv") {
		if !slices.Contains(depths, r["rain_in"]) {
			depths = append(depths, r["rain_in"])
		}
	}
	for _, rain := range depths {
		checks = append(checks, tabledRunoff(rain, "runoff_mm_lambda020", 0.5e-3, "mm", handbook10),
			tabledRunoff(rain, "runoff_in_lambda005_converted_cn", 0.5e-4, "in", "form of Hawkins et al. 2009 (from memory, recomputed)"))
	}
	for _, r := range table("watershed-cn-antecedent.csv") {
		cn := r.num("cn_II")
		for _, s := range []struct {
			state, name string
			formula     func(float64) float64
		}{{"I", "dry", flow.DryCurveNumber}, {"III", "wet", flow.WetCurveNumber}} {
			id := fmt.Sprintf("watershed-cn-antecedent.csv:%g ", cn) + s.state
			checks = append(checks,
				Check{ID: id, What: fmt.Sprintf("CN %g on %s ground, formula", cn, s.name), Source: "Hawkins et al. 1985 (from memory, recomputed)", Status: Computed, Unit: "-",
					Expected: r.num("cn_" + s.state + "_hawkins"), Got: s.formula(cn), Tolerance: 0.00501, Why: "half of the last digit"},
				Check{ID: id + " table", What: fmt.Sprintf("CN %g on %s ground, table", cn, s.name), Source: "SCS table in a secondary listing", Status: Published, Unit: "-",
					Expected: r.num("cn_" + s.state + "_table"), Got: s.formula(cn), Tolerance: 2, Why: "the formula's stated distance from the table"})
		}
	}
	return checks
}

// tabledRunoff is the largest gap over the curve numbers of one depth of rain.
func tabledRunoff(rain, column string, half float64, unit, source string) Check {
	gap, n := 0.0, 0
	for _, r := range table("watershed-cn-runoff.csv") {
		if r["rain_in"] != rain {
			continue
		}
		n++
		got := flow.CurveNumberRunoff(r.num("rain_in")*inch, r.num("cn"), flow.Abstraction) * 1000
		if unit == "in" {
			got = flow.CurveNumberRunoff(r.num("rain_in")*inch, flow.AtLowAbstraction(r.num("cn")), flow.LowAbstraction) / inch
		}
		gap = math.Max(gap, math.Abs(got-r.num(column)))
	}
	return Check{ID: "watershed-cn-runoff.csv:" + rain + " in, " + column, What: fmt.Sprintf("runoff of %s in of rain: largest gap over %d curve numbers", rain, n),
		Source: source, Status: Computed, Unit: unit, Got: gap, Tolerance: half * 1.001, Why: "half of the last digit of the table"}
}

// workedRunoff are rows R1 to R11 of watershed-checks.csv.
func workedRunoff() []Check {
	type example struct{ rain, cn float64 } // in
	examples := map[string]example{"R1": {6, 70}, "R2": {6, 75}, "R3": {3, 80}, "R4": {5, 70}, "R5": {1, 90}, "R6": {10, 60}, "R7": {0.5, 80}}
	var checks []Check
	for _, r := range table("watershed-checks.csv") {
		add := func(what, unit string, expected, got, tolerance float64, why string) {
			checks = append(checks, Check{ID: "watershed-checks.csv:" + r["id"], What: what, Source: r["source"] + " (from memory, recomputed)", Status: Computed,
				Unit: unit, Expected: expected, Got: got, Tolerance: tolerance, Why: why})
		}
		if e, ok := examples[r["id"]]; ok {
			got := flow.CurveNumberRunoff(e.rain*inch, e.cn, flow.Abstraction) / inch
			why := "half of the last digit printed"
			tolerance := r.num("tolerance")
			if tolerance == 0 {
				tolerance, why = 1e-12, "exactly nothing but for rounding"
			}
			add(fmt.Sprintf("runoff of %g in on CN %g", e.rain, e.cn), "in", r.num("expected"), got, tolerance, why)
		}
		switch r["id"] {
		case "R8":
			add("CN 80 at Ia = 0.05 S", "-", r.num("expected"), flow.AtLowAbstraction(80), 0.005, "half of the last digit printed")
		case "R9":
			got := flow.CurveNumberRunoff(2*inch, flow.AtLowAbstraction(80), flow.LowAbstraction) / inch
			add("runoff of 2 in on CN 80 at Ia = 0.05 S", "in", r.num("expected"), got, 5e-5, "half of the last digit printed")
		case "R10":
			add("CN 80 on dry ground", "-", 63, flow.DryCurveNumber(80), 1, r["tolerance"]+", as the reference row allows between formulas and table")
			add("CN 80 on wet ground", "-", 91, flow.WetCurveNumber(80), 1, r["tolerance"]+", as the reference row allows between formulas and table")
		case "R11":
			for _, side := range []struct {
				name     string
				cn, want float64
			}{{"undrained", 89, 1.900}, {"drained", 78, 1.129}} {
				got := flow.CurveNumberRunoff(3*inch, side.cn, flow.Abstraction) / inch
				add(fmt.Sprintf("runoff of 3 in, row crop of dual group B/D, %s, CN %g", side.name, side.cn), "in", side.want, got, 5e-4, "half of the last digit printed")
			}
		}
	}
	return checks
}
