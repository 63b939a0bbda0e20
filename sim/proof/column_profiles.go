package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// flowCase is a column of one soil under a top and base that are known, with
// profiles (and mostly balances) at listed times. Head in m, depth in m.
type flowCase struct {
	name, what, source string
	status             Status
	depth              float64
	soil               *soil.Table
	initial            func(z float64) float64 // head
	top                float64                 // flux, m/s
	head               float64                 // held head at the surface; NaN for flux
	base               func(t float64) column.Base
	moving             float64 // s, time over which the base is taken as constant

	theta       float64 // allowed RMS difference of water content on a production grid
	fine        int     // cells of the fine grid
	in, out     float64 // allowed relative differences of cumulative flow; 0 where none is listed
	outUntil    float64 // s, last time at which outflow is compared
	balanceFile bool
	wet         bool // a head to compare at every depth: no steep dry front
}

// run carries the case over cells equal cells to each of the times, and calls
// seen there.
func (f flowCase) run(cells int, set column.Settings, times []float64, seen func(at float64, c *column.Column)) (*column.Column, error) {
	g := column.Uniform(f.depth, cells)
	c := column.New(g, filled(f.soil, g), 0)
	c.Settings = set
	c.Surface.HeldHead = f.head
	for i, z := range g.Mid {
		c.SetHead(i, f.initial(z))
	}
	now := 0.0
	for _, at := range times {
		for now < at {
			// The base moves in steps, each at its mean.
			next := math.Min(at, now+f.moving)
			c.Base = f.base((now + next) / 2)
			if err := advance(c, now, next, 86400, f.top); err != nil {
				return nil, fmt.Errorf("%s: %w", f.name, err)
			}
			now = next
		}
		seen(at, c)
	}
	return c, nil
}

func everywhere(h float64) func(float64) float64 { return func(float64) float64 { return h } }

func atDepth(z float64) float64 { return z }

func heldBase(h float64) func(float64) column.Base {
	return func(float64) column.Base { return column.Base{Kind: column.BaseHead, Head: h} }
}

// steadyExponential is the head (m) of a steady flux q through a metre of
// exponential soil over a water table.
func steadyExponential(q float64, e soil.Exponential) func(z float64) float64 {
	return func(z float64) float64 {
		return math.Log(q/e.Ksat+(1-q/e.Ksat)*math.Exp(-e.Alpha*(1-z))) / e.Alpha
	}
}

