package main

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"mottle/weather"
)

// plainDay is a day of an invented record as "mottle weather invent" writes it.
type plainDay struct {
	date                    weather.Date
	tmin, tmax, rain, solar float64 // C, C, mm, MJ/m2
}

// readInvented reads the columns date, tmin_C, tmax_C, precip_mm, solar_MJ_m2.
func readInvented(text string) ([]plainDay, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	var days []plainDay
	for _, row := range rows[1:] {
		var d plainDay
		if d.date, err = weather.ParseDate(row[0]); err != nil {
			return nil, err
		}
		for i, to := range []*float64{&d.tmin, &d.tmax, &d.rain, &d.solar} {
			if *to, err = strconv.ParseFloat(row[1+i], 64); err != nil {
				return nil, err
			}
		}
		days = append(days, d)
	}
	return days, nil
}

// writeGHCN writes the days as the station file of a cooperative observer who
// reads at 07:00, so that a reading's maximum is that of the day before (layout:
// NOAA NCEI, GHCN-Daily README: tenths of mm and of C, attributes M,Q,S,HHMM).
func writeGHCN(days []plainDay) []byte {
	var b bytes.Buffer
	b.WriteString(`"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"` + "\n")
	before := days[0]
	for _, d := range days {
		fmt.Fprintf(&b, "\"USC00000000\",\"%v\",\"46.9000\",\"-97.1000\",\"275.0\",\"INVENTED 3 S, ZZ US\",\"%5.0f\",\",,7,0700\",\"%5.0f\",\",,7,0700\",\"%5.0f\",\",,7,0700\"\n",
			d.date, 10*d.rain, 10*math.Max(before.tmax, d.tmin), 10*d.tmin)
		before = d
	}
	return b.Bytes()
}

// writeDaymet writes the days as one pixel's file (layout: ORNL DAAC, Daymet
// version 4; radiation is a mean over daylight, here of 12 h). Vapour pressure is
// that of a dew point equal to Tmin (Allen et al. 1998, FAO-56, eq. 11 and 48).
// The product has no 31 December in leap years.
func writeDaymet(days []plainDay) []byte {
	const daylight = 43200 // s
	var b bytes.Buffer
	b.WriteString("Latitude: 46.9  Longitude: -97.1\nX & Y on Lambert Conformal Conic: 0.00 0.00\nTile: 00000\nElevation: 275 meters\n" +
		"All years; all variables; invented, of no place\nHow to cite: invented for tests\n" +
		"year,yday,dayl (s),prcp (mm/day),srad (W/m^2),swe (kg/m^2),tmax (deg c),tmin (deg c),vp (Pa)\n")
	for _, d := range days {
		if d.date.DayOfYear() == 366 {
			continue
		}
		vapour := 610.8 * math.Exp(17.27*d.tmin/(d.tmin+237.3))
		fmt.Fprintf(&b, "%d,%d,%.2f,%.2f,%.2f,0.00,%.2f,%.2f,%.2f\n",
			d.date.Year(), d.date.DayOfYear(), float64(daylight), d.rain, d.solar*1e6/daylight, d.tmax, d.tmin, vapour)
	}
	return b.Bytes()
}

// layoutCommand turns an invented record of a script into an agency's layout,
// compressed when the name asks for it: ghcn weather.csv station.csv.gz
func layoutCommand(write func([]plainDay) []byte) func(ts *testscript.TestScript, neg bool, args []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if neg || len(args) != 2 {
			ts.Fatalf("usage: ghcn|daymet from to")
		}
		days, err := readInvented(ts.ReadFile(args[0]))
		ts.Check(err)
		data := write(days)
		if strings.HasSuffix(args[1], ".gz") {
			var b bytes.Buffer
			z := gzip.NewWriter(&b)
			_, err := z.Write(data)
			ts.Check(err)
			ts.Check(z.Close())
			data = b.Bytes()
		}
		ts.Check(os.WriteFile(ts.MkAbs(args[1]), data, 0o644))
	}
}

// TestRainOfEveryLayout: the precipitation that compare reports is the sum of the
// file's own column, whatever the layout. The sum is taken here from the text; a
// float sum of 730 values is good to 1e-9 mm.
func TestRainOfEveryLayout(t *testing.T) {
	const years = 2 // 1981 and 1982, neither a leap year
	plain := output(t, "weather", "invent", "--years", strconv.Itoa(years))
	days, err := readInvented(plain)
	if err != nil {
		t.Fatal(err)
	}
	round := func(x, to float64) float64 { return math.RoundToEven(x/to) * to }
	for _, c := range []struct {
		name     string
		file     []byte
		smallest float64 // step of the layout's rain, mm; 0 for none
	}{
		{"plain", []byte(plain), 0},
		{"GHCN-Daily", writeGHCN(days), 0.1},
		{"Daymet", writeDaymet(days), 0.01},
	} {
		want := 0.0
		for _, d := range days {
			if x := d.rain; c.smallest > 0 {
				want += round(x, c.smallest) / years
			} else {
				want += x / years
			}
		}
		name := t.TempDir() + "/weather.csv"
		if err := os.WriteFile(name, c.file, 0o644); err != nil {
			t.Fatal(err)
		}
		r := readResult(t, output(t, "compare", "--weather", name, "--central", "--format", "json"))
		if got := r.measure(t, "precipitation").AsItLies.(float64); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %.12g mm a year, the file's column gives %.12g", c.name, got, want)
		}
	}
}
