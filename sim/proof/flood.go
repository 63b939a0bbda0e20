package proof

import (
	"context"
	"fmt"
	"math"

	"mottle/sim/flood"
)

// floods holds the statistics of flow records against published examples.
func floods(ctx context.Context) ([]Check, error) {
	return inTurn(ctx, floodMoments, floodCurve, frequencyFactors, otherFloods, floodPairs, regimeOfFlow, baseFlows, fitOfFlow)
}

// fishkillPeaks are the yearly peaks (ft3/s) of watershed-flood-peaks.csv.
func fishkillPeaks() []float64 {
	var peaks []float64
	for _, r := range table("watershed-flood-peaks.csv") {
		peaks = append(peaks, r.num("peak_cfs"))
	}
	return peaks
}

// floodMoments are rows F1, F2, F5 and F7, and the ranks and positions of the peaks.
func floodMoments() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	peaks := fishkillPeaks()
	d, err := flood.FitLogPearson3(peaks)
	if err != nil {
		return nil, err
	}
	for i, got := range []float64{d.Mean, d.SD, d.Skew} {
		at("F1").add([]string{"mean", "standard deviation", "skew"}[i]+" of the logarithms", "-", at("F1").numbers()[i], got, 1e-4, "four digits printed")
	}
	at("F2").add("mean square error of the station skew", "-", 0.27744, flood.SkewError(d.Skew, d.N), 6e-6, lastPrinted)
	at("F2").add("skew weighted with 0.6", "-", at("F2").numbers()[0], d.Weighted(0.6, flood.MapSkewError).Skew, 6e-6, lastPrinted)
	at("F5").add("outlier deviate of 24 years", "-", at("F5").numbers()[0], flood.OutlierFactor(24), 5e-4, lastPrinted)
	low, high, err := d.OutlierLimits()
	if err != nil {
		return nil, err
	}
	at("F5").add("low outliers lie below", "cfs", 579, low, 0.5, lastPrinted)
	at("F5").add("high outliers lie above", "cfs", 9427, high, 0.5, lastPrinted)
	for i, a := range []flood.Plotting{flood.Weibull, flood.Cunnane, flood.Gringorten} {
		at("F7").add(fmt.Sprintf("position of the largest of 24, a = %g", float64(a)), "-", at("F7").numbers()[i], a.Exceedance(1, 24), 5.1e-6, lastPrinted)
	}
	ranks := flood.Ranks(peaks)
	wrong, gap := 0.0, 0.0
	rows := table("watershed-flood-peaks.csv")
	for i, r := range rows {
		if float64(ranks[i]) != r.num("rank") {
			wrong++
		}
		for column, a := range map[string]flood.Plotting{"weibull_p": flood.Weibull, "cunnane_p": flood.Cunnane, "gringorten_p": flood.Gringorten} {
			gap = math.Max(gap, math.Abs(a.Exceedance(ranks[i], len(peaks))-r.num(column)))
		}
	}
	checks = append(checks,
		Check{ID: "watershed-flood-peaks.csv:rank", What: fmt.Sprintf("ranks of %d peaks that differ", len(rows)), Source: "public gauge record", Status: Computed, Unit: "-", Got: wrong, Tolerance: 0.5, Why: "ranks are whole numbers"},
		Check{ID: "watershed-flood-peaks.csv:positions", What: fmt.Sprintf("largest gap of %d plotting positions", 3*len(rows)), Source: "formula", Status: Computed, Unit: "-", Got: gap, Tolerance: 5.1e-6, Why: lastPrinted})
	return checks, nil
}

// floodCurve are rows F3 and F4 and watershed-flood-curve.csv: skew 0.7 as the bulletin
// rounds it.
func floodCurve() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	d, err := flood.FitLogPearson3(fishkillPeaks())
	if err != nil {
		return nil, err
	}
	d.Skew = 0.7
	at("F3").add("flood of 1 %", "cfs", at("F3").numbers()[0], d.Quantile(0.01), 50, "printed to the nearest hundred")
	at("F4").add("flood of 99 %", "cfs", at("F4").numbers()[0], d.Quantile(0.99), 0.5, lastPrinted)
	gaps, factor := [3]float64{}, 0.0
	rows := table("watershed-flood-curve.csv")
	for _, r := range rows {
		p := r.num("p_exceed")
		low, high, err := d.Limits(p, 0.90)
		if err != nil {
			return nil, err
		}
		factor = math.Max(factor, math.Abs(flood.FrequencyFactor(p, d.Skew)-r.num("K_skew_0.7")))
		for i, got := range []float64{d.Quantile(p), low, high} {
			want := r.num([]string{"Q_cfs", "lower_95_onesided_cfs", "upper_05_onesided_cfs"}[i])
			gaps[i] = math.Max(gaps[i], math.Abs(got-want))
		}
		if p == 0.99 {
			at("F4").add("lower limit of the flood of 99 %", "cfs", 568, low, 0.5, lastPrinted)
			at("F4").add("upper limit of the flood of 99 %", "cfs", 1095, high, 0.5, lastPrinted)
		}
	}
	bulletin := "Bulletin 17B, 1982 (from memory, recomputed)"
	checks = append(checks, Check{ID: "watershed-flood-curve.csv:K_skew_0.7", What: fmt.Sprintf("largest gap of %d frequency factors", len(rows)), Source: bulletin, Status: Computed, Unit: "-", Got: factor, Tolerance: 5.1e-6, Why: lastPrinted})
	for i, name := range []string{"Q_cfs", "lower_95_onesided_cfs", "upper_05_onesided_cfs"} {
		checks = append(checks, Check{ID: "watershed-flood-curve.csv:" + name, What: fmt.Sprintf("largest gap of %d probabilities", len(rows)), Source: bulletin, Status: Computed, Unit: "cfs", Got: gaps[i], Tolerance: 0.051, Why: lastPrinted})
	}
	return checks, nil
}

