package plots

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/weather"
)

// inspected is 14 invented years without precipitation in the summer of 1984 and
// without minima in 1987.
func inspected() *weather.Inspection {
	s := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), 14, 1)
	for i := range s.Precip {
		y, m, _ := s.Date(i).Civil()
		if y == 1984 && m >= 6 && m <= 8 {
			s.Precip[i] = math.NaN()
		}
		if y == 1987 {
			s.Tmin[i] = math.NaN()
		}
	}
	return weather.Inspect(s, nil)
}

func TestRecord(t *testing.T) {
	for _, us := range []bool{false, true} {
		f, err := Record(inspected(), us)
		if err != nil {
			t.Fatal(err)
		}
		d := parse(t, f.SVG)
		want := []string{"(mm)", "(C-d)"}
		if us {
			want = []string{"(in)", "(F-d)"}
		}
		want = append(want, f.Title, "INVENTED WEATHER", "1981-01-01 to 1994-12-31", "precip.", "Tmin", "Tmax", "solar", "99 % and more", "1984", "Theil 1950", "Mann 1945", "design")
		for _, w := range want {
			if !strings.Contains(d.text, w) {
				t.Errorf("US %v: %q is missing from the text:\n%s", us, w, d.text)
			}
		}
		if d.title != f.Title || f.Name != "weather-record" {
			t.Errorf("title %q of %q", d.title, f.Name)
		}
		if _, err := png.Decode(bytes.NewReader(f.PNG)); err != nil {
			t.Error(err)
		}
		again, err := Record(inspected(), us)
		if err != nil || cmp.Diff(f, again) != "" {
			t.Errorf("US %v: other bytes the second time, %v", us, err)
		}
	}
}

// TestClassOf: a share at the limit of a class belongs to it.
func TestClassOf(t *testing.T) {
	for _, c := range []struct {
		share float64
		name  string
	}{{1, "99 % and more"}, {0.99, "99 % and more"}, {0.9899, "from 95 %"}, {0.95, "from 95 %"}, {0.80, "from 80 %"}, {0.7999, "less"}, {1. / 366, "less"}, {0, ""}} {
		if s, ok := classOf(c.share); s.name != c.name || ok != (c.name != "") {
			t.Errorf("%v: class %q, want %q", c.share, s.name, c.name)
		}
	}
}

// TestRecordOfOneYear: a record without a winter, a full year or a trend is drawn
// all the same.
func TestRecordOfOneYear(t *testing.T) {
	s := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), 1, 1)
	short, err := s.Slice(s.Start, s.Start+99)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Record(weather.Inspect(short, nil), false)
	if err != nil {
		t.Fatal(err)
	}
	if d := parse(t, f.SVG); !strings.Contains(d.text, "1981") || strings.Contains(d.text, "Trend") || strings.Contains(d.text, "NaN") {
		t.Errorf("text: %s", d.text)
	}
}

// BenchmarkRecord draws the figure of a record.
func BenchmarkRecord(b *testing.B) {
	r := inspected()
	for b.Loop() {
		if _, err := Record(r, false); err != nil {
			b.Fatal(err)
		}
	}
}
