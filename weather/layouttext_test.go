package weather

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// invented are days of the invented climate, rounded to tenths.
func invented(years int) *Series {
	s := Invent(DemoClimate(), NewDate(1901, 1, 1), years, 9)
	for _, e := range s.elements() {
		for i := range *e {
			(*e)[i] = math.Round(10*(*e)[i]) / 10
		}
	}
	return s
}

// whole tenths of a value.
func inTenthsOf(v float64) int { return int(math.Round(10 * v)) }

// dlyText writes a series in fixed width (README of Daily GHCN 3.22, section III).
func dlyText(s *Series, id string) []byte {
	var b bytes.Buffer
	for i := 0; i < s.Days(); {
		y, m, _ := s.Date(i).Civil()
		n := monthDays(y, m)
		for _, e := range []struct {
			name   string
			values []float64
		}{{"TMAX", s.Tmax}, {"TMIN", s.Tmin}, {"PRCP", s.Precip}} {
			fmt.Fprintf(&b, "%s%04d%02d%s", id, y, m, e.name)
			for d := range 31 {
				if d < n && i+d < s.Days() {
					fmt.Fprintf(&b, "%5d  7", inTenthsOf(e.values[i+d]))
				} else {
					b.WriteString("-9999   ")
				}
			}
			b.WriteByte('\n')
		}
		i += n
	}
	return b.Bytes()
}

// longText writes a series by day and element under a header, which may be empty.
func longText(s *Series, header, id string) []byte {
	var b bytes.Buffer
	b.WriteString(header)
	for i := range s.Days() {
		day := strings.ReplaceAll(s.Date(i).String(), "-", "")
		fmt.Fprintf(&b, "%s%s,TMAX,%d,,,7,0700\n%s%s,TMIN,%d,,,7,0700\n%s%s,PRCP,%d,,,7,0700\n",
			id, day, inTenthsOf(s.Tmax[i]), id, day, inTenthsOf(s.Tmin[i]), id, day, inTenthsOf(s.Precip[i]))
	}
	return b.Bytes()
}

const (
	summaryHead    = `"STATION","NAME","LATITUDE","LONGITUDE","ELEVATION","DATE","PRCP","PRCP_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"` + "\n"
	oldSummaryHead = "STATION,STATION_NAME,ELEVATION,LATITUDE,LONGITUDE,DATE," +
		"PRCP,Measurement Flag,Quality Flag,Source Flag,Time of Observation,TMAX,Measurement Flag,Quality Flag,Source Flag,Time of Observation," +
		"TMIN,Measurement Flag,Quality Flag,Source Flag,Time of Observation\n"
	longHead     = "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n"
	longBareHead = "date,attr,value,a,b,c,d\n"
)

// summaryText writes a series as the export of daily summaries.
func summaryText(s *Series, units Units) []byte {
	var b bytes.Buffer
	b.WriteString(summaryHead)
	for i := range s.Days() {
		format, rain, high, low := `"%.1f",",,7,0700","%.1f",",,7","%.1f",",,7"`, s.Precip[i], s.Tmax[i], s.Tmin[i]
		if units == Standard {
			format, rain, high, low = `"%.2f",",,7,0700","%.0f",",,7,","%.0f",",,7,"`, rain/25.4, 32+1.8*high, 32+1.8*low
		}
		fmt.Fprintf(&b, `"USC00000000","INVENTED 3 S, ZZ US","46.9","-97.1","275.0","%v",`+format+"\n", s.Date(i), rain, high, low)
	}
	return b.Bytes()
}

// oldSummaryText writes a series as the older export, in tenths.
func oldSummaryText(s *Series) []byte {
	var b bytes.Buffer
	b.WriteString(oldSummaryHead)
	for i := range s.Days() {
		fmt.Fprintf(&b, "GHCND:USC00000000,INVENTED 3 S ZZ US,275,46.9,-97.1,%s,%d, , ,7,0700,%d, , ,7,9999,%d, , ,7,9999\n",
			strings.ReplaceAll(s.Date(i).String(), "-", ""), inTenthsOf(s.Precip[i]), inTenthsOf(s.Tmax[i]), inTenthsOf(s.Tmin[i]))
	}
	return b.Bytes()
}

// uscrnText writes a series in the network's own form, parted by blanks.
func uscrnText(s *Series) []byte {
	var b bytes.Buffer
	for i := range s.Days() {
		fmt.Fprintf(&b, "99999 %s  2.622  -97.10   46.90 %7.1f %7.1f   -99.0   -99.0 %7.1f -9999.00 C   1.0  -6.0  -2.0 -9999.0 -9999.0 -9999.0 -99.000 -99.000 -99.000 -99.000 -99.000    -0.5     0.1     1.0     3.5     5.4\n",
			strings.ReplaceAll(s.Date(i).String(), "-", ""), s.Tmax[i], s.Tmin[i], s.Precip[i])
	}
	return b.Bytes()
}

// layoutTexts writes a series in each layout of the two networks.
var layoutTexts = []struct {
	name, layout string
	text         func(*Series) []byte
}{
	{"fixed width", layoutDly, func(s *Series) []byte { return dlyText(s, "USC00000000") }},
	{"long", layoutLong, func(s *Series) []byte { return longText(s, "", "USC00000000,") }},
	{"long with header", layoutLong, func(s *Series) []byte { return longText(s, longHead, "USC00000000,") }},
	{"long without id", layoutLong, func(s *Series) []byte { return longText(s, longBareHead, "") }},
	{"summaries metric", layoutSummary, func(s *Series) []byte { return summaryText(s, Metric) }},
	{"summaries standard", layoutSummary, func(s *Series) []byte { return summaryText(s, Standard) }},
	{"summaries older", layoutOldSummary, oldSummaryText},
	{"reference network", layoutUSCRN, uscrnText},
}

