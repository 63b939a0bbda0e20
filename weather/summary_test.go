package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// TestSummary reads the export in metric and in standard units, by hand from the
// column list of its documentation: flags "M,Q,S,HHMM", trace, a total of several
// days flagged L, blanks missing, quoted numbers with blanks, a time left empty.
func TestSummary(t *testing.T) {
	const head = `"STATION","NAME","LATITUDE","LONGITUDE","ELEVATION","DATE","AWND","DAPR","MDPR","MDPR_ATTRIBUTES","PRCP","PRCP_ATTRIBUTES","SNWD","TMAX","TMAX_ATTRIBUTES","TMIN","TOBS"` + "\n"
	const place = `"USC00000000","INVENTED 3 S, ZZ US","46.9","-97.1","-999.9",`
	metric := head +
		place + `"2021-02-01","3.2",,,,"2.5",",,7,0700","150","-10.0",",,7,","-17.2",` + "\n" +
		place + `"2021-02-02",,,,,"0.0","T,,7,0700",,"-5.0",",I,7,"," -11.1",` + "\n" +
		place + `"2021-02-04",,"2","6.0",",L,7",,,,,,"-0.0","3"` + "\n"
	standard := head +
		place + `"2021-02-01","7.16",,,,"0.10",",,7,0700","5.9","14",",,7,","1",` + "\n" +
		place + `"2021-02-02",,,,,"0.00","T,,7,0700",,"23",",I,7,"," 12",` + "\n" +
		place + `"2021-02-04",,"2","0.24",",L,7",,,,,,"32","3"` + "\n"
	for _, c := range []struct {
		units                  Units
		text                   string
		degrees, mm, metres, v float64
	}{
		{Metric, metric, 1e-9, 1e-9, 1e-9, 1e-9},
		{Standard, standard, 0.5 / 1.8, 0.127, 0.0013, 0.003}, // rounding of 1 F, 0.01 and 0.1 inch, 0.01 mph
	} {
		s, rep, err := Read("f.csv", strings.NewReader(c.text), Pick{Units: c.units})
		if err != nil {
			t.Fatal(err)
		}
		close := func(what string, got, want []float64, slack float64) {
			for i := range want {
				if !(math.Abs(got[i]-want[i]) <= slack) && !(math.IsNaN(got[i]) && math.IsNaN(want[i])) {
					t.Errorf("%v: %s %v, want %v", c.units, what, got, want)
				}
			}
		}
		close("Tmax", s.Tmax, []float64{-10, nan, nan, nan}, c.degrees)
		close("Tmin", s.Tmin, []float64{-17.2, -11.1, nan, 0}, c.degrees)
		close("precip", s.Precip, []float64{2.5, 0, 3, 3}, c.mm)
		close("snow depth", s.SnowDepth, []float64{0.15, nan, nan, nan}, c.metres)
		close("wind", s.Wind, []float64{WindAt2m(3.2, 10), nan, nan, nan}, c.v)
		if want := (Station{"USC00000000", "INVENTED 3 S, ZZ US", 46.9, -97.1, nan, 7}); s.Station.ID != want.ID || s.Station.Name != want.Name || !math.IsNaN(s.Station.Elevation) || s.Station.ReadHour != 7 {
			t.Errorf("station %+v, want %+v", s.Station, want)
		}
		if !s.Marks[1].Has(TraceRain) || !s.Marks[2].Has(DayAbsent|SpreadTotal) || rep.Total().Rejected != 1 {
			t.Errorf("marks %v, report %+v", s.Marks, rep.Total())
		}
		want := fmt.Sprintf("columns not used: TOBS; the file states no units; taken as %s units, as chosen: TMAX and TMIN of ", c.units)
		if got := strings.Join(rep.Notes, "; "); !strings.HasPrefix(got, want) {
			t.Errorf("notes %q", got)
		}
	}
}

