package weather

import (
	"bytes"
	"compress/gzip"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// fixture returns an invented file of ../testdata/weather.
func fixture(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "weather", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// read reads text that must be sound.
func read(t testing.TB, text string) (*Series, *Report) {
	t.Helper()
	s, rep, err := Read("test.csv", strings.NewReader(text), Pick{})
	if err != nil {
		t.Fatal(err)
	}
	return s, rep
}

// near compares within 1e-9, the rounding of one conversion of units; NaN equals NaN.
func near(t *testing.T, what string, got, want []float64) {
	t.Helper()
	if d := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.EquateApprox(0, 1e-9)); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}

var nan = math.NaN()

// TestGHCN reads the invented station file; the wanted values follow by hand from
// the units and flags of the README of Daily GHCN 3.22. The total of 9.0 mm flagged
// only L is spread over its three days, one of them absent, and the reading flagged
// L within it dropped. 2020-01-01 has its maximum below its minimum; with 1 day of 7
// that record as a whole would be refused, so the gate is tested apart and the text
// is extended by 200 plain days.
func TestGHCN(t *testing.T) {
	s, rep := read(t, fixture(t, "ghcn-invented.csv")+moreDays(200))
	if s.Layout != "GHCN-Daily station CSV" || s.Invented || s.Start != NewDate(2019, 12, 30) || s.Days() != 207 {
		t.Errorf("layout %q, start %v, %d days", s.Layout, s.Start, s.Days())
	}
	if want := (Station{"USC00000000", "INVENTED 3 S, ZZ US", 46.9, -97.1, 275, 7}); s.Station != want {
		t.Errorf("station %+v, want %+v", s.Station, want)
	}
	near(t, "precip", s.Precip[:7], []float64{2.5, 0, 0, 1, 3, 3, 3})
	near(t, "Tmax", s.Tmax[:7], []float64{-10, -5, -7.2, nan, nan, nan, -2})
	near(t, "Tmin", s.Tmin[:7], []float64{-17.2, -11.1, -5, -13.3, nan, -15, -12})
	near(t, "snow depth", s.SnowDepth[:3], []float64{0.15, 0.15, nan})
	near(t, "wind", s.Wind[:2], []float64{WindAt2m(3.2, 10), nan}) // the conversion is FAO-56 Example 14
	if s.Solar != nil || s.Vapour != nil || s.HourlyPrecip != nil {
		t.Error("elements that GHCN-Daily does not have")
	}
	want := []Mark{0, TraceRain, 0, 0, DayAbsent | SpreadTotal, SpreadTotal, SpreadTotal}
	if d := cmp.Diff(want, s.Marks[:7]); d != "" {
		t.Errorf("marks (-want +got):\n%s", d)
	}
	years := []YearReport{
		{Year: 2019, Days: 2, Rows: 2, Trace: 1, Precip: 2.5},
		{Year: 2020, Days: 205, Rows: 204, Absent: 1, MissingTmin: 1, MissingTmax: 3,
			Rejected: 2, OutOfRange: 1, Contradictory: 1, OutOfOrder: 1, Duplicates: 1, Spread: 3, Precip: 10 + 200*2},
	}
	if d := cmp.Diff(years, rep.Years, cmpopts.EquateApprox(0, 1e-9)); d != "" {
		t.Errorf("report (-want +got):\n%s", d)
	}
	if got := strings.Join(rep.Notes, "; "); got != "columns not used: SNOW" {
		t.Errorf("notes %q", got)
	}
}

// moreDays continues the invented station file from 2020-01-06 with days of 2 mm.
func moreDays(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(`"USC00000000","` + (NewDate(2020, 1, 6) + Date(i)).String() +
			`","46.9000","-97.1000","275.0","INVENTED 3 S, ZZ US","   20",",,7,0700","",,"",,"   50",",,7,0700","  -20",",,7,0700","",,"",,"",` + "\n")
	}
	return b.String()
}

