package flow

import (
	"fmt"
	"math"
)

// StabilityError is a step or a cutting of a reach under which routing would give
// negative or oscillating flow.
type StabilityError struct {
	Method     string
	Quantity   string  // what lies outside, with its unit
	Found      float64 // in that unit
	Low, High  float64 // allowed
	Reaches    int     // cutting asked for
	Suggestion string
}

func (e *StabilityError) Error() string {
	return fmt.Sprintf("%s, %d reaches: %s: found %.6g, allowed %.6g to %.6g: %s", e.Method, e.Reaches, e.Quantity, e.Found, e.Low, e.High, e.Suggestion)
}

// Coefficients of O2 = C1 I2 + C2 I1 + C3 O1, the inflow and outflow of a reach at
// the end (2) and the beginning (1) of a step; they add up to 1.
type Coefficients struct{ C1, C2, C3 float64 }

// MuskingumCoefficients for storage K (X I + (1-X) O), K and the step dt in s
// (Chow, Maidment and Mays 1988, equations 8.4.7-9).
func MuskingumCoefficients(k, x, dt float64) Coefficients {
	d := 2*k*(1-x) + dt
	return Coefficients{(dt - 2*k*x) / d, (dt + 2*k*x) / d, (2*k*(1-x) - dt) / d}
}

// CungeCoefficients for a Courant number and a cell diffusion number (Cunge 1969;
// Ponce 1989; from memory): Muskingum's with K = dt/courant and X = (1-diffusion)/2.
func CungeCoefficients(courant, diffusion float64) Coefficients {
	d := 1 + courant + diffusion
	return Coefficients{(courant + diffusion - 1) / d, (1 + courant - diffusion) / d, (1 - courant + diffusion) / d}
}

// Muskingum routes through equal reaches in a row, all with the same coefficients.
// Its flows are those of the steps, in and out; no coefficient is negative, so no
// flow is.
type Muskingum struct {
	c     Coefficients
	flows []float64 // the inflow, then the outflow of each reach
	dt    float64
}

// NewMuskingum makes reaches of k/reaches (s) and weight x each, empty, stepped by
// dt (s). A step outside of 2KX to 2K(1-X) of one reach is a [StabilityError]; x
// outside of 0 to 0.5 a [RangeError].
func NewMuskingum(k, x float64, reaches int, dt float64) (*Muskingum, error) {
	if err := firstOf(positive("travel time, s", k), within("weight X", x, 0, 0.5, "0 is a store, 0.5 moves the wave on unchanged"),
		within("reaches", float64(reaches), 1, 1e6, "give at least one"), positive("step, s", dt)); err != nil {
		return nil, err
	}
	one := k / float64(reaches)
	low, high := 2*one*x, 2*one*(1-x)
	const rounding = 1e-12
	if dt < low*(1-rounding) || dt > high*(1+rounding) {
		fewest, most := math.Ceil(2*k*x/dt*(1-rounding)), math.Floor(2*k*(1-x)/dt*(1+rounding))
		e := &StabilityError{"Muskingum", "step, s", dt, low, high, reaches, fmt.Sprintf("take %.0f to %.0f reaches", math.Max(fewest, 1), most)}
		if most < math.Max(fewest, 1) {
			e.Suggestion = fmt.Sprintf("no cutting helps: shorten the step to at most %.6g s", high*float64(reaches))
		}
		return nil, e
	}
	return &Muskingum{MuskingumCoefficients(one, x, dt), make([]float64, reaches+1), dt}, nil
}

// Settle puts the reaches at rest with the given outflow (m3/s) while the inflow
// (m3/s) stands at its end; a steady state has both alike.
func (m *Muskingum) Settle(inflow, outflow float64) {
	for i := range m.flows {
		m.flows[i] = outflow
	}
	m.flows[0] = inflow
}

// Step takes the inflow (m3/s) of a step and returns its outflow (m3/s).
func (m *Muskingum) Step(inflow float64) float64 {
	above := m.flows[0] // at the step's beginning
	m.flows[0] = inflow
	for i := 1; i < len(m.flows); i++ {
		out := m.c.C1*m.flows[i-1] + m.c.C2*above + m.c.C3*m.flows[i]
		above, m.flows[i] = m.flows[i], out
	}
	return m.flows[len(m.flows)-1]
}

// Storage is the water (m3) in the reaches: dt (C2 I + C3 O)/(C1 + C2) of each, what
// the sums of its steps' inflow and outflow leave. At steady flow it is K times it.
func (m *Muskingum) Storage() float64 {
	sum := 0.0
	for i := 1; i < len(m.flows); i++ {
		sum += m.c.C2*m.flows[i-1] + m.c.C3*m.flows[i]
	}
	return m.dt * sum / (m.c.C1 + m.c.C2)
}

// Coefficients are those of each reach.
func (m *Muskingum) Coefficients() Coefficients { return m.c }

// Reaches is the number of reaches in a row.
func (m *Muskingum) Reaches() int { return len(m.flows) - 1 }
