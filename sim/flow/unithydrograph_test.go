package flow

import (
	"fmt"
	"math"
	"testing"
)

// NEH 630 chapter 16 (from memory, recomputed): the trapezoid area under the table is
// 1.33595, and 37.4 % of it lies before the peak (the handbook says 37.5).
func TestStandardShape(t *testing.T) {
	s := Standard()
	area, rise := 0.0, 0.0
	const step = 0.05 // divides every interval of the table, so the trapezoid is exact
	for i := range 100 {
		piece := (s.At(step*float64(i)) + s.At(step*float64(i+1))) / 2 * step
		area += piece
		if i < 20 {
			rise += piece
		}
	}
	near(t, "area", area, 1.33595, 1e-5)
	near(t, "share before the peak", rise/area, 0.3743, 5e-5)
}

// NEH 630 example 16-1 (from memory): 4.6 mi2, Tc 2.3 h, D 0.30 h, so Tp 1.53 h and
// 1455 ft3/s per inch.
func TestUnitPeak(t *testing.T) {
	tp := TimeToPeak(0.30*3600, 2.3*3600)
	near(t, "Tp, h", tp/3600, 1.53, 1e-9)
	near(t, "peak, ft3/s", Standard().Peak(4.6*mile*mile, inch, tp)/cfs, 1455, 0.5)
}

// Peak-rate factors against gamma exponents (the gamma integral, solved elsewhere;
// the handbook lists 3.7 for 484), and the triangle's base; half of the last digit.
func TestPeakRateFactors(t *testing.T) {
	for _, c := range []struct{ prf, m, base float64 }{
		{100, 0.2572, 12.9067}, {200, 0.7470, 6.4533}, {284, 1.3715, 4.5446}, {300, 1.5137, 4.3022},
		{400, 2.5746, 3.2267}, {484, 3.6969, 2.6667}, {600, 5.5955, 2.1511},
	} {
		near(t, fmt.Sprintf("m of %g", c.prf), must[float64](t)(GammaExponent(c.prf)), c.m, 5.1e-5)
		near(t, fmt.Sprintf("base of %g", c.prf), must[Shape](t)(Triangle(c.prf)).base, c.base, 5.1e-5)
	}
	if _, err := GammaExponent(2000); err == nil {
		t.Error("peak-rate factor 2000 accepted")
	}
}

// 5, 10 and 3 mm in steps of 0.2 h on 2 km2 with Tp 1 h (computed by hand from the
// table): unscaled the peak is 7.267 m3/s at 1.2 h after the first pulse began.
func TestConvolution(t *testing.T) {
	const dt = 720
	h := must[*Hydrograph](t)(NewHydrograph(Standard(), 3600, dt))
	want := []float64{0.208, 1.063, 2.792, 5.075, 6.783, 7.267, 6.750, 5.579, 4.121}
	excess := []float64{0.005, 0.010, 0.003}
	for i, w := range want {
		q := 0.0
		if i < len(excess) {
			q = excess[i] * 2e6 / dt
		}
		near(t, fmt.Sprintf("at %.1f h", 0.2*float64(i+1)), h.Step(q)/h.Scale(), w, 5.1e-4)
	}
	near(t, "volume of the unscaled table, mm", 18/h.Scale(), 18.008, 5e-4)
}

// The gamma shape is a Nash cascade of m+1 stores of Tp/m: sampled and scaled, its
// ordinates are the cascade's flows.
func TestGammaIsNash(t *testing.T) {
	m := must[float64](t)(GammaExponent(284))
	const tp, dt = 7200.0, 600.0
	shares := must[*Hydrograph](t)(NewHydrograph(must[Shape](t)(Gamma(284)), tp, dt)).Shares()
	for i := range 30 {
		at := float64(i+1) * dt
		// The sum of the samples is the volume within 1 part in 1000 at 12 steps a rise.
		near(t, fmt.Sprintf("%g s", at), shares[i]/dt, NashFlow(m+1, tp/m, at), 1e-3*NashFlow(m+1, tp/m, tp))
	}
}

// A step longer than a fifth of the time to peak is cut: its hourly means are those of
// the same convolution in steps of 12 min, here averaged by hand.
func TestLongSteps(t *testing.T) {
	coarse := must[*Hydrograph](t)(NewHydrograph(Standard(), 3600, 3600))
	fine := must[*Hydrograph](t)(NewHydrograph(Standard(), 3600, 720))
	for hour, q := range []float64{3, 7, 0, 1, 0, 0, 0, 0} {
		mean := 0.0
		for range 5 {
			mean += fine.Step(q) / 5
		}
		near(t, fmt.Sprintf("hour %d", hour), coarse.Step(q), mean, 1e-12)
	}
}

// The handbook's excess lasts at most a fifth of the time to peak (0.133 Tc): a step just
// above is two pieces, of which (2 u1 + u2)/2 of all ordinates leaves in the first step.
func TestFifthOfTheRise(t *testing.T) {
	s, sum := Standard(), 0.0
	for i := 1; i < 48; i++ {
		sum += s.At(0.105 * float64(i))
	}
	shares := must[*Hydrograph](t)(NewHydrograph(s, 3600, 0.21*3600)).Shares()
	near(t, "first share", shares[0], (2*s.At(0.105)+s.At(0.21))/(2*sum), 1e-12)
}

// Nash 1957, n 3, k 2 h: the peak e^-2/1 h = 0.135335 at 4 h, the step response
// P(3,3) = 1 - e^-3 (1 + 3 + 9/2) = 0.57681 at 6 h.
func TestNash(t *testing.T) {
	near(t, "peak, 1/h", 3600*NashFlow(3, 7200, 4*3600), math.Exp(-2), 1e-12)
	near(t, "step response", NashStep(3, 7200, 6*3600), 1-math.Exp(-3)*(1+3+4.5), 1e-12)
	want := []float64{0.01439, 0.06591, 0.11085, 0.13217, 0.13286, 0.12062, 0.10234, 0.08274, 0.06453, 0.04893} // incomplete gamma, computed elsewhere
	c := must[*Cascade](t)(NewCascade(3, 7200, 3600))
	h := must[*Hydrograph](t)(NewNash(3, 7200, 3600))
	for i, w := range want {
		q := 0.0
		if i == 0 {
			q = 1
		}
		c.Step(q)
		near(t, fmt.Sprintf("cascade at %d h", i+1), c.Outflow(), w, 5.1e-6)
		near(t, fmt.Sprintf("convolution at %d h", i+1), h.Step(q), w, 5.1e-6)
	}
}
