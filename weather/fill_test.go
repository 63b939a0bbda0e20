package weather

import (
	"strings"
	"testing"
)

// flat is a series of plain days: -5 to 5 C, and every day of a year as many tenths
// of a millimetre as the year is past 2000, so that a filled amount tells its year.
func flat(start, last Date) *Series {
	n := int(last-start) + 1
	s := &Series{Station: Station{ReadHour: nan}, Start: start,
		Tmin: make([]float64, n), Tmax: make([]float64, n), Precip: make([]float64, n), Marks: make([]Mark, n)}
	for i := range s.Precip {
		s.Tmin[i], s.Tmax[i], s.Precip[i] = -5, 5, float64(s.Date(i).Year()-2000)/10
	}
	return s
}

func (s *Series) at(y, m, d int) int { return int(NewDate(y, m, d) - s.Start) }

func blank(values []float64, first, days int) {
	for i := range days {
		values[first+i] = nan
	}
}

// fill must succeed.
func fill(t *testing.T, s *Series, r FillRule) (*Series, string) {
	t.Helper()
	got, notes, err := s.Fill(r)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, n := range notes {
		all = append(all, n.String())
	}
	return got, strings.Join(all, "\n")
}

// TestFillShort: temperature on a straight line, precipitation from the nearest year
// that has the days; the values follow from the rule by hand.
func TestFillShort(t *testing.T) {
	s := flat(NewDate(2001, 1, 1), NewDate(2004, 12, 31))
	i, j, k := s.at(2003, 5, 10), s.at(2002, 5, 10), s.at(2001, 3, 1)
	s.Tmin[i+3] = 3
	s.Tmax[i+1] = -2
	blank(s.Tmin, i, 3)
	blank(s.Precip, i, 2)
	blank(s.Precip, j, 1)
	blank(s.Precip, k, 1)
	got, notes := fill(t, s, FillRule{})
	// The line from -5 to 3 runs over -3, -1, 1; the second would stand above the
	// measured maximum of -2 and stops there.
	near(t, "Tmin", got.Tmin[i-1:i+4], []float64{-5, -3, -2, 1, 3})
	near(t, "Tmax", got.Tmax[i-1:i+4], []float64{5, 5, -2, 5, 5})
	// 2002 lacks the first of the two days of 2003, so both come from 2004; the day of
	// 2002 finds 2001 first, that of 2001 has no earlier year.
	near(t, "precip", []float64{got.Precip[i], got.Precip[i+1], got.Precip[j], got.Precip[k]}, []float64{0.4, 0.4, 0.1, 0.2})
	for n, want := range map[int]Mark{i: TemperatureFilled | PrecipFilled, i + 2: TemperatureFilled, j: PrecipFilled, k: PrecipFilled, i - 1: 0} {
		if got.Marks[n] != want {
			t.Errorf("%v is marked %v, want %v", got.Date(n), got.Marks[n], want)
		}
	}
	for _, want := range []string{"Tmin from 2003-05-10, 3 days: straight line", "Tmin from 2003-05-11, 1 days: lowered to Tmax",
		"precipitation from 2003-05-10, 2 days: values from 2004-05-10 onwards"} {
		if !strings.Contains(notes, want) {
			t.Errorf("notes\n%s\nlack %q", notes, want)
		}
	}
	if s.Marks[i] != 0 || s.Tmin[i] == s.Tmin[i] {
		t.Error("Fill changed the series it was given")
	}
}

