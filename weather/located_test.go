package weather

import (
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
)

const vegaFile = "vega-datasets-3.2.1_weather.csv"

// TestLocated reads the two locations of the public table (see its README) and
// compares with figures of other code: those of realRecord.
func TestLocated(t *testing.T) {
	for station, c := range map[string]realRecord{
		"New York": {vegaFile, "2012-01-01", "2015-12-31", 1461, 1461, 100, 100, 100, 4, 1045, -16.0, 37.8, 0, 119, nan, false, false, false, false},
		"seattle":  {vegaFile, "2012-01-01", "2015-12-31", 1461, 1461, 100, 100, 100, 4, 1106, -7.1, 35.6, 0, 56, nan, false, false, false, false},
	} {
		c.compare(t, []byte(fixture(t, vegaFile)), Pick{Station: station})
	}
	s, rep, err := Read(vegaFile, strings.NewReader(fixture(t, vegaFile)), Pick{Station: "Seattle"})
	if err != nil {
		t.Fatal(err)
	}
	// Its second row is 2012-01-02,10.9,10.6,2.8,4.5,rain.
	near(t, "2 January 2012", []float64{s.Precip[1], s.Tmax[1], s.Tmin[1], s.Wind[1]}, []float64{10.9, 10.6, 2.8, WindAt2m(4.5, 10)})
	if s.Station.Name != "Seattle" || strings.Join(rep.Notes, "; ") != "columns not used: weather" {
		t.Errorf("station %q, notes %q", s.Station.Name, rep.Notes)
	}
}

const locatedText = "location,date,precipitation,temp_max,temp_min,wind,weather\nA,2001-01-01,1,5,-5,2,rain\nA,2001-01-02,,5,-5,2,sun\n"

func TestLocatedFaults(t *testing.T) {
	swap := func(old, new string) string { return strings.Replace(locatedText, old, new, 1) }
	checkFaults(t, []faultCase{
		{"two places", fixture(t, vegaFile), `column location: found "2 stations"; allowed one, or a choice of one with --station: New York (1461 days); Seattle (1461 days)`},
		{"no rain", swap("precipitation", "rain"), `f.csv:1: column precipitation: found "no such column"; allowed a file with temp_max, temp_min, precipitation`},
		{"no maximum", swap("temp_max", "tmax"), `column temp_max: found "no such column"`},
		{"no minimum", swap("temp_min", "tmin"), `column temp_min: found "no such column"`},
		{"text", swap(",1,5", ",wet,5"), `f.csv:2: column precipitation: found "wet"`},
		{"date", swap("2001-01-01", "1/1/2001"), `f.csv:2: column date: found "1/1/2001"`},
		{"twice", swap("2001-01-02", "2001-01-01"), `allowed each day once`},
		{"no rows", "location,date,precipitation,temp_max,temp_min\n", `found "no row of data"`},
	})
	_, _, err := Read("f.csv", strings.NewReader(locatedText), Pick{Station: "B"})
	if err == nil || !strings.Contains(err.Error(), `column location: found "B"`) {
		t.Errorf("error %v", err)
	}
}

func FuzzLocated(f *testing.F) { fuzz(f, locatedText) }

// manyPlaces writes a table of a thousand invented locations row by row, as many
// bytes as asked for.
type manyPlaces struct {
	left int
	n    int
	rest []byte
}

func (m *manyPlaces) Read(p []byte) (int, error) {
	if len(m.rest) == 0 {
		if m.left <= 0 {
			return 0, io.EOF
		}
		place, day := m.n%1000, m.n/1000
		m.rest = fmt.Appendf(m.rest[:0], "invented place %d,%v,2.0,5.0,-5.0,2.0,%s\n", place, NewDate(2001, 1, 1)+Date(day), "none")
		if m.n == 0 {
			m.rest = append([]byte("location,date,precipitation,temp_max,temp_min,wind,weather\n"), m.rest...)
		}
		m.n++
		m.left -= len(m.rest)
	}
	n := copy(p, m.rest)
	m.rest = m.rest[n:]
	return n, nil
}

// TestLargeFile: reading 100 MB for one of a thousand places holds far less than the
// file in memory, in packed form too.
func TestLargeFile(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 100 MB")
	}
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	s, _, err := Read("large.csv", &manyPlaces{left: 100 << 20}, Pick{Station: "invented place 7"})
	if err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	if grown := int64(after.HeapSys) - int64(before.HeapSys); grown > 32<<20 {
		t.Errorf("the heap grew by %d MB", grown>>20)
	}
	if s.Days() < 1500 || !(math.Abs(s.Precip[7]-2) < 1e-12) {
		t.Errorf("%d days", s.Days())
	}
	t.Logf("%d days, heap %d MB", s.Days(), after.HeapSys>>20)
}
