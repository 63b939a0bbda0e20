package weather

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
)

// layoutUSCRN is the name of the layout.
const layoutUSCRN = "USCRN daily CSV"

// uscrnColumns is the order of the daily product (NOAA U.S. Climate Reference
// Network, CRND0103), which our copies carry as their header with commas.
var uscrnColumns = strings.Split("WBANNO,LST_DATE,CRX_VN,LONGITUDE,LATITUDE,T_DAILY_MAX,T_DAILY_MIN,T_DAILY_MEAN,T_DAILY_AVG,"+
	"P_DAILY_CALC,SOLARAD_DAILY,SUR_TEMP_DAILY_TYPE,SUR_TEMP_DAILY_MAX,SUR_TEMP_DAILY_MIN,SUR_TEMP_DAILY_AVG,"+
	"RH_DAILY_MAX,RH_DAILY_MIN,RH_DAILY_AVG,SOIL_MOISTURE_5_DAILY,SOIL_MOISTURE_10_DAILY,SOIL_MOISTURE_20_DAILY,"+
	"SOIL_MOISTURE_50_DAILY,SOIL_MOISTURE_100_DAILY,SOIL_TEMP_5_DAILY,SOIL_TEMP_10_DAILY,SOIL_TEMP_20_DAILY,"+
	"SOIL_TEMP_50_DAILY,SOIL_TEMP_100_DAILY", ",")

// Columns by number.
const (
	uscrnStation, uscrnDate, uscrnLongitude, uscrnLatitude = 0, 1, 3, 4
	uscrnTmax, uscrnTmin, uscrnPrecip, uscrnSolar          = 5, 6, 9, 10
	uscrnHumidMax, uscrnHumidMin, uscrnSoilFirst           = 15, 16, 23
)

// SoilDepths are those of the network's probes, m.
var SoilDepths = [5]float64{0.05, 0.10, 0.20, 0.50, 1.00}

// SoilRecord is the soil temperature that stands beside a Series, C by probe
// (SoilDepths) and day of the series; NaN is missing.
type SoilRecord [len(SoilDepths)][]float64

// soilLimit is the range of a soil temperature that can be true.
var soilLimit = limit{-40, 50, "C"}

// ReadSoil reads a daily CSV of the U.S. Climate Reference Network as Read does,
// and its soil temperatures with it.
func ReadSoil(name string, r io.Reader) (*Series, SoilRecord, *Report, error) {
	text, err := open(r)
	if err != nil {
		return nil, SoilRecord{}, nil, fmt.Errorf("%s: %w", name, err)
	}
	f := &faults{name: name}
	split := newSplitter(text)
	rec, probes := readUSCRNProbes(split, f)
	s, rep, err := f.series(split, rec)
	if err != nil {
		return nil, SoilRecord{}, nil, err
	}
	var soil SoilRecord
	for k := range soil {
		soil[k] = allMissing(s.Days())
		for _, p := range probes {
			soil[k][p.date-s.Start] = p.t[k]
		}
	}
	return s, soil, rep, nil
}

// isUSCRN recognises the header.
func isUSCRN(head []byte) bool { return headerOf(head)[0] == uscrnColumns[uscrnStation] }

// readUSCRN reads the days without their soil.
func readUSCRN(split *splitter, _ Pick, f *faults) *record {
	rec, _ := readUSCRNProbes(split, f)
	return rec
}

// probes are the soil temperatures of a day, C.
type probes struct {
	date Date
	t    [len(SoilDepths)]float64
}

// readUSCRNProbes reads the station's days. Days are of local standard time, midnight
// to midnight. -9999 is missing. A record of one station only.
func readUSCRNProbes(split *splitter, f *faults) (*record, []probes) {
	station := unknownStation()
	station.ReadHour = 24
	rec := &record{layout: layoutUSCRN}
	fields, _, _ := split.next()
	for i, name := range names(fields) {
		if i >= len(uscrnColumns) || name != uscrnColumns[i] {
			f.add(Fault{Line: split.line, Column: name, Found: name, Allowed: "the network's 28 columns in their order"})
			return nil, nil
		}
	}
	var below []probes
	for {
		fields, sound, more := split.next()
		if !more {
			break
		}
		if !sound {
			f.add(unpaired(split.line))
			continue
		}
		if len(fields) != len(uscrnColumns) {
			f.add(fieldCount(split.line, len(fields), len(uscrnColumns)))
			continue
		}
		r := missingRow(split.line)
		day := bytes.TrimSpace(fields[uscrnDate])
		n, ok := digits(day)
		if r.date, ok = uscrnDay(n, ok && len(day) == 8); !ok {
			f.add(Fault{Line: r.line, Column: "LST_DATE", Found: string(day), Allowed: "a day written as 20060102"})
			continue
		}
		value := func(column int) float64 { return uscrnNumber(f, split.line, column, fields[column]) }
		if id := "USCRN" + string(bytes.TrimSpace(fields[uscrnStation])); station.ID == "" {
			station.ID = id
			station.Longitude, station.Latitude = value(uscrnLongitude), value(uscrnLatitude)
		} else if station.ID != id {
			f.add(Fault{Line: r.line, Column: "WBANNO", Found: id, Allowed: station.ID, Mend: "one station a file"})
		}
		r.tmax, r.tmin = r.keep(value(uscrnTmax), temperatureLimit), r.keep(value(uscrnTmin), temperatureLimit)
		r.precip, r.solar = r.keep(value(uscrnPrecip), precipLimit), r.keep(value(uscrnSolar), solarLimit)
		r.vapour = VapourFromHumidityRange(r.tmin, r.tmax, value(uscrnHumidMin), value(uscrnHumidMax))
		p := probes{date: r.date}
		for k := range p.t {
			p.t[k] = r.keep(value(uscrnSoilFirst+k), soilLimit)
		}
		rec.add(r, split, f)
		below = append(below, p)
	}
	rec.station = station
	return rec, below
}

// uscrnDay is a date written as 20060102.
func uscrnDay(n int, written bool) (Date, bool) {
	y, m, d := n/10000, n/100%100, n%100
	if !written || !yearAllowed(y) || m < 1 || m > 12 || d < 1 || d > monthDays(y, m) {
		return 0, false
	}
	return NewDate(y, m, d), true
}

// uscrnNumber reads a cell, NaN where it holds the code for missing.
func uscrnNumber(f *faults, line, column int, text []byte) float64 {
	x, ok := number(string(bytes.TrimSpace(text)))
	if !ok {
		f.add(Fault{Line: line, Column: uscrnColumns[column], Found: string(text), Allowed: "a number, -9999 where missing"})
	}
	if !ok || x == -9999 {
		return math.NaN()
	}
	return x
}
