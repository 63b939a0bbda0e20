package weather

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// neighbours are an invented station and one that is 2 C colder with 1120/978 of
// its precipitation.
func neighbours() (s, neighbour *Series) {
	s = Invent(DemoClimate(), NewDate(1981, 1, 1), 10, 3)
	s.Solar = nil
	neighbour = s.clone()
	for i := range s.Tmin {
		neighbour.Tmin[i] -= 2
		neighbour.Tmax[i] -= 2
		neighbour.Precip[i] *= 1120. / 978
	}
	return s, neighbour
}

// erase makes days missing.
func erase(values []float64, s *Series, first Date, days int) {
	for i := range days {
		values[int(first-s.Start)+i] = math.NaN()
	}
}

// TestFillFrom takes days out of a station and gets them back from a neighbour with
// known ratio and difference: 978 to 1120 is the ratio of the worked example of the
// method in Linsley, Kohler & Paulhus (Hydrology for Engineers, from memory), where
// 107 mm at the neighbour stand for 93.4 mm.
func TestFillFrom(t *testing.T) {
	whole, neighbour := neighbours()
	storm := NewDate(1985, 7, 10)
	neighbour.Precip[int(storm-neighbour.Start)] = 107
	s := whole.clone()
	erase(s.Precip, s, NewDate(1985, 6, 20), 30)
	erase(s.Tmin, s, NewDate(1984, 2, 27), 4)
	erase(s.Tmax, s, NewDate(1984, 2, 27), 2)
	before := s.clone()
	filled, notes, skill, err := s.FillFrom(neighbour)
	if err != nil {
		t.Fatal(err)
	}
	for i := range whole.Precip {
		want := whole.Precip[i]
		if s.Date(i) == storm {
			want = 93.4
		}
		if !(math.Abs(filled.Precip[i]-want) < 0.05) || !(math.Abs(filled.Tmin[i]-whole.Tmin[i]) < 1e-9) || !(math.Abs(filled.Tmax[i]-whole.Tmax[i]) < 1e-9) {
			t.Fatalf("%v: %v to %v C, %v mm; want %v to %v C, %v mm", s.Date(i), filled.Tmin[i], filled.Tmax[i], filled.Precip[i], whole.Tmin[i], whole.Tmax[i], want)
		}
		rain, cold := s.Date(i) >= NewDate(1985, 6, 20) && s.Date(i) < NewDate(1985, 7, 20), s.Date(i) >= NewDate(1984, 2, 27) && s.Date(i) < NewDate(1984, 3, 2)
		if filled.Marks[i].Has(PrecipFilled) != rain || filled.Marks[i].Has(TemperatureFilled) != cold {
			t.Fatalf("%v: marks %v", s.Date(i), filled.Marks[i])
		}
	}
	var told []FillNote
	for _, n := range notes {
		n.Rule, _, _ = strings.Cut(n.Rule, ",")
		told = append(told, n)
	}
	want := []FillNote{
		{"Tmin", NewDate(1984, 2, 27), 3, "neighbour's +2.0 C"}, {"Tmin", NewDate(1984, 3, 1), 1, "neighbour's +2.0 C"},
		{"Tmax", NewDate(1984, 2, 27), 2, "neighbour's +2.0 C"},
		{"precipitation", NewDate(1985, 6, 20), 11, "neighbour's times 0.87"}, {"precipitation", NewDate(1985, 7, 1), 19, "neighbour's times 0.87"},
	}
	if d := cmp.Diff(want, told); d != "" {
		t.Error(d)
	}
	for k, missing := range []int{4, 2, 30} {
		e := skill.Elements[k]
		if e.Days != s.Days()-missing || !(math.Abs(e.Bias) < 1e-9) || !(e.MAE < 1e-9) || !(e.Correlation > 1-1e-9) {
			t.Errorf("skill %+v, want no error on %d days", e, s.Days()-missing)
		}
	}
	if d := cmp.Diff(before.Precip, s.Precip, cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })); d != "" {
		t.Errorf("the series itself was changed: %s", d)
	}
}

