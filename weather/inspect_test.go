package weather

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestInspect looks over a record made by hand.
func TestInspect(t *testing.T) {
	// Two years and a half: 2001, 2002, and 2003 to 30 June.
	s := evenWinter(NewDate(2001, 1, 1), NewDate(2003, 6, 30), func(d Date) float64 {
		if _, m, _ := d.Civil(); m == 1 {
			return -4
		}
		return 9
	})
	s.Station.ID = "USC00000000"
	for i := range s.Precip {
		if _, _, day := s.Date(i).Civil(); day == 1 {
			s.Precip[i] = 60 // 720 mm a year
		}
	}
	erase(s.Precip, s, NewDate(2002, 5, 2), 20) // leaves 345 days of 2002
	erase(s.Tmax, s, NewDate(2001, 12, 30), 4)
	s.Tmax[10], s.Precip[31] = 33, 75
	r := Inspect(s, &Report{Notes: []string{"a note"}, Years: []YearReport{{Trace: 2}, {Trace: 3}}})

	if r.ReadHour != 7 || r.ReadHourReason == "" {
		t.Errorf("reading hour %v, %q", r.ReadHour, r.ReadHourReason)
	}
	if d := cmp.Diff([]Completeness{
		{"Tmin", []float64{1, 1, 1}, 911},
		{"Tmax", []float64{363. / 365, 363. / 365, 1}, 907},
		{"precipitation", []float64{1, 345. / 365, 1}, 891},
	}, r.Complete); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]Gap{{"precipitation", NewDate(2002, 5, 2), 20}, {"Tmax", NewDate(2001, 12, 30), 4}}, r.Gaps); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]Extreme{
		{"Tmin", false, -9, "C", NewDate(2001, 1, 1), 93}, {"Tmin", true, 4, "C", NewDate(2001, 2, 1), 911 - 93},
		{"Tmax", false, 1, "C", NewDate(2001, 1, 1), 92 - 2}, {"Tmax", true, 33, "C", NewDate(2001, 1, 11), 1},
		{"precipitation", true, 75, "mm", NewDate(2001, 2, 1), 1},
	}, r.Extremes); d != "" {
		t.Error(d)
	}
	nan := math.NaN()
	equal := cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })
	if d := cmp.Diff([]float64{735, nan, nan}, r.AnnualPrecip, equal); d != "" || r.MeanPrecip != 735 {
		t.Errorf("%s, mean %v", d, r.MeanPrecip)
	}
	// The second winter is whole: 31 days of -4 C. That of 2000 lacks its beginning.
	if len(r.Winters) != 2 || r.Winters[1].FreezingIndex != 31*4 || r.Counts.Trace != 5 || len(r.Notes) != 1 {
		t.Errorf("winters %v, %d traces, notes %v", r.Winters, r.Counts.Trace, r.Notes)
	}
	if !math.IsNaN(r.Demand.PerYear) || !strings.Contains(r.Demand.Assumed[0], "latitude") {
		t.Errorf("demand %+v without a latitude", r.Demand)
	}
}

// TestInspectDemand: the method follows from what the record holds.
func TestInspectDemand(t *testing.T) {
	s := Invent(DemoClimate(), NewDate(1981, 1, 1), 5, 1)
	d := Inspect(s, nil).Demand
	if d.Method != Hargreaves || !strings.HasPrefix(d.Assumed[0], "vapour pressure is not in the record") {
		t.Errorf("without humidity: %+v", d)
	}
	s.Vapour = make([]float64, s.Days())
	for i := range s.Vapour {
		s.Vapour[i] = SaturationVapourPressure(s.Tmin[i])
	}
	full := Inspect(s, nil).Demand
	if full.Method != PenmanMonteith || !strings.HasPrefix(full.Assumed[0], "wind of 2 m/s") {
		t.Errorf("without wind: %+v", full)
	}
	filled, _, err := s.Fill(FillRule{})
	if err != nil {
		t.Fatal(err)
	}
	eto, _, _, err := ReferenceET(filled, s.Station.Latitude, s.Station.Elevation, ETChoice{})
	if err != nil {
		t.Fatal(err)
	}
	mean, _ := meanAndSpread(eto)
	if !(math.Abs(full.PerYear-365.25*mean) < 1e-6) {
		t.Errorf("%v mm a year, want %v", full.PerYear, 365.25*mean)
	}
	for i := range s.Vapour {
		if i%4 == 0 {
			s.Vapour[i] = math.NaN()
		}
	}
	if d := Inspect(s, nil).Demand; d.Method != Hargreaves || !strings.HasPrefix(d.Assumed[0], "vapour pressure has too many gaps") {
		t.Errorf("a quarter of the humidity missing: %+v", d)
	}
}
