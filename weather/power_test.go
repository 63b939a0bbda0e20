package weather

import (
	"math"
	"strings"
	"testing"
)

// powerText is an invented response in the layout of the service's API 2.9 (its
// preamble and header lines).
const powerText = "-BEGIN HEADER-\r\nNASA/POWER Source Native Resolution Daily Data \r\n" +
	"Dates (month/day/year): 02/28/2020 through 03/01/2020 in LST\r\n" +
	"Location: latitude  46.9   longitude -97.1 \r\n" +
	"elevation from MERRA-2: Average for 0.5 x 0.625 degree lat/lon region = 285.5 meters\r\n" +
	"The value for missing source data that cannot be computed or is outside of the sources availability range: -999 \r\n" +
	"parameter(s): \r\n" +
	"T2M_MAX               MERRA-2 Temperature at 2 Meters Maximum (C) \r\n" +
	"T2M_MIN               MERRA-2 Temperature at 2 Meters Minimum (C) \r\n" +
	"RH2M                  MERRA-2 Relative Humidity at 2 Meters (%) \r\n" +
	"WS10M                 MERRA-2 Wind Speed at 10 Meters (m/s) \r\n" +
	"PRECTOTCORR           MERRA-2 Precipitation Corrected (mm/day) \r\n" +
	"ALLSKY_SFC_SW_DWN     CERES SYN1deg All Sky Surface Shortwave Downward Irradiance (MJ/m^2/day) \r\n" +
	"-END HEADER-\r\n"

const powerDays = "YEAR,MO,DY,T2M_MAX,T2M_MIN,RH2M,WS10M,PRECTOTCORR,ALLSKY_SFC_SW_DWN,PS\r\n" +
	"2020,2,28,-3.5,-12.25,80,3.2,1.5,9.0,98.1\r\n2020,2,29,-1.0,-10.0,-999,-999.0,-999,-999,98\r\n2020,3,1,2,-8,75,2,0,10.8,98\r\n"

// TestPower: units as the preamble states them; FAO-56 Example 14 converts 3.2 m/s at
// 10 m to 2.4 m/s, and Eq. 19 the mean humidity.
func TestPower(t *testing.T) {
	s, rep := read(t, powerText+powerDays)
	if want := (Station{"", "", 46.9, -97.1, 285.5, 24}); s.Station != want || s.Start != NewDate(2020, 2, 28) || s.Days() != 3 {
		t.Errorf("station %+v, %d days from %v", s.Station, s.Days(), s.Start)
	}
	near(t, "Tmax", s.Tmax, []float64{-3.5, -1, 2})
	near(t, "Tmin", s.Tmin, []float64{-12.25, -10, -8})
	near(t, "precip", s.Precip, []float64{1.5, nan, 0})
	near(t, "solar", s.Solar, []float64{9, nan, 10.8})
	near(t, "vapour", s.Vapour, []float64{VapourFromMeanHumidity(-12.25, -3.5, 80), nan, VapourFromMeanHumidity(-8, 2, 75)})
	if !(math.Abs(s.Wind[0]-2.4) < 0.05) {
		t.Errorf("wind %v", s.Wind[0])
	}
	if notes := strings.Join(rep.Notes, "; "); !strings.Contains(notes, "local solar time") || !strings.Contains(notes, "columns not used: PS") {
		t.Errorf("notes %q", notes)
	}
}

// TestPowerVariants: capitals, older names, other units and dates change nothing but
// what they say.
func TestPowerVariants(t *testing.T) {
	want, _ := read(t, powerText+powerDays)
	kwh := strings.NewReplacer("(MJ/m^2/day)", "(kW-hr/m^2/day)", ",9.0,98.1", ",2.5,98.1", ",10.8,", ",3,")
	dated := strings.NewReplacer("YEAR,MO,DY", "YEAR,DOY", "2020,2,28", "2020,59", "2020,2,29", "2020,60", "2020,3,1", "2020,61")
	for name, text := range map[string]string{
		"capitals":    strings.NewReplacer("Location: latitude", "Location: Latitude", "longitude", "Longitude", "parameter(s)", "Parameter(s)", "elevation", "Elevation").Replace(powerText) + powerDays,
		"older rain":  strings.ReplaceAll(powerText+powerDays, "PRECTOTCORR", "PRECTOT"),
		"kWh":         kwh.Replace(powerText + powerDays),
		"day of year": dated.Replace(powerText + powerDays),
		"-99":         strings.ReplaceAll(powerText+powerDays, "-999,", "-99,"),
	} {
		if got, _ := read(t, text); !sameSeries(got, want) {
			t.Errorf("%s: got %+v\nwant %+v", name, got, want)
		}
	}
}