// days writes days of an export with a format for temperature and one for rain.
func exportDays(s *Series, n int, temperature, rain func(v float64) string) string {
	var b strings.Builder
	b.WriteString("STATION,NAME,DATE,PRCP,TMAX,TMIN\n")
	for i := range n {
		fmt.Fprintf(&b, "A,X,%v,%s,%s,%s\n", s.Date(i), rain(s.Precip[i]), temperature(s.Tmax[i]), temperature(s.Tmin[i]))
	}
	return b.String()
}

// TestTellUnits: what a year and what some days in each system of units tell. The
// rounding of the writing is the tolerance.
func TestTellUnits(t *testing.T) {
	as := func(format string, factor, shift float64) func(float64) string {
		return func(v float64) string { return fmt.Sprintf(format, v*factor+shift) }
	}
	var (
		celsius, wholeCelsius, fahrenheit = as("%.1f", 1, 0), as("%.0f", 1, 0), as("%.0f", 1.8, 32)
		tenths, mm, inches, spared        = as("%.0f", 10, 0), as("%.1f", 1, 0), as("%.2f", 1/25.4, 0), as("%.4g", 1/25.4, 0)
		dry                               = func(float64) string { return "0" }
	)
	s := invented(2)
	for _, c := range []struct {
		name              string
		days              int
		temperature, rain func(float64) string
		pick              Units
		want              string // in the note, or after "!" in the error
	}{
		{"metric", 400, celsius, mm, 0, "taken as metric units: TMAX and TMIN of "},
		{"standard", 400, fahrenheit, inches, 0, "taken as standard units: TMAX and TMIN of "},
		{"tenths", 400, tenths, tenths, 0, "taken as tenths of metric units"},
		{"whole C", 400, wholeCelsius, mm, 0, "taken as metric units"},
		{"inches without their zeros", 400, fahrenheit, spared, 0, "taken as standard units"},
		{"tenths chosen", 400, tenths, tenths, Metric, "taken as tenths of metric units, as chosen"},
		{"metric chosen", 400, celsius, mm, Metric, "taken as metric units, as chosen"},
		{"some metric days", 30, celsius, mm, 0, "taken as metric units"},
		{"some standard days", 30, fahrenheit, inches, 0, "taken as standard units"},
		{"some days of whole C", 30, wholeCelsius, dry, 0, "!choose with --weather-units metric or --weather-units standard"},
		{"some days of whole F", 30, fahrenheit, dry, 0, "!choose with --weather-units"},
		{"some days of whole F chosen", 30, fahrenheit, dry, Standard, "taken as standard units, as chosen"},
		{"some days of whole C chosen", 30, wholeCelsius, dry, Metric, "!if they are C and mm, write them with a decimal point"},
		{"few days of whole C chosen", 5, wholeCelsius, dry, Metric, "taken as metric units, as chosen"},
		{"rain in tenths", 400, celsius, tenths, 0, `!found "mixed units"; allowed one system of units: TMAX and TMIN of -`},
		{"temperature in tenths", 400, tenths, mm, 0, `!found "mixed units"`},
		{"rain in inches", 400, celsius, inches, 0, `!found "mixed units"`},
		{"rain in mm", 400, fahrenheit, mm, 0, `!found "mixed units"`},
		{"metric chosen for rain in tenths", 90, celsius, tenths, Metric, `!found "mixed units"`},
		{"metric chosen for F", 400, fahrenheit, inches, Metric, `!found "units other than metric"`},
		{"standard chosen for C", 400, celsius, mm, Standard, `!found "units other than standard"`},
		{"standard chosen for tenths", 400, tenths, tenths, Standard, `!found "units other than standard"`},
	} {
		got, rep, err := Read("f.csv", strings.NewReader(exportDays(s, c.days, c.temperature, c.rain)), Pick{Units: c.pick})
		if want, fails := strings.CutPrefix(c.want, "!"); fails {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error\n%v\nlacks %q", c.name, err, want)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if notes := strings.Join(rep.Notes, "\n"); !strings.Contains(notes, c.want) {
			t.Errorf("%s: notes\n%s\nlack %q", c.name, notes, c.want)
		}
		for i := range got.Tmax {
			if !(math.Abs(got.Tmax[i]-s.Tmax[i]) <= 0.5001) {
				t.Fatalf("%s: Tmax %v, want %v", c.name, got.Tmax[i], s.Tmax[i])
			}
		}
	}
}

