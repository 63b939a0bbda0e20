package weather

import (
	"math"
	"strings"
	"testing"
)

// Invented responses in the layout of the archive's CSV: the places, a blank line,
// the days with their units in the header.
const (
	openMeteoPlace1 = "latitude,longitude,elevation,utc_offset_seconds,timezone,timezone_abbreviation\n46.9,-97.1,285.0,-21600,America/Chicago,GMT-6\n\n"
	openMeteoDays1  = "time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm),shortwave_radiation_sum (MJ/m²),dew_point_2m_mean (°C),wind_speed_10m_mean (km/h),snow_depth_mean (m),snowfall_sum (cm)\n" +
		"2020-02-29,-5.0,-15.0,2.54,9.5,-14,36.0,0.2,3\n2020-03-01,5.0,-0.0,NaN,,0.0,18.0,0.1,0\n"

	openMeteoPlaces2 = "location_id,latitude,longitude,elevation,utc_offset_seconds,timezone,timezone_abbreviation\n0,46.9,-97.1,285.0,-21600,America/Chicago,GMT-6\n1,42.0,-93.6,300.0,-21600,America/Chicago,GMT-6\n\n"
	openMeteoDays2   = "location_id,time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm)\n0,2020-03-01,5,0,1\n0,2020-03-02,6,1,2\n1,2020-03-01,7,2,3\n"
)

// TestOpenMeteo: -5 C is 23 F, 2.54 mm 0.1 inch, 36 km/h 10 m/s by definition.
func TestOpenMeteo(t *testing.T) {
	us := strings.NewReplacer("°C", "°F", "(mm)", "(inch)", "km/h", "mp/h", "-5.0,-15.0,2.54", "23.0,5.0,0.1", "5.0,-0.0,", "41.0,32.0,",
		",-14,36.0,", ",6.8,22.3693629205,", ",0.0,18.0,", ",32,11.1846814603,", "_mean (m)", "_mean (ft)", "0.2,3", "0.656167979,3", "0.1,0", "0.3280839895,0").Replace(openMeteoDays1)
	for name, text := range map[string]string{"metric": openMeteoPlace1 + openMeteoDays1, "US": openMeteoPlace1 + us,
		"Latin-1": openMeteoPlace1 + strings.NewReplacer("°", "\xb0", "²", "\xb2").Replace(openMeteoDays1)} {
		s, rep := read(t, text)
		if want := (Station{"", "", 46.9, -97.1, 285, 24}); s.Station != want || s.Start != NewDate(2020, 2, 29) || s.Days() != 2 {
			t.Errorf("%s: station %+v, %d days from %v", name, s.Station, s.Days(), s.Start)
		}
		near(t, name+" Tmax", s.Tmax, []float64{-5, 5})
		near(t, name+" Tmin", s.Tmin, []float64{-15, 0})
		near(t, name+" precip", s.Precip, []float64{2.54, nan})
		near(t, name+" solar", s.Solar, []float64{9.5, nan})
		near(t, name+" vapour", s.Vapour, []float64{VapourFromDewPoint(-14), VapourFromDewPoint(0)})
		near(t, name+" wind", s.Wind, []float64{WindAt2m(10, 10), WindAt2m(5, 10)})
		near(t, name+" snow", s.SnowDepth, []float64{0.2, 0.1})
		if notes := strings.Join(rep.Notes, "; "); !strings.HasPrefix(notes, "columns not used: snowfall_sum") {
			t.Errorf("%s: notes %q", name, notes)
		}
	}
}

// TestOpenMeteoClock: a day of Greenwich is noted in the Midwest and placed by its
// hour, 24 - 97.1/15 = 17.5, rounded.
func TestOpenMeteoClock(t *testing.T) {
	gmt := strings.Replace(openMeteoPlace1, "-21600,America/Chicago,GMT-6", "0,GMT,GMT", 1) + openMeteoDays1
	if s, rep := read(t, gmt); s.Station.ReadHour != 18 || !strings.Contains(strings.Join(rep.Notes, ";"), "days are cut at hour 18 of the place") {
		t.Errorf("read at %v, notes %v", s.Station.ReadHour, rep.Notes)
	}
}

