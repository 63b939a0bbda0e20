package weather

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// layoutUSCRN is the name of the layout.
const layoutUSCRN = "USCRN daily"

// uscrnColumns are the columns of the daily product in its order (NOAA U.S. Climate
// Reference Network, CRND0103). The network's own files have no header and part
// their fields by blanks; copies carry these names as header, and commas.
var uscrnColumns = strings.Split("WBANNO,LST_DATE,CRX_VN,LONGITUDE,LATITUDE,T_DAILY_MAX,T_DAILY_MIN,T_DAILY_MEAN,T_DAILY_AVG,"+
	"P_DAILY_CALC,SOLARAD_DAILY,SUR_TEMP_DAILY_TYPE,SUR_TEMP_DAILY_MAX,SUR_TEMP_DAILY_MIN,SUR_TEMP_DAILY_AVG,"+
	"RH_DAILY_MAX,RH_DAILY_MIN,RH_DAILY_AVG,SOIL_MOISTURE_5_DAILY,SOIL_MOISTURE_10_DAILY,SOIL_MOISTURE_20_DAILY,"+
	"SOIL_MOISTURE_50_DAILY,SOIL_MOISTURE_100_DAILY,SOIL_TEMP_5_DAILY,SOIL_TEMP_10_DAILY,SOIL_TEMP_20_DAILY,"+
	"SOIL_TEMP_50_DAILY,SOIL_TEMP_100_DAILY", ",")

// SoilDepths are those of the network's probes, m.
var SoilDepths = [5]float64{0.05, 0.10, 0.20, 0.50, 1.00}

// SoilRecord is the soil temperature that stands beside a Series, C by probe
// (SoilDepths) and day of the series; NaN is missing.
type SoilRecord [len(SoilDepths)][]float64

// Ranges of soil temperature and of humidity that can be true.
var (
	soilLimit     = limit{-40, 50, "C"}
	humidityLimit = limit{0, 100, "%"}
)

// uscrnPrefix stands before the network's numbers in Station.ID.
const uscrnPrefix = "USCRN"

// ReadSoil reads a daily file of the U.S. Climate Reference Network as Read does,
// and its soil temperatures with it.
func ReadSoil(name string, r io.Reader) (*Series, SoilRecord, *Report, error) {
	text, err := open(r)
	if err != nil {
		return nil, SoilRecord{}, nil, inFile(name, err)
	}
	f := &faults{name: name}
	split := newSplitter(text)
	rec, probes := readUSCRNProbes(split, Pick{}, f)
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

// isUSCRN recognises the header, with some names missing too, or a first line of
// data.
func isUSCRN(head []byte) bool {
	line := firstLine(head)
	known := 0
	for _, name := range uscrnWords(line) {
		if slices.Contains(uscrnColumns, string(name)) {
			known++
		}
	}
	return known >= len(uscrnColumns)/2 || isUSCRNLine(line)
}

// uscrnWords parts a line by commas or blanks.
func uscrnWords(line []byte) [][]byte {
	s := splitter{blanks: bytes.IndexByte(line, ',') < 0}
	s.split(line)
	return s.fields
}

// isUSCRNLine recognises a line of data parted by blanks: a station of up to five
// digits, a day, and as many numbers as the product has.
func isUSCRNLine(line []byte) bool {
	words := uscrnWords(line)
	if len(words) != len(uscrnColumns) {
		return false
	}
	_, station := digits(words[0])
	_, day := dayOf(digits(words[1]))
	return station && day && len(words[0]) <= 5
}

// readUSCRN reads the days without their soil.
func readUSCRN(split *splitter, pick Pick, f *faults) *record {
	rec, _ := readUSCRNProbes(split, pick, f)
	return rec
}

// probes are the soil temperatures of a day, C.
type probes struct {
	date Date
	t    [len(SoilDepths)]float64
}

// readUSCRNProbes reads the days of one station. They are of local standard time,
// midnight to midnight. -9999 is missing, -99 in soil moisture, which is not read.
func readUSCRNProbes(split *splitter, pick Pick, f *faults) (*record, []probes) {
	t := uscrnSheet(split, f)
	columns := map[string]column{}
	for _, name := range uscrnColumns {
		columns[name] = t.column(anyUnit, name)
	}
	var (
		wban, date, longitude, latitude = columns["WBANNO"], columns["LST_DATE"], columns["LONGITUDE"], columns["LATITUDE"]
		tmax, tmin                      = columns["T_DAILY_MAX"], columns["T_DAILY_MIN"]
		precip, solar                   = columns["P_DAILY_CALC"], columns["SOLARAD_DAILY"]
		humidMax, humidMin              = columns["RH_DAILY_MAX"], columns["RH_DAILY_MIN"]
		soil                            [len(SoilDepths)]column
	)
	for k, z := range SoilDepths {
		soil[k] = columns[fmt.Sprintf("SOIL_TEMP_%.0f_DAILY", 100*z)]
	}
	t.require("take the file as the network hands it out", date, tmax, tmin, precip)
	if f.any() {
		return nil, nil
	}
	choice := newChooser(f, split, wban.name, uscrnPrefix, pick)
	rec := &record{layout: layoutUSCRN, station: unknownStation(), stationChosen: true}
	rec.station.ReadHour = 24
	var below []probes
	for t.next() {
		kept := choice.take(t.text(wban), nil)
		r := missingRow(split.line)
		n, ok := digits(t.text(date))
		if r.date, ok = dayOf(n, ok); !ok {
			t.fault(date, "a day written as 20060102", dateMend(t.text(date)))
			continue
		}
		r.tmax, r.tmin = r.keep(t.value(tmax), temperatureLimit), r.keep(t.value(tmin), temperatureLimit)
		r.precip, r.solar = r.keep(t.value(precip), precipLimit), r.keep(t.value(solar), solarLimit)
		humid, dry := r.keep(t.value(humidMax), humidityLimit), r.keep(t.value(humidMin), humidityLimit)
		r.vapour = r.keep(VapourFromHumidityRange(r.tmin, r.tmax, dry, humid), vapourLimit)
		choice.count(&r)
		if !kept {
			continue
		}
		if rec.station.ID == "" {
			rec.station.ID = uscrnPrefix + choice.kept.id
			rec.station.Longitude = coordinate(f, split.line, longitude.name, string(t.text(longitude)), 180)
			rec.station.Latitude = coordinate(f, split.line, latitude.name, string(t.text(latitude)), 90)
		}
		p := probes{date: r.date}
		for k := range p.t {
			p.t[k] = r.keep(t.value(soil[k]), soilLimit)
		}
		rec.add(r, split, f)
		below = append(below, p)
	}
	if !choice.settled() {
		return nil, nil
	}
	t.absent(rec, "solar radiation", solar)
	t.absent(rec, "vapour pressure", humidMax)
	t.absent(rec, "vapour pressure", humidMin)
	t.unused(rec)
	return rec, below
}

// uscrnSheet begins a sheet at the header, or at the first row when there is none.
func uscrnSheet(split *splitter, f *faults) *sheet {
	head, _ := split.text.Peek(longestLine)
	split.blanks = bytes.IndexByte(firstLine(head), ',') < 0
	header := make([][]byte, len(uscrnColumns))
	for i, name := range uscrnColumns {
		header[i] = []byte(name)
	}
	if !isUSCRNLine(firstLine(head)) {
		header, _, _ = split.next()
	}
	return newSheet(split, f, header, -9999)
}
