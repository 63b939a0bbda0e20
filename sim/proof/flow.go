package proof

import (
	"context"
	"fmt"
	"math"
	"strings"

	"mottle/sim/flow"
)

// routing holds the times, hydrographs and routers of a watershed against worked
// examples and analytic solutions.
func routing(ctx context.Context) ([]Check, error) {
	return inTurn(ctx, timesOfFlow, unitHydrographs, storesOfFlow, reachesOfFlow, soilInFlow)
}

const (
	footLength  = 0.3048                               // m
	mileLength  = 1609.344                             // m
	footSecond  = footLength * footLength * footLength // m3/s of a ft3/s
	hourLength  = 3600.                                // s
	lastPrinted = "half of the last digit printed"
)

// watershedRow adds checks under a row of watershed-checks.csv, with its source and
// status.
type watershedRow struct {
	row    row
	checks *[]Check
}

// watershedRows finds the rows of watershed-checks.csv by id.
func watershedRows(checks *[]Check) func(id string) watershedRow {
	byID := map[string]row{}
	for _, r := range table("watershed-checks.csv") {
		byID[r["id"]] = r
	}
	return func(id string) watershedRow {
		r, ok := byID[id]
		if !ok {
			panic("watershed-checks.csv: no row " + id)
		}
		return watershedRow{r, checks}
	}
}

// add is one number of the row; the second and later ones count on in the id.
func (w watershedRow) add(what, unit string, expected, got, tolerance float64, why string) {
	status, source := Computed, w.row["source"]
	switch {
	case w.row["status"] == "READ" || w.row["status"] == "READ (inputs)":
		status = Published
	case strings.HasPrefix(w.row["status"], "FROM MEMORY"):
		source += " (from memory, recomputed)"
	}
	id := "watershed-checks.csv:" + w.row["id"]
	n := 1
	for _, c := range *w.checks {
		if c.ID == id || strings.HasPrefix(c.ID, id+"/") {
			n++
		}
	}
	if n > 1 {
		id += fmt.Sprintf("/%d", n)
	}
	*w.checks = append(*w.checks, Check{ID: id, What: what, Source: source, Status: status,
		Unit: unit, Expected: expected, Got: got, Tolerance: tolerance, Why: why})
}

// numbers are those of the row's expected column, in order.
func (w watershedRow) numbers() []float64 {
	var x []float64
	for _, word := range strings.FieldsFunc(w.row["expected"], func(r rune) bool { return strings.ContainsRune(" ;/,=", r) }) {
		var v float64
		if n, err := fmt.Sscanf(word, "%g", &v); n == 1 && err == nil && word != "" {
			x = append(x, v)
		}
	}
	return x
}

// timesOfFlow are rows U4 and U7 to U12: times of concentration and design peaks.
func timesOfFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	lag, err := flow.Lag(5000*footLength, 0.02, 80)
	if err != nil {
		return nil, err
	}
	at("U7").add("lag of 5000 ft at 2 %, CN 80", "h", at("U7").numbers()[0], lag/hourLength, 5e-4, "7069 of the SI form has four digits")
	at("U7").add("time of concentration of it", "h", at("U7").numbers()[1], lag/flow.LagShare/hourLength, 5e-4, "7069 of the SI form has four digits")
	kirpich, err := flow.Kirpich(1000, 0.01)
	if err != nil {
		return nil, err
	}
	at("U8").add("1 km at 1 %, in the form of miles and feet", "min", at("U8").numbers()[0], kirpich/60, 0.05, "the constants of the three forms have three digits")
	sheet, err := flow.SheetFlow(100*footLength, 0.24, 3.6*inch, 0.01)
	if err != nil {
		return nil, err
	}
	shallow, err := flow.ShallowFlow(1400*footLength, flow.Unpaved, 0.01)
	if err != nil {
		return nil, err
	}
	speed, err := flow.Manning(27/28.2*footLength, 0.005, 0.05)
	if err != nil {
		return nil, err
	}
	channel := 7300 * footLength / speed
	at("U9").add("sheet, shallow and channel flow together", "h", at("U9").numbers()[0], (sheet+shallow+channel)/hourLength, 0.005, lastPrinted)
	peak, err := flow.GraphicalPeak(0.39*mileLength*mileLength, 6*inch, 75, 1.53*hourLength)
	if err != nil {
		return nil, err
	}
	at("U10").add("0.39 mi2, Tc 1.53 h, 6 in on CN 75", "cfs", at("U10").numbers()[0], peak/footSecond, 2, "the chart is read to 270, its fit gives 268.9")
	at("U12").add("greatest flow of a day over its mean, 10 km2", "-", at("U12").numbers()[0], flow.InstantOverDaily(10e6), 5e-4, lastPrinted)
	return checks, nil
}

