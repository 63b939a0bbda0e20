package weather

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// sameSeries compares bit by bit but for NaN, which equals NaN.
func sameSeries(a, b *Series) bool { return cmp.Equal(a, b, cmpopts.EquateNaNs()) }

// TestDateAgainstTime walks over 600 years of the calendar of package time.
func TestDateAgainstTime(t *testing.T) {
	day := time.Date(1690, 1, 1, 0, 0, 0, 0, time.UTC)
	for ; day.Year() < 2290; day = day.AddDate(0, 0, 1) {
		y, m, d := day.Date()
		date := NewDate(y, int(m), d)
		if want := day.Unix() / 86400; int64(date) != want {
			t.Fatalf("%v is day %d, want %d", day, date, want)
		}
		y2, m2, d2 := date.Civil()
		if y2 != y || m2 != int(m) || d2 != d || date.DayOfYear() != day.YearDay() || date.Year() != y {
			t.Fatalf("%v comes back as %d-%d-%d, day %d", day, y2, m2, d2, date.DayOfYear())
		}
		if parsed, err := ParseDate(day.Format(time.DateOnly)); err != nil || parsed != date || date.String() != day.Format(time.DateOnly) {
			t.Fatalf("%v: %v, %v, %v", day, date, parsed, err)
		}
	}
}

// TestDateBeforeYearOne checks dates of the proleptic calendar against package time.
func TestDateBeforeYearOne(t *testing.T) {
	for _, y := range []int{-801, -400, -4, -1, 0, 4} {
		for _, md := range [][2]int{{1, 1}, {2, 28}, {2, 29}, {3, 1}, {12, 31}} {
			day := time.Date(y, time.Month(md[0]), md[1], 0, 0, 0, 0, time.UTC)
			date := NewDate(y, md[0], md[1])
			y2, m2, d2 := date.Civil()
			if int64(date) != day.Unix()/86400 || y2 != day.Year() || m2 != int(day.Month()) || d2 != day.Day() {
				t.Errorf("%v is day %d and comes back as %d-%d-%d", day, date, y2, m2, d2)
			}
		}
	}
}

func TestParseDateRefuses(t *testing.T) {
	for _, text := range []string{"", "2001-02-29", "2001-13-01", "2001-00-10", "2001-01-00", "2001-1-1", "20010101", "2001/01/01", "2001-01-01 "} {
		if d, err := ParseDate(text); err == nil {
			t.Errorf("%q was read as %v", text, d)
		}
	}
}

func TestCivilDoesNotAllocate(t *testing.T) {
	d, sum := NewDate(2024, 2, 29), 0
	if n := testing.AllocsPerRun(100, func() { y, m, day := d.Civil(); sum += y + m + day + d.DayOfYear() }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestMarkNames(t *testing.T) {
	for m := range Mark(1 << len(markNames)) {
		if back, err := ParseMark(m.String()); err != nil || back != m {
			t.Fatalf("%v comes back as %v, %v", m, back, err)
		}
	}
	if _, err := ParseMark("trace"); err == nil {
		t.Error("an unknown mark was read")
	}
}

func TestSlice(t *testing.T) {
	s := Invent(DemoClimate(), NewDate(2000, 1, 1), 2, 1)
	part, err := s.Slice(NewDate(2000, 2, 29), NewDate(2000, 3, 1))
	if err != nil {
		t.Fatal(err)
	}
	if part.Days() != 2 || part.Start != NewDate(2000, 2, 29) || part.Tmin[0] != s.Tmin[59] || part.Vapour != nil || len(part.Marks) != 2 {
		t.Errorf("got %+v", part)
	}
	part.Tmin[0] = math.Inf(1)
	if math.IsInf(s.Tmin[59], 1) {
		t.Error("a slice shares memory with its series")
	}
	for _, r := range [][2]Date{{s.Start - 1, s.Start}, {s.Last(), s.Last() + 1}, {s.Last(), s.Start}} {
		if _, err := s.Slice(r[0], r[1]); err == nil {
			t.Errorf("%v to %v was given", r[0], r[1])
		}
	}
}
