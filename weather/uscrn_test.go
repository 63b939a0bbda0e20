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

// Faults name line and column.
func TestUSCRNFaults(t *testing.T) {
	for _, c := range []struct{ found, lacks string }{
		{strings.Replace(uscrnCold, "20200101", "20200230", 1), `s.csv:2: column LST_DATE: found "20200230"`},
		{strings.Replace(uscrnCold, "3.5,6.81", "trace,6.81", 1), `s.csv:2: column P_DAILY_CALC: found "trace"`},
		{uscrnCold + "\n" + strings.Replace(uscrnGap, "99999", "11111", 1), `s.csv:3: column WBANNO: found "USCRN11111"`},
	} {
		if _, _, err := Read("s.csv", strings.NewReader(uscrnFile(c.found)), Pick{}); err == nil || !strings.Contains(err.Error(), c.lacks) {
			t.Errorf("found %v; expected %s", err, c.lacks)
		}
	}
}