// TestDaymet: the invented pixel, with its preamble and re-saved without. Units after
// ORNL DAAC: daily radiation is srad times dayl, vp in Pa. Day 60 of a leap year is
// 29 February, and 31 December 2020 repeats the 30th with no rain.
func TestDaymet(t *testing.T) {
	text := fixture(t, "daymet-invented.csv")
	_, rows, _ := strings.Cut(text, "vp (Pa)\n")
	resaved := `"year","yday","dayl..s.","prcp..mm.day.","srad..W.m.2.","swe..kg.m.2.","tmax..deg.c.","tmin..deg.c.","vp..Pa.","latitude","longitude"` + "\n" +
		strings.ReplaceAll(strings.TrimSpace(rows), "\n", ",46.9,-97.1\r\n") + ",46.9,-97.1\r\n"
	for name, text := range map[string]string{"original": text, "re-saved": resaved} {
		t.Run(name, func(t *testing.T) {
			s, rep := read(t, text)
			if s.Start != NewDate(2020, 2, 28) || s.Last() != NewDate(2021, 1, 1) || s.Station.Latitude != 46.9 || s.Station.Longitude != -97.1 {
				t.Errorf("from %v to %v at %v, %v", s.Start, s.Last(), s.Station.Latitude, s.Station.Longitude)
			}
			n := s.Days()
			near(t, "precip", s.Precip[:4], []float64{1.5, 0, 0, nan})
			near(t, "precip", s.Precip[n-4:], []float64{2, 4, 0, 0})
			near(t, "Tmax", s.Tmax[n-4:], []float64{-5, -6, -6, -7})
			near(t, "Tmin", s.Tmin[n-4:], []float64{-15, -16, -16, -17})
			near(t, "solar", s.Solar[:2], []float64{200 * 39000e-6, 250 * 39200e-6})
			near(t, "vapour", s.Vapour[n-4:], []float64{0.2, 0.19, 0.19, 0.18})
			if got, want := s.Marks[n-2], CalendarFilled|DayAbsent|TemperatureFilled|PrecipFilled|OptionalFilled; got != want {
				t.Errorf("31 December is marked %v, want %v", got, want)
			}
			if total := rep.Total(); total.Rows != 6 || total.CalendarFilled != 1 || total.Absent != n-6 || total.OutOfOrder != 0 {
				t.Errorf("report %+v", total)
			}
		})
	}
}

