package flow

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// near fails when got lies further from want than the tolerance; NaN always fails.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.8g, want %.8g within %.2g", what, got, want, tolerance)
	}
}

// must fails the test on an error.
func must[T any](t interface {
	Helper()
	Fatal(...any)
}) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// routers draws one router of each kind, stepped by an hour, and makes as many like
// it as asked for.
func routers(t *rapid.T, copies int) []map[string]Router {
	const hour = 3600
	k := hour * rapid.Float64Range(0.2, 80).Draw(t, "k, h")
	x := rapid.Float64Range(0, 0.49).Draw(t, "X")
	share := rapid.Float64Range(0.02, 1).Draw(t, "place between the limits of K")
	prf := rapid.Float64Range(100, 600).Draw(t, "PRF")
	tp := hour * rapid.Float64Range(0.1, 30).Draw(t, "Tp, h")
	n := rapid.IntRange(1, 6).Draw(t, "n")
	w := must[Wave](t)(Channel{Width: 10, Slope: 0.001, N: 0.04}.Wave(rapid.Float64Range(1, 200).Draw(t, "Q")))
	all := make([]map[string]Router, copies)
	for i := range all {
		all[i] = map[string]Router{
			"standard":  must[*Hydrograph](t)(NewHydrograph(Standard(), tp, hour)),
			"gamma":     must[*Hydrograph](t)(NewHydrograph(must[Shape](t)(Gamma(prf)), tp, hour)),
			"triangle":  must[*Hydrograph](t)(NewHydrograph(must[Shape](t)(Triangle(prf)), tp, hour)),
			"Nash":      must[*Hydrograph](t)(NewNash(float64(n)+0.37, k, hour)),
			"cascade":   must[*Cascade](t)(NewCascade(n, k, hour)),
			"capped":    must[*Store](t)(NewCapped(k, 0.6, hour)),
			"pond":      must[*Store](t)(NewPond([]float64{0, 0.4, 1, 1.5}, []float64{0, 4000, 9000, 12000}, []float64{0, 0, 0.4, 2}, hour)),
			"Cunge":     must[*Muskingum](t)(NewMuskingumCunge(w, 20*(w.Celerity*hour+w.Spread()), 0, hour)),
			"Muskingum": must[*Muskingum](t)(NewMuskingum(hour/(2*x+share*(2-4*x)), x, 1, hour)),
		}
	}
	return all
}

// Every router keeps volume step by step to 1e-12 of what came in, lets out nothing
// negative, and lets all of it out in the end where it can.
func TestRoutersKeepVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inflow := rapid.SliceOfN(rapid.Float64Range(0, 5), 1, 60).Draw(t, "inflow")
		for name, r := range routers(t, 1)[0] {
			in, out := 0.0, 0.0
			for i := range 200 {
				q := 0.0
				if i < len(inflow) {
					q = inflow[i]
				}
				o := r.Step(q)
				in += 3600 * q
				out += 3600 * o
				if o < -1e-12*in/3600 {
					t.Fatalf("%s, step %d: outflow %g", name, i, o)
				}
				if gap := in - out - r.Storage(); math.Abs(gap) > 1e-12*in {
					t.Fatalf("%s, step %d: of %g m3 %g are lost", name, i, in, gap)
				}
			}
		}
	})
}

// What two inflows make together is the sum of what each makes, for every router but
// the stores of limited outlets.
func TestRoutersAreLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inflows := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [2]float64 {
			return [2]float64{rapid.Float64Range(0, 5).Draw(t, "one"), rapid.Float64Range(0, 5).Draw(t, "other")}
		}), 1, 40).Draw(t, "inflows")
		all := routers(t, 3)
		for name := range all[0] {
			if name == "capped" || name == "pond" {
				continue
			}
			for i, q := range inflows {
				apart := all[0][name].Step(q[0]) + all[1][name].Step(3*q[1])
				if both := all[2][name].Step(q[0] + 3*q[1]); math.Abs(both-apart) > 1e-11 {
					t.Fatalf("%s, step %d: %g together, %g apart", name, i, both, apart)
				}
			}
		}
	})
}

// A step allocates nothing.
func TestStepAllocatesNothing(t *testing.T) {
	for name, r := range map[string]Router{
		"hydrograph": must[*Hydrograph](t)(NewHydrograph(Standard(), 9000, 3600)),
		"cascade":    must[*Cascade](t)(NewCascade(3, 7200, 3600)),
		"pond":       must[*Store](t)(NewPond([]float64{0, 1}, []float64{100, 200}, []float64{0, 1}, 3600)),
		"Muskingum":  must[*Muskingum](t)(NewMuskingum(8280, 0.15, 2, 3600)),
	} {
		if n := testing.AllocsPerRun(100, func() { r.Step(1) }); n > 0 {
			t.Errorf("%s: %g allocations", name, n)
		}
	}
}

// Applied Hydrology example 8.4.1 (Chow, Maidment and Mays 1988; from memory,
// recomputed): K 2.3 h, X 0.15; outflows printed as whole ft3/s, the worst 0.504 off.
func TestMuskingumExample(t *testing.T) {
	m := must[*Muskingum](t)(NewMuskingum(2.3*3600, 0.15, 1, 3600))
	c := m.Coefficients()
	near(t, "C1", c.C1, 0.0631, 5e-5)
	near(t, "C2", c.C2, 0.3442, 5e-5)
	near(t, "C3", c.C3, 0.5927, 5e-5)
	m.Settle(93, 85)
	in := []float64{137, 208, 320, 442, 546, 630, 678, 691, 675, 634, 571, 477, 390, 329, 247, 184, 134, 108, 90}
	want := []float64{91, 114, 159, 233, 324, 420, 509, 578, 623, 642, 635, 603, 546, 479, 413, 341, 274, 215, 170}
	for i, q := range in {
		near(t, "outflow", m.Step(q), want[i], 0.51)
	}
}

// A cutting that would give negative flow is refused, with one that is then accepted.
func TestStability(t *testing.T) {
	var unstable *StabilityError
	_, err := NewMuskingum(10*3600, 0.3, 1, 3600) // 2KX = 6 h
	if !errors.As(err, &unstable) {
		t.Fatalf("K 10 h in one reach of 1 h steps: %v", err)
	}
	near(t, "shortest step", unstable.Low, 6*3600, 1e-6)
	if _, err := NewMuskingum(10*3600, 0.3, 6, 3600); err != nil { // 2KX/6 = 1 h: just allowed
		t.Error(err)
	}
	if _, err := NewMuskingum(10*3600, 0.3, 15, 3600); err == nil { // 2K(1-X)/15 = 0.93 h
		t.Error("15 reaches accepted")
	}
	w := Wave{Celerity: 4, UnitFlow: 10, Slope: 0.000868} // Ponce's example: a 14,400 m, b 2880 m
	for _, c := range []struct {
		length  float64
		reaches int
		ok      bool
	}{{14400, 1, true}, {17280, 0, true}, {17290, 1, false}, {11520, 1, true}, {11510, 1, false}, {11510, 0, false}, {100e3, 0, true}, {14400, 2, false}} {
		_, err := NewMuskingumCunge(w, c.length, c.reaches, 3600)
		if (err == nil) != c.ok {
			t.Errorf("%g m in %d: %v", c.length, c.reaches, err)
		}
		if err != nil && !errors.As(err, &unstable) {
			t.Errorf("%g m in %d: %v", c.length, c.reaches, err)
		}
	}
}