// frequencyFactors are the 351 values of watershed-pearson3-k.csv, row F6, one check for
// each probability.
func frequencyFactors() ([]Check, error) {
	rows := table("watershed-pearson3-k.csv")
	var checks []Check
	for _, p := range []float64{0.99, 0.95, 0.9, 0.8, 0.5, 0.4296, 0.2, 0.1, 0.04, 0.02, 0.01, 0.005, 0.002} {
		gap := 0.0
		for _, r := range rows {
			gap = math.Max(gap, math.Abs(flood.FrequencyFactor(p, r.num("skew"))-r.num(fmt.Sprintf("p_exceed_%g", p))))
		}
		checks = append(checks, Check{ID: fmt.Sprintf("watershed-pearson3-k.csv:p %g", p), What: fmt.Sprintf("frequency factors exceeded with %g: largest gap over %d skews", p, len(rows)),
			Source: "exact Pearson III quantile; 19 values of Bulletin 17B appendix 3 agree (from memory)", Status: Computed, Unit: "-", Got: gap, Tolerance: 5.1e-6, Why: lastPrinted})
	}
	return checks, nil
}

// otherFloods are rows F8 to F13: L-moments and the extreme value distributions.
func otherFloods() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	l, err := flood.FitLMoments([]float64{2.0, 3.0, 4.0, 2.4, 5.5, 1.2, 5.4, 2.2, 7.1, 1.3, 1.5})
	if err != nil {
		return nil, err
	}
	for i, got := range []float64{l.L1, l.L2, l.T3, l.T4} {
		at("F8").add([]string{"l1", "l2", "t3", "t4"}[i], "-", []float64{3.23636364, 1.14181818, 0.27388535, 0.02335456}[i], got, 6e-9, lastPrinted)
	}
	gev, err := flood.FitGEV(l)
	if err != nil {
		return nil, err
	}
	gumbel := flood.FitGumbel(l)
	for i, got := range []float64{gev.Location, gev.Scale, gev.Shape} {
		at("F9").add([]string{"location", "scale", "shape"}[i]+" of the GEV", "-", at("F9").numbers()[i], got, 1e-6, "where the library stops its root")
	}
	for i, got := range []float64{gumbel.Location, gumbel.Scale} {
		at("F11").add([]string{"location", "scale"}[i]+" of Gumbel", "-", at("F11").numbers()[i], got, 6e-7, lastPrinted)
	}
	for i, f := range []float64{0.2, 0.5, 0.8} {
		at("F10").add(fmt.Sprintf("GEV not exceeded with %g", f), "-", at("F10").numbers()[i], gev.Quantile(1-f), 1e-6, "where the library stops its root")
		at("F11").add(fmt.Sprintf("Gumbel not exceeded with %g", f), "-", at("F11").numbers()[2+i], gumbel.Quantile(1-f), 6e-7, lastPrinted)
	}
	peaks := fishkillPeaks()
	if l, err = flood.FitLMoments(peaks); err != nil {
		return nil, err
	}
	if gev, err = flood.FitGEV(l); err != nil {
		return nil, err
	}
	for i, years := range []float64{2, 10, 100} {
		at("F12").add(fmt.Sprintf("GEV of %g years", years), "cfs", at("F12").numbers()[i], gev.Quantile(1/years), 0.51, lastPrinted)
	}
	moments, err := flood.FitGumbelMoments(peaks)
	if err != nil {
		return nil, err
	}
	at("F13").add("Gumbel of 100 years, L-moments", "cfs", at("F13").numbers()[0], flood.FitGumbel(l).Quantile(0.01), 0.51, lastPrinted)
	at("F13").add("Gumbel of 100 years, moments", "cfs", at("F13").numbers()[1], moments.Quantile(0.01), 0.51, lastPrinted)
	return checks, nil
}