// TestPlain reads every column of our layout.
func TestPlain(t *testing.T) {
	s, rep := read(t, fixture(t, "plain-invented.csv"))
	hours := make([]float64, 24*5)
	for i := range hours {
		hours[i] = nan
	}
	copy(hours[24:], make([]float64, 24))
	hours[24+6], hours[24+7], hours[24+8] = 0.2, 0.4, 0.6
	want := &Series{
		Station:  Station{"FIELD-0", "Invented field", 46.9, -97.1, 275, 7},
		Layout:   "Mottle plain CSV",
		Invented: true,
		Start:    NewDate(2020, 2, 28),
		Tmin:     []float64{-12.5, -11, nan, nan, -4},
		Tmax:     []float64{-3, -2.25, 0, nan, 1},
		Precip:   []float64{0, 1.2, nan, nan, nan},
		Solar:    []float64{9.5, nan, 8, nan, 8},
		Vapour:   []float64{0.28, 0.3, nan, nan, nan},
		Wind:     []float64{3.1, nan, 2, nan, 2},

		SnowDepth:    []float64{0.15, 0.14, nan, nan, nan},
		HourlyPrecip: hours,
		Marks:        []Mark{TraceRain, 0, 0, DayAbsent, PrecipFilled | SpreadTotal},
	}
	if d := cmp.Diff(want, s, cmpopts.EquateNaNs()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if total := rep.Total(); total.Rows != 4 || total.Absent != 1 || total.MissingTmin != 2 || total.MissingTmax != 1 || total.MissingPrecip != 3 {
		t.Errorf("report %+v", total)
	}
}

// TestContainer: compression, a byte-order mark and line ends change nothing.
func TestContainer(t *testing.T) {
	for _, name := range []string{"daymet-invented.csv", "plain-invented.csv"} {
		text := fixture(t, name)
		want, _ := read(t, text)
		var packed bytes.Buffer
		z := gzip.NewWriter(&packed)
		z.Write([]byte(text))
		z.Close()
		for what, other := range map[string]string{
			"gzip": packed.String(), "mark": "\xef\xbb\xbf" + text,
			"CRLF": strings.ReplaceAll(text, "\n", "\r\n"), "blank lines": "\n" + strings.ReplaceAll(text, "\n", "\n\n"), "no last line end": strings.TrimSpace(text),
		} {
			if got, _ := read(t, other); !sameSeries(got, want) {
				t.Errorf("%s: %s changes the series", name, what)
			}
		}
	}
}

const ghcnHead = "STATION,DATE,LATITUDE,LONGITUDE,ELEVATION,NAME,PRCP,PRCP_ATTRIBUTES,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n"

// TestFaults: each fault is an error that says where, what and what is allowed.
func TestFaults(t *testing.T) {
	const plain = "date,tmin_C,tmax_C,precip_mm\n"
	daymet := "year,yday,prcp (mm/day),tmax (deg c),tmin (deg c)\n"
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", `f.csv: found "an empty file"; allowed a daily record`},
		{"unknown layout", "a,b\n1,2\n", "f.csv:1: found \"a,b\""},
		{"broken gzip", "\x1f\x8bxxx", "f.csv: "},

		{"monthly", ghcnHead + "A,1939-10,,,,X,5,,4,,3,\n", `f.csv:2: column DATE: found "1939-10"; allowed a day from 1700 to 2200 written as 2006-01-02: this is a monthly summary`},
		{"text", ghcnHead + "A,2001-01-01,,,,X,5,,x4,,3,\n", `f.csv:2: column TMAX: found "x4"; allowed a whole number, tenths of C`},
		{"decimals", ghcnHead + "A,2001-01-01,,,,X,0.5,,4,,3,\n", `found "no units"; allowed values that tell their units: TMAX and TMIN of 3 to 4 look like tenths of C or C or F, PRCP of 0.5 to 0.5 like mm or inches; choose with --weather-units metric or --weather-units standard`},
		{"two stations", ghcnHead + "A,2001-01-01,,,,X,5,,4,,3,\nB,2001-01-01,,,,X,5,,4,,3,\n", `column STATION: found "2 stations"; allowed one, or a choice of one with --station: A X (1 days); B X (1 days)`},
		{"twice", ghcnHead + "A,2001-01-01,,,,X,5,,4,,3,\nA,2001-01-01,,,,X,6,,4,,3,\n", `f.csv:3: found "2001-01-01"; allowed each day once: line 2 gives the same day other values`},
		{"no temperature", "STATION,DATE,PRCP\nA,2001-01-01,5\n", `f.csv:1: column TMAX: found "no such column"`},
		{"column twice", "STATION,DATE,PRCP,TMAX,TMIN,TMIN\n", `column TMIN: found "the column twice"`},
		{"short row", ghcnHead + "A,2001-01-01,,,,X,5\n", `f.csv:2: found "7 fields"; allowed 12, as in the header`},
		{"open quote", ghcnHead + "A,\"2001-01-01,,,,X,5,,4,,3,\n", `f.csv:2: found "a quote without its partner"`},
		{"no rows", ghcnHead, `f.csv: found "no row of data"`},
		{"position", ghcnHead + "A,2001-01-01,95,,,X,5,,4,,3,\n", `column LATITUDE: found "95"; allowed a number from -90 to 90`},
		{"export", "\"STATION\",\"NAME\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"DATE\",\"PRCP\"\n", `f.csv:1: column TMAX: found "no such column"`},

		{"no header", "Latitude: 40  Longitude: -90\n", `allowed a row that starts with year,yday`},
		{"day 366", daymet + "2000,366,1,2,1\n", `f.csv:2: column yday: found "366"; allowed a whole number from 1 to 365`},
		{"unit", "year,yday,prcp (in/day),tmax (deg c),tmin (deg c)\n", `found "inday"; allowed mmday`},
		{"no rain", "year,yday,tmax (deg c),tmin (deg c)\n", `column prcp: found "no such column"`},
		{"daymet text", daymet + "2000,1,wet,2,1\n", `column prcp: found "wet"; allowed a number`},
		{"daymet hex", daymet + "2000,1,0x1p3,2,1\n", `column prcp: found "0x1p3"; allowed a number`},

		{"misspelt", "date,tmin_C,tmax_C,Precip_mm\n2001-01-01,1,2,3\n", `f.csv:1: column Precip_mm: found "Precip_mm"; allowed date, tmin_C`},
		{"did you mean", "date,tmin_C,tmax_C,Precip_mm\n2001-01-01,1,2,3\n", `did you mean precip_mm?`},
		{"required", "date,tmin_C,precip_mm\n2001-01-01,1,3\n", `f.csv:1: column tmax_C: found "no such column"`},
		{"plain twice", "date,tmin_C,tmax_C,tmax_C,precip_mm\n", `column tmax_C: found "the column twice"`},
		{"plain text", plain + "2001-01-01,1,2,wet\n", `f.csv:2: column precip_mm: found "wet"; allowed a number from 0 to 500 mm/d, or blank when missing`},
		{"NaN", plain + "2001-01-01,NaN,2,1\n", `column tmin_C: found "NaN"`},
		{"negative", plain + "2001-01-01,1,2,-0.1\n", `column precip_mm: found "-0.1"`},
		{"crossed", plain + "2001-01-01,3,2,0\n", `column tmax_C: found "2"; allowed not below tmin_C, 3`},
		{"order", plain + "2001-01-02,1,2,0\n2001-01-01,1,2,0\n", `f.csv:3: column date: found "2001-01-01"; allowed a day after 2001-01-02`},
		{"plain repeat", plain + "2001-01-02,1,2,0\n2001-01-02,1,2,0\n", `f.csv:3: column date`},
		{"comment counts as a line", "# note: x\n" + plain + "# remark\n2001-01-01,1,2,x\n", `f.csv:4: column precip_mm`},
		{"plain short row", plain + "2001-01-01,1,2\n2001-01-02,1,2,x\n", `f.csv:2: found "3 fields"; allowed 4, as in the header`},
		{"plain open quote", plain + "\"2001-01-01,1,2,0\n", `f.csv:2: found "a quote without its partner"`},
		{"and goes on", plain + "2001-01-01,1,2\n2001-01-02,1,2,x\n", `f.csv:3: column precip_mm`},
		{"plain no rows", plain, `no row of data`},
		{"key", "# latitud: 4\n" + plain, `f.csv:1: column latitud: found "latitud"; allowed station, name, latitude, longitude, elevation_m, read_hour, temperature_day, invented, origin, note: did you mean latitude?`},
		{"read hour", "# read_hour: 25\n" + plain, `column read_hour: found "25"`},
		{"yes or no", "# invented: maybe\n" + plain, `column invented: found "maybe"; allowed yes, no`},
		{"marks", "date,tmin_C,tmax_C,precip_mm,marks\n2001-01-01,1,2,0,odd\n", `column marks: found "odd"; allowed temperature-filled`},
		{"hours", "date,tmin_C,tmax_C,precip_mm,hourly_precip_mm\n2001-01-01,1,2,0,1 2\n", `allowed 24 values separated by blanks, not 2`},
		{"hours do not add up", "date,tmin_C,tmax_C,precip_mm,hourly_precip_mm\n2001-01-01,1,2,0.94,1" + strings.Repeat(" 0", 23) + "\n", `add up to precip_mm within 0.05 mm; they add up to 1`},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, rep, err := Read("f.csv", strings.NewReader(c.text), Pick{})
			if err == nil || s != nil || rep != nil {
				t.Fatalf("read without an error: %+v", s)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("error\n%v\nlacks\n%s", err, c.want)
			}
		})
	}
}

