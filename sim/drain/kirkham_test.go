package drain

import (
	"fmt"
	"math"
	"testing"
)

// Kirkham 1957 (formula from memory), computed independently.
func TestKirkhamPonded(t *testing.T) {
	for _, r := range table(t, "check_kirkham_ponded.csv", 144) {
		b, radius, h, l := r.num("drain_centre_depth_m"), r.num("r_m"), r.num("barrier_depth_m"), r.num("L_m")
		what := fmt.Sprintf("line %d", r.line)
		near(t, what+" g", KirkhamFactor(b, radius, h, l), r.num("g"), sixDigits)
		near(t, what+" q", KirkhamPonded(r.num("K_m_per_d")*perDay, r.num("ponded_depth_m"), b, radius, h, l),
			r.num("q_mm_per_d")*mmPerDay, sixDigits)
	}
}

// Three worked values of the same formula, printed to eight digits.
func TestKirkhamWorked(t *testing.T) {
	for _, c := range []struct{ k, pond, b, r, h, l, g, q float64 }{ // m/d
		{1, 0.01, 1, 0.0051, 2, 20, 12.418440, 0.050843526},
		{1, 0, 1, 0.05, 2, 10, 7.785053, 0.15334580},
		{0.5, 0.02, 1.2, 0.0051, 3, 30, 12.592848, 0.020205760},
	} {
		near(t, "g", KirkhamFactor(c.b, c.r, c.h, c.l), c.g, 1e-7)
		near(t, "q", KirkhamPonded(c.k*perDay, c.pond, c.b, c.r, c.h, c.l), c.q*perDay, 5e-8)
	}
}

// Images of the row of drains in the surface (opposite sign) and in the
// barrier (same sign), each row in closed form (method of images; the
// potential of a row of line sinks at spacing L is ln sinh(pi z/L) above a
// sink). Terms n and -n are summed together; what is left falls as
// exp(-4 pi n h/L).
func TestKirkhamAgainstImages(t *testing.T) {
	for _, c := range [][4]float64{{1, 0.0051, 2, 20}, {0.9, 0.05, 1.1, 10}, {1.2, 0.0051, 6, 5}, {1, 0.05, 1, 15}} {
		b, r, h, l := c[0], c[1], c[2], c[3]
		z := b - r
		row := func(n float64) float64 {
			sign := 1 - 2*math.Mod(math.Abs(n), 2)
			return sign * (logSinh(math.Pi*math.Abs(z-b-2*n*h)/l) - logSinh(math.Pi*math.Abs(z+b-2*n*h)/l))
		}
		potential := row(0)
		for n := 1.0; n <= 40*l/h; n++ {
			potential += row(n) + row(-n)
		}
		// Rounding of some hundred terms of order ten.
		near(t, fmt.Sprint(c), KirkhamFactor(b, r, h, l), -2*potential, 1e-11)
	}
}

// With the barrier out of reach the closed form holds. A barrier thirty
// spacings down is not felt: the field of a row of drains dies away as
// exp(-2 pi depth/L). Rounding of some hundred terms remains.
func TestKirkhamNoBarrier(t *testing.T) {
	near(t, "g", KirkhamFactor(1, 0.0051, 300, 10), KirkhamFactor(1, 0.0051, math.Inf(1), 10), 1e-12)
}

func TestKirkhamOutside(t *testing.T) {
	for what, q := range map[string]float64{
		"negative pond":           KirkhamPonded(1e-6, -0.01, 1, 0.005, 2, 20),
		"drain below the barrier": KirkhamPonded(1e-6, 0, 1, 0.005, 0.9, 20),
		"drain above the surface": KirkhamPonded(1e-6, 0, 0.004, 0.005, 2, 20),
		"drains that touch":       KirkhamPonded(1e-6, 0, 1, 0.05, 2, 0.1),
	} {
		if !math.IsNaN(q) {
			t.Errorf("%s: %g, want NaN", what, q)
		}
	}
}