// TestOpenMeteoPlaces: of several places one is chosen by its location_id.
func TestOpenMeteoPlaces(t *testing.T) {
	for id, want := range map[string]float64{"0": 46.9, "1": 42} {
		s, _, err := Read("f.csv", strings.NewReader(openMeteoPlaces2+openMeteoDays2), Pick{Station: id})
		if err != nil {
			t.Fatal(err)
		}
		if s.Station.Latitude != want || s.Station.ID != id || s.Days() != map[string]int{"0": 2, "1": 1}[id] {
			t.Errorf("%s: %+v, %d days", id, s.Station, s.Days())
		}
	}
	_, _, err := Read("f.csv", strings.NewReader(openMeteoPlaces2+openMeteoDays2), Pick{Station: "7"})
	if err == nil || !strings.Contains(err.Error(), `column location_id: found "7"`) {
		t.Errorf("error %v", err)
	}
}

func TestOpenMeteoFaults(t *testing.T) {
	swap := func(old, new string) string { return strings.Replace(openMeteoPlace1+openMeteoDays1, old, new, 1) }
	checkFaults(t, []faultCase{
		{"no rain", swap("precipitation_sum", "rain_sum"), `f.csv:4: column precipitation_sum: found "no such column"; allowed a file with temperature_2m_max, temperature_2m_min, precipitation_sum: request these daily variables too`},
		{"no maximum", swap("temperature_2m_max", "tmax"), `column temperature_2m_max: found "no such column"`},
		{"no minimum", swap("temperature_2m_min", "tmin"), `column temperature_2m_min: found "no such column"`},
		{"hourly", swap("temperature_2m_max", "temperature_2m"), `column time: found "hourly rows"; allowed one row a day`},
		{"hourly rows", swap("2020-02-29", "2020-02-29T00:00"), `f.csv:5: column time: found "2020-02-29T00:00"; allowed one row a day, written as 2006-01-02: these are hourly rows`},
		{"seconds of an epoch", swap("2020-02-29", "1582934400"), `column time: found "1582934400"; allowed a day`},
		{"unit", swap("(mm)", "(furlong)"), `column precipitation_sum: found "precipitation_sum (furlong)"; allowed the column in mm`},
		{"several places", openMeteoPlaces2 + openMeteoDays2, `column location_id: found "2 stations"; allowed one, or a choice of one with --station: 0 46.9 -97.1 (2 days); 1 42 -93.6 (1 days)`},
		{"unknown place", openMeteoPlaces2 + "location_id,time,temperature_2m_max,temperature_2m_min,precipitation_sum\n5,2020-03-01,7,2,3\n", `column location_id: found "5"; allowed a location_id of the first block`},
		{"one block", openMeteoPlace1, `found "one block"; allowed a second one below`},
		{"no offset", swap("utc_offset_seconds", "offset"), `f.csv:1: column utc_offset_seconds: found "no such column"`},
		{"two tables", openMeteoPlace1 + openMeteoDays1 + "time,a,b,c,d,e,f,g,h\n", `f.csv:7: column time: found "time"; allowed one table of daily rows`},
		{"clock of the far side", strings.NewReplacer("-97.1", "139.7", "-21600", "0").Replace(openMeteoPlace1 + openMeteoDays1), `column utc_offset_seconds: found "+0 h at longitude 139.7"; allowed a clock that fits the place: request it with timezone=auto`},
		{"text", swap("2.54", "wet"), `f.csv:5: column precipitation_sum: found "wet"`},
		{"twice", swap("2020-03-01", "2020-02-29"), `allowed each day once`},
	})
}

// TestOpenMeteoHumidity: with no dew point, FAO-56 takes the range of relative
// humidity before its mean.
func TestOpenMeteoHumidity(t *testing.T) {
	s, _ := read(t, openMeteoPlace1+"time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm),relative_humidity_2m_mean (%),relative_humidity_2m_max (%),relative_humidity_2m_min (%)\n"+
		"2020-03-01,25,18,0,68,82,54\n2020-03-02,25,18,0,68,,\n")
	if !(math.Abs(s.Vapour[0]-1.70) < 0.005) { // FAO-56 Example 5
		t.Errorf("vapour %v", s.Vapour[0])
	}
	near(t, "mean humidity", s.Vapour[1:], []float64{VapourFromMeanHumidity(18, 25, 68)})
}

func FuzzOpenMeteo(f *testing.F) {
	fuzz(f, openMeteoPlace1+openMeteoDays1, openMeteoPlaces2+openMeteoDays2)
}
