package proof

import (
	"context"
	"encoding/json"
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// spring is one wet spring of a drained column, as the second implementation
// reads it too: the same grid, soil parameters, drain, base, water arriving and
// water taken. SI units unless a name says otherwise.
type spring struct {
	Notice     string       `json:"notice"`
	Edges      []float64    `json:"edges"`     // m
	Materials  []soil.Curve `json:"materials"` // closed forms, not tables
	Material   []int        `json:"material"`  // of each cell
	Store      float64      `json:"store"`     // m
	Level      float64      `json:"level"`     // outside water level, m
	Resistance float64      `json:"resistance"`
	Drain      struct {
		Spacing         float64 `json:"spacing"`
		Depth           float64 `json:"depth"`
		EquivalentDepth float64 `json:"equivalent_depth"`
		Capacity        float64 `json:"capacity"`
		Ponded          float64 `json:"ponded"`
		Anisotropy      float64 `json:"anisotropy"`
	} `json:"drain"`
	StartTable float64   `json:"start_table"` // m, hydrostatic
	SinkShare  []float64 `json:"sink_share"`  // of each cell in the water taken
	SinkMM     []float64 `json:"sink_mm_per_day"`
	SupplyMM   []float64 `json:"supply_mm_per_hour"` // rain and run-on, 24 a day
}

// readSpring reads the embedded input.
func readSpring() (*spring, error) {
	text, err := values.ReadFile("values/second-opinion/input.json")
	if err != nil {
		return nil, err
	}
	s := &spring{}
	if err := json.Unmarshal(text, s); err != nil {
		return nil, fmt.Errorf("second-opinion/input.json: %w", err)
	}
	return s, nil
}

// column builds the product's column from the input.
func (s *spring) column() (*column.Column, error) {
	g, err := column.NewGrid(s.Edges)
	if err != nil {
		return nil, err
	}
	tables := make([]*soil.Table, len(s.Materials))
	for i, m := range s.Materials {
		if tables[i], err = soil.NewCurveTable(m); err != nil {
			return nil, err
		}
	}
	cells := make([]*soil.Table, g.Cells())
	for i, m := range s.Material {
		cells[i] = tables[m]
	}
	c := column.New(g, cells, s.StartTable)
	c.Surface.Store = s.Store
	c.Base = column.Base{Kind: column.BaseRegional, Level: s.Level, Resistance: s.Resistance}
	d := s.Drain
	c.AddLateral(column.Lateral{Spacing: d.Spacing, Depth: d.Depth, Level: d.Depth, EquivalentDepth: d.EquivalentDepth,
		Capacity: d.Capacity, Ponded: d.Ponded, Anisotropy: d.Anisotropy})
	return c, nil
}

// springDays are the daily results of a spring: flows of the day, states at its
// end.
type springDays struct {
	drain, runoff, base []float64 // mm
	pond                []float64 // mm
	table               []float64 // m
	steps               int
}

// run carries the column through the spring, an hour of even supply at a time or
// as many as are alike, as a day of the field does.
func (s *spring) run(ctx context.Context, set column.Settings) (*springDays, error) {
	c, err := s.column()
	if err != nil {
		return nil, err
	}
	c.Settings = set
	r := &springDays{}
	for day, sink := range s.SinkMM {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for i, share := range s.SinkShare {
			c.Uptake[i] = share * sink / 1000 / 86400
		}
		var drain, runoff, base float64
		hours := s.SupplyMM[24*day : 24*day+24]
		for h := 0; h < 24; {
			end := h + 1
			for end < 24 && hours[end] == hours[h] {
				end++
			}
			for left := float64(end-h) * 3600; left > 1e-6; {
				dt, err := c.Step(left, hours[h]/1000/3600)
				if err != nil {
					return nil, fmt.Errorf("second opinion, day %d: %w", day+1, err)
				}
				left -= dt
				drain += c.Last.Lateral * dt
				runoff += c.Last.Runoff * dt
				base += c.Last.BaseOut * dt
				r.steps++
			}
			h = end
		}
		r.drain, r.runoff, r.base = append(r.drain, 1000*drain), append(r.runoff, 1000*runoff), append(r.base, 1000*base)
		r.pond = append(r.pond, 1000*c.Pond)
		r.table = append(r.table, math.Min(c.WaterTable(), c.Grid.Depth()))
	}
	return r, nil
}
