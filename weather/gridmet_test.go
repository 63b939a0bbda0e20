package weather

import (
	"math"
	"strings"
	"testing"
)

// The data set hands out no files of points itself, and no real extraction was to be
// had: these invented ones follow the variables, units and long names of the gridMET
// data catalogue (University of Idaho), so that a real one may still differ.
const (
	gridMETShort = "date,pr,tmmx,tmmn,srad,rmax,rmin,vs\n" +
		"2020-02-29,1.5,271.15,260.15,100,90,60,3.2\n2020-03-01,,32767,265.15,-9999,80,50,2\n"
	gridMETLong = `time,latitude[unit="degrees_north"],longitude[unit="degrees_east"],daily_maximum_temperature[unit="K"],daily_minimum_temperature[unit="K"],precipitation_amount[unit="mm"],` +
		`daily_mean_shortwave_radiation_at_surface[unit="W m-2"],daily_maximum_relative_humidity[unit="%"],daily_minimum_relative_humidity[unit="%"],daily_mean_wind_speed[unit="m/s"]` + "\n" +
		"2020-02-29T00:00:00Z,41.9,-93.6,271.15,260.15,1.5,100,90,60,3.2\n2020-03-01T00:00:00Z,41.9,-93.6,NaN,265.15,NaN,NaN,80,50,2\n"
)

// TestGridMET: 0 C is 273.15 K, and 100 W/m2 over a day of 86400 s are 8.64 MJ/m2.
func TestGridMET(t *testing.T) {
	celsius := strings.NewReplacer("271.15", "-2", "260.15", "-13", "265.15", "-8", "32767", "").Replace(gridMETShort)
	for name, text := range map[string]string{"short": gridMETShort, "long": gridMETLong, "in C": celsius} {
		s, _ := read(t, text)
		if s.Start != NewDate(2020, 2, 29) || s.Days() != 2 || s.Layout != layoutGridMET {
			t.Errorf("%s: %d days from %v in %s", name, s.Days(), s.Start, s.Layout)
		}
		near(t, name+" Tmax", s.Tmax, []float64{-2, nan})
		near(t, name+" Tmin", s.Tmin, []float64{-13, -8})
		near(t, name+" precip", s.Precip, []float64{1.5, nan})
		near(t, name+" solar", s.Solar, []float64{8.64, nan})
		near(t, name+" vapour", s.Vapour, []float64{VapourFromHumidityRange(-13, -2, 60, 90), nan})
		if !(math.Abs(s.Wind[0]-2.4) < 0.05) { // FAO-56 Example 14
			t.Errorf("%s: wind %v", name, s.Wind[0])
		}
	}
	if s, _ := read(t, gridMETLong); s.Station.Latitude != 41.9 || s.Station.Longitude != -93.6 || s.Station.ReadHour != 24 {
		t.Errorf("station %+v", s.Station)
	}
	if s, rep := read(t, "day,tmmn,tmmx,pr\n2020-01-01,260,270,1\n"); s.Solar != nil || s.Wind != nil ||
		!strings.Contains(strings.Join(rep.Notes, ";"), "no solar radiation: the file has no column srad") {
		t.Errorf("notes %v", rep.Notes)
	}
}

func TestGridMETFaults(t *testing.T) {
	swap := func(old, new string) string { return strings.Replace(gridMETShort, old, new, 1) }
	checkFaults(t, []faultCase{
		{"no rain", swap("pr,", "prec,"), `f.csv:1: column pr: found "no such column"; allowed a file with tmmx, tmmn, pr: extract these variables too`},
		{"no maximum", swap("tmmx", "tmax"), `column tmmx: found "no such column"`},
		{"no minimum", swap("tmmn", "tmin"), `column tmmn: found "no such column"`},
		{"unit", strings.Replace(gridMETLong, `"mm"`, `"kg"`, 1), `column precipitation_amount: found "precipitation_amount[unit=\"kg\"]"; allowed the column in mm`},
		{"two units", swap("265.15", "-8"), `f.csv:3: column tmmn: found "-8"; allowed one unit in all rows, K or C`},
		{"two places", strings.Replace(gridMETLong, "41.9,-93.6,NaN", "42.0,-93.6,NaN", 1), `f.csv:3: column latitude: found "a second place"`},
		{"far away", strings.ReplaceAll(gridMETLong, "-93.6", "93.6"), `column longitude: found "93.6"`},
		{"date", swap("2020-02-29", "2/29/2020"), `f.csv:2: column date: found "2/29/2020"`},
		{"text", swap("1.5", "wet"), `column pr: found "wet"`},
		{"twice", swap("2020-03-01", "2020-02-29"), `allowed each day once`},
	})
}

func FuzzGridMET(f *testing.F) { fuzz(f, gridMETShort, gridMETLong) }