// TestHotYear: whole numbers whose summer reaches 110 are F: as tenths of C they would
// be a year between 3 and 11 C, a swing that no farmed land has.
func TestHotYear(t *testing.T) {
	days := make([]ghcnDay, 400)
	for i := range days {
		swing := 30 - 30*math.Cos(2*math.Pi*float64(i)/daysAYear)
		days[i].values[elementTmax].v, days[i].values[elementTmin].v = math.Round(50+swing), math.Round(30+swing)
	}
	if possible, likely := newSample(days, elementTmax, elementTmin).temperatureIn(0); possible != inTenths|inStandard || likely != inStandard {
		t.Errorf("possible %s, likely %s", possible.units(true), likely.units(true))
	}
}

// TestStationFileInUnits: under the station file's order of columns too, a point in
// the numbers means the export.
func TestStationFileInUnits(t *testing.T) {
	text := ghcnHead
	for i := range 30 {
		text += fmt.Sprintf("A,%v,,,,X,%.1f,,-4.5,,-13.5,\n", NewDate(2001, 1, 1)+Date(i), float64(i)/10)
	}
	s, _ := read(t, text)
	if s.Layout != layoutSummary || s.Tmax[0] != -4.5 || s.Precip[29] != 2.9 {
		t.Errorf("%s, Tmax %v, precip %v", s.Layout, s.Tmax[0], s.Precip[29])
	}
}

// TestSlipTellsNoUnits: one value that cannot be true says nothing of the others.
func TestSlipTellsNoUnits(t *testing.T) {
	s := invented(2)
	text := exportDays(s, 400, func(v float64) string { return fmt.Sprintf("%.1f", v) }, func(v float64) string { return fmt.Sprintf("%.1f", v) })
	text += "A,X,1904-01-01,999.0,99.0,-5.0\n"
	_, rep, err := Read("f.csv", strings.NewReader(text), Pick{})
	if err != nil || !strings.Contains(strings.Join(rep.Notes, "\n"), "taken as metric units") {
		t.Errorf("error %v", err)
	}
	if total := rep.Total(); total.OutOfRange != 2 {
		t.Errorf("report %+v", total)
	}
}

