package salt

import (
	"math"
	"testing"
)

// near fails unless two masses of salt (kg/m2) agree to a few roundings.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-14*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %.17g kg/m2, want %.17g", what, got, want)
	}
}

// A pond of 30 mm with 0.06 kg/m2 of salt, that of yesterday and that of the day:
// 10 mm evaporate, 5 mm run off, 5 mm enter the soil, 10 mm stand. Evaporated water
// leaves its salt, so that the other 20 mm are at 3 kg/m3 (conservation of mass).
func TestPondMixes(t *testing.T) {
	s := New(2)
	s.Pond = 0.02
	w := water(2, 0.1, 0.3, 0)
	w.Through[0], w.Pond, w.Runoff, w.Arrived = 0.005, 0.010, 0.005, 0.04
	f := s.Day(w)
	near(t, "runoff", f.Runoff, 3*0.005)
	near(t, "pond", s.Pond, 3*0.010)
	near(t, "soil", s.Mass[0]+s.Mass[1], 3*0.005)
}

// Saline water that seeps out, onto rain that runs off, takes its salt along on the
// same day. The top cell holds 30 mm at 2 kg/m3; 10 mm come out, and as much rises
// from a fresh cell below. Dispersion exchanges 0.2 m x 10 mm / 0.1 m = 20 mm
// between the cells. Of the 20 mm on the surface 15 mm run off.
func TestSeepageRunsOffWithItsSalt(t *testing.T) {
	s := New(2)
	s.Mass[0] = 0.06
	w := water(2, 0.1, 0.3, 0)
	w.Through[0], w.Through[1], w.Through[2] = -0.010, -0.010, -0.010
	w.Pond, w.Runoff = 0.005, 0.015
	f := s.Day(w)
	// (30 + 10 + 20) c0 - (10 + 20) c1 = 60 g/m2, (30 + 10 + 20) c1 - 20 c0 = 0, in
	// mm and kg/m3: c1 = c0/3, c0 = 1.2.
	const c0 = 1.2
	near(t, "top cell", s.Mass[0], c0*0.030)
	near(t, "lower cell", s.Mass[1], c0/3*0.030)
	near(t, "runoff", f.Runoff, c0*0.010*0.75)
	near(t, "pond", s.Pond, c0*0.010*0.25)
}

// Where what seeps out evaporates, its salt lies on the surface, and goes into the
// top cell on the next day without a pond.
func TestSeepageThatEvaporatesLeavesACrust(t *testing.T) {
	s := New(2)
	s.Mass[0], s.Mass[1] = 0.06, 0.06
	w := water(2, 0.1, 0.3, -0.010)
	w.BaseEC = 2 / PerEC // 2 kg/m3 all through
	s.Day(w)
	near(t, "crust", s.Pond, 2*0.010)
	s.Day(water(2, 0.1, 0.3, 0))
	near(t, "crust of the next day", s.Pond, 0)
	near(t, "top cell", s.Mass[0], 2*0.040)
}
