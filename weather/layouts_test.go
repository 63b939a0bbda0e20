package weather

import (
	"bytes"
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// TestRealLayouts reads the other layouts of the archive of the same agency and
// compares with the table of the collection. Where the table has one row for several
// copies of the Minneapolis year it is the row of each; latitude stands in the wide
// ones only. Of Praha-Kbely it leaves out 2 dates, all of whose values failed the
// agency's check: they are rows here. The table counts a day given its share of a
// total as missing, so the two Maryland stations are held apart by TestRealTotals.
func TestRealLayouts(t *testing.T) {
	msp := realRecord{"", "2014-01-01", "2014-12-31", 365, 365, 100, 100, 100, 1, 900, -30.5, 33.3, 0, 105, nan, false, false, true, false}
	with := func(name string, latitude float64) realRecord {
		c := msp
		c.name, c.latitude = name, latitude
		return c
	}
	inches := with("derived/msp_2014_cdo-standard.csv", 44.8831)
	inches.mmYear, inches.coldest = 899, -30.6
	for _, c := range []realRecord{
		{"ghcnd-dly/EZM00011518.dly", "1940-01-01", "2017-05-31", 28276, 21056, 60.0, 50.5, 53.3, 18, 527, -28.9, 37.4, 0, 119, nan, false, false, true, false},
		{"ghcnd-long/USW00014922_msp_2014_long.csv", "2014-01-01", "2015-02-05", 401, 401, 100, 100, 100, 1, 900, -30.5, 33.3, 0, 105, nan, false, false, true, false},
		with("derived/msp_2014.dly", nan),
		with("derived/msp_2014_by-year-long.csv", nan),
		with("derived/msp_2014_cdo-metric.csv", 44.8831),
		inches,
		{"uscrn/IA_Des_Moines_17_E_daily_2020.csv", "2020-01-01", "2020-12-31", 366, 366, 99.7, 97.8, 100, 1, 780, -22.8, 35.1, 0, 75, 41.56, true, true, false, false},
		{"uscrn/IN_Bedford_5_WNW_daily_2007-2017.csv", "2007-10-03", "2017-10-04", 3655, 3655, 99.6, 99.6, 99.7, 9, 1272, -23.0, 40.0, 0, 117, 38.89, true, true, false, false},
		{"uscrn/KS_Manhattan_6_SSW_daily_2003-2017.csv", "2003-10-01", "2017-10-04", 5118, 5118, 99.2, 99.2, 98.6, 13, 859, -27.8, 42.8, 0, 112, 39.10, true, true, false, false},
		{"uscrn/MN_Goodridge_12_NNW_daily_2020.csv", "2020-01-01", "2020-12-31", 366, 366, 100, 100, 99.5, 1, 595, -36.2, 31.9, 0, 62, 48.31, true, true, false, false},
	} {
		t.Run(filepath.Base(c.name), func(t *testing.T) { c.check(t, Pick{}) })
	}
}

// realCDO is the export with two Maryland stations.
const realCDO = "cdo/cdo_daily_summaries_standard_units_montgomery_md_2stations.csv"

// TestRealTotals: the two stations of the export in standard units, by id and by
// name. Period, rows, extremes and temperature are those of the table of the
// collection. Its precipitation leaves out totals of several days: Damascus has none,
// Brighton Dam 28 of which 25 carry the flag L, and one overlaps the one before. The
// reading hours are the most frequent in the file: 2200 on 2300 days of Damascus, 0800
// on 2044 of 2052 at Brighton Dam (both counted apart).
func TestRealTotals(t *testing.T) {
	data := realFile(t, realCDO)
	for _, c := range []struct {
		pick, first, last          string
		days, rows                 int
		tmaxPct, tminPct, coldest  float64
		warmest, precipPct, mmYear float64
		fullYears, totals          int
		readHour                   float64
	}{
		{"USC00182336", "2011-12-31", "2018-04-24", 2307, 2300, 99.7, 99.7, -18.3, 36.1, 99.7, 1201, 6, 0, 22},
		{"brighton dam, md us", "2011-12-31", "2017-10-16", 2117, 2101, 90.3, 88.3, -19.4, 37.8, 95.6, 1228, 4, 27, 8},
	} {
		s, rep, err := Read("cdo.csv", bytes.NewReader(data), Pick{Station: c.pick})
		if err != nil {
			t.Fatal(err)
		}
		total := rep.Total()
		if s.Start.String() != c.first || s.Last().String() != c.last || s.Days() != c.days || total.Rows != c.rows {
			t.Errorf("%s: from %v to %v, %d days, %d rows", c.pick, s.Start, s.Last(), s.Days(), total.Rows)
		}
		share := func(missing int) float64 { return 100 * (1 - float64(missing)/float64(c.days)) }
		near := func(what string, got, want, slack float64) {
			if !(math.Abs(got-want) <= slack) {
				t.Errorf("%s: %s %v, want %v", c.pick, what, got, want)
			}
		}
		near("Tmax %", share(total.MissingTmax), c.tmaxPct, 0.0501)
		near("Tmin %", share(total.MissingTmin), c.tminPct, 0.0501)
		near("days read that day %", share(total.MissingPrecip+total.Spread), c.precipPct, 0.0501)
		low, high := math.Inf(1), math.Inf(-1)
		for i := range s.Tmin {
			if !math.IsNaN(s.Tmin[i]) {
				low = min(low, s.Tmin[i])
			}
			if !math.IsNaN(s.Tmax[i]) {
				high = max(high, s.Tmax[i])
			}
		}
		near("coldest", low, c.coldest, 0.0501)
		near("warmest", high, c.warmest, 0.0501)
		notes := strings.Join(rep.Notes, "\n")
		if (total.Spread > 0) != (c.totals > 0) || total.Spread < c.totals || rep.CompleteYears < c.fullYears || s.Station.ReadHour != c.readHour {
			t.Errorf("%s: %d days spread, %d complete years, read at %v", c.pick, total.Spread, rep.CompleteYears, s.Station.ReadHour)
		}
		if c.totals == 0 {
			near("mm a year", rep.MeanAnnualPrecip, c.mmYear, 0.51)
		} else if strings.Count(notes, "was left out") != 1 || !strings.Contains(notes, "total of 35.1 mm read on 2012-10-20 was left out: it overlaps another total on 2012-10-19") {
			t.Errorf("%s: notes\n%s", c.pick, notes)
		}
		if !strings.Contains(notes, "taken as standard units: TMAX and TMIN") {
			t.Errorf("notes\n%s", notes)
		}
	}
}

// TestSameStation: the Minneapolis year in six layouts is one series. Tenths in
// every layout but the standard export, where TMAX is rounded to 1 F, 0.28 C, and
// PRCP to 0.01 inch, 0.127 mm; SNWD to 0.1 inch, 1.3 mm.
func TestSameStation(t *testing.T) {
	get := func(name string) *Series {
		s, _, err := Read(name, bytes.NewReader(realFile(t, name)), Pick{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	want := get("derived/msp_2014_access-wide.csv")
	compare := func(name string, temperature, rain, snow float64) {
		s := get(name)
		s, err := s.Slice(want.Start, want.Last())
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range []struct {
			what  string
			a, b  []float64
			slack float64
		}{
			{"Tmax", s.Tmax, want.Tmax, temperature}, {"Tmin", s.Tmin, want.Tmin, temperature},
			{"precipitation", s.Precip, want.Precip, rain}, {"snow depth", s.SnowDepth, want.SnowDepth, snow},
		} {
			for i := range e.a {
				if !(math.Abs(e.a[i]-e.b[i]) <= e.slack) {
					t.Errorf("%s: %s on %v is %v, not %v", name, e.what, s.Date(i), e.a[i], e.b[i])
				}
			}
		}
	}
	for _, name := range []string{"derived/msp_2014.dly", "derived/msp_2014_by-year-long.csv", "derived/msp_2014_cdo-metric.csv", "ghcnd-long/USW00014922_msp_2014_long.csv"} {
		compare(name, 1e-9, 1e-9, 1e-9)
	}
	compare("derived/msp_2014_cdo-standard.csv", 5./18+1e-9, 0.127+1e-9, 0.00128)
}
