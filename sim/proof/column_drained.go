package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/drain"
	"mottle/soil"
)

// The drained column (r11): loam-like soil, drains 1 m deep and 20 m apart over a
// barrier at 2 m.
const (
	drainedName    = "richards/r11_drained_column"
	drainedSpacing = 20.0
	drainedDepth   = 1.0
	drainedBarrier = 2.0
	drainedRadius  = 0.005
)

func drainedColumn(set column.Settings) *column.Column {
	g := column.Uniform(drainedBarrier, defaultCells)
	t := flowTable(soil.Curve{ThetaR: 0.08, ThetaS: 0.45, Alpha: 2, N: 1.4, L: 0.5, Entry: 0.02, KMatrix: 0.24 * perDay})
	c := column.New(g, filled(t, g), 0.05)
	c.Settings = set
	c.Base = column.Base{Kind: column.BaseClosed}
	c.AddLateral(column.Lateral{Spacing: drainedSpacing, Depth: drainedDepth, Level: drainedDepth, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1,
		EquivalentDepth: drain.EquivalentDepth(drainedSpacing, drainedBarrier-drainedDepth, drainedRadius)})
	return c
}

// drainedWeather is ten dry days, a day of 20 mm, a dry one, then evaporation of
// 3 mm a day; m/s at a time in s.
func drainedWeather(now float64) float64 {
	switch day := now * perDay; {
	case day < 10, day >= 11 && day < 12:
		return 0
	case day < 11:
		return 0.02 * perDay
	}
	return -0.003 * perDay
}

// columnDrained compares what has drained and the store with production steps,
// drain flow, water table and profile with fine ones: a production step books
// the drain's water well and its rate only as the mean of the step.
func columnDrained() ([]Check, error) {
	const source = "own case; computed with two independent schemes"
	profile, balance := table(drainedName+"_profile.csv"), table(drainedName+"_balance.csv")
	var checks []Check
	row := func(at float64, quantity, unit string, want, got, tolerance float64, why string) {
		checks = append(checks, Check{ID: fmt.Sprintf("%s:%.0f s", drainedName, at), What: fmt.Sprintf("drained column, %.1f d: %s", at*perDay, quantity), Source: source, Status: Computed, Unit: unit,
			Expected: want, Got: got, Tolerance: tolerance, Why: why})
	}
	for _, fine := range []bool{false, true} {
		set := column.DefaultSettings()
		if fine {
			set = fineSettings()
		}
		c := drainedColumn(set)
		now, start := 0.0, c.Storage()
		for k, r := range table(drainedName + "_rates.csv") {
			at := r.num("time_s")
			for _, stop := range []float64{at - 60, at} { // the last minute alone, for the rate
				for now < stop-1e-6 {
					next := math.Min(stop, (math.Floor(now*perDay+1e-9)+1)/perDay)
					if err := advance(c, now, next, 86400, drainedWeather(now+1)); err != nil {
						return nil, fmt.Errorf("r11: %w", err)
					}
					now = next
				}
			}
			if fine {
				q := r.num("sink_m_per_s")
				row(at, "drain flow", "m/s", q, c.Last.Lateral, 0.02*q, "2 %, twice that of the sum: the rate follows the table, the sum its mean")
				row(at, "water table", "m", r.num("water_table_depth_m"), c.WaterTable(), 0.01, "a fifth of the cell, between whose middles it is interpolated")
				row(at, "water content, RMS gap over depth", "m3/m3", 0, profileGap(c, profile, at), 0.002, "cells of 5 cm; the profile is smooth")
				row(at, "head, RMS gap over depth", "m", 0, headGap(c, profile, at), 0.01, "a fifth of the cell, as for the table")
				continue
			}
			share, why := 0.01, "1 %: suggested for a production grid by those who computed the case"
			if at < 86400 {
				share, why = 0.015, "1 %, and in the first hours half a percent more: the reference takes the drain's water at one depth, the column from every saturated layer"
			}
			drained := 0.0
			for _, x := range c.Out[0] {
				drained += x
			}
			want := balance[k].num("cum_sink_m")
			row(at, "drained", "m", want, drained, share*want, why)
			row(at, "gain of water", "m", balance[k].num("storage_change_m"), c.Storage()-start, share*want, "as the drained depth, the other side of the balance")
		}
	}
	return checks, nil
}
