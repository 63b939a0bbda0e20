package weather

import (
	"strings"
	"testing"
)

// dlyLine writes a month of an element in fixed width; days not given are missing.
func dlyLine(id, month, element string, days ...string) string {
	line := id + month + element
	for d := range 31 {
		if d < len(days) {
			line += days[d]
			continue
		}
		line += "-9999   "
	}
	return line + "\n"
}

// TestDly: values, flags and totals of the README of Daily GHCN 3.22 by hand. Trace
// is 0 mm, what failed a check is missing, 9.0 mm are spread over three days, TAVG is
// not used, blanks at the end of a line may be lost.
func TestDly(t *testing.T) {
	const id = "USC00000000"
	text := dlyLine(id, "202102", "TMAX", " -100  7", "  -50 I7", "   -0  7") +
		dlyLine(id, "202102", "TMIN", " -172  7", " -111  7", "  -50  7") +
		dlyLine(id, "202102", "TAVG", " -120  7") +
		dlyLine(id, "202102", "PRCP", "   25  7", "    0T 7", "-9999   ", "-9999   ", "   40 L7") +
		dlyLine(id, "202102", "MDPR", "-9999   ", "-9999   ", "-9999   ", "-9999   ", "   90 L7") +
		dlyLine(id, "202102", "DAPR", "-9999   ", "-9999   ", "-9999   ", "-9999   ", "    3  7") +
		strings.TrimRight(dlyLine(id, "202102", "SNWD", "  150  7"), " \n") + "\r\n"
	s, rep := read(t, text)
	if s.Layout != "GHCN-Daily fixed width" || s.Start != NewDate(2021, 2, 1) || s.Days() != 5 || s.Station.ID != id {
		t.Fatalf("%s, %d days from %v, station %+v", s.Layout, s.Days(), s.Start, s.Station)
	}
	near(t, "Tmax", s.Tmax, []float64{-10, nan, 0, nan, nan})
	near(t, "Tmin", s.Tmin, []float64{-17.2, -11.1, -5, nan, nan})
	near(t, "precip", s.Precip, []float64{2.5, 0, 3, 3, 3})
	near(t, "snow depth", s.SnowDepth, []float64{0.15, nan, nan, nan, nan})
	near(t, "unknown", []float64{s.Station.Latitude, s.Station.ReadHour}, []float64{nan, nan})
	if !s.Marks[1].Has(TraceRain) || !s.Marks[2].Has(SpreadTotal) || !s.Marks[3].Has(DayAbsent) {
		t.Errorf("marks %v", s.Marks)
	}
	if total := rep.Total(); total.Rejected != 2 || total.Spread != 3 || total.Rows != 4 {
		t.Errorf("report %+v", total)
	}
	if got := strings.Join(rep.Notes, "; "); got != "no wind: the file has no element AWND; elements not used: TAVG" {
		t.Errorf("notes %q", got)
	}
}

// TestDlyFaults: each fault says where and what is allowed.
func TestDlyFaults(t *testing.T) {
	month := func(id string) string {
		return dlyLine(id, "202102", "TMAX", "   10  7") + dlyLine(id, "202102", "TMIN", "    0  7") + dlyLine(id, "202102", "PRCP", "    0  7")
	}
	const a, b = "USC00000000", "USC00000001"
	for _, c := range []struct{ name, text, pick, want string }{
		{"no rain", dlyLine(a, "202102", "TMAX", "   10  7") + dlyLine(a, "202102", "TMIN", "    0  7"), "", `f.dly: column PRCP: found "no such element"; allowed a file with PRCP, TMAX and TMIN`},
		{"short line", month(a) + "USC00000000202103TMAX   10  7\n", "", `f.dly:4: found "29 characters"; allowed 269: id, year, month, element and 31 days of 8`},
		{"month", month(a) + dlyLine(a, "202113", "TMAX"), "", `f.dly:4: column year and month: found "202113"`},
		{"value", dlyLine(a, "202102", "TMAX", "   x0  7"), "", `f.dly:1: column TMAX: found "   x0"; allowed a whole number in each of 31 fields`},
		{"29 February", dlyLine(a, "202102", "PRCP", strings.Split(strings.Repeat("    0  7,", 29), ",")[:29]...), "", `f.dly:1: column PRCP: found "0 on day 29 of month 2"`},
		{"twice", month(a) + dlyLine(a, "202102", "TMAX", "   20  7"), "", `f.dly:4: column TMAX: found "20 on 2021-02-01"; allowed each element once a day: an earlier line gives 10, keep one`},
		{"two stations", month(a) + month(b) + dlyLine(b, "202103", "SNWD"), "", `column id: found "2 stations"; allowed one, or a choice of one with --station: USC00000000 (1 days); USC00000001 (1 days)`},
		{"no such station", month(a), "USC00000007", `column id: found "USC00000007"; allowed a station of the file, by id or name: USC00000000 (1 days)`},
	} {
		s, _, err := Read("f.dly", strings.NewReader(c.text), Pick{Station: c.pick})
		if err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks\n%s", c.name, err, c.want)
		}
	}
	if s, rep, err := Read("f.dly", strings.NewReader(month(a)+month(b)+month(b)), Pick{Station: strings.ToLower(b)}); err != nil || s.Station.ID != b || !strings.Contains(strings.Join(rep.Notes, ";"), "3 values given twice alike") {
		t.Errorf("second station: %v", err)
	}
}