// flowCases are those of one soil; parameters and sources as in
// values/richards/cases.json.
func flowCases() []flowCase {
	nan := math.NaN()
	const (
		celia     = "Celia et al. 1990; profile computed with two independent schemes"
		haverkamp = "Haverkamp et al. 1977; profile computed with two independent schemes"
		srivasta  = "Srivastava and Yeh 1991, exact series"
		own       = "own case; profile computed with two independent schemes"
	)
	sand := soil.Haverkamp{ThetaR: 0.075, ThetaS: 0.287, A: 1611000, B: 3.96, Ksat: 9.44e-5, KA: 1175000, KB: 4.74}
	sandFlux := sand
	sandFlux.Ksat = 34.0 / 360000
	yolo := soil.Haverkamp{ThetaR: 0.124, ThetaS: 0.495, A: 739, B: 4, Log: true, Ksat: 1.23e-7, KA: 124.6, KB: 1.77}
	dry := soil.Curve{ThetaR: 0.102, ThetaS: 0.368, Alpha: 3.35, N: 2, L: 0.5, KMatrix: 9.22e-5}
	coarse := soil.Exponential{ThetaR: 0.06, ThetaS: 0.4, Alpha: 10, Ksat: 1.0 / 360000}
	fine := coarse
	fine.Alpha = 1
	low, high := 0.1*coarse.Ksat, 0.9*coarse.Ksat
	falling := func(t float64) column.Base {
		return column.Base{Kind: column.BaseHead, Head: math.Max(0, 1.2*(1-t/(3*86400)))}
	}
	cases := []flowCase{
		{name: "r01_celia_sand", what: "head-controlled infiltration into sand", source: celia, status: Computed,
			depth: 0.4, soil: flowTable(sand), initial: everywhere(-0.615), head: -0.207, base: heldBase(-0.615),
			theta: 0.005, in: 0.03, out: 0.03, outUntil: 360, balanceFile: true},
		{name: "r02_celia_newmexico", what: "infiltration into very dry field soil", source: celia, status: Computed,
			depth: 1, soil: flowTable(dry), initial: everywhere(-10), head: -0.75, base: heldBase(-10),
			theta: 0.005, in: 0.05, out: 0.05, outUntil: 86400, balanceFile: true},
		{name: "r03_haverkamp_sand_flux", what: "constant rain on sand", source: haverkamp, status: Computed,
			depth: 0.8, soil: flowTable(sandFlux), initial: everywhere(-0.615), top: 13.69 / 360000, head: nan, base: heldBase(-0.615),
			theta: 0.005, in: 1e-6, out: 0.03, outUntil: 2880, balanceFile: true},
		{name: "r04_yolo_clay", what: "infiltration into Yolo light clay", source: haverkamp, status: Computed,
			depth: 1, soil: flowTable(yolo), initial: everywhere(-6), head: -0.01, base: heldBase(-6),
			theta: 0.01, fine: 640, in: 0.05, out: 0.05, outUntil: 300000, balanceFile: true},
		{wet: true, name: "r05a_srivastava_yeh_wetting_coarse", what: "rain rises tenfold, coarse soil over a table", source: srivasta, status: Computed,
			depth: 1, soil: flowTable(coarse), initial: steadyExponential(low, coarse), top: high, head: nan, base: heldBase(0), theta: 0.005},
		{wet: true, name: "r05b_srivastava_yeh_wetting_fine", what: "rain rises tenfold, fine soil over a table", source: srivasta, status: Computed,
			depth: 1, soil: flowTable(fine), initial: steadyExponential(low, fine), top: high, head: nan, base: heldBase(0), theta: 0.005},
		{wet: true, name: "r05c_srivastava_yeh_drying_coarse", what: "rain falls to a ninth, coarse soil over a table", source: srivasta, status: Computed,
			depth: 1, soil: flowTable(coarse), initial: steadyExponential(high, coarse), top: low, head: nan, base: heldBase(0), theta: 0.005},
		{wet: true, name: "r08a_drain_to_fixed_water_table", what: "saturated sandy loam drains to a table at 1 m", source: own, status: Computed,
			depth: 1, soil: flowTable(classCurve("sandy loam", 0)), initial: atDepth, head: nan, base: heldBase(0),
			theta: 0.005, out: 0.01, outUntil: math.Inf(1), balanceFile: true},
		{wet: true, name: "r08b_drain_to_falling_water_table", what: "saturated loam drains to a falling table", source: own, status: Computed,
			depth: 1.2, soil: flowTable(classCurve("loam", 0)), initial: atDepth, head: nan, base: falling,
			theta: 0.006, out: 0.01, outUntil: math.Inf(1), balanceFile: true, moving: 300},
	}
	for i := range cases {
		if cases[i].moving == 0 {
			cases[i].moving = math.Inf(1)
		}
		if cases[i].fine == 0 {
			cases[i].fine = 160
		}
	}
	return cases
}

// defaultCells is the number of cells of a production column.
const defaultCells = 40

// fineSettings take a sixteenth of the production step.
func fineSettings() column.Settings {
	s := column.DefaultSettings()
	s.Target, s.Tolerance = s.Target/16, s.Tolerance/16
	return s
}

// columnProfiles compares water content and cumulative flows: over all times and
// at the end on a production grid with production steps, at each time on a fine
// grid.
func columnProfiles() ([]Check, error) {
	var checks []Check
	for _, f := range flowCases() {
		whole, err := f.production()
		if err != nil {
			return nil, err
		}
		each, err := f.eachTime()
		if err != nil {
			return nil, err
		}
		checks = append(append(checks, whole...), each...)
	}
	return checks, nil
}

