package trial

import (
	"context"
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/drain"
	"mottle/sim/heat"
	"mottle/sim/salt"
	"mottle/soil"
)

// day is the longest time for which heat and salt stand still while water moves, s.
const day = 86400.0

// State is the column at an output time.
type State struct {
	Time        float64
	Water       *column.Column
	Flux        []float64    // through every edge in the last step, m/s, down
	Temperature []float64    // C; nil without frost
	Salt        *salt.Column // of the cells
}

// Balance is what went in and out since the start, m of water.
type Balance struct {
	Infiltrated float64 // through the surface; negative is evaporation
	Runoff      float64
	Unmet       float64 // evaporation asked for that the soil did not give
	Drained     float64
	BaseOut     float64
	Gain        float64 // of water in and on the column
	Pond        float64 // standing at the end
	SaltGap     float64 // salt that is not accounted for, kg/m2
}

// Gap is what the balance leaves over, m.
func (b Balance) Gap() float64 {
	return b.Infiltrated + b.Pond - b.Drained - b.BaseOut - b.Gain
}

// bench is a case being run.
type bench struct {
	*Case
	water  *column.Column
	heat   *heat.Column
	salt   *salt.Column
	salts  salt.Water
	flux   []float64
	before []float64
	now    float64
	total  Balance
	out    float64 // salt that left less what came, kg/m2
}

// Run carries the case to its last time and calls seen at each. The error says
// when the water or the heat could not be solved.
func Run(ctx context.Context, c *Case, seen func(State) error) (Balance, error) {
	b, err := c.set()
	if err != nil {
		return Balance{}, err
	}
	start, salted := b.water.Storage(), b.salt.Total()
	for _, at := range c.Times {
		for b.now < at {
			if err := ctx.Err(); err != nil {
				return Balance{}, err
			}
			if err := b.part(at); err != nil {
				return Balance{}, fmt.Errorf("after %.6g s: %w", b.now, err)
			}
		}
		s := State{Time: at, Water: b.water, Flux: b.flux, Salt: b.salt}
		if b.heat != nil {
			s.Temperature = b.heat.Temperature
		}
		if err := seen(s); err != nil {
			return Balance{}, err
		}
	}
	b.total.Gain = b.water.Storage() - start
	b.total.Pond = b.water.Pond
	b.total.SaltGap = b.salt.Total() - salted + b.out
	return b.total, nil
}

// set makes the columns of water, heat and salt.
func (c *Case) set() (*bench, error) {
	n := c.Grid.Cells()
	tables, layers := make([]*soil.Table, n), make([]heat.Layer, n)
	ece := make([]float64, n)
	i := 0
	for k, h := range c.Horizons {
		t, err := soil.NewFormTable(h.Form)
		if err != nil {
			return nil, fmt.Errorf("horizons[%d]: %w", k, err)
		}
		thermal := soil.NewThermal(soil.ParticleDensity*(1-h.ThetaS), h.Sand/100, h.Organic/100, h.Sand > 50)
		for ; i < n && (c.Grid.Mid[i] < h.Bottom || k == len(c.Horizons)-1); i++ {
			tables[i], ece[i] = t, h.ECe
			layers[i] = heat.Layer{Thickness: c.Grid.Dz[i], Thermal: &thermal, Freezing: t}
		}
	}
	b := &bench{Case: c, water: column.New(c.Grid, tables, 0), salt: salt.New(n), flux: make([]float64, n+1), before: make([]float64, n+1)}
	b.water.Base = c.Base
	b.water.Surface.Store = c.Standing
	for i, z := range c.Grid.Mid {
		b.water.SetHead(i, c.Initial.head(z, tables[i]))
		b.salt.SetECe(i, ece[i], c.Grid.Dz[i], tables[i].ThetaS)
		if math.IsNaN(b.water.H[i]) {
			return nil, fmt.Errorf("initial: no head at %.3g m", z)
		}
	}
	if d := c.Drain; d != nil {
		b.water.AddLateral(column.Lateral{Spacing: d.Spacing, Depth: d.Depth, Level: d.Depth, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1,
			EquivalentDepth: drain.EquivalentDepth(d.Spacing, c.Grid.Depth()-d.Depth, d.Radius)})
	}
	if !math.IsNaN(c.Initial.Temperature) {
		b.heat = heat.New(layers, b.water.Water, c.Initial.Temperature)
	}
	b.salts = salt.Water{Dz: c.Grid.Dz, Content: make([]float64, n), Through: b.water.Through, Out: b.water.Out}
	return b, nil
}

// part carries the case to the end of the day, of the period of the surface, or
// to at, whichever comes first: heat, then water, then salt.
func (b *bench) part(at float64) error {
	k := 0
	for b.now >= b.Top[k].Until {
		k++
	}
	p := b.Top[k]
	end := min(at, p.Until, (math.Floor(b.now/day+1e-9)+1)*day)
	if b.heat != nil {
		if err := b.freeze(end-b.now, p.Surface); err != nil {
			return err
		}
	}
	w := b.water
	w.Surface.HeldHead, w.Surface.Driest = p.Head, p.Driest
	w.ResetTotals()
	runoff := 0.0
	for end-b.now > 1e-9*end {
		copy(b.before, w.Through)
		dt, err := w.Step(end-b.now, p.Supply)
		if err != nil {
			return err
		}
		for i, x := range w.Through {
			b.flux[i] = (x - b.before[i]) / dt
		}
		b.now += dt
		runoff += w.Last.Runoff * dt
		b.total.Unmet += w.Last.Unmet * dt
		b.total.Drained += w.Last.Lateral * dt
	}
	b.now = end
	n := len(b.flux) - 1
	b.total.Runoff += runoff
	b.total.Infiltrated += w.Through[0]
	b.total.BaseOut += w.Through[n]
	for i := range b.salts.Content {
		b.salts.Content[i] = w.Water[i] + w.Ice[i]
	}
	b.salts.Pond, b.salts.Runoff = w.Pond, runoff
	f := b.salt.Day(b.salts)
	b.out += f.Runoff + f.Laterals + f.BaseOut - f.BaseIn
	return nil
}

// freeze conducts heat for a time under a surface of the given temperature and
// hands the ice to the water.
func (b *bench) freeze(seconds, surface float64) error {
	w, h := b.water, b.heat
	for i := range h.Water {
		// What a linear step stored beyond the pores would freeze at a jump.
		h.Water[i] = min(w.Water[i]+w.Ice[i], w.Soil(i).ThetaS)
	}
	if _, err := h.Step(seconds, heat.Surface{Air: surface}); err != nil {
		return err
	}
	for i := range h.Ice {
		w.SetIce(i, h.Ice[i])
	}
	return nil
}
