package flow

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// NashFlow is the instantaneous unit hydrograph (1/s) of n stores of k (s) in a row,
// n whole or not: (t/k)^(n-1) e^(-t/k) / (k Gamma(n)) (Nash 1957).
func NashFlow(n, k, t float64) float64 {
	if t < 0 {
		return 0
	}
	gamma, _ := math.Lgamma(n)
	return math.Pow(t/k, n-1) * math.Exp(-t/k-gamma) / k
}

// NashStep is the share of a steady inflow that leaves n stores of k (s) at t (s)
// after it began: the regularised incomplete gamma function P(n, t/k).
func NashStep(n, k, t float64) float64 {
	if t <= 0 {
		return 0
	}
	return mathext.GammaIncReg(n, t/k)
}

// Cascade is a row of equal linear stores (Nash 1957), stepped exactly under an
// inflow that is constant in each step; a single store is the linear reservoir.
type Cascade struct {
	flows   []float64 // outflow (m3/s) of each store at this moment
	weights []float64 // (dt/k)^j e^(-dt/k) / j!, the share of a flow j stores up
	fill    []float64 // share of a steady inflow that leaves store i after a step
	k, dt   float64
}

// NewCascade makes n stores of residence time k (s), empty, stepped by dt (s).
func NewCascade(n int, k, dt float64) (*Cascade, error) {
	if err := firstOf(within("stores", float64(n), 1, 1000, "give a whole number"), positive("residence time, s", k), positive("step, s", dt)); err != nil {
		return nil, err
	}
	c := &Cascade{make([]float64, n), make([]float64, n), make([]float64, n), k, dt}
	weight := math.Exp(-dt / k)
	for i := range n {
		c.weights[i] = weight
		c.fill[i] = NashStep(float64(i+1), k, dt)
		weight *= dt / k / float64(i+1)
	}
	return c, nil
}

// Step takes the mean inflow (m3/s) of a step and returns its mean outflow (m3/s).
func (c *Cascade) Step(inflow float64) float64 {
	before := c.Storage()
	for i := len(c.flows) - 1; i >= 0; i-- { // from below, so that the flows above are still the old ones
		flow := inflow * c.fill[i]
		for j := 0; j <= i; j++ {
			flow += c.flows[i-j] * c.weights[j]
		}
		c.flows[i] = flow
	}
	return inflow - (c.Storage()-before)/c.dt
}

// Storage is the water (m3) in the stores.
func (c *Cascade) Storage() float64 {
	sum := 0.0
	for _, flow := range c.flows {
		sum += flow
	}
	return c.k * sum
}

// Outflow is the outflow (m3/s) at this moment.
func (c *Cascade) Outflow() float64 { return c.flows[len(c.flows)-1] }
