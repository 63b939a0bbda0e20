package salt

import (
	"math"
	"testing"
)

// limit is the solubility of the salt, kg/m3: an assumption of the package, between
// gypsum (2.4 kg/m3) and sodium sulfate (200 kg/m3 at 20 C; both from memory).
const limit = 60

// A closed cell of 0.1 m dries, lies, and is wetted in steps: at each content the
// solution holds the lesser of all the salt and the limit, and the rest lies solid
// (conservation of mass and the definition of solubility).
func TestSolidComesAndGoes(t *testing.T) {
	const dz, all = 0.1, 0.6 // m, kg/m2: dissolved in 10 mm, content 0.1
	s := New(2)
	s.Mass[0] = all
	for _, theta := range []float64{0.40, 0.10, 0.05, 0.01, 0.01, 0.02, 0.0999, 0.10, 0.11, 0.40} {
		s.Day(water(2, dz, theta, 0))
		dissolved := min(all, limit*theta*dz)
		near(t, "dissolved", s.Mass[0], dissolved)
		near(t, "solid", s.Solid[0], all-dissolved)
	}
}

// Solid salt stays where it lies while water passes; what passes is at the
// solution's concentration, never above the limit.
func TestSolidFeedsTheDrain(t *testing.T) {
	const dz, theta, q = 0.1, 0.3, 0.003
	s := New(2)
	s.Mass[0], s.Solid[0] = limit*theta*dz, 1
	w := water(2, dz, theta, 0)
	w.Out = [][]float64{{q / 3, 0}, {q * 2 / 3, 0}} // a drain and a ditch
	w.Through[0] = q                                // fresh water replaces what drains
	for range 5 {
		before := s.Solid[0]
		f := s.Day(w)
		// The day's inflow dilutes the cell before its solid makes up for it.
		near(t, "drained", f.Laterals, limit*theta*dz*q/(theta*dz+q))
		near(t, "drained by the first", s.Lateral[0], f.Laterals/3)
		near(t, "drained by the second", s.Lateral[1], f.Laterals*2/3)
		near(t, "solid that went into solution", before-s.Solid[0], f.Laterals)
		near(t, "dissolved", s.Mass[0], limit*theta*dz)
	}
}

// ECe counts solid salt too: the extract is made with enough water. 0.0128 kg in a
// cell of 0.1 m with 0.4 of paste water is 0.32 kg/m3, 0.5 dS/m at 640 mg/L per dS/m
// (Handbook 60, 1954, from memory), however it is shared.
func TestECeCountsAllSalt(t *testing.T) {
	const dz, paste = 0.1, 0.4
	s := New(2)
	for _, solid := range []float64{0, 0.004, 0.0128} {
		s.Mass[1], s.Solid[1] = 0.0128-solid, solid
		near(t, "ECe", s.ECe(1, dz, paste), 0.5)
	}
	for _, ece := range []float64{0, 1.7, 40} {
		s.SetECe(1, ece, dz, paste) // what lay solid is gone
		near(t, "ECe that was set", s.ECe(1, dz, paste), ece)
	}
}

// FAO-29's root zone (M15; from memory, recomputed): soil water of 3.1813 dS/m on
// average, at field capacity, has an ECe of 1.5906 (published 3.2 and 1.6). A paste
// never holds less than the soil's pores.
func TestPasteHoldsTwiceFieldCapacity(t *testing.T) {
	const dz, capacity, pores = 0.25, 0.27, 0.45
	s := New(2)
	s.Mass[0] = 3.1813 * PerEC * capacity * dz
	if got := s.ECe(0, dz, PasteWater(capacity, pores)); math.Abs(got-1.5906) > 1e-4 { // printed to four decimals
		t.Errorf("ECe %.5f dS/m, example 1.5906", got)
	}
	if got := PasteWater(0.05, 0.40); got != 0.40 {
		t.Errorf("a paste of sand holds %g, its pores 0.40", got)
	}
}

// No day of any kind makes garbage: drains, seepage, a pond that dries, solid salt.
func TestNoKindOfDayAllocates(t *testing.T) {
	s := New(40)
	s.SetECe(0, 100, 0.05, 0.5)
	s.Pond = 0.1
	dry, wet, seeping := water(40, 0.05, 0.02, 0), water(40, 0.05, 0.4, 0.002), water(40, 0.05, 0.4, -0.002)
	for _, w := range []*Water{&dry, &wet, &seeping} {
		w.Out = [][]float64{make([]float64, 40), make([]float64, 40)}
	}
	seeping.Pond, seeping.Runoff, seeping.BaseEC = 0.01, 0.01, 4
	if n := testing.AllocsPerRun(100, func() { s.Day(dry); s.Day(wet); s.Day(seeping) }); n != 0 {
		t.Errorf("%g allocations in three days", n)
	}
}
