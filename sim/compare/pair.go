package compare

import (
	"context"
	"fmt"

	"mottle/sim"
	"mottle/sim/column"
	"mottle/sim/site"
	"mottle/sim/storm"
	"mottle/weather"
)

// Pair is the two twins of one run.
type Pair struct {
	AsItLies, WithTile *sim.Record
	Spinup             sim.Spinup
	FieldYears         float64 // simulated, spin-up and land above included

	yearly [][2][]float64 // by measure: as it lies, with tile
}

// variant changes a run from the central one.
type variant struct {
	field *site.Field
	draw  int             // set of storms
	steps column.Settings // of the water's time steps
	over  string          // what it tries, "" for the central run
}

// run simulates both twins of a field under a complete series. progress, if not
// nil, is told of each simulated year.
func run(ctx context.Context, v variant, s *weather.Series, progress func()) (*Pair, error) {
	f := v.field
	forcing, err := newForcing(f, s, v.draw)
	if err != nil {
		return nil, err
	}
	p := &Pair{}
	years := float64(forcing.Days()) / 365.25

	var runon []float64
	if f.Runon != nil {
		if runon, err = runOn(ctx, f, forcing, Precision{sim.DefaultResolution(), v.steps}, progress); err != nil {
			return nil, fmt.Errorf("land above the field: %w", err)
		}
		p.FieldYears += years
	}
	plot, err := sim.NewPlot(f, sim.DefaultResolution())
	if err != nil {
		return nil, err
	}
	lies, err := sim.NewEngine(plot, forcing, f.Old, runon)
	if err != nil {
		return nil, err
	}
	lies.Water.Settings = v.steps
	if p.Spinup, err = lies.Spin(ctx); err != nil {
		return nil, fmt.Errorf("field as it lies, spin-up: %w", err)
	}
	tiled, err := sim.NewEngine(plot, forcing, f.Tile, runon)
	if err != nil {
		return nil, err
	}
	tiled.Water.Settings = v.steps
	tiled.Adopt(lies)
	if p.AsItLies, err = lies.Run(ctx, false, progress); err != nil {
		return nil, fmt.Errorf("field as it lies: %w", err)
	}
	if p.WithTile, err = tiled.Run(ctx, false, progress); err != nil {
		return nil, fmt.Errorf("field with tile: %w", err)
	}
	p.FieldYears += 2*years + float64(p.Spinup.Passes)
	return p, nil
}

// newForcing is the weather as a field meets it, in one draw of storms.
func newForcing(f *site.Field, s *weather.Series, draw int) (*sim.Forcing, error) {
	eto, _, _, err := weather.ReferenceET(s, f.Latitude, f.Elevation, f.ET)
	if err != nil {
		return nil, err
	}
	o := storm.Default()
	o.Seed, o.Draw, o.ReadHour = f.Storms.Seed, draw, f.ReadHour
	return sim.NewForcing(s, eto, o)
}

// runOn simulates the land above and returns its surface runoff over the
// field's own area, mm in each hour.
func runOn(ctx context.Context, f *site.Field, forcing *sim.Forcing, p Precision, progress func()) ([]float64, error) {
	plot, err := sim.NewUpland(f, p.Grid)
	if err != nil {
		return nil, err
	}
	e, err := sim.NewEngine(plot, forcing, nil, nil)
	if err != nil {
		return nil, err
	}
	e.Water.Settings = p.Steps
	if _, err := e.Spin(ctx); err != nil {
		return nil, err
	}
	r, err := e.Run(ctx, true, progress)
	if err != nil {
		return nil, err
	}
	for i := range r.Hourly {
		r.Hourly[i] *= f.Runon.Ratio
	}
	return r.Hourly, nil
}

// yearly computes a measure for every complete year of a record.
func yearly(m sim.Measure, r *sim.Record) []float64 {
	x := make([]float64, len(r.Years))
	for i, y := range r.Years {
		x[i] = m.Of(r, y)
	}
	return x
}
