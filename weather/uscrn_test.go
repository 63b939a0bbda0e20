package weather

import (
	"math"
	"strings"
	"testing"
)

// uscrnFile is a station file with invented days.
func uscrnFile(days ...string) string {
	return strings.Join(uscrnColumns, ",") + "\n" + strings.Join(days, "\n") + "\n"
}

const (
	uscrnCold = "99999,20200101,2.622,-93.29,41.56,2.0,-4.0,-1.0,-0.8,3.5,6.81,C,1,-6,-2,90,50,70,0.3,0.3,0.3,0.3,0.3,-0.5,0.1,1.0,3.5,5.4"
	uscrnGap  = "99999,20200103,2.622,-93.29,41.56,-9999,-9999,-9999,-9999,-9999,-9999,U,-9999,-9999,-9999,-9999,-9999,-9999,-99,-99,-99,-99,-99,-9999,0.0,0.9,3.4,-9999"
)

// The layout as NOAA's column list of the daily product gives it: days of local
// standard time, -9999 missing, probes at 5, 10, 20, 50 and 100 cm.
func TestUSCRN(t *testing.T) {
	s, soil, rep, err := ReadSoil("station.csv", strings.NewReader(uscrnFile(uscrnCold, uscrnGap)))
	if err != nil {
		t.Fatal(err)
	}
	if s.Days() != 3 || s.Start != NewDate(2020, 1, 1) || s.Station.ReadHour != 24 || s.Station.Latitude != 41.56 {
		t.Fatalf("found %d days from %v at %+v", s.Days(), s.Start, s.Station)
	}
	if s.Tmin[0] != -4 || s.Tmax[0] != 2 || s.Precip[0] != 3.5 || s.Solar[0] != 6.81 {
		t.Errorf("first day: found %g, %g C, %g mm, %g MJ/m2", s.Tmin[0], s.Tmax[0], s.Precip[0], s.Solar[0])
	}
	// FAO-56 eq. 11 and 17 by hand: 0.4540 kPa at -4 C times 90 %, 0.7056 at 2 C times
	// 50 %, halved: 0.3807; the tolerance is that of four digits.
	if math.Abs(s.Vapour[0]-0.3807) > 2e-4 {
		t.Errorf("vapour pressure: found %.4f kPa, expected 0.3807", s.Vapour[0])
	}
	if soil[0][0] != -0.5 || soil[4][0] != 5.4 || soil[1][2] != 0 || !math.IsNaN(soil[0][2]) || !math.IsNaN(soil[3][1]) {
		t.Errorf("probes: found %v", soil)
	}
	if !math.IsNaN(s.Precip[2]) || !s.Marks[1].Has(DayAbsent) || rep.First != s.Start {
		t.Errorf("third day: found %g mm; second marked %v", s.Precip[2], s.Marks[1])
	}
}