// TestPowerHeaderOff: without the preamble the unit of radiation follows from the
// values where they tell, and else from the form of the dates.
func TestPowerHeaderOff(t *testing.T) {
	year := func(sun string) string {
		var b strings.Builder
		b.WriteString("YEAR,MO,DY,T2M_MAX,T2M_MIN,PRECTOTCORR,ALLSKY_SFC_SW_DWN\n")
		for d := NewDate(2001, 1, 1); d <= NewDate(2001, 12, 31); d++ {
			b.WriteString(strings.ReplaceAll(d.String(), "-", ",") + ",9,1,2," + sun + "\n")
		}
		return strings.NewReplacer(",0", ",").Replace(b.String())
	}
	for _, c := range []struct {
		name, text string
		want       float64
		note       string
	}{
		{"short, by month", powerDays, 9 * 3.6, "kWh/m2: it goes with YEAR,MO,DY"},
		{"short, by day of year", "YEAR,DOY,T2M_MAX,T2M_MIN,PRECTOTCORR,ALLSKY_SFC_SW_DWN\n2001,1,2,1,0,9\n", 9, "MJ/m2: it goes with YEAR,DOY"},
		{"sunny", year("25"), 25, "MJ/m2: the largest is 25"},
		{"a whole year of low values", year("7"), 7 * 3.6, "kWh/m2: the largest is 7"},
	} {
		s, rep := read(t, c.text)
		if got := s.Solar[0]; !(math.Abs(got-c.want) < 1e-9) {
			t.Errorf("%s: %v MJ/m2, want %v", c.name, got, c.want)
		}
		notes := strings.Join(rep.Notes, "; ")
		if !strings.Contains(notes, c.note) || !strings.Contains(notes, "does not say whether") || !math.IsNaN(s.Station.ReadHour) {
			t.Errorf("%s: notes %q, read at %v", c.name, notes, s.Station.ReadHour)
		}
	}
}

// TestDayCut: a day of Greenwich ends at hour 18 at 90 W, and at hour 7 of another
// date at 105 E (15 deg an hour).
func TestDayCut(t *testing.T) {
	for _, c := range []struct {
		offset, longitude, hour float64
		noted, ok               bool
	}{
		{0, -90, 18, true, true}, {-6, -90, 24, false, true}, {-5, -97, 24, false, true}, {0, 105, nan, false, false},
		{1, 13.4, 24, false, true}, {0, -3, 24, false, true}, {0, nan, nan, true, true}, {9, 13.4, 16, true, true},
	} {
		hour, note, ok := dayCut(c.offset, c.longitude)
		if hour != c.hour && !(math.IsNaN(hour) && math.IsNaN(c.hour)) || (note != "") != c.noted || ok != c.ok {
			t.Errorf("%v h at %v: hour %v, note %q, ok %v", c.offset, c.longitude, hour, note, ok)
		}
	}
	utc := strings.Replace(powerText, "in LST", "in UTC", 1) + powerDays
	if s, rep := read(t, utc); s.Station.ReadHour != 18 || !strings.Contains(strings.Join(rep.Notes, ";"), "universal time") {
		t.Errorf("read at %v, notes %v", s.Station.ReadHour, rep.Notes) // 24 - 97.1/15 = 17.5, rounded
	}
}

func TestPowerFaults(t *testing.T) {
	swap := func(old, new string) string { return strings.Replace(powerText+powerDays, old, new, 1) }
	checkFaults(t, []faultCase{
		{"preamble alone", powerText, `found "no header"`},
		{"no rain", strings.ReplaceAll(powerText+powerDays, "PRECTOTCORR", "RAIN"), `f.csv:15: column PRECTOTCORR: found "no such column"; allowed a file with T2M_MAX, T2M_MIN, PRECTOTCORR: request these parameters too`},
		{"no maximum", swap("DY,T2M_MAX", "DY,TMAX"), `column T2M_MAX: found "no such column"`},
		{"no minimum", swap("T2M_MIN,RH", "TMIN,RH"), `column T2M_MIN: found "no such column"`},
		{"no day", swap("MO,DY", "MO,DAY"), `column DY: found "no such column"`},
		{"unit", swap("Maximum (C)", "Maximum (R)"), `column T2M_MAX: found "T2M_MAX"; allowed the column in C`},
		{"hourly", swap("DY,T2M_MAX", "DY,HR"), `column HR: found "hourly rows"; allowed one row a day`},
		{"monthly", powerText + "PARAMETER,YEAR,JAN\nT2M,2020,1\n", `column DOY: found "no such column"`},
		{"text", swap("-3.5", "cold"), `f.csv:16: column T2M_MAX: found "cold"; allowed a number, or blank when missing`},
		{"30 February", swap("2020,2,29", "2020,2,30"), `f.csv:17: column DY: found "30"; allowed a whole number from 1 to 29`},
		{"day 366", "YEAR,DOY,T2M_MAX,T2M_MIN,PRECTOTCORR\n2001,366,2,1,0\n", `column DOY: found "366"; allowed a whole number from 1 to 365`},
		{"twice", swap("2020,3,1", "2020,2,28"), `f.csv:18: found "2020-02-28"; allowed each day once`},
		{"column twice", swap(",PS", ",RH2M"), `column RH2M: found "the column twice"`},
		{"short row", swap(",98.1", ""), `f.csv:16: found "9 fields"; allowed 10`},
		{"position", swap("46.9", "146.9"), `f.csv:4: column latitude: found "146.9"`},
		{"other side of the world", strings.NewReplacer("in LST", "in UTC", "-97.1", "97.1").Replace(powerText + powerDays), `column time standard: found "UTC"; allowed days of the place: request the data in LST`},
	})
}

// faultCase is a text with a fault and what its error says.
type faultCase struct{ name, text, want string }

// checkFaults reads texts that must be refused.
func checkFaults(t *testing.T, cases []faultCase) {
	t.Helper()
	for _, c := range cases {
		s, rep, err := Read("f.csv", strings.NewReader(c.text), Pick{})
		if err == nil || s != nil || rep != nil {
			t.Errorf("%s: read without an error", c.name)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks\n%s", c.name, err, c.want)
		}
	}
}

func FuzzPower(f *testing.F) { fuzz(f, powerText+powerDays, powerDays, "-BEGIN HEADER-)") }
