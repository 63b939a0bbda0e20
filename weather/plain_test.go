package weather

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestPlainRoundTrip: what WritePlain writes, Read returns to the last bit.
func TestPlainRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := drawSeries(t)
		var text bytes.Buffer
		if err := want.WritePlain(&text); err != nil {
			t.Fatal(err)
		}
		got, _, err := Read("trip.csv", &text, Pick{})
		if err != nil {
			t.Fatal(err)
		}
		if !sameSeries(got, want) {
			t.Fatalf("got %+v\nwant %+v", got, want)
		}
	})
}

// drawSeries makes a short sound series with gaps.
func drawSeries(t *rapid.T) *Series {
	n := rapid.IntRange(1, 20).Draw(t, "days")
	some := func(name string, l limit) []float64 {
		v := rapid.SliceOfN(rapid.Float64Range(l.lo, l.hi), n, n).Draw(t, name)
		for i := range v {
			if rapid.IntRange(0, 4).Draw(t, "gap") == 0 {
				v[i] = math.NaN()
			}
		}
		return v
	}
	maybe := func(name string, l limit) []float64 {
		if rapid.Bool().Draw(t, "has "+name) {
			return some(name, l)
		}
		return nil
	}
	unknown := func(name string, lo, hi float64) float64 {
		if rapid.Bool().Draw(t, "has "+name) {
			return rapid.Float64Range(lo, hi).Draw(t, name)
		}
		return math.NaN()
	}
	word := rapid.StringMatching(`[A-Z][a-z, ":#]{0,9}[a-z]`)
	s := &Series{
		Station: Station{word.Draw(t, "id"), word.Draw(t, "name"), unknown("latitude", -90, 90), unknown("longitude", -180, 180),
			unknown("elevation", -400, 5000), unknown("hour", 1, 24)},
		Layout:           rapid.SampledFrom([]string{layoutPlain, layoutGHCN, inventedLayout}).Draw(t, "layout"),
		Invented:         rapid.Bool().Draw(t, "invented"),
		CivilTemperature: rapid.Bool().Draw(t, "civil"),
		Start:            NewDate(rapid.IntRange(1701, 2198).Draw(t, "year"), 12, 25),
		Tmin:             some("tmin", limit{-60, -10, "C"}),
		Tmax:             some("tmax", limit{-10, 55, "C"}),
		Precip:           some("precip", limit{0, 6, "mm/d"}),
		Solar:            maybe("solar", solarLimit),
		Vapour:           maybe("vapour", vapourLimit),
		Wind:             maybe("wind", windLimit),
		SnowDepth:        maybe("snow", snowDepthLimit),
		Marks:            make([]Mark, n),
	}
	if !slices.ContainsFunc(slices.Concat(s.Tmin, s.Tmax, s.Precip), func(v float64) bool { return !math.IsNaN(v) }) {
		s.Precip[0] = 0 // a record without any value is refused
	}
	for i := range s.Marks {
		s.Marks[i] = Mark(rapid.IntRange(0, 1<<len(markNames)-1).Draw(t, "marks"))
	}
	if rapid.Bool().Draw(t, "hourly") {
		s.HourlyPrecip = allMissing(24 * n)
		for i, p := range s.Precip {
			if !math.IsNaN(p) && rapid.Bool().Draw(t, "hours") {
				for h := range s.hours(i) {
					s.hours(i)[h] = p / 24
				}
			}
		}
	}
	return s
}

// TestWritePlainRefuses: what Read would refuse is not written.
func TestWritePlainRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Series){
		"Tmax 3 is below Tmin":    func(s *Series) { s.Tmin[1], s.Tmax[1] = 4, 3 },
		"precip_mm -1":            func(s *Series) { s.Precip[0] = -1 },
		"one line":                func(s *Series) { s.Station.Name = "two\nlines" },
		"at least one day":        func(s *Series) { *s = Series{Start: s.Start} },
		"24 hourly values":        func(s *Series) { s.HourlyPrecip = make([]float64, 24*s.Days()); s.Precip[0] = 9 },
		"from 1700 to 2200":       func(s *Series) { s.Start = NewDate(1600, 1, 1) },
		"solar_MJ_m2 60; allowed": func(s *Series) { s.Solar[3] = 60 },
	} {
		s, err := Invent(DemoClimate(), NewDate(2001, 1, 1), 1, 1).Slice(NewDate(2001, 1, 1), NewDate(2001, 1, 9))
		if err != nil {
			t.Fatal(err)
		}
		spoil(s)
		var text bytes.Buffer
		if err := s.WritePlain(&text); err == nil || !strings.Contains(err.Error(), name) || text.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes written", name, err, text.Len())
		}
	}
}

