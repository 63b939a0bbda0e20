package compare

import (
	"context"
	"fmt"

	"mottle/sim"
	"mottle/sim/column"
	"mottle/sim/site"
	"mottle/weather"
)

// Designs is a field under its weather, ready to be run with one tile after another:
// what does not hang on the tile is computed once. It may be used by several
// goroutines at once.
type Designs struct {
	field   *site.Field
	forcing *sim.Forcing
	runon   []float64
	plot    *sim.Plot
	steps   column.Settings
	begun   *sim.Engine // the field as it lies after its spin-up, not to be run on
}

// Precision of a run: the grid, and the time steps of the water.
type Precision struct {
	Grid  sim.Resolution
	Steps column.Settings
}

// Full is the precision of a comparison.
func Full() Precision { return Precision{sim.DefaultResolution(), column.DefaultSettings()} }

// Screening costs half: it ranks designs, and what it says of one is to be
// run again in full. On the demo it moves the mean of days saturated by under
// 1 d and that of drain outflow by 3 % (TestScreening).
func Screening() Precision {
	p := Precision{sim.Resolution{Thin: 0.010, Thick: 0.20, Ratio: 1.5}, column.DefaultSettings()}
	p.Steps.Target *= 2
	p.Steps.Volume *= 2
	return p
}

// Prepare runs the land above and the spin-up of the field as it lies.
func Prepare(ctx context.Context, f *site.Field, s *weather.Series, p Precision) (*Designs, error) {
	forcing, err := newForcing(f, s, f.Storms.Draw)
	if err != nil {
		return nil, err
	}
	d := &Designs{field: f, forcing: forcing, steps: p.Steps}
	if f.Runon != nil {
		if d.runon, err = runOn(ctx, f, forcing, p, nil); err != nil {
			return nil, fmt.Errorf("land above the field: %w", err)
		}
	}
	if d.plot, err = sim.NewPlot(f, p.Grid); err != nil {
		return nil, err
	}
	if d.begun, err = d.engine(f.Old); err != nil {
		return nil, err
	}
	if _, err = d.begun.Spin(ctx); err != nil {
		return nil, fmt.Errorf("field as it lies, spin-up: %w", err)
	}
	return d, nil
}

func (d *Designs) engine(tile *site.Tile) (*sim.Engine, error) {
	e, err := sim.NewEngine(d.plot, d.forcing, tile, d.runon)
	if err != nil {
		return nil, err
	}
	e.Water.Settings = d.steps
	return e, nil
}

// Run runs the record with a tile, or as the field lies with its old tile or none.
func (d *Designs) Run(ctx context.Context, tile *site.Tile) (*sim.Record, error) {
	return d.run(ctx, tile, false)
}

// RunHourly is Run with the hours kept.
func (d *Designs) RunHourly(ctx context.Context, tile *site.Tile) (*sim.Record, error) {
	return d.run(ctx, tile, true)
}

func (d *Designs) run(ctx context.Context, tile *site.Tile, hours bool) (*sim.Record, error) {
	e, err := d.engine(tile)
	if err != nil {
		return nil, err
	}
	e.Adopt(d.begun)
	return e.Run(ctx, hours, nil)
}

// AsItLies runs the field without the tile to be judged.
func (d *Designs) AsItLies(ctx context.Context) (*sim.Record, error) { return d.Run(ctx, d.field.Old) }
