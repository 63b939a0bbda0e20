package flow

import (
	"fmt"
	"math"
	"testing"
)

// Ponce (1989; inputs from memory, coefficients agree as printed): 1000 m3/s on 400 m2,
// width 100 m, slope 0.000868, beta 1.6, 14.4 km, 1 h: C 1, D 0.2, coefficients 0.091,
// 0.818, 0.091. The routed triangle was computed elsewhere with them.
func TestPonceExample(t *testing.T) {
	m := must[*Muskingum](t)(NewMuskingumCunge(Wave{Celerity: 1.6 * 2.5, UnitFlow: 10, Slope: 0.000868}, 14400, 0, 3600))
	c := m.Coefficients()
	near(t, "C1", c.C1, 0.0909, 2e-4)
	near(t, "C2", c.C2, 0.8182, 2e-4)
	near(t, "C3", c.C3, 0.0909, 2e-4)
	if m.Reaches() != 1 {
		t.Errorf("%d reaches", m.Reaches())
	}
	inflow := []float64{0, 200, 400, 600, 800, 1000, 800, 600, 400, 200, 0, 0, 0}
	want := []float64{0, 18.18, 201.65, 400.15, 600.01, 800.00, 963.63, 796.69, 599.70, 399.97, 200.00, 18.18, 1.65}
	for i, q := range inflow {
		near(t, fmt.Sprintf("hour %d", i), m.Step(q), want[i], 0.06) // the series has D = 0.2 to two digits, 1.5e-5 of 1000
	}
}

// Muskingum's K = dx/c and X = (1-D)/2 give the same coefficients (Cunge 1969).
func TestCungeIsMuskingum(t *testing.T) {
	for _, p := range [][2]float64{{1, 0.2}, {0.5, 0.6}, {1.5, 1}} {
		a, b := CungeCoefficients(p[0], p[1]), MuskingumCoefficients(3600/p[0], (1-p[1])/2, 3600)
		near(t, "C1", a.C1, b.C1, 1e-14)
		near(t, "C2", a.C2, b.C2, 1e-14)
		near(t, "C3", a.C3, b.C3, 1e-14)
		near(t, "sum", a.C1+a.C2+a.C3, 1, 1e-14)
	}
}

// A wide channel at its normal depth: the wave's speed is 5/3 of Manning's, and the
// flow is that of the depth.
func TestChannelWave(t *testing.T) {
	c := Channel{Width: 20, Slope: 0.0008, N: 0.035}
	w := must[Wave](t)(c.Wave(30))
	speed := w.Celerity * 3 / 5
	depth := w.UnitFlow / speed
	near(t, "speed", speed, must[float64](t)(Manning(depth, c.Slope, c.N)), 1e-12)
	near(t, "flow", speed*depth*c.Width, 30, 1e-12)
}

// A small wave down 50 km moves at its celerity and spreads by 2 D t, D = q/(2 s): the
// first two moments of the diffusion wave that the scheme stands for (Cunge 1969).
func TestWaveMoments(t *testing.T) {
	const length, dt = 50e3, 3600
	w := must[Wave](t)(Channel{Width: 20, Slope: 0.0008, N: 0.035}.Wave(30))
	m := must[*Muskingum](t)(NewMuskingumCunge(w, length, 0, dt))
	sum, first, second := 0.0, 0.0, 0.0
	for i := range 400 {
		q := 0.0
		if i == 0 {
			q = 1
		}
		at, out := float64(i)*dt, m.Step(q)
		sum, first, second = sum+out, first+out*at, second+out*at*at
	}
	mean := first / sum
	near(t, "volume", sum, 1, 1e-12)
	near(t, "travel time, h", mean/3600, length/w.Celerity/3600, 1e-6)
	diffusion := w.UnitFlow / (2 * w.Slope)
	near(t, "variance, h2", (second/sum-mean*mean)/3600/3600, 2*diffusion*length/math.Pow(w.Celerity, 3)/3600/3600, 1e-6)
}
