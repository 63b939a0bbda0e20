package flow

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// One linear store of 3 h under hourly inflow, the analytic solution: O2 = O1 c +
// I (1-c), c = e^(-1/3).
func TestLinearStore(t *testing.T) {
	c := must[*Cascade](t)(NewCascade(1, 3*3600, 3600))
	want := []float64{0, 1.13387, 2.51327, 2.36777, 1.69658, 1.21566, 0.87106, 0.62414}
	for i, q := range []float64{0, 4, 6, 2, 0, 0, 0, 0} {
		c.Step(q)
		near(t, fmt.Sprintf("hour %d", i), c.Outflow(), want[i], 5.1e-6)
	}
}

// Below its capacity a capped store is a linear one; at its capacity it lets out just
// that, and empties at the moment that the volume says.
func TestCapped(t *testing.T) {
	capped, linear := must[*Store](t)(NewCapped(6*3600, 2, 3600)), must[*Cascade](t)(NewCascade(1, 6*3600, 3600))
	for i, q := range []float64{1, 3, 0.5, 0, 2, 0} {
		near(t, fmt.Sprintf("hour %d", i), capped.Step(q), linear.Step(q), 1e-12)
	}
	full := must[*Store](t)(NewCapped(3600, 1, 3600))
	full.Step(11) // the store fills to 1 within the hour
	near(t, "full", full.Step(0), 1, 1e-12)
	above := full.Storage() - 3600
	for hours := above / 3600; hours >= 1; hours-- {
		near(t, "still full", full.Step(0), 1, 1e-12)
	}
	full.Step(0)
	if o := full.Outflow(); !(o < 1) {
		t.Errorf("still full below its capacity: %g", o)
	}
}

// A step of any length is exact: a day in one step leaves what it leaves in 24.
func TestStoreIsExact(t *testing.T) {
	levels := []Level{{}, {4000, 0}, {20000, 0.5}, {60000, 0.9}, {90000, 4}}
	rapid.Check(t, func(t *rapid.T) {
		day, hourly := must[*Store](t)(NewStore(levels, 86400)), must[*Store](t)(NewStore(levels, 3600))
		for _, q := range rapid.SliceOfN(rapid.Float64Range(0, 6), 1, 20).Draw(t, "inflow") {
			out, sum := day.Step(q), 0.0
			for range 24 {
				sum += hourly.Step(q) / 24
			}
			if math.Abs(out-sum) > 1e-9 || math.Abs(day.Storage()-hourly.Storage()) > 1e-9*90000 || day.Storage() > 90000 {
				t.Fatalf("inflow %g: %g in a day, %g in hours; storage %g and %g", q, out, sum, day.Storage(), hourly.Storage())
			}
		}
		if gap := day.Spilled() - hourly.Spilled(); math.Abs(gap) > 1e-9*90000 {
			t.Fatalf("spilled %g and %g", day.Spilled(), hourly.Spilled())
		}
	})
}

// Applied Hydrology example 8.2.1 (Chow, Maidment and Mays 1988; from memory): a pond
// of an acre with a pipe of 5 ft brings a peak of 360 ft3/s down to 270 ft3/s, 20 min
// later. The printed 270 is rounded to 5; the book's trapezoid step differs from the
// exact one by about as much.
func TestDetentionPond(t *testing.T) {
	const acre = 43560 * foot * foot
	outflow := []float64{0, 3, 8, 17, 30, 43, 60, 78, 97, 117, 137, 156, 173, 190, 205, 218, 231, 242, 253, 264, 275}
	depths, areas := make([]float64, len(outflow)), make([]float64, len(outflow))
	for i := range outflow {
		depths[i], areas[i] = 0.5*foot*float64(i), acre
		outflow[i] *= cfs
	}
	pond := must[*Store](t)(NewPond(depths, areas, outflow, 600))
	inflow := []float64{0, 60, 120, 180, 240, 300, 360, 320, 280, 240, 180, 120, 60, 0}
	peak, when := 0.0, 0
	for i := 1; i < len(inflow); i++ {
		pond.Step((inflow[i-1] + inflow[i]) / 2 * cfs)
		if o := pond.Outflow() / cfs; o > peak {
			peak, when = o, 10*i
		}
	}
	near(t, "peak, ft3/s", peak, 270, 5)
	near(t, "minute of the peak", float64(when), 80, 0)
}

// A broad crest carries 1.705 L h^1.5 (critical flow, any textbook); an orifice under
// 1 m with C 0.6 has 0.6 x 4.429 m/s.
func TestOutlets(t *testing.T) {
	near(t, "crest", Crest(2, 1), 2*1.705, 2*5e-4)
	near(t, "crest under a quarter", Crest(2, 0.25), 2*1.705/8, 2*1e-4)
	near(t, "orifice", Orifice(0.6, 0.5, 1), 0.5*0.6*4.429, 2e-4)
	if Crest(1, -1) != 0 || Orifice(0.6, 1, -1) != 0 {
		t.Error("flow under no head")
	}
}

// What rounding upstream leaves below 0 neither hangs a store nor is lost.
func TestInflowBelowZero(t *testing.T) {
	s := must[*Store](t)(NewCapped(3600, 1, 3600))
	near(t, "empty", s.Step(-1e-18), -1e-18, 0)
	s.Step(1e-3)
	held := s.Storage()
	out := s.Step(-1e-2)
	near(t, "emptied", s.Storage(), 0, 0)
	near(t, "outflow", out, held/3600-1e-2, 1e-15)
}

// Levels that do not rise are refused.
func TestStoreFaults(t *testing.T) {
	for name, levels := range map[string][]Level{
		"one level":       {{}},
		"starts above":    {{1, 0}, {2, 1}},
		"storage falls":   {{}, {2, 1}, {1, 2}},
		"outflow falls":   {{}, {1, 1}, {2, 0.5}},
		"endless, rising": {{}, {1, 1}, {math.Inf(1), 2}},
		"not a number":    {{}, {math.NaN(), 1}},
	} {
		if _, err := NewStore(levels, 3600); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	var out *RangeError
	if _, err := NewCapped(3600, 0, 3600); !errors.As(err, &out) {
		t.Errorf("capacity 0: %v", err)
	}
}
