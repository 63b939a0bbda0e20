package proof

import (
	"fmt"
	"math"

	"mottle/sim/flood"
)

// floodPairs are rows P1 to P4: two records of the same years.
func floodPairs() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	u, d := []float64{42, 31, 55, 28, 60, 37}, []float64{36, 33, 41, 27, 45, 34}
	p, err := flood.Compare(u, d)
	if err != nil {
		return nil, err
	}
	low, high := p.Interval(0.95)
	at("P1").add("mean difference of six pairs", "-", at("P1").numbers()[0], p.Mean, 5.1e-5, lastPrinted)
	at("P1").add("Student's interval from", "-", -1.1468, low, 5.1e-5, lastPrinted)
	at("P1").add("Student's interval to", "-", 13.4802, high, 5.1e-5, lastPrinted)
	difference := func(a, b []float64) float64 {
		c, err := flood.Compare(a, b)
		if err != nil {
			return math.NaN()
		}
		return c.Mean
	}
	exact, err := flood.ExactBootstrap(u, d, difference)
	if err != nil {
		return nil, err
	}
	at("P2").add("standard error over all 46656 resamples", "-", 2.59719, exact.SE(), 5.1e-6, lastPrinted)
	for i, share := range []float64{0.025, 0.05, 0.5, 0.95, 0.975} {
		at("P2").add(fmt.Sprintf("share %g of all resamples", share), "-", []float64{7. / 6, 2, 37. / 6, 10.5, 34. / 3}[i], exact.Quantile(share), 1e-6, "the mean moves in sixths")
	}
	at("P2").add("share of the resamples at or below 0", "-", 0.0043724, exact.AtOrBelow(1e-9), 5.1e-8, lastPrinted)
	const draws = 40000
	drawn, err := flood.Bootstrap(u, d, difference, flood.Drawing{Draws: draws, Block: 1, Seed: 1})
	if err != nil {
		return nil, err
	}
	at("P2").add(fmt.Sprintf("standard error over %d drawn resamples", draws), "-", 2.59719, drawn.SE(), 0.018*2.59719, "five of its own errors, (2 N)^-0.5 each")
	at("P3").add("standard error with the pairs", "-", at("P3").numbers()[0], p.SE, 5.1e-5, lastPrinted)
	at("P3").add("standard error without", "-", at("P3").numbers()[1], p.UnpairedSE, 5.1e-5, lastPrinted)
	at("P3").add("correlation", "-", 0.96913, p.Correlation, 5.1e-6, lastPrinted)
	for i, got := range []float64{flood.ChangeOfMeans(u, d), flood.MeanChange(u, d), flood.GeometricChange(u, d)} {
		at("P4").add([]string{"change of the means", "mean of the changes", "change of the geometric means"}[i], "%", at("P4").numbers()[i], 100*got, 0.0051, lastPrinted)
	}
	return checks, nil
}

// twentyDays is the invented record of row Q3.
var twentyDays = []float64{2, 2, 3, 10, 25, 18, 12, 9, 7, 6, 5, 5, 4, 4, 8, 15, 11, 8, 6, 5}