// TestFaultsAreCapped: all faults in one error, fifty in full.
func TestFaultsAreCapped(t *testing.T) {
	text := "date,tmin_C,tmax_C,precip_mm\n"
	for i := range 60 {
		text += (NewDate(2001, 1, 1) + Date(i)).String() + ",1,2,x\n"
	}
	_, _, err := Read("f.csv", strings.NewReader(text), Pick{})
	if err == nil {
		t.Fatal("no error")
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 51 || lines[50] != "f.csv: and 10 more" {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

// TestGate: one year of plain days at a given rain in mm a day. 2 mm is 730 mm a year;
// the same in inches reads as 28.7 and in tenths of mm as 7300.
func TestGate(t *testing.T) {
	year := func(rain, tmax string) string {
		var b strings.Builder
		b.WriteString(ghcnHead)
		for i := range 365 {
			b.WriteString("A," + (NewDate(2001, 1, 1) + Date(i)).String() + ",,,,X," + rain + ",," + tmax + ",,40,\n")
		}
		return b.String()
	}
	for _, c := range []struct{ name, rain, tmax, want string }{
		{"sound", "20", "150", ""},
		{"dry", "1", "150", "found a mean of 36.5 mm a year over 1 complete years; allowed 150 to 2500: the values may be in inches (927 mm a year) or cm (365 mm a year)"},
		{"wet", "200", "150", "the values may be in tenths of mm (730 mm a year) or hundredths of an inch (1854 mm a year)"},
		{"F", "20", "600", "is the temperature in F"},
		{"exchanged", "20", "30", "found Tmax below Tmin on 365 of 365 days"},
	} {
		_, _, err := Read("f.csv", strings.NewReader(year(c.rain, c.tmax)), Pick{})
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: error %v lacks %q", c.name, err, c.want)
		}
	}
}

// TestTotals: what keeps a total of several days from being spread.
func TestTotals(t *testing.T) {
	start := NewDate(2001, 1, 1)
	for _, c := range []struct {
		name   string
		precip []float64
		totals []multiDay
		want   []float64
		note   string
	}{
		{"spread", []float64{1, nan, nan, 2}, []multiDay{{start + 2, 2, 5}}, []float64{1, 2.5, 2.5, 2}, ""},
		{"own reading", []float64{1, nan, nan, 2}, []multiDay{{start + 2, 3, 6}}, []float64{1, nan, nan, 2}, "2001-01-01 has a reading of its own"},
		{"overlap", []float64{nan, nan, nan, nan}, []multiDay{{start + 3, 2, 4}, {start + 2, 3, 6}}, []float64{2, 2, 2, nan}, "overlaps another total on 2001-01-03"},
		{"too long", allMissing(61), []multiDay{{start + 60, 61, 61}}, allMissing(61), "not within 1 to 60"},
		{"no days", []float64{nan, nan}, []multiDay{{start + 1, nan, 4}}, []float64{nan, nan}, "number of days is not known"},
		{"from before the record", []float64{nan, nan}, []multiDay{{start + 1, 4, 4}}, []float64{1, 1}, ""},
	} {
		s := &Series{Start: start, Precip: c.precip, Marks: make([]Mark, len(c.precip))}
		notes := strings.Join(spreadTotals(s, c.totals), "; ")
		near(t, c.name, s.Precip, c.want)
		if (c.note == "") != (notes == "") || !strings.Contains(notes, c.note) {
			t.Errorf("%s: notes %q, want %q", c.name, notes, c.note)
		}
	}
}

// TestMissingCode: -9999, the code of the README of Daily GHCN, is missing and no
// value that cannot be true; a doubled quote stands for one.
func TestMissingCode(t *testing.T) {
	s, rep := read(t, ghcnHead+`A,2001-01-01,,,,"THE ""X"" FARM, ZZ",-9999,,40,,30,`+"\n")
	near(t, "precip", s.Precip, []float64{nan})
	if total := rep.Total(); total.OutOfRange != 0 || total.MissingPrecip != 1 || s.Station.Name != `THE "X" FARM, ZZ` {
		t.Errorf("station %q, report %+v", s.Station.Name, total)
	}
}

// TestReadingHour: the most frequent time counts, minutes as parts of an hour.
func TestReadingHour(t *testing.T) {
	head := "STATION,DATE,PRCP,PRCP_ATTRIBUTES,TMAX,TMIN\n"
	day := func(d int, time string) string {
		return "A," + NewDate(2001, 1, d).String() + ",5,\",,7," + time + "\",4,3\n"
	}
	for _, c := range []struct {
		times []string
		want  float64
	}{
		{[]string{"0730", "0730", "1800"}, 7.5},
		{[]string{"2400", "0000", "1800"}, 24},
		{[]string{"2561", "", ""}, nan},
	} {
		text := head
		for i, time := range c.times {
			text += day(i+1, time)
		}
		s, _ := read(t, text)
		near(t, strings.Join(c.times, " "), []float64{s.Station.ReadHour}, []float64{c.want})
	}
}
