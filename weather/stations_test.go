package weather

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// realFile opens a file of the collection of real records kept beside the
// repository, or skips the test.
func realFile(t testing.TB, name string) []byte {
	t.Helper()
	path := filepath.Join("..", "..", "shared", "weather", name)
	data, err := os.ReadFile(path)
	if os.IsNotExist(err) {
		t.Skipf("no collection of real records here: %s", path)
	}
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// realRecord is a row of the completeness table that goes with the collection, made
// by other code: percent of calendar days with a value, mean of the years with at
// least 350 days of precipitation, extremes, days with Tmax below Tmin.
type realRecord struct {
	name, first, last                string
	days, rows                       int
	tmaxPct, tminPct, precipPct      float64
	fullYears                        int
	mmYear, coldest, warmest         float64
	crossed                          int
	wettest                          float64
	latitude                         float64
	solar, vapour, snowDepth, leapUp bool
}

// realFiles are the records that need no choice.
var realFiles = []realRecord{
	{"ghcnd-access/USC00115901.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.4, 99.7, 99.7, 29, 976, -36.1, 39.4, 1, 177, 42.10, false, false, false, false},
	{"ghcnd-access/USC00118740.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 100.0, 100.0, 99.8, 30, 1026, -31.7, 39.4, 1, 135, 40.08, false, false, false, false},
	{"ghcnd-access/USC00129557.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.3, 99.3, 99.3, 29, 1079, -32.8, 40.0, 1, 139, 40.00, false, false, false, false},
	{"ghcnd-access/USC00129670.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 98.8, 98.6, 99.3, 29, 998, -33.9, 38.9, 2, 103, 41.04, false, false, false, false},
	{"ghcnd-access/USC00130133.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.7, 99.6, 99.4, 29, 812, -34.4, 40.6, 7, 175, 43.07, false, false, false, false},
	{"ghcnd-access/USC00130600.csv.gz", "1985-01-01", "2014-12-31", 10957, 10928, 99.1, 99.0, 98.8, 27, 914, -38.9, 41.1, 3, 134, 41.88, false, false, false, false},
	{"ghcnd-access/USC00131402.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.3, 99.3, 99.7, 30, 877, -36.7, 40.0, 5, 169, 43.09, false, false, false, false},
	{"ghcnd-access/USC00132864.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.6, 99.5, 99.6, 29, 970, -40.0, 40.0, 1, 158, 42.85, false, false, false, false},
	{"ghcnd-access/USC00134142.csv.gz", "1985-05-01", "2014-12-31", 10837, 10807, 97.3, 97.3, 96.5, 26, 950, -35.0, 41.7, 5, 126, 42.52, false, false, false, false},
	{"ghcnd-access/USC00135952.csv.gz", "1985-01-01", "2014-12-31", 10957, 10899, 98.9, 98.8, 98.8, 28, 950, -35.6, 40.0, 3, 180, 43.06, false, false, false, false},
	{"ghcnd-access/USC00137979.csv.gz", "1985-01-01", "2014-12-31", 10957, 10926, 95.6, 95.2, 90.9, 12, 854, -32.8, 38.3, 16, 159, 42.63, false, false, false, false},
	{"ghcnd-access/USC00253185.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 100.0, 100.0, 100.0, 30, 696, -32.8, 42.2, 1, 101, 41.45, false, false, false, false},
	{"ghcnd-access/USC00256135.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 100.0, 100.0, 100.0, 30, 676, -36.1, 41.1, 0, 155, 42.07, false, false, false, false},
	{"ghcnd-access/USC00332791.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 100.0, 100.0, 100.0, 30, 949, -28.9, 40.0, 2, 121, 41.05, false, false, false, false},
	{"ghcnd-access/USC00338822.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 99.1, 99.0, 99.9, 30, 883, -29.4, 40.6, 3, 97, 41.52, false, false, false, false},
	{"ghcnd-access/USC00339312.csv.gz", "1985-01-01", "2014-12-31", 10957, 10957, 100.0, 100.0, 100.0, 30, 1045, -31.1, 38.3, 0, 101, 40.78, false, false, false, false},
	{"ghcnd-access/USW00014839.csv.gz", "1938-04-01", "2026-08-19", 32283, 32283, 100.0, 100.0, 99.6, 86, 827, -32.2, 39.4, 0, 173, 42.95, false, false, true, false},
	{"derived/msp_2014_access-wide.csv", "2014-01-01", "2014-12-31", 365, 365, 100.0, 100.0, 100.0, 1, 900, -30.5, 33.3, 0, 105, 44.8831, false, false, true, false},
	{"daymet/daymet_lisle-il_2018.csv", "2018-01-01", "2019-12-31", 730, 730, 100.0, 100.0, 100.0, 2, 1362, -30.5, 35.5, 0, 65, 41.81405, true, true, false, false},
	{"daymet/daymet_v3_single-pixel_oak-ridge-tn_2000-2010.csv", "2000-01-01", "2010-12-31", 4018, 4015, 99.9, 99.9, 99.9, 11, 1474, -16.5, 38.0, 0, 81, 36.0133, true, true, false, true},
}

// TestRealFiles reads all station files and both pixels and compares with the
// table, to half a unit of the digits it prints.
func TestRealFiles(t *testing.T) {
	for _, c := range realFiles {
		t.Run(filepath.Base(c.name), func(t *testing.T) { c.check(t, Pick{}) })
	}
}

// check reads the record of the collection and compares.
func (c realRecord) check(t *testing.T, pick Pick) {
	t.Helper()
	c.compare(t, realFile(t, c.name), pick)
}

// compare reads the record and compares.
func (c realRecord) compare(t *testing.T, data []byte, pick Pick) {
	t.Helper()
	s, rep, err := Read(c.name, bytes.NewReader(data), pick)
	if err != nil {
		t.Fatal(err)
	}
	total := rep.Total()
	if s.Start.String() != c.first || s.Last().String() != c.last || s.Days() != c.days || total.Rows != c.rows || total.Absent != c.days-c.rows {
		t.Errorf("from %v to %v, %d days, %d rows, %d absent", s.Start, s.Last(), s.Days(), total.Rows, total.Absent)
	}
	if rep.CompleteYears != c.fullYears || total.Contradictory != c.crossed || s.Station.Latitude != c.latitude && !(math.IsNaN(c.latitude) && math.IsNaN(s.Station.Latitude)) {
		t.Errorf("%d complete years, %d days crossed, latitude %v", rep.CompleteYears, total.Contradictory, s.Station.Latitude)
	}
	if leapDays := map[bool]int{true: 3}[c.leapUp]; total.CalendarFilled != leapDays {
		t.Errorf("%d days filled for the calendar, want %d", total.CalendarFilled, leapDays)
	}
	share := func(missing int) float64 { return 100 * float64(c.days-missing-total.CalendarFilled) / float64(c.days) }
	extreme := func(values []float64, pick func(a, b float64) float64) float64 {
		x := math.NaN()
		for _, v := range values {
			if math.IsNaN(x) {
				x = v
			} else if !math.IsNaN(v) {
				x = pick(x, v)
			}
		}
		return x
	}
	for _, v := range []struct {
		what             string
		got, want, slack float64
	}{
		{"Tmax %", share(total.MissingTmax), c.tmaxPct, 0.0501},
		{"Tmin %", share(total.MissingTmin), c.tminPct, 0.0501},
		{"precip %", share(total.MissingPrecip), c.precipPct, 0.0501},
		{"mm a year", rep.MeanAnnualPrecip, c.mmYear, 0.51},
		{"coldest", extreme(s.Tmin, math.Min), c.coldest, 0.0501},
		{"warmest", extreme(s.Tmax, math.Max), c.warmest, 0.0501},
		{"wettest", extreme(s.Precip, math.Max), c.wettest, 0.51},
	} {
		if !(math.Abs(v.got-v.want) <= v.slack) {
			t.Errorf("%s %v, want %v", v.what, v.got, v.want)
		}
	}
	if (s.Solar != nil) != c.solar || (s.Vapour != nil) != c.vapour || (s.SnowDepth != nil) != c.snowDepth {
		t.Errorf("solar %v, vapour %v, snow depth %v", s.Solar != nil, s.Vapour != nil, s.SnowDepth != nil)
	}
}

// TestRealRun takes each station through the whole chain. Every day comes out
// complete and in order, filling keeps the mean annual precipitation within 3 %
// except at the station with 9 % missing, and demand lies between 700 and 1100 mm a
// year, the range of published grass-reference totals of the corn belt from Ohio to
// Nebraska (common practice).
func TestRealRun(t *testing.T) {
	for _, c := range realFiles {
		if !strings.HasPrefix(c.name, "ghcnd-access/") {
			continue
		}
		t.Run(filepath.Base(c.name), func(t *testing.T) {
			s, rep, err := Read(c.name, bytes.NewReader(realFile(t, c.name)), Pick{})
			if err != nil {
				t.Fatal(err)
			}
			if !math.IsNaN(s.Station.ReadHour) {
				t.Fatalf("reading hour %v in a file without attributes", s.Station.ReadHour)
			}
			s.Station.ReadHour, _ = AssumedReadHour(s.Station.ID)
			s, _ = s.ByCivilDay()
			s, notes, err := s.Fill(FillRule{AllowLong: true})
			if err != nil {
				t.Fatal(err)
			}
			sum := 0.0
			for i := range s.Precip {
				if !s.complete(i) || s.Tmax[i] < s.Tmin[i] {
					t.Fatalf("%v: %v to %v C, %v mm", s.Date(i), s.Tmin[i], s.Tmax[i], s.Precip[i])
				}
				sum += s.Precip[i]
			}
			years := float64(s.Days()) / 365.25
			if got := sum / years; !(math.Abs(got/rep.MeanAnnualPrecip-1) < 0.03) && c.precipPct > 95 {
				t.Errorf("%.0f mm a year filled, %.0f in the complete years", got, rep.MeanAnnualPrecip)
			}
			eto, used, _, err := ReferenceET(s, s.Station.Latitude, 300, ETChoice{})
			if err != nil || used != Hargreaves {
				t.Fatal(used, err)
			}
			demand := 0.0
			for _, v := range eto {
				demand += v
			}
			if demand /= years; demand < 700 || demand > 1100 {
				t.Errorf("%.0f mm a year of demand", demand)
			}
			t.Logf("%.0f mm rain, %.0f mm demand a year, %d notes", sum/years, demand, len(notes))
		})
	}
}

// TestRefusedFiles: real files of other layouts are refused with the reason.
func TestRefusedFiles(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"gsom/USW00014837_madison_GSOM_MONTHLY_first60.csv", "this is a monthly summary"},
		{"cdo/cdo_daily_summaries_standard_units_montgomery_md_2stations.csv", "allowed one, or a choice of one with --station: USC00182336 DAMASCUS 3 SSW, MD US (2300 days); USC00181125 BRIGHTON DAM, MD US (1870 days)"},
		{"registry/modeldata-1.1.0_Chicago_weather_2001-2016.csv", "a mean rate of precipitation"},
	} {
		_, _, err := Read(c.name, bytes.NewReader(realFile(t, c.name)), Pick{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v lacks %q", c.name, err, c.want)
		}
	}
}

// century is a GHCN-Daily station CSV of 100 invented years.
func century() []byte {
	s := Invent(DemoClimate(), NewDate(1901, 1, 1), 100, 1)
	return ghcnText(s)
}

// BenchmarkReadCentury reads 100 years of a GHCN-Daily station CSV.
func BenchmarkReadCentury(b *testing.B) {
	text := century()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Read("century.csv", bytes.NewReader(text), Pick{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadPlainCentury reads 100 years of our own layout.
func BenchmarkReadPlainCentury(b *testing.B) {
	var text bytes.Buffer
	if err := Invent(DemoClimate(), NewDate(1901, 1, 1), 100, 1).WritePlain(&text); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Read("century.csv", bytes.NewReader(text.Bytes()), Pick{}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReferenceETCentury computes 100 years of demand.
func BenchmarkReferenceETCentury(b *testing.B) {
	s := Invent(DemoClimate(), NewDate(1901, 1, 1), 100, 1)
	for b.Loop() {
		if _, _, _, err := ReferenceET(s, 46.9, 300, ETChoice{Method: PenmanMonteith}); err != nil {
			b.Fatal(err)
		}
	}
}