// unitHydrographs are rows U1 to U6 and U11, and the tables of shapes.
func unitHydrographs() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	standard := flow.Standard()
	// 1 in from 1 mi2 in 1 h: the peak of peak-rate factor 484 is 484 ft3/s, so the unit
	// is its factor over the peak of a factor-free unit.
	unit := standard.PeakRateFactor() * (mileLength * mileLength * inch / hourLength) / standard.Peak(mileLength*mileLength, inch, hourLength)
	at("U1").add("1 in from 1 mi2 in 1 h", "cfs", at("U1").numbers()[0], unit, 5e-4, lastPrinted)
	area, rise := 0.0, 0.0
	for i := range 100 {
		piece := (standard.At(0.05*float64(i)) + standard.At(0.05*float64(i+1))) / 2 * 0.05
		area += piece
		if i < 20 {
			rise += piece
		}
	}
	at("U2").add("area under the table", "-", at("U2").numbers()[0], area, 6e-6, lastPrinted)
	at("U3").add("share before the peak", "-", at("U3").numbers()[0], rise/area, 0.001, "the handbook rounds 0.3743 to 0.375")
	tp := flow.TimeToPeak(0.30*hourLength, 2.3*hourLength)
	at("U4").add("peak of 1 in on 4.6 mi2, Tp 1.53 h", "cfs", at("U4").numbers()[0], standard.Peak(4.6*mileLength*mileLength, inch, tp)/footSecond, 0.5, lastPrinted)
	h, err := flow.NewHydrograph(standard, hourLength, 720)
	if err != nil {
		return nil, err
	}
	peak, when := 0.0, 0.0
	for i := range 10 {
		q := 0.0
		if i < 3 {
			q = []float64{0.005, 0.010, 0.003}[i] * 2e6 / 720
		}
		if o := h.Step(q) / h.Scale(); o > peak {
			peak, when = o, 0.2*float64(i+1)
		}
	}
	at("U11").add("peak of three pulses, the table unscaled", "m3/s", at("U11").numbers()[0], peak, 5e-4, lastPrinted)
	at("U11").add("its time", "h", at("U11").numbers()[1], when, 1e-9, "a step of the table")
	at("U11").add("volume of the table unscaled", "mm", 18.008, 18/h.Scale(), 5e-4, lastPrinted)

	exponents, constants := at("U6").numbers(), at("U5").numbers()
	for i, prf := range []float64{484, 284, 300, 600} {
		m, err := flow.GammaExponent(prf)
		if err != nil {
			return nil, err
		}
		at("U6").add(fmt.Sprintf("gamma exponent of factor %g", prf), "-", exponents[i], m, 5.1e-5, lastPrinted)
	}
	shapes, err := peakRates()
	if err != nil {
		return nil, err
	}
	gamma284, err := flow.Gamma(284)
	if err != nil {
		return nil, err
	}
	for i, s := range []flow.Shape{standard, gamma284} {
		at("U5").add(fmt.Sprintf("peak of 1 mm on 1 km2 in 1 h, factor %g", s.PeakRateFactor()), "m3/s", constants[i], s.Peak(1e6, 0.001, hourLength), 5.1e-6, lastPrinted)
	}
	checks = append(checks, shapes...)
	more, err := shapeTable()
	return append(checks, more...), err
}

// peakRates are the largest gaps over watershed-peak-rate-factor.csv.
func peakRates() ([]Check, error) {
	var exponent, constant, base float64
	rows := table("watershed-peak-rate-factor.csv")
	for _, r := range rows {
		prf := r.num("PRF_us")
		m, err := flow.GammaExponent(prf)
		if err != nil {
			return nil, err
		}
		triangle, err := flow.Triangle(prf)
		if err != nil {
			return nil, err
		}
		end := 1.0 // the side falls as a straight line: its height at 1.5 says where it ends
		if low := triangle.At(1.5); low > 0 {
			end = 1 + 0.5/(1-low)
		}
		exponent = math.Max(exponent, math.Abs(m-r.num("gamma_shape_m")))
		constant = math.Max(constant, math.Abs(triangle.Peak(1e6, 0.001, hourLength)-r.num("constant_si_m3s_per_km2_mm_h")))
		base = math.Max(base, math.Abs(end-r.num("triangle_Tb_over_Tp")))
	}
	check := func(column, what, unit string, gap, tolerance float64) Check {
		return Check{ID: "watershed-peak-rate-factor.csv:" + column, What: fmt.Sprintf("%s: largest gap over %d factors", what, len(rows)),
			Source: "NRCS, National Engineering Handbook 630 chapter 16 form; gamma integral", Status: Computed, Unit: unit, Got: gap, Tolerance: tolerance, Why: lastPrinted}
	}
	return []Check{
		check("gamma_shape_m", "gamma exponent", "-", exponent, 5.1e-5),
		check("constant_si", "peak of 1 mm on 1 km2 in 1 h", "m3/s", constant, 5.1e-7),
		check("triangle_Tb_over_Tp", "base of the triangle", "Tp", base, 5.1e-5),
	}, nil
}

// shapeTable are the largest gaps over watershed-unit-hydrograph.csv.
func shapeTable() ([]Check, error) {
	gamma484, err := flow.Gamma(484)
	if err != nil {
		return nil, err
	}
	gamma284, err := flow.Gamma(284)
	if err != nil {
		return nil, err
	}
	var checks []Check
	for _, s := range []struct {
		column, source string
		shape          flow.Shape
		tolerance      float64
	}{
		{"q_over_qp_table", "NRCS, National Engineering Handbook 630, table 16-1 (from memory; area and worked example agree)", flow.Standard(), 1e-12},
		{"q_over_qp_gamma_PRF484", "gamma form", gamma484, 5.1e-6}, {"q_over_qp_gamma_PRF284", "gamma form", gamma284, 5.1e-6},
	} {
		gap, n := 0.0, 0
		for _, r := range table("watershed-unit-hydrograph.csv") {
			gap = math.Max(gap, math.Abs(s.shape.At(r.num("t_over_Tp"))-r.num(s.column)))
			n++
		}
		checks = append(checks, Check{ID: "watershed-unit-hydrograph.csv:" + s.column, What: fmt.Sprintf("largest gap of %d ordinates", n), Source: s.source,
			Status: Computed, Unit: "-", Got: gap, Tolerance: s.tolerance, Why: lastPrinted})
	}
	return checks, nil
}
