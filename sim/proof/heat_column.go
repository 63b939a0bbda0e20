package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/heat"
	"mottle/soil"
)

const dayLength = 86400.0 // s

// frostCase is a half-space at one temperature whose surface falls to another and
// stays there; all its water freezes at 0 C.
type frostCase struct {
	frozenK, thawedK     float64 // W/m/K
	frozenHeat, thawHeat float64 // capacity, J/m3/K
	latent               float64 // J/m3
	surface, initial     float64 // C
	snow                 float64 // thermal resistance, m2 K/W
}

// frozenSharply is a soil that freezes all its water within a hundredth of a degree,
// as the textbook solutions assume it to freeze at 0 C.
func frozenSharply(water float64) *soil.Table {
	const width = 0.01 // C
	t, err := soil.NewTable(
		func(h float64) float64 { return water * math.Max(0, 1+h/(width*soil.ClapeyronSlope)) },
		func(float64) float64 { return 1e-6 })
	if err != nil {
		panic(err) // both functions fall with suction
	}
	return t
}

// textbookSoil is a column of one soil of fixed properties on a grid.
func textbookSoil(g column.Grid, water float64, th *soil.Thermal, initial float64) *heat.Column {
	table := frozenSharply(water)
	layers := make([]heat.Layer, g.Cells())
	wet := make([]float64, g.Cells())
	for i, dz := range g.Dz {
		layers[i], wet[i] = heat.Layer{Thickness: dz, Thermal: th, Freezing: table}, water
	}
	return heat.New(layers, wet, initial)
}

// column makes the heat column of the case: cells of 1 mm growing to 1 cm, so that an
// early front crosses as many as a late one, and by a tenth below the first metre
// and a half.
func (f frostCase) column() (*heat.Column, column.Grid, error) {
	edges := []float64{0}
	for z, dz := 0.0, 0.001; z < 40; z += dz {
		switch {
		case z > 1.5:
			dz *= 1.1
		case dz < 0.01:
			dz *= 1.05
		}
		edges = append(edges, z+dz)
	}
	g, err := column.NewGrid(edges)
	if err != nil {
		return nil, g, err
	}
	water := f.latent / soil.LatentHeat
	const solids = 1e3 // J/m3/K: the rest is left to the water
	th := soil.FixedThermal(water, solids, (f.thawHeat-solids)/water, (f.frozenHeat-solids)/water, f.thawedK, f.frozenK)
	return textbookSoil(g, water, &th, f.initial), g, nil
}

// run freezes the case to each of the times (d) and calls seen there. Steps grow
// with time, as the front slows down.
func (f frostCase) run(times []float64, seen func(at, front float64, c *heat.Column, g column.Grid)) error {
	c, g, err := f.column()
	if err != nil {
		return err
	}
	water := f.latent / soil.LatentHeat
	now := 0.0
	for _, at := range times {
		for now < at*(1-1e-12) {
			const first, growth = 1.0 / 8640, 0.015 // d, and a share of the time passed
			step := math.Min(math.Max(first, growth*now), at-now)
			if _, err := c.Step(step*dayLength, heat.Surface{Air: f.surface, Snow: f.snow}); err != nil {
				return fmt.Errorf("at %.4g d: %w", now, err)
			}
			now += step
		}
		front := 0.0 // by the volume of ice
		for i, ice := range c.Ice {
			front += ice / water * g.Dz[i]
		}
		seen(at, front, c, g)
	}
	return nil
}

// front is the depth of frost (m) after a time (d).
func (f frostCase) front(after float64) (depth float64, err error) {
	err = f.run([]float64{after}, func(_, front float64, _ *heat.Column, _ column.Grid) { depth = front })
	return depth, err
}

// frontShare is what a front may be off: steps of 1.5 % of the time passed put it half
// a step, 0.4 % of its depth, behind, and cells of up to a twentieth of the depth,
// freezing over a hundredth of a degree, add as much.
const (
	frontShare = 0.01
	frontWhy   = "1 %: half by steps of 1.5 % of the time passed, half by cells of up to a twentieth of the depth"
)
