// Package salt carries dissolved salt with the water of a soil column.
//
// One implicit upwind step a day on the day's own water fluxes: it stays
// positive and closes to rounding where explicit forms blow up. Evaporation and
// roots leave salt behind; what exceeds the solubility lies solid until water
// comes. Masses kg/m2, concentrations kg/m3 of water, water in m.
package salt

import (
	"math"

	"mottle/sim/tridiag"
)

// PerEC is the salt of one dS/m, kg/m3: 640 mg/L (Handbook 60, 1954, and
// FAO-29, from memory; holds to 5 dS/m, sulfate waters run higher).
const PerEC = 0.64

const (
	dispersivity = 0.2 // m, field soils at the metre scale
	solubility   = 60  // kg/m3, between gypsum and sodium sulfate (assumption)
)

// Column is the salt of one soil column.
type Column struct {
	Mass  []float64 // dissolved in each cell, kg/m2
	Solid []float64 // lying solid in each cell, kg/m2
	Pond  float64   // in the water on the surface, kg/m2

	Lateral []float64 // that left by each lateral in the last day, kg/m2

	c                                  []float64 // concentration, kg/m3
	lower, diag, upper, right, scratch []float64
}

// New makes a column of n cells, at least 2, without salt.
func New(n int) *Column {
	f := func() []float64 { return make([]float64, n) }
	return &Column{Mass: f(), Solid: f(), c: f(), lower: f(), diag: f(), upper: f(), right: f(), scratch: f()}
}

// Water is what a day's water did.
type Water struct {
	Dz      []float64   // cell thickness, m
	Content []float64   // liquid and ice at the day's end, m3/m3
	Through []float64   // flux through every edge over the day, m, down
	Out     [][]float64 // outflow of every cell to each lateral, m

	Pond    float64 // standing at the day's end, m
	Runoff  float64 // m
	Arrived float64 // salt that came with rain and run-on, kg/m2
	BaseEC  float64 // of water that enters through the base, dS/m
}

// Flux is the day's salt over the borders, kg/m2.
type Flux struct {
	Runoff   float64
	Laterals float64 // all laterals
	BaseOut  float64
	BaseIn   float64
}

// Day moves the salt through one day.
func (s *Column) Day(w Water) Flux {
	n := len(s.Mass)
	var f Flux

	s.Pond += w.Arrived
	down, up := max(w.Through[0], 0), max(-w.Through[0], 0)
	wet := w.Pond+w.Runoff+down > 1e-12
	into := 0.0 // salt into cell 0
	switch {
	case !wet: // dried out: what is left lies on the surface
		into, s.Pond = s.Pond, 0
	case up == 0:
		into, f.Runoff = s.mixPond(w, down)
	}

	for i := range n {
		s.diag[i] = w.Content[i] * w.Dz[i]
		s.right[i] = s.Mass[i]
		for _, out := range w.Out {
			s.diag[i] += out[i]
		}
	}
	s.right[0] += into
	s.diag[0] += up
	for i := 1; i < n; i++ {
		q := w.Through[i]
		mix := dispersivity * math.Abs(q) / ((w.Dz[i-1] + w.Dz[i]) / 2)
		rise, sink := max(-q, 0)+mix, max(q, 0)+mix // per unit concentration below, above
		s.diag[i-1] += sink
		s.diag[i] += rise
		s.upper[i-1] = -rise
		s.lower[i] = -sink
	}
	base := w.Through[n]
	s.diag[n-1] += max(base, 0)
	f.BaseIn = max(-base, 0) * w.BaseEC * PerEC
	s.right[n-1] += f.BaseIn

	copy(s.c, s.right)
	tridiag.Solve(s.lower, s.diag, s.upper, s.c, s.scratch)

	s.Lateral = s.Lateral[:0]
	for _, out := range w.Out {
		left := 0.0
		for i, c := range s.c {
			left += out[i] * c
		}
		s.Lateral = append(s.Lateral, left)
		f.Laterals += left
	}
	f.BaseOut = max(base, 0) * s.c[n-1]
	s.Pond += up * s.c[0]
	if wet && up > 0 {
		_, f.Runoff = s.mixPond(w, 0)
	}

	for i := range n {
		volume := w.Content[i] * w.Dz[i]
		s.Mass[i] = volume * s.c[i]
		// Solid and solution change places at the solubility.
		if most := solubility * volume; s.Mass[i] > most {
			s.Solid[i] += s.Mass[i] - most
			s.Mass[i] = most
		} else if s.Solid[i] > 0 {
			back := min(s.Solid[i], most-s.Mass[i])
			s.Solid[i] -= back
			s.Mass[i] += back
		}
	}
	return f
}

// mixPond stirs the pond's salt into its water of the day, less what evaporated:
// what enters the soil (down, m) and what runs off leave at the concentration of
// what stays. It returns the salt that enters the soil and that which runs off,
// kg/m2.
func (s *Column) mixPond(w Water, down float64) (into, runoff float64) {
	c := s.Pond / (w.Pond + w.Runoff + down)
	s.Pond = c * w.Pond
	return c * down, c * w.Runoff
}

// Total is all salt in and on the column, kg/m2.
func (s *Column) Total() float64 {
	sum := s.Pond
	for i := range s.Mass {
		sum += s.Mass[i] + s.Solid[i]
	}
	return sum
}

// ECe is the electrical conductivity (dS/m) of the saturation extract of cell
// i: all its salt in the paste's water, paste m3 per m3 of soil.
func (s *Column) ECe(i int, dz, paste float64) float64 {
	return (s.Mass[i] + s.Solid[i]) / (dz * paste) / PerEC
}

// SetECe gives cell i the salt of an ECe, all in solution.
func (s *Column) SetECe(i int, ece, dz, paste float64) {
	s.Mass[i], s.Solid[i] = ece*PerEC*dz*paste, 0
}

// PasteWater is the water of a saturated paste per volume of soil, m3/m3: twice
// the soil's water at 33 kPa (FAO-29's ECe = half the EC of the soil water at
// field capacity, from memory), and at least what its pores hold.
func PasteWater(theta33, thetaS float64) float64 { return math.Max(2*theta33, thetaS) }