// TestOddOptional: wind in tenths and snow in mm beside elements in other units.
func TestOddOptional(t *testing.T) {
	row := func(i int, rain, temperature, wind, snow string) string {
		return fmt.Sprintf("A,X,%v,%s,%s,%s,%s,%s\n", NewDate(2021, 1, 1)+Date(i), rain, temperature, temperature, wind, snow)
	}
	for _, c := range []struct{ name, rain, temperature, wind, snow, want string }{
		{"sound metric", "2.5", "1.5", "3.2", "150", ""},
		{"sound standard", "0.25", "30", "7.2", "5.9", ""},
		{"wind in tenths", "2.5", "1.5", "32", "150", "column AWND: found"},
		{"snow in mm", "0.25", "30", "7.2", "150", "column SNWD: found \"3.81 m on one day in fifty\"; allowed up to 3: the elements are in mixed units"},
	} {
		text := "STATION,NAME,DATE,PRCP,TMAX,TMIN,AWND,SNWD\n"
		for i := range 30 {
			text += row(i, c.rain, c.temperature, c.wind, c.snow)
		}
		_, _, err := Read("f.csv", strings.NewReader(text), Pick{})
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

// TestOldSummary: ids with their prefix, repeated flag columns, 9999 and -9999
// missing, a position not known. Whole numbers with a trace and flags.
func TestOldSummary(t *testing.T) {
	row := func(id, date, rain, measurement, quality string) string {
		return id + ",INVENTED 3 S ZZ US,unknown,46.9,-97.1," + date + "," + rain + "," + measurement + "," + quality + ",7,0700,-100, , ,7,9999,-172, ,I,7,9999\n"
	}
	text := oldSummaryHead +
		row("GHCND:USC00000000", "20210201", "25", " ", " ") +
		row("GHCND:USC00000000", "20210202", "0", "T", " ") +
		row("GHCND:USC00000000", "20210203", "9999", " ", " ") +
		row("GHCND:USC00000000", "20210204", "-9999", " ", " ") +
		row("GHCND:USC00000000", "20210205", "30", " ", "G") +
		row("GHCND:USC00000001", "20210201", "9", " ", " ")
	for _, pick := range []string{"USC00000000", "GHCND:USC00000000", "ghcnd:usc00000000"} {
		s, rep, err := Read("f.csv", strings.NewReader(text), Pick{Station: pick, Units: Metric})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "precip", s.Precip, []float64{2.5, 0, nan, nan, nan})
		near(t, "Tmax", s.Tmax[:1], []float64{-10})
		near(t, "Tmin", s.Tmin[:1], []float64{nan})
		if s.Layout != "NOAA daily summaries CSV, older layout" || s.Station.ID != "USC00000000" || s.Station.ReadHour != 7 || !math.IsNaN(s.Station.Elevation) ||
			!s.Marks[1].Has(TraceRain) || rep.Total().Rejected != 6 {
			t.Errorf("%s, station %+v, marks %v, report %+v", s.Layout, s.Station, s.Marks, rep.Total())
		}
	}
}

// TestSummaryFaults: each fault says where and what is allowed.
func TestSummaryFaults(t *testing.T) {
	const head = "STATION,NAME,DATE,PRCP,TMAX,TMIN\n"
	for _, c := range []struct{ name, text, pick, want string }{
		{"no minimum", "STATION,NAME,DATE,PRCP,TMAX\n", "", `f.csv:1: column TMIN: found "no such column"; allowed a file with PRCP, TMAX and TMIN`},
		{"rain renamed", "STATION,NAME,DATE,RAIN,TMAX,TMIN\n", "", `f.csv:1: column PRCP: found "no such column"`},
		{"no date", "STATION,NAME,DAY,PRCP,TMAX,TMIN\n", "", `f.csv:1: column DATE: found "no such column"`},
		{"column twice", "STATION,NAME,DATE,PRCP,TMAX,TMIN,TMIN\n", "", `column TMIN: found "the column twice"`},
		{"date", head + "A,X,2021-02-30,0.1,1.5,0.5\n", "", `f.csv:2: column DATE: found "2021-02-30"`},
		{"text", head + "A,X,2021-02-01,wet,1.5,0.5\n", "", `f.csv:2: column PRCP: found "wet"; allowed a number, or blank when missing`},
		{"twice", head + "A,X,2021-02-01,0.5,1.5,0.5\nA,X,2021-02-01,1.5,1.5,0.5\n", "", `f.csv:3: found "2021-02-01"; allowed each day once: line 2 gives the same day other values`},
		{"short row", head + "A,X,2021-02-01,0.5\n", "", `f.csv:2: found "4 fields"; allowed 6, as in the header`},
		{"two stations", head + "A,X,2021-02-01,0.5,1.5,0.5\nB,Y,2021-02-01,0.5,,\n", "", "A X (1 days); B Y (no temperature)"},
		{"two of a name", head + "A,X,2021-02-01,0.5,1.5,0.5\nB,X,2021-02-01,0.5,1.5,0.5\n", "x", `column STATION: found "x"; allowed one station: it fits A X (1 days) and B X (1 days), give --station the id`},
		{"no such station", head + "A,X,2021-02-01,0.5,1.5,0.5\n", "C", `column STATION: found "C"; allowed a station of the file, by id or name: A X (1 days)`},
		{"no rows", head, "", "no row of data"},
	} {
		s, _, err := Read("f.csv", strings.NewReader(c.text), Pick{Station: c.pick})
		if err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks\n%s", c.name, err, c.want)
		}
	}
}