// ghcnText writes temperature and precipitation as a GHCN-Daily station CSV, rounded
// to tenths.
func ghcnText(s *Series) []byte {
	var b bytes.Buffer
	b.WriteString(ghcnHead)
	tenths := func(v float64) string {
		if math.IsNaN(v) {
			return `"",""`
		}
		return fmt.Sprintf(`"%5d",",,7,0700"`, int(math.Round(10*v)))
	}
	for i := range s.Days() {
		fmt.Fprintf(&b, `"USC00000000","%v","46.9000","-97.1000","300.0","INVENTED, ZZ US",%s,%s,%s`+"\n",
			s.Date(i), tenths(s.Precip[i]), tenths(s.Tmax[i]), tenths(s.Tmin[i]))
	}
	return b.Bytes()
}

// TestGHCNRoundTrip: tenths survive the station layout.
func TestGHCNRoundTrip(t *testing.T) {
	want := Invent(DemoClimate(), NewDate(1999, 1, 1), 3, 9)
	for _, e := range want.elements() {
		for i := range *e {
			(*e)[i] = math.Round(10*(*e)[i]) / 10
		}
	}
	got, _, err := Read("trip.csv", bytes.NewReader(ghcnText(want)), Pick{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Tmin", got.Tmin, want.Tmin)
	near(t, "Tmax", got.Tmax, want.Tmax)
	near(t, "precip", got.Precip, want.Precip)
}

// sound fails when a series that Read returned is not.
func sound(t *testing.T, s *Series, rep *Report) {
	n := s.Days()
	if n == 0 || len(s.Marks) != n || rep.First != s.Start || rep.Last != s.Last() || rep.Total().Days != n {
		t.Fatalf("%d days, %d marks, report from %v to %v", n, len(s.Marks), rep.First, rep.Last)
	}
	if s.HourlyPrecip != nil && len(s.HourlyPrecip) != 24*n {
		t.Fatalf("%d hours for %d days", len(s.HourlyPrecip), n)
	}
	limits := []limit{temperatureLimit, temperatureLimit, precipLimit, solarLimit, vapourLimit, windLimit, snowDepthLimit}
	for k, e := range s.elements() {
		if *e != nil && len(*e) != n {
			t.Fatalf("element %d has %d values for %d days", k, len(*e), n)
		}
		for i, v := range *e {
			if !math.IsNaN(v) && !limits[k].within(v) {
				t.Fatalf("%v: element %d is %v", s.Date(i), k, v)
			}
		}
	}
	c, _ := s.ByCivilDay()
	if c, _, err := c.Fill(FillRule{AllowLong: true}); err == nil {
		for i := range c.Precip {
			if !c.complete(i) || c.Tmax[i] < c.Tmin[i] {
				t.Fatalf("%v is not complete after Fill", c.Date(i))
			}
		}
	}
}

// brokenCorpus are the inputs of testdata/broken/weather.
func brokenCorpus(tb testing.TB) (texts []string) {
	tb.Helper()
	names, err := filepath.Glob(filepath.Join("..", "testdata", "broken", "weather", "*"))
	if err != nil || len(names) == 0 {
		tb.Fatalf("%d broken inputs: %v", len(names), err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, ".want") {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			tb.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	return texts
}

// fuzz reads whatever comes: an error or a sound series. It begins from the seeds and
// from the broken inputs.
func fuzz(f *testing.F, seeds ...string) {
	for _, seed := range append(seeds, brokenCorpus(f)...) {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, rep, err := Read("fuzz", bytes.NewReader(data), Pick{})
		if (err == nil) != (s != nil && rep != nil) {
			t.Fatalf("series %v, error %v", s != nil, err)
		}
		if err == nil {
			sound(t, s, rep)
		}
	})
}

func FuzzGHCN(f *testing.F) {
	fuzz(f, fixture(f, "ghcn-invented.csv"), fixture(f, "ghcn-invented.csv")+moreDays(120), ghcnHead+"A,2001-01-01,,,,X,5,,4,,3,\n")
}

func FuzzDaymet(f *testing.F) { fuzz(f, fixture(f, "daymet-invented.csv")) }

func FuzzPlain(f *testing.F) {
	fuzz(f, fixture(f, "plain-invented.csv"), "date,tmin_C,tmax_C,precip_mm\n2001-01-01,1,2,\n")
}
