package weather

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestChange lays a change on an invented record and reads it back.
func TestChange(t *testing.T) {
	s := Invent(DemoClimate(), NewDate(1981, 1, 1), 2, 1)
	n := s.Days()
	s.Vapour, s.SnowDepth, s.HourlyPrecip = allMissing(n), make([]float64, n), allMissing(24*n)
	for i := range n {
		s.Vapour[i] = 0.7 * MeanSaturationVapourPressure(s.Tmin[i], s.Tmax[i])
		for h := range s.hours(i) {
			s.hours(i)[h] = s.Precip[i] / 24
		}
	}
	s.Tmin[5], s.Precip[6] = math.NaN(), math.NaN()
	erase(s.HourlyPrecip, s, s.Start+6*24, 24)
	c, err := s.Change(Delta{Temperature: 2, PrecipFactor: 1.1})
	if err != nil {
		t.Fatal(err)
	}
	for i := range n {
		if i == 5 || i == 6 {
			continue
		}
		// Relative humidity is kept: 0.7 before and after.
		rh := c.Vapour[i] / MeanSaturationVapourPressure(c.Tmin[i], c.Tmax[i])
		if !(math.Abs(c.Tmin[i]-s.Tmin[i]-2) < 1e-9) || !(math.Abs(c.Tmax[i]-s.Tmax[i]-2) < 1e-9) || !(math.Abs(c.Precip[i]-1.1*s.Precip[i]) < 1e-9) || !(math.Abs(rh-0.7) < 1e-12) || c.Solar[i] != s.Solar[i] {
			t.Fatalf("%v: %v to %v C, %v mm, relative humidity %v", s.Date(i), c.Tmin[i], c.Tmax[i], c.Precip[i], rh)
		}
	}
	if !math.IsNaN(c.Tmin[5]) || !math.IsNaN(c.Vapour[5]) || !math.IsNaN(c.Precip[6]) || c.SnowDepth != nil {
		t.Errorf("missing days %v %v %v, snow depth %v", c.Tmin[5], c.Vapour[5], c.Precip[6], c.SnowDepth != nil)
	}
	var text bytes.Buffer
	if err := c.WritePlain(&text); err != nil {
		t.Fatal(err)
	}
	back, _, err := Read("changed.csv", &text, Pick{})
	if err != nil {
		t.Fatal(err)
	}
	if want := "invented by the weather generator, changed by +2 C, precipitation x 1.1"; back.Layout != want || !strings.HasSuffix(back.Station.Name, "(changed by +2 C, precipitation x 1.1)") {
		t.Errorf("read back: layout %q, name %q, want %q", back.Layout, back.Station.Name, want)
	}
	if d := cmp.Diff(c.Precip, back.Precip, cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })); d != "" {
		t.Error(d)
	}
	if _, err := back.Change(Delta{Temperature: 1, PrecipFactor: 1}); err == nil || !strings.Contains(err.Error(), "start from the original") {
		t.Errorf("changed twice: error %v", err)
	}
}

func TestChangeRefuses(t *testing.T) {
	s := Invent(DemoClimate(), NewDate(1981, 1, 1), 1, 1)
	for _, c := range []struct {
		d    Delta
		want string
	}{
		{Delta{0, 1}, "nothing to change"},
		{Delta{16, 1}, "allowed -15 to 15"},
		{Delta{math.NaN(), 1}, "allowed -15 to 15"},
		{Delta{0, 0}, "allowed 0.2 to 3"},
		{Delta{0, math.Inf(1)}, "allowed 0.2 to 3"},
	} {
		if _, err := s.Change(c.d); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: error %v lacks %q", c.d, err, c.want)
		}
	}
}

func TestDeltaString(t *testing.T) {
	for want, d := range map[string]Delta{"+2 C": {2, 1}, "-0.5 C, precipitation x 0.9": {-0.5, 0.9}, "precipitation x 1.25": {0, 1.25}, "": {0, 1}} {
		if got := d.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