// production is the case as a comparison would run it.
func (f flowCase) production() ([]Check, error) {
	profile := table("richards/" + f.name + "_profile.csv")
	times := timesOf(profile)
	sum, start := 0.0, 0.0
	c, err := f.run(defaultCells, column.DefaultSettings(), append([]float64{0}, times...), func(at float64, c *column.Column) {
		if at == 0 {
			start = c.Storage()
			return
		}
		gap := profileGap(c, profile, at)
		sum += gap * gap
	})
	if err != nil {
		return nil, err
	}
	id := "richards/" + f.name + ":40 cells"
	checks := []Check{
		{ID: id, What: f.what + ", 40 cells: water content, RMS gap over depth and time", Source: f.source, Status: f.status, Unit: "m3/m3",
			Expected: 0, Got: math.Sqrt(sum / float64(len(times))), Tolerance: f.theta, Why: "linear over a curved front of two or three cells of 1-3 cm leaves up to 0.005, over Yolo clay's front twice that"},
		{ID: id, What: f.what + ": storage change less inflow and outflow", Source: "conservation of mass", Status: Computed, Unit: "m",
			Expected: 0, Got: c.Storage() - start - c.Through[0] + c.Through[defaultCells], Tolerance: 1e-11, Why: "rounding of a few thousand sums of stores below a metre"},
	}
	if f.balanceFile {
		balance := table("richards/" + f.name + "_balance.csv")
		checks = append(checks, f.flows(id, balance[len(balance)-1], c, 1, "suggested for a production grid by those who computed the case")...)
	}
	return checks, nil
}

// eachTime is the case on cells a quarter as thick (Yolo clay: a sixteenth, for
// its first front is 5 cm deep) with a sixteenth of the step.
func (f flowCase) eachTime() ([]Check, error) {
	profile := table("richards/" + f.name + "_profile.csv")
	var balance []row
	if f.balanceFile {
		balance = table("richards/" + f.name + "_balance.csv")
	}
	var checks []Check
	_, err := f.run(f.fine, fineSettings(), timesOf(profile), func(at float64, c *column.Column) {
		id := fmt.Sprintf("richards/%s:%.0f s", f.name, at)
		checks = append(checks, Check{ID: id, What: fmt.Sprintf("%s, %.3g h: water content, RMS gap over depth", f.what, at/3600), Source: f.source, Status: f.status,
			Unit: "m3/m3", Expected: 0, Got: profileGap(c, profile, at), Tolerance: f.theta / 4, Why: "a quarter of what 40 cells are allowed: fronts come nearer with the cell, the rest with its square"})
		if f.wet {
			checks = append(checks, Check{ID: id, What: fmt.Sprintf("%s, %.3g h: head, RMS gap over depth", f.what, at/3600), Source: f.source, Status: f.status,
				Unit: "m", Expected: 0, Got: headGap(c, profile, at), Tolerance: 0.01, Why: "cells of 6-8 mm; where water lies still the head follows the table, which lies within a cell"})
		}
		if balance != nil {
			checks = append(checks, f.flows(id, balance[0], c, 4, "a quarter of what 40 cells are allowed")...)
			balance = balance[1:]
		}
	})
	return checks, err
}

// flows compares cumulative inflow and outflow with a line of the balance, inflow
// within the production grid's share over a divisor. Outflow keeps its share: it
// hangs on the first steps and on the conductivity of the base, which is linear
// between the 32 suctions of an octave.
func (f flowCase) flows(id string, r row, c *column.Column, divisor float64, why string) []Check {
	var checks []Check
	add := func(what, column string, got, share float64) {
		want := r.num(column)
		checks = append(checks, Check{ID: id, What: fmt.Sprintf("%s, %.3g h: %s", f.what, r.num("time_s")/3600, what), Source: f.source, Status: f.status,
			Unit: "m", Expected: want, Got: got, Tolerance: share * want, Why: fmt.Sprintf("%.3g %%: %s", 100*share, why)})
	}
	if f.in > 0 {
		add("infiltrated", "cum_top_inflow_m", c.Through[0], math.Max(f.in/divisor, 1e-6))
	}
	if f.out > 0 && r.num("time_s") <= f.outUntil {
		add("flowed out below", "cum_bottom_outflow_m", c.Through[c.Grid.Cells()], f.out)
	}
	return checks
}