// TestFillLong: longer gaps are an error that lists them, or filled month by month.
func TestFillLong(t *testing.T) {
	s := flat(NewDate(2001, 1, 1), NewDate(2004, 12, 31))
	for i := range s.Tmax {
		s.Tmax[i] = s.Precip[i] * 10 // 1 C in 2001, 4 C in 2004
	}
	i := s.at(2003, 6, 20)
	blank(s.Tmax, i, 20)
	blank(s.Precip, i, 10)
	blank(s.Precip, s.at(2002, 7, 5), 1) // July of 2002 has no amount on the 5th
	blank(s.Tmax, s.at(2002, 7, 5), 1)
	_, _, err := s.Fill(FillRule{})
	if err == nil {
		t.Fatal("a gap of 20 days was filled without asking")
	}
	for _, want := range []string{"2 gaps are longer than 7 days", "first: Tmax from 2003-06-20, 20 days", "precipitation from 2003-06-20, 10 days", "allow long gaps"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error\n%v\nlacks %q", err, want)
		}
	}
	got, _ := fill(t, s, FillRule{AllowLong: true})
	// June from 2002; 1-9 July from 2004, since 2002 lacks the 5th.
	near(t, "Tmax", []float64{got.Tmax[i], got.Tmax[i+10], got.Tmax[i+11], got.Tmax[i+19]}, []float64{2, 2, 4, 4})
	near(t, "precip", got.Precip[i:i+2], []float64{0.2, 0.2})
	if _, _, err := s.Fill(FillRule{ShortGap: 20}); err != nil {
		t.Errorf("a short gap of 20 days: %v", err)
	}
	if _, _, err := s.Fill(FillRule{ShortGap: -1}); err == nil {
		t.Error("a negative short gap was taken")
	}
}

// TestFillListsLongest: many gaps, the five first and the five longest.
func TestFillListsLongest(t *testing.T) {
	s := flat(NewDate(2001, 1, 1), NewDate(2003, 12, 31))
	for k := range 8 {
		blank(s.Precip, 10+60*k, 8+k)
	}
	_, _, err := s.Fill(FillRule{})
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{"first: precipitation from 2001-01-11, 8 days", "longest: precipitation from 2002-03-07, 15 days"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error\n%v\nlacks %q", err, want)
		}
	}
	if n := strings.Count(err.Error(), "\n"); n != 10 {
		t.Errorf("%d lines after the first, want 10", n)
	}
}

// TestFillLeapDay: a gap over 29 February uses no day of the donor twice.
func TestFillLeapDay(t *testing.T) {
	s := flat(NewDate(2003, 1, 1), NewDate(2004, 12, 31))
	i := s.at(2004, 2, 28)
	j := s.at(2003, 2, 28)
	s.Precip[j], s.Precip[j+1], s.Precip[j+2] = 1, 2, 3
	blank(s.Precip, i, 3)
	got, _ := fill(t, s, FillRule{})
	near(t, "precip", got.Precip[i:i+3], []float64{1, 2, 3})
}

// TestFillEnds: days missing at the ends are cut off; a record of one year has
// nowhere to take rain from; one without any whole day is no record.
func TestFillEnds(t *testing.T) {
	s := flat(NewDate(2001, 1, 1), NewDate(2001, 12, 31))
	blank(s.Tmin, 0, 2)
	blank(s.Precip, 360, 5)
	got, notes := fill(t, s, FillRule{})
	if got.Start != NewDate(2001, 1, 3) || got.Last() != NewDate(2001, 12, 26) || strings.Count(notes, "cut off") != 2 {
		t.Errorf("from %v to %v: %s", got.Start, got.Last(), notes)
	}
	blank(s.Precip, 100, 1)
	if _, _, err := s.Fill(FillRule{}); err == nil || !strings.Contains(err.Error(), "no other year has these days") {
		t.Errorf("error %v", err)
	}
	blank(s.Tmax, 0, 365)
	if _, _, err := s.Fill(FillRule{AllowLong: true}); err == nil || !strings.Contains(err.Error(), "no day has") {
		t.Errorf("error %v", err)
	}
}