// The network's own form, parted by blanks and without header, and a copy with tabs
// or with its header parted by blanks, give what the copy with commas gives; -99 of
// soil moisture is not read.
func TestUSCRNBlanks(t *testing.T) {
	want, soil, _, err := ReadSoil("station.csv", strings.NewReader(uscrnFile(uscrnCold, uscrnGap)))
	if err != nil {
		t.Fatal(err)
	}
	blanks := strings.ReplaceAll(uscrnCold+"\n"+uscrnGap+"\n", ",", "   ")
	for name, text := range map[string]string{
		"blanks": blanks, "tabs": strings.ReplaceAll(blanks, "   ", "\t"), "CRLF": strings.ReplaceAll(blanks, "\n", " \r\n"),
		"header": strings.Join(uscrnColumns, " ") + "\n" + blanks,
	} {
		got, below, rep, err := ReadSoil("station.txt", strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !sameSeries(got, want) || len(rep.Notes) > 0 {
			t.Errorf("%s: another series; notes %v", name, rep.Notes)
		}
		for k := range soil {
			near(t, name, below[k], soil[k])
		}
	}
}

// Columns may stand in another order, and those that a simulation can do without may
// be missing: a note names them.
func TestUSCRNColumns(t *testing.T) {
	s, rep := read(t, "LST_DATE,WBANNO,T_DAILY_MIN,T_DAILY_MAX,P_DAILY_CALC,LONGITUDE,LATITUDE,CRX_VN,T_DAILY_MEAN,T_DAILY_AVG,SUR_TEMP_DAILY_TYPE,SUR_TEMP_DAILY_MAX,SUR_TEMP_DAILY_MIN,SUR_TEMP_DAILY_AVG,RH_DAILY_MAX,MINE\n"+
		"20200101,99999,-4.0,2.0,3.5,-93.29,41.56,2.622,-1,-0.8,C,1,-6,-2,90,5\n")
	if s.Tmin[0] != -4 || s.Tmax[0] != 2 || s.Precip[0] != 3.5 || s.Solar != nil || s.Vapour != nil || s.Station.ID != "USCRN99999" {
		t.Errorf("series %+v", s)
	}
	want := "no solar radiation: the file has no column SOLARAD_DAILY; the daily range of temperature serves; no vapour pressure: the file has no column RH_DAILY_MIN; the night's least temperature serves as dew point; columns not used: MINE"
	if got := strings.Join(rep.Notes, "; "); got != want {
		t.Errorf("notes %q", got)
	}
}

// Of several stations one is chosen by its number, with the prefix or without.
func TestUSCRNStations(t *testing.T) {
	text := uscrnFile(uscrnCold, strings.Replace(strings.Replace(uscrnCold, "99999", "11111", 1), "2.0,-4.0", "7.0,-1.0", 1))
	for _, pick := range []string{"11111", "uscrn11111"} {
		s, _, err := Read("s.csv", strings.NewReader(text), Pick{Station: pick})
		if err != nil {
			t.Fatal(err)
		}
		if s.Station.ID != "USCRN11111" || s.Days() != 1 || s.Tmax[0] != 7 {
			t.Errorf("station %+v, Tmax %v", s.Station, s.Tmax)
		}
	}
}

// Faults name line and column.
func TestUSCRNFaults(t *testing.T) {
	for _, missing := range []string{"LST_DATE", "T_DAILY_MAX", "T_DAILY_MIN", "P_DAILY_CALC"} {
		text := strings.Replace(uscrnFile(uscrnCold), missing, "RENAMED", 1)
		if _, _, err := Read("s.csv", strings.NewReader(text), Pick{}); err == nil || !strings.Contains(err.Error(), "s.csv:1: column "+missing+`: found "no such column"`) {
			t.Errorf("without %s: %v", missing, err)
		}
	}
	for _, c := range []struct{ found, lacks string }{
		{uscrnCold + "\n" + uscrnCold + ",1", `s.csv:3: found "29 fields"; allowed 28, as in the header`},
		{uscrnCold + "\n" + strings.Replace(uscrnCold, "3.5,6.81", "4.5,6.81", 1), `s.csv:3: found "2020-01-01"; allowed each day once`},
		{strings.Replace(uscrnCold, "20200101", "20200230", 1), `s.csv:2: column LST_DATE: found "20200230"`},
		{strings.Replace(uscrnCold, "3.5,6.81", "trace,6.81", 1), `s.csv:2: column P_DAILY_CALC: found "trace"`},
		{uscrnCold + "\n" + strings.Replace(uscrnGap, "99999", "11111", 1), `column WBANNO: found "2 stations"; allowed one, or a choice of one with --station: 99999 (1 days); 11111 (no temperature, no precipitation)`},
	} {
		if _, _, err := Read("s.csv", strings.NewReader(uscrnFile(c.found)), Pick{}); err == nil || !strings.Contains(err.Error(), c.lacks) {
			t.Errorf("found %v; expected %s", err, c.lacks)
		}
	}
}
