package money

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// sheet is a year-by-year table: what a spreadsheet would do.
type sheet struct {
	present  float64
	payback  float64 // +Inf for never
	recovery float64 // level yearly payment on 1 USD
}

func reckon(rate float64, flows []float64) sheet {
	s := sheet{payback: math.Inf(1)}
	running, worth := 0.0, 0.0
	for year, flow := range flows {
		growth := math.Pow(1+rate, float64(year))
		before := running
		running += flow / growth
		if running >= 0 && math.IsInf(s.payback, 1) {
			s.payback = float64(year)
			if year > 0 {
				s.payback = float64(year-1) + -before/(running-before)
			}
		}
		if year > 0 {
			worth += 1 / growth
		}
	}
	s.present, s.recovery = running, 1/worth
	return s
}

// drawFlows are an outlay and yearly gains, some of them losses.
func drawFlows(t *rapid.T, least float64) []float64 {
	gains := rapid.SliceOfN(rapid.Float64Range(least, 250), 1, 60).Draw(t, "gains")
	return append([]float64{-rapid.Float64Range(1, 3000).Draw(t, "outlay")}, gains...)
}

func TestAgainstSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := drawFlows(t, -100)
		rate := rapid.Float64Range(-0.05, 0.3).Draw(t, "rate")
		want := reckon(rate, flows)
		// Rounding: each of at most 61 terms below 3000 (1.05)^60 = 6e4 to 1e-15 or so.
		near := func(what string, got, want, tolerance float64) {
			if !(math.Abs(got-want) <= tolerance) {
				t.Fatalf("%s: got %.12g, want %.12g", what, got, want)
			}
		}
		years := len(flows) - 1
		near("present value", PresentValue(rate, flows), want.present, 1e-8)
		near("capital recovery", CapitalRecovery(rate, years), want.recovery, 1e-11*want.recovery)
		near("level yearly", LevelYearly(rate, flows[1:]), (want.present-flows[0])*want.recovery, 1e-8)
		near("benefit over cost", BenefitCostRatio(rate, flows), (want.present-flows[0])/-flows[0], 1e-8)
		got := PaybackTime(rate, flows)
		if got.Never() != math.IsInf(want.payback, 1) && math.Abs(want.present) > 1e-6 {
			t.Fatalf("payback %v, want %g", got, want.payback)
		}
		if !got.Never() && !math.IsInf(want.payback, 1) {
			near("payback", got.Years, want.payback, 1e-6)
		}
	})
}

// An outlay with gains after it has one rate: that which bisection on the table finds.
func TestInternalRateAgainstSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := drawFlows(t, 0)
		flows[1] += 1 // some gain
		low, high := -0.999, 300.0
		for range 200 {
			mid := (low + high) / 2
			if reckon(mid, flows).present > 0 {
				low = mid
			} else {
				high = mid
			}
		}
		got, err := InternalRate(flows)
		if err != nil {
			t.Fatalf("%v: %v", flows, err)
		}
		if math.Abs(got-low) > 1e-9*(1+low) && low > -0.99 {
			t.Fatalf("%v: got %.12g, want %.12g", flows, got, low)
		}
	})
}

// Flows made of known rates, by multiplying (1 + r - x) and by factors without a real
// positive zero, have those rates and no others.
func TestRatesFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// 1+r on a grid, so that no two lie within rounding.
		steps := rapid.SliceOfNDistinct(rapid.IntRange(-8, 40), 1, 4, rapid.ID).Draw(t, "rates in twentieths")
		flows, want := []float64{-1}, []float64{}
		multiply := func(by ...float64) { // polynomials in 1/(1+rate)
			out := make([]float64, len(flows)+len(by)-1)
			for i, f := range flows {
				for j, b := range by {
					out[i+j] += f * b
				}
			}
			flows = out
		}
		for _, s := range steps {
			r := float64(s) / 20
			want = append(want, r)
			multiply(1, -(1 + r))
		}
		for range rapid.IntRange(0, 3).Draw(t, "without zeros") {
			multiply(1, rapid.Float64Range(-1.2, 1.2).Draw(t, "middle"), 1) // discriminant below 0
		}
		slices.Sort(want)
		got := Rates(flows)
		if len(got) != len(want) {
			t.Fatalf("%v: got %v, want %v", flows, got, want)
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-6 { // four zeros a twentieth apart: ill conditioned
				t.Fatalf("%v: got %v, want %v", flows, got, want)
			}
		}
		_, err := InternalRate(flows)
		var e *RateError
		if len(want) == 1 && err != nil || len(want) > 1 && (!errors.As(err, &e) || len(e.Rates) != len(want)) {
			t.Fatalf("%v: %v", flows, err)
		}
	})
}

func TestRatesNone(t *testing.T) {
	for name, flows := range map[string][]float64{
		"empty": {}, "only costs": {-1, -2, -3}, "only gains": {0, 2, 3}, "nothing": {0, 0, 0},
		"touches nothing": {-1, 1, -1}, // x2 - x + 1 has no real zero
		"not a number":    {-1, math.NaN(), 2}, "without end": {-1, math.Inf(1)},
	} {
		rate, err := InternalRate(flows)
		var e *RateError
		if !errors.As(err, &e) || len(e.Rates) != 0 || !math.IsNaN(rate) {
			t.Errorf("%s: got %g, %v", name, rate, err)
		}
	}
	// A double zero, -(1.1v - 1)^2, is one rate of 10 %.
	rates := Rates([]float64{-1, 2.2, -1.21})
	if len(rates) != 1 || math.Abs(rates[0]-0.1) > 1e-7 {
		t.Errorf("double zero: %v, want 10 %% once", rates)
	}
	// A triple one, (1.1v - 1)^3, which rounding spreads over a band: once.
	rates = Rates([]float64{-1, 3.3, -3.63, 1.331})
	if len(rates) != 1 || math.Abs(rates[0]-0.1) > 1e-4 {
		t.Errorf("triple zero: %v, want 10 %% once", rates)
	}
	// A long life with late losses: one rate a farmer would look for and one near
	// -100 %, both reported.
	flows := append(Level(1000, 100, 29), -10)
	rates = Rates(flows)
	if len(rates) != 2 || math.Abs(rates[1]-0.0929) > 0.001 || rates[0] > -0.8 {
		t.Errorf("late loss: %v", rates)
	}
}

func TestOutside(t *testing.T) {
	for what, v := range map[string]float64{
		"rate":       PresentValue(-1, []float64{1}),
		"annuity":    AnnuityFactor(0.05, 0),
		"annuity -1": AnnuityFactor(-1, 5),
		"real":       RealRate(0.05, -1),
		"ratio":      BenefitCostRatio(0.05, []float64{1, 2}),
		"payback":    PaybackTime(-1, []float64{-1, 2}).Years,
		"pump":       PumpEnergy(1, 1, 0),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %g, want NaN", what, v)
		}
	}
	if !math.IsInf(BreakEvenGain(10, 3, 3), 1) || !math.IsInf(BreakEvenPrice(10, 0, 3), 1) {
		t.Error("break-even where nothing can pay: want +Inf")
	}
	if p := PaybackTime(0, []float64{0, 1}); p.Years != 0 {
		t.Errorf("payback of no outlay: %v", p)
	}
	// Present value of a nominal flow at the nominal rate is that of the real flow at
	// the real rate (Fisher): 100 USD of today's money in 10 years at 3 % inflation.
	real := PresentValue(RealRate(0.08, 0.03), []float64{10: 100})
	near(t, "real rate", PresentValue(0.08, []float64{10: 100 * math.Pow(1.03, 10)}), real, 1e-12*real)
}
