package weather

import (
	"strings"
	"testing"
)

// TestLong: the three forms, by hand from the column list of the by-year files (README
// of Daily GHCN 3.22): lines in any order, blank or absent values missing.
func TestLong(t *testing.T) {
	lines := []string{"20210202,TMIN,-111,,,7,", "20210201,PRCP,25,,,7,0700", "20210201,TMAX,-100,,,7,", "20210202,PRCP,0,T,,7,0700", "20210201,TMIN,-172,,,7,",
		"20210202,TMAX,-50,,I,7,", "20210202,WT01,1,,,7,", "20210203,PRCP,-9999,,,7,1800", "20210203,TMIN,-20,,,7,", "20210201,SNWD,150,,,7,", "20210202,AWND,32,,,W,"}
	for name, text := range map[string]string{
		"no header":  "USC00000000," + strings.Join(lines, "\nUSC00000000,") + "\n",
		"header":     longHead + "USC00000000," + strings.Join(lines, "\r\nUSC00000000,"),
		"without id": longBareHead + strings.Join(lines, "\n") + "\n",
	} {
		s, rep := read(t, text)
		if s.Layout != "GHCN-Daily long CSV" || s.Start != NewDate(2021, 2, 1) || s.Days() != 3 || s.Station.ReadHour != 7 {
			t.Fatalf("%s: %s, %d days from %v, station %+v", name, s.Layout, s.Days(), s.Start, s.Station)
		}
		near(t, "Tmax", s.Tmax, []float64{-10, nan, nan})
		near(t, "Tmin", s.Tmin, []float64{-17.2, -11.1, -2})
		near(t, "precip", s.Precip, []float64{2.5, 0, nan})
		near(t, "snow depth", s.SnowDepth, []float64{0.15, nan, nan})
		near(t, "wind", s.Wind, []float64{nan, WindAt2m(3.2, 10), nan})
		if !s.Marks[1].Has(TraceRain) || rep.Total().Rejected != 1 {
			t.Errorf("%s: marks %v, report %+v", name, s.Marks, rep.Total())
		}
		if got := strings.Join(rep.Notes, "; "); got != "elements not used: WT01" {
			t.Errorf("notes %q", got)
		}
		if want := map[bool]string{true: "", false: "USC00000000"}[name == "without id"]; s.Station.ID != want {
			t.Errorf("%s: station %q", name, s.Station.ID)
		}
	}
}

// TestLongFaults: each fault says where and what is allowed.
func TestLongFaults(t *testing.T) {
	day := func(id string) string {
		return id + "20210201,TMAX,10,,,7,0700\n" + id + "20210201,TMIN,0,,,7,0700\n" + id + "20210201,PRCP,0,,,7,0700\n"
	}
	const a, b = "USC00000000,", "USC00000001,"
	for _, c := range []struct{ name, text, pick, want string }{
		{"no element column", "ID,DATE,WHAT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n", "", `f.csv:1: column ELEMENT: found "no such column"; allowed a file with DATE, ELEMENT, DATA_VALUE`},
		{"no value column", "ID,DATE,ELEMENT,V,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n", "", `column DATA_VALUE: found "no such column"`},
		{"no date column", "day,attr,value,a,b,c,d\n", "", `column date: found "no such column"; allowed a file with date, attr, value`},
		{"bare value", "date,attr,v,a,b,c,d\n", "", `column value: found "no such column"`},
		{"column twice", "ID,DATE,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG\n", "", `column DATE: found "the column twice"`},
		{"no minimum", a + "20210201,TMAX,10,,,7,0700\n" + a + "20210201,PRCP,10,,,7,0700\n", "", `f.csv: column TMIN: found "no such element"`},
		{"date", day(a) + a + "20210230,TMAX,10,,,7,\n", "", `f.csv:4: column DATE: found "20210230"; allowed a day written as 20060102`},
		{"value", day(a) + a + "20210202,TMAX,1.5,,,7,\n", "", `f.csv:4: column TMAX: found "1.5"; allowed a whole number`},
		{"short line", day(a) + a + "20210202,TMAX\n", "", `f.csv:4: found "3 fields"; allowed 8`},
		{"open quote", day(a) + "\"" + a + "20210202,TMAX,1,,,7,\n", "", `f.csv:4: found "a quote without its partner"`},
		{"twice", day(a) + a + "20210201,PRCP,5,,,7,\n", "", `f.csv:4: column PRCP: found "5 on 2021-02-01"; allowed each element once a day: an earlier line gives 0`},
		{"two stations", day(a) + b + "20210201,TMAX,1,,,7,\n" + b + "20210201,TMIN,1,,,7,\n" + b + "20210201,PRCP,-9999,,,7,\n", "", `column ID: found "2 stations"; allowed one, or a choice of one with --station: USC00000000 (1 days); USC00000001 (no precipitation)`},
		{"no such station", longBareHead + day(""), "USC00000000", `column ID: found "USC00000000"; allowed a station of the file, by id or name: one without id or name (1 days)`},
		{"no rows", longHead, "", "no row of data"},
	} {
		s, _, err := Read("f.csv", strings.NewReader(c.text), Pick{Station: c.pick})
		if err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks\n%s", c.name, err, c.want)
		}
	}
	if s, _, err := Read("f.csv", strings.NewReader(day(a)+day(b)+a+"2021,TMAX,x,,,7,\n"), Pick{Station: "USC00000001"}); err != nil || s.Station.ID != "USC00000001" {
		t.Errorf("second station: %v", err)
	}
}
