package column

import "math"

// Lateral takes water sideways out of the saturated soil to a pipe or a ditch,
// after Hooghoudt (1940): q = (8 Kb d m + 4 Ka m^2)/L^2, spread over the
// cells. Each saturated cell yields in proportion to its own conductivity and
// to its hydraulic head above the drain; below the drain its thickness is
// reduced by d/D, above it by half. For a hydrostatic column the sum is
// Hooghoudt's equation with every horizon's own conductivity, ice included.
type Lateral struct {
	Spacing         float64 // L, m; infinite for none
	Depth           float64 // of the drain, m
	EquivalentDepth float64 // Hooghoudt's d below the drain, m
	Capacity        float64 // the most that pipe and outlet carry, m/s
	Level           float64 // depth of the water level in the drain: Depth, or a weir's crest above it, m
	Ponded          float64 // ratio of Kirkham's (1957) ponded flow to Hooghoudt's with the table at the surface
	Anisotropy      float64 // lateral over vertical conductivity
	FrozenShut      bool    // set by the caller: the soil around the pipe is frozen

	below  []float64 // 8 x reduced thickness / L^2 of each cell below Level, 1/m
	top    []float64 // upper edge of each cell's part above Level
	bottom []float64 // its lower edge
	full   bool      // at capacity in this step
	idle   bool      // no flow in this step, at its start or since

	Rate  []float64 // outflow of each cell over the last step, m/s
	start []float64 // at the step's start
	rate  []float64 // at the linearisation point
	dq    []float64 // its slope
}

// late is the weight of the step's end in the drain flow booked for a step. The
// water table falls over days, so that the flow may be taken nearly at mid-step,
// which makes it second-order; the end of the step alone lost 2 % of the
// drainage of a falling table to daily steps.
const late = 0.55

// mean is cell i's outflow over a step in which its head changes by d.
func (l *Lateral) mean(i int, d float64) float64 {
	return (1-late)*l.start[i] + late*(l.rate[i]+l.dq[i]*d)
}

// place lays the drain on the grid; to be called again when Level changes.
func (l *Lateral) place(g Grid) {
	n := g.Cells()
	if l.below == nil {
		buf := make([]float64, 7*n)
		l.below, l.top, l.bottom = buf[:n], buf[n:2*n], buf[2*n:3*n]
		l.Rate, l.rate, l.dq, l.start = buf[3*n:4*n], buf[4*n:5*n], buf[5*n:6*n], buf[6*n:]
	}
	barrier := g.Depth() - l.Depth
	reduce := 1.0
	if barrier > 0 {
		reduce = l.EquivalentDepth / barrier
	}
	inv := 1 / (l.Spacing * l.Spacing)
	for i := range n {
		a, b := g.Edge[i], g.Edge[i+1]
		held := max(0, min(b, l.Depth)-max(a, l.Level)) // between weir crest and drain
		deep := max(0, b-max(a, l.Depth))
		l.below[i] = 8 * inv * (held + deep*reduce)
		l.top[i], l.bottom[i] = a, min(b, l.Level)
	}
}

// flow fills rate and dq for the heads h; it returns the sum of the rates.
func (l *Lateral) flow(c *Column, h []float64) float64 {
	total := 0.0
	for i := range l.rate {
		l.rate[i], l.dq[i] = 0, 0
	}
	if l.FrozenShut || math.IsInf(l.Spacing, 1) {
		return 0
	}
	inv := 4 / (l.Spacing * l.Spacing)
	factor := l.Anisotropy * c.pondedFactor(l)
	for i, hi := range h {
		m := hi + l.Level - c.Grid.Mid[i] // hydraulic head above the drain's level
		if m <= 0 || c.dry[i] {
			continue
		}
		k := c.soils[i].Ksat * c.block[i] * factor
		q, dq := l.below[i]*m, l.below[i]
		if above := l.bottom[i] - l.top[i]; above > 0 {
			// Saturated thickness above the level, hydrostatic within the cell:
			// the table stands at Mid - h.
			s := l.bottom[i] - (c.Grid.Mid[i] - hi)
			ds := 1.0
			switch {
			case s <= 0:
				s, ds = 0, 0
			case s >= above:
				s, ds = above, 0
			}
			q += inv * s * m
			dq += inv * (ds*m + s)
		}
		l.rate[i], l.dq[i] = k*q, k*dq
		total += k * q
	}
	if l.full = total > l.Capacity; l.full {
		share := l.Capacity / total
		for i := range l.rate {
			l.rate[i] *= share
			l.dq[i] = 0
		}
		total = l.Capacity
	}
	return total
}

// pondedFactor turns to Kirkham's ponded rate, which is that of a soil saturated
// from the surface to the pipe, as the surface floods: fully when 5 mm stand on
// it, or as much as it can hold.
func (c *Column) pondedFactor(l *Lateral) float64 {
	flooded := min(0.005, c.Surface.Store)
	if c.Pond <= 0 || flooded <= 0 {
		return 1
	}
	for i, h := range c.H {
		if c.Grid.Edge[i] >= l.Depth {
			break
		}
		if h < 0 {
			return 1
		}
	}
	return 1 + (l.Ponded-1)*min(c.Pond/flooded, 1)
}