// regimeOfFlow are rows Q1, Q3 to Q5 and Q7. The daily record of Q2 is not at hand.
func regimeOfFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	whiteoak := []float64{38, 32, 26, 20, 23, 23}
	all, err := flood.Flashiness(whiteoak[0], whiteoak)
	if err != nil {
		return nil, err
	}
	later, err := flood.Flashiness(whiteoak[0], whiteoak[1:])
	if err != nil {
		return nil, err
	}
	at("Q1").add("flashiness of six days, no change on the first", "-", at("Q1").numbers()[0], all, 5.1e-6, lastPrinted)
	at("Q1").add("flashiness of days 2 to 6 after day 1", "-", 0.16935, later, 5.1e-6, lastPrinted)

	flashy, err := flood.Flashiness(twentyDays[0], twentyDays)
	if err != nil {
		return nil, err
	}
	duration, err := flood.NewDuration(twentyDays)
	if err != nil {
		return nil, err
	}
	at("Q3").add("flashiness of 20 days", "-", 0.39394, flashy, 5.1e-6, lastPrinted)
	for i, share := range []float64{0.1, 0.5, 0.9} {
		q, err := duration.Exceeded(share)
		if err != nil {
			return nil, err
		}
		at("Q3").add(fmt.Sprintf("flow exceeded %g %% of 20 days", 100*share), "-", []float64{17.7, 6.5, 2.1}[i], q, 1e-9, "exact in the record's numbers")
	}
	lows, err := flood.Lows(twentyDays, make([]int, len(twentyDays)), 7)
	if err != nil {
		return nil, err
	}
	centre, err := flood.Centre(twentyDays)
	if err != nil {
		return nil, err
	}
	half, err := flood.HalfVolume(twentyDays)
	if err != nil {
		return nil, err
	}
	at("Q3").add("least mean of 7 days", "-", 5.57143, lows[0].Flow, 5.1e-6, lastPrinted)
	at("Q3").add("centre of volume", "d", 10.2727, centre, 5.1e-5, lastPrinted)
	at("Q3").add("day of half of the volume", "d", 9, float64(half), 0.1, "a day of the record")

	minima := []float64{1.2, .8, 1.5, 2.1, .6, 1.1, .9, 1.8, 1.3, .7, 1, 1.6, .5, 1.4, 1.9, 1.1, .85, 1.25, .95, 1.7}
	for _, dry := range []struct {
		id   string
		zero int
		want float64
	}{{"Q4", 0, 0.6764}, {"Q5", 4, 0}} {
		d, err := flood.FitLogPearson3(append(make([]float64, dry.zero), minima...))
		if err != nil {
			return nil, err
		}
		at(dry.id).add(fmt.Sprintf("7-day low of 10 years, %d years dry of %d", dry.zero, dry.zero+len(minima)), "-", dry.want, d.Quantile(0.9), 5.1e-5, lastPrinted)
	}
	day, closeness := flood.MeanDay([]float64{350, 5, 20, 355})
	at("Q7").add("mean day of floods around the new year", "d", 365.08, day, 0.0051, lastPrinted)
	at("Q7").add("how closely they lie", "-", 0.97200, closeness, 5.1e-6, lastPrinted)
	return checks, nil
}

// baseFlows are rows B1 to B4 and the series of watershed-baseflow.csv.
func baseFlows() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	var record []float64
	rows := table("watershed-baseflow.csv")
	for _, r := range rows {
		record = append(record, r.num("flow"))
	}
	for _, f := range []struct {
		id, column string
		filter     interface {
			Base(flow []float64) ([]float64, error)
		}
		index float64
	}{
		{"B1", "lyne_hollick_1pass_state_clipped", flood.LyneHollick{A: 0.925, Passes: 1}, 0.50128},
		{"B2", "lyne_hollick_1pass_state_unclipped", flood.LyneHollick{A: 0.925, Passes: 1, Free: true}, 0.55634},
		{"B3", "lyne_hollick_3pass_state_clipped", flood.NathanMcMahon, 0.36170},
		{"B4", "eckhardt_a098_bfi080_b0_equals_q0", flood.Eckhardt{A: 0.98, Most: 0.80, Start: 1}, 0.50390},
		{"B4", "", flood.Eckhardt{A: 0.98, Most: 0.80, Start: 0.8}, 0.48013},
	} {
		base, err := f.filter.Base(record)
		if err != nil {
			return nil, err
		}
		at(f.id).add(fmt.Sprintf("base-flow index of %+v", f.filter), "-", f.index, flood.Index(base, record), 6e-6, lastPrinted)
		if f.column == "" {
			continue
		}
		gap := 0.0
		for i, r := range rows {
			gap = math.Max(gap, math.Abs(base[i]-r.num(f.column)))
		}
		checks = append(checks, Check{ID: "watershed-baseflow.csv:" + f.column, What: fmt.Sprintf("largest gap of %d days", len(rows)), Source: at(f.id).row["source"], Status: Computed, Unit: "-", Got: gap, Tolerance: 5.1e-5, Why: lastPrinted})
	}
	return checks, nil
}

// fitOfFlow is row Q6: how well one series follows another.
func fitOfFlow() ([]Check, error) {
	var checks []Check
	at := watershedRows(&checks)
	measured, simulated := []float64{2, 5, 9, 14, 11, 7, 4, 3}, []float64{3, 5, 8, 11, 10, 6, 3, 3}
	for _, m := range []struct {
		name string
		of   func(measured, simulated []float64) float64
		want float64
	}{
		{"NSE", flood.NSE, 0.886063}, {"PBIAS", flood.PercentBias, 10.909091}, {"RSR", flood.RSR, 0.337545},
		{"KGE 2009", flood.KGE, 0.745051}, {"KGE 2012", flood.KGE2012, 0.825256}, {"index of agreement", flood.Agreement, 0.963818},
	} {
		at("Q6").add(m.name, "-", m.want, m.of(measured, simulated), 5.1e-7, lastPrinted)
	}
	return checks, nil
}
