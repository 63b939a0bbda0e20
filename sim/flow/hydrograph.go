package flow

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mathext"
)

// Hydrograph routes by convolution with a unit hydrograph: what came in during a
// step leaves over later steps in fixed shares.
type Hydrograph struct {
	shares  []float64 // of one step's inflow, by step; they add up to 1
	pending []float64 // flow (m3/s) still to leave, a ring from at
	at      int
	dt      float64
	scale   float64
}

// finest is the longest piece of a step over its time to peak. The handbook's excess
// lasts 0.133 Tc, 0.2 Tp (NRCS, National Engineering Handbook 630, chapter 16; from
// memory).
const finest = 0.2

// longest bounds the shares of a hydrograph: a century of hours.
const longest = 876_600

// NewHydrograph makes the convolution with a shape of time to peak tp (s), stepped by
// dt (s). Its ordinates are scaled so that their volume is exact; [Hydrograph.Scale]
// says by how much. A step above a fifth of tp is cut into pieces for the
// convolution: the outflow is then their mean, otherwise the flow at the step's end.
func NewHydrograph(s Shape, tp, dt float64) (*Hydrograph, error) {
	if err := firstOf(positive("time to peak, s", tp), positive("step, s", dt), within("step over time to peak", dt/tp, 0, 1000, "shorten the step"),
		within("steps of the unit hydrograph", s.base*tp/dt, 0, longest, "lengthen the step")); err != nil {
		return nil, err
	}
	pieces := int(math.Ceil(dt/tp/finest - 1e-9))
	piece := dt / float64(pieces)
	var ordinates []float64
	for i := 1; float64(i)*piece < s.base*tp; i++ {
		ordinates = append(ordinates, s.At(float64(i)*piece/tp))
	}
	// The peak of a unit volume is (PRF/645.33)/Tp; over all pieces the sum is near 1.
	sum := floats.Sum(ordinates) * s.prf / peakRateUnit * piece / tp
	return newHydrograph(gather(ordinates, pieces), dt, 1/sum), nil
}

// NewNash makes the convolution with a Nash cascade of any number of stores n, whole
// or not, of k (s) each: the share that leaves in each step is the difference of the
// step response, and the outflow is the flow at the step's end (Nash 1957). Where n
// is whole, a [Cascade] gives the same.
func NewNash(n, k, dt float64) (*Hydrograph, error) {
	if err := firstOf(positive("stores", n), positive("residence time, s", k), positive("step, s", dt)); err != nil {
		return nil, err
	}
	steps := math.Ceil(mathext.GammaIncRegCompInv(n, 1e-15) * k / dt)
	if err := within("steps of the unit hydrograph", steps, 0, longest, "lengthen the step"); err != nil {
		return nil, err
	}
	shares := make([]float64, max(int(steps), 1))
	before := 0.0
	for i := range shares {
		at := NashStep(n, k, float64(i+1)*dt)
		shares[i] = at - before
		before = at
	}
	return newHydrograph(shares, dt, 1/before), nil
}

// newHydrograph scales the shares to add up to 1.
func newHydrograph(shares []float64, dt, scale float64) *Hydrograph {
	floats.Scale(1/floats.Sum(shares), shares)
	return &Hydrograph{shares: shares, pending: make([]float64, len(shares)), dt: dt, scale: scale}
}

// gather turns the ordinates of pieces into shares of steps: inflow spread evenly
// over the pieces of a step, outflow averaged over those of another.
func gather(ordinates []float64, pieces int) []float64 {
	if pieces == 1 {
		return slices.Clone(ordinates)
	}
	shares := make([]float64, (len(ordinates)-1+pieces-1)/pieces+1)
	for in := range pieces {
		for lag, u := range ordinates {
			shares[(in+lag)/pieces] += u
		}
	}
	return shares
}

// Step takes the mean inflow (m3/s) of a step and returns the outflow (m3/s).
func (h *Hydrograph) Step(inflow float64) float64 {
	n := len(h.shares)
	for i, share := range h.shares[:n-h.at] {
		h.pending[h.at+i] += share * inflow
	}
	for i, share := range h.shares[n-h.at:] {
		h.pending[i] += share * inflow
	}
	out := h.pending[h.at]
	h.pending[h.at] = 0
	h.at = (h.at + 1) % n
	return out
}

// Storage is the water (m3) still to leave.
func (h *Hydrograph) Storage() float64 { return floats.Sum(h.pending) * h.dt }

// Scale is the factor that made the volume of the sampled ordinates exact; 1 is a
// shape that needed none.
func (h *Hydrograph) Scale() float64 { return h.scale }

// Shares are the parts of one step's inflow that leave in that step and in each
// later one; they add up to 1.
func (h *Hydrograph) Shares() []float64 { return slices.Clone(h.shares) }