// TestLayoutRoundTrip: three invented years survive each layout, in standard units to
// the rounding of 1 F and 0.01 inch.
func TestLayoutRoundTrip(t *testing.T) {
	want := invented(3)
	for _, c := range layoutTexts {
		text := c.text(want)
		for _, form := range []struct {
			name string
			text []byte
		}{{"", text}, {"CRLF", bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))}, {"byte-order mark", append([]byte("\xef\xbb\xbf"), text...)}} {
			got, _, err := Read("trip", bytes.NewReader(form.text), Pick{})
			if err != nil {
				t.Errorf("%s %s: %v", c.name, form.name, err)
				continue
			}
			degrees, mm := 1e-9, 1e-9
			if strings.HasSuffix(c.name, "standard") {
				degrees, mm = 0.5/1.8+1e-9, 0.127+1e-9
			}
			if got.Layout != c.layout || got.Days() != want.Days() || got.Start != want.Start {
				t.Fatalf("%s: %s, %d days from %v", c.name, got.Layout, got.Days(), got.Start)
			}
			for i := range want.Tmin {
				if !(math.Abs(got.Tmin[i]-want.Tmin[i]) <= degrees && math.Abs(got.Tmax[i]-want.Tmax[i]) <= degrees && math.Abs(got.Precip[i]-want.Precip[i]) <= mm) {
					t.Fatalf("%s: %v is %v to %v C, %v mm", c.name, got.Date(i), got.Tmin[i], got.Tmax[i], got.Precip[i])
				}
			}
		}
	}
}

// BenchmarkReadLayouts reads 100 years of each layout.
func BenchmarkReadLayouts(b *testing.B) {
	s := invented(100)
	for _, c := range layoutTexts {
		text := c.text(s)
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := Read("century", bytes.NewReader(text), Pick{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// yearOfMany gives a by-year file of invented stations without holding it: lines of
// station after station and day after day. It notes the largest heap at each call.
type yearOfMany struct {
	size, given int
	buffer      []byte // of some lines
	lines       []byte // what is left of them
	row         int
	largest     uint64 // heap, bytes
}

// stationsOfMany is how many stations it holds.
const stationsOfMany = 20_000

func (y *yearOfMany) Read(p []byte) (int, error) {
	if y.given >= y.size && len(y.lines) == 0 {
		return 0, io.EOF
	}
	if len(y.lines) == 0 {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		y.largest = max(y.largest, m.HeapAlloc)
		y.buffer = y.buffer[:0]
		for len(y.buffer) < 1<<20 {
			y.next()
		}
		y.lines = y.buffer
	}
	n := copy(p, y.lines)
	y.lines = y.lines[n:]
	y.given += n
	return n, nil
}

// next adds a line.
func (y *yearOfMany) next() {
	year, month, day := (NewDate(2001, 1, 1) + Date(y.row/3/stationsOfMany)).Civil()
	y.buffer = append(y.buffer, "USC00"...)
	y.buffer = strconv.AppendInt(y.buffer, int64(100_000+y.row/3%stationsOfMany), 10)
	y.buffer = append(y.buffer, ',')
	y.buffer = strconv.AppendInt(y.buffer, int64(10_000*year+100*month+day), 10)
	y.buffer = append(y.buffer, [...]string{",TMAX,100,,,7,0700\n", ",TMIN,90,,,7,0700\n", ",PRCP,80,,,7,0700\n"}[y.row%3]...)
	y.row++
}

// TestMemoryFollowsTheDays: of 100 MB with 20,000 stations, one is kept, and what is
// held at any time stays far below the size of the file; so do the counts of all
// stations where none is chosen.
func TestMemoryFollowsTheDays(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 100 MB")
	}
	var before, after runtime.MemStats
	for _, c := range []struct {
		size       int // bytes; a station's day takes 115
		pick, want string
	}{
		{100 << 20, "USC00100777", ""},
		{10 << 20, "", "USC00100000 (5 days)"},
	} {
		runtime.GC()
		runtime.ReadMemStats(&before)
		file := &yearOfMany{size: c.size}
		s, _, err := Read("year", file, Pick{Station: c.pick})
		runtime.ReadMemStats(&after)
		if c.want == "" && (err != nil || s.Days() != 46) || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("error %v", err)
		}
		const most = 40 << 20 // bytes, far below the file
		if file.largest > before.HeapAlloc+most || after.TotalAlloc-before.TotalAlloc > most {
			t.Errorf("held up to %d MB, allocated %d MB in all", (file.largest-before.HeapAlloc)>>20, (after.TotalAlloc-before.TotalAlloc)>>20)
		}
	}
}

// fuzzLayout begins from some days of each text of the layouts, few so that an input
// can soon be made small.
func fuzzLayout(f *testing.F, layouts ...string) {
	s := invented(1)
	days, err := s.Slice(s.Start, s.Start+2)
	if err != nil {
		f.Fatal(err)
	}
	var seeds []string
	for _, c := range layoutTexts {
		if slices.Contains(layouts, c.layout) {
			seeds = append(seeds, string(c.text(days)))
		}
	}
	fuzz(f, seeds...)
}

func FuzzDly(f *testing.F)     { fuzzLayout(f, layoutDly) }
func FuzzLong(f *testing.F)    { fuzzLayout(f, layoutLong) }
func FuzzSummary(f *testing.F) { fuzzLayout(f, layoutSummary, layoutOldSummary) }
func FuzzUSCRN(f *testing.F)   { fuzzLayout(f, layoutUSCRN) }