// TestFillOptional: an element with few gaps is filled, one with many dropped, and
// snow depth left alone.
func TestFillOptional(t *testing.T) {
	s := flat(NewDate(2001, 1, 1), NewDate(2002, 12, 31))
	whole := func() []float64 {
		v := make([]float64, s.Days())
		for i := range v {
			v[i] = float64(s.Date(i).Year() - 2000)
		}
		return v
	}
	s.Solar, s.Vapour, s.Wind, s.SnowDepth = whole(), whole(), whole(), whole()
	blank(s.Solar, 10, 140)  // 19 %
	blank(s.Vapour, 10, 150) // 21 %
	blank(s.Wind, 50, 1)
	blank(s.Wind, 50+365, 1)
	blank(s.SnowDepth, 10, 1)
	got, notes := fill(t, s, FillRule{})
	near(t, "solar", got.Solar[9:11], []float64{1, 2})
	if got.Vapour != nil || got.Wind != nil || got.SnowDepth[10] == got.SnowDepth[10] || got.Marks[10] != OptionalFilled {
		t.Errorf("vapour %v, wind %v, marks %v", got.Vapour != nil, got.Wind != nil, got.Marks[10])
	}
	for _, want := range []string{"solar from 2001-01-01, 730 days: 140 days from the same calendar day of the nearest year",
		"vapour pressure from 2001-01-01, 730 days: dropped, missing on 150 days", "dropped, no year has a value for 2001-02-20"} {
		if !strings.Contains(notes, want) {
			t.Errorf("notes\n%s\nlack %q", notes, want)
		}
	}
}

// TestByCivilDay: a reader at 7 finds on each morning the maximum of the day before.
func TestByCivilDay(t *testing.T) {
	read := func(hour float64) *Series {
		s := flat(NewDate(2001, 7, 1), NewDate(2001, 7, 4))
		s.Tmin, s.Tmax = []float64{10, 11, 20, 13}, []float64{25, 26, 19, 28}
		s.Station.ReadHour = hour
		return s
	}
	for _, c := range []struct {
		hour       float64
		tmin, tmax []float64
		marks      []Mark
		civil      bool
		note       string
	}{
		{7, []float64{10, 11, 20, 13}, []float64{26, 19, 28, 28}, []Mark{0, 0, 0, TemperatureFilled}, true, "moved to the day before"},
		{12, []float64{10, 11, 20, 13}, []float64{26, 19, 28, 28}, []Mark{0, 0, 0, TemperatureFilled}, true, "moved to the day before"},
		{18, []float64{10, 11, 19, 13}, []float64{25, 26, 20, 28}, []Mark{0, 0, ExtremesSwapped, 0}, true, "Tmax below Tmin on 1 days"},
		{nan, []float64{10, 11, 19, 13}, []float64{25, 26, 20, 28}, []Mark{0, 0, ExtremesSwapped, 0}, false, "not known"},
	} {
		s := read(c.hour)
		got, note := s.ByCivilDay()
		near(t, "Tmin", got.Tmin, c.tmin)
		near(t, "Tmax", got.Tmax, c.tmax)
		near(t, "precip", got.Precip, s.Precip)
		for i := range c.marks {
			if got.Marks[i] != c.marks[i] {
				t.Errorf("hour %v: day %d is marked %v, want %v", c.hour, i, got.Marks[i], c.marks[i])
			}
		}
		if got.CivilTemperature != c.civil || !strings.Contains(note, c.note) {
			t.Errorf("hour %v: civil %v, note %q", c.hour, got.CivilTemperature, note)
		}
		again, _ := got.ByCivilDay()
		if c.civil && !sameSeries(again, got) {
			t.Errorf("hour %v: a second call moves the maxima again", c.hour)
		}
		near(t, "the series given", s.Tmax, read(c.hour).Tmax)
	}
}

func TestAssumedReadHour(t *testing.T) {
	for id, want := range map[string]float64{"USC00000000": 7, "USW00000000": 24, "": 24, "FIELD": 24} {
		if got, why := AssumedReadHour(id); got != want || why == "" {
			t.Errorf("%q: %v, %q", id, got, why)
		}
	}
}
