package sim

import (
	"context"
	"math"
)

// Spinup says how the start was forgotten.
type Spinup struct {
	Passes int     `json:"passes"`      // times the first year was repeated
	Change float64 `json:"change_mm"`   // of the stored water between the last two passes
	Heat   float64 `json:"change_degC"` // largest change of temperature above 2 m
}

const (
	spinMost  = 12
	spinWater = 1.0 // mm
	spinHeat  = 0.1 // C
)

// Spin repeats the first year until the state at its end no longer changes,
// with the salt held where the user put it: salt takes decades and its start
// is an observation.
func (e *Engine) Spin(ctx context.Context) (Spinup, error) {
	year := min(365, e.forcing.Days())
	n := len(e.Water.H)
	before := make([]float64, n)
	var s Spinup
	stored := math.Inf(1)
	for s.Passes < spinMost {
		if err := ctx.Err(); err != nil {
			return s, err
		}
		for i := range year {
			if err := e.Day(i, false); err != nil {
				return s, err
			}
		}
		s.Passes++
		now := (e.Water.Storage() + e.Pack.SWE) * 1000
		s.Change, s.Heat = math.Abs(now-stored), 0
		for j, z := range e.plot.Grid.Mid {
			if z < 2 {
				s.Heat = math.Max(s.Heat, math.Abs(e.Heat.Temperature[j]-before[j]))
			}
		}
		copy(before, e.Heat.Temperature[:n])
		stored = now
		if s.Change < spinWater && s.Heat < spinHeat {
			break
		}
	}
	return s, nil
}

// Forgotten says whether the start was forgotten within the passes allowed.
func (s Spinup) Forgotten() bool { return s.Change < spinWater && s.Heat < spinHeat }