// TestFillFromKeepsOut: values that were filled before are not filled from, months
// with too few common days are left, and extremes stay in order.
func TestFillFromKeepsOut(t *testing.T) {
	s, neighbour := neighbours()
	day := NewDate(1985, 7, 10)
	i := int(day - s.Start)
	erase(s.Precip, s, day, 1)
	neighbour.Marks[i] |= PrecipFilled
	filled, notes, _, err := s.FillFrom(neighbour)
	if err != nil || !math.IsNaN(filled.Precip[i]) || len(notes) != 1 || notes[0].Rule != "left missing, the neighbour has no value" {
		t.Errorf("from a filled day: %v mm, %v, %v", filled.Precip[i], notes, err)
	}

	s, neighbour = neighbours()
	short, err := neighbour.Slice(NewDate(1985, 1, 1), NewDate(1987, 7, 10))
	if err != nil {
		t.Fatal(err)
	}
	erase(s.Tmin, s, NewDate(1985, 7, 1), 8) // 31+31+10 days of July less 8 in common
	erase(s.Tmin, s, NewDate(1985, 6, 30), 1)
	_, notes, _, err = s.FillFrom(short)
	want := []FillNote{
		{"Tmin", NewDate(1985, 6, 30), 1, "neighbour's +2.0 C, mean difference of 89 common days"},
		{"Tmin", NewDate(1985, 7, 1), 8, "left missing, 64 common days of that calendar month, 85 are needed"},
	}
	if d := cmp.Diff(want, notes); d != "" || err != nil {
		t.Error(d, err)
	}

	s, neighbour = neighbours()
	erase(s.Tmin, s, day, 1)
	neighbour.Tmin[i] = neighbour.Tmax[i]
	s.Tmax[i] -= 3
	filled, _, _, err = s.FillFrom(neighbour)
	if err != nil || filled.Tmin[i] != s.Tmax[i] {
		t.Errorf("Tmin %v filled above Tmax %v, %v", filled.Tmin[i], s.Tmax[i], err)
	}
}

func TestFillFromRefuses(t *testing.T) {
	s, neighbour := neighbours()
	far, err := neighbour.Slice(NewDate(1990, 1, 1), NewDate(1990, 12, 31))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, _, err := s.FillFrom(far); err == nil || !strings.Contains(err.Error(), "choose a station with a longer record in common") {
		t.Errorf("one year in common: error %v", err)
	}
	neighbour.CivilTemperature = !s.CivilTemperature
	if _, _, _, err := s.FillFrom(neighbour); err == nil || !strings.Contains(err.Error(), "ByCivilDay") {
		t.Errorf("days of two kinds: error %v", err)
	}
}

// TestSkillOfAStranger: a neighbour that has nothing to do with the station but the
// climate tells no day's rain. The correlation of two independent records of n days
// lies within 4/sqrt(n) of zero but for 1 in 16000.
func TestSkillOfAStranger(t *testing.T) {
	s := Invent(DemoClimate(), NewDate(1981, 1, 1), 30, 1)
	other := Invent(DemoClimate(), NewDate(1981, 1, 1), 30, 2)
	_, _, skill, err := s.FillFrom(other)
	if err != nil {
		t.Fatal(err)
	}
	rain := skill.Elements[2]
	mean, _ := meanAndSpread(s.Precip)
	// Seasons alone lift it a little above chance.
	if limit := 0.05 + 4/math.Sqrt(float64(rain.Days)); math.Abs(rain.Correlation) > limit || rain.MAE < mean || math.Abs(rain.Bias) > 0.05*mean {
		t.Errorf("%+v with %v mm/d, want no skill and no bias", rain, mean)
	}
}

// TestCompare lines up records that overlap in part and not at all.
func TestCompare(t *testing.T) {
	s, neighbour := neighbours()
	part, err := neighbour.Slice(NewDate(1985, 1, 1), NewDate(1985, 12, 31))
	if err != nil {
		t.Fatal(err)
	}
	o := Compare(s, part)
	if o.First != NewDate(1985, 1, 1) || o.Last != NewDate(1985, 12, 31) {
		t.Errorf("%v to %v", o.First, o.Last)
	}
	if tmin, rain := o.Elements[0], o.Elements[2]; tmin.Days != 365 || math.Abs(tmin.Difference-2) > 1e-9 || math.Abs(rain.Ratio-978./1120) > 1e-9 || rain.Correlation < 1-1e-9 {
		t.Errorf("%+v", o.Elements)
	}
	part.Start += 20 * 365
	if o := Compare(s, part); o.Elements[0].Days != 0 || !math.IsNaN(o.Elements[0].Difference) || o.First <= o.Last {
		t.Errorf("no overlap: %+v", o)
	}
}
