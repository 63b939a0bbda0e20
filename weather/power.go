package weather

import (
	"bytes"
	"fmt"
	"math"
	"strings"
)

// layoutPower is the name of the layout.
const layoutPower = "NASA POWER daily point CSV"

const powerEnd = "-end header-"

// isPower recognises the preamble or, where it was switched off, the header.
func isPower(head []byte) bool {
	names := headerOf(head)
	return bytes.HasPrefix(firstLine(head), []byte("-BEGIN HEADER-")) || names[0] == "YEAR" && (names[1] == "MO" || names[1] == "DOY")
}

// powerHead is what the preamble says. Its wording and capitals changed between
// versions, so that words are looked for and lines not counted.
type powerHead struct {
	station  Station
	units    map[string]string // squeezed, by parameter
	standard string            // of time: LST, UTC or ""
	stated   bool              // false when the preamble was switched off
}

// powerReader reads the CSV of one point (NASA POWER daily service; preambles of
// its API 2.9). It is a reanalysis: too many days of drizzle, low extremes.
type powerReader struct {
	*sheet
	head                               powerHead
	year, month, dayOfMonth, dayOfYear column
	tmax, tmin, precip, solar          column
	dew, humidity, wind2, wind10       column
}

// readPower reads the preamble, the header and the days. -999 is missing, in old
// files -99.
func readPower(split *splitter, _ Pick, f *faults) *record {
	head, header := readPowerHead(split, f)
	if header == nil {
		f.add(Fault{Found: "no header", Allowed: "a row that starts with YEAR below the preamble", Mend: "download it again, or put that row back"})
		return nil
	}
	p := &powerReader{sheet: newSheet(split, f, header, -999, -99), head: head}
	if !p.find() {
		return nil
	}
	rec := &record{layout: layoutPower}
	for p.next() {
		if r, ok := p.day(); ok {
			rec.add(r, split, f)
		}
	}
	p.place(rec)
	p.scaleSolar(rec)
	p.absent(rec, "solar radiation", p.solar)
	p.absent(rec, "humidity", p.dew, p.humidity)
	p.absent(rec, "wind", p.wind2, p.wind10)
	p.unused(rec)
	return rec
}

// readPowerHead reads up to the header and returns its fields, nil without one.
func readPowerHead(split *splitter, f *faults) (head powerHead, header [][]byte) {
	head = powerHead{station: unknownStation(), units: map[string]string{}}
	for {
		text, ok := split.nextLine()
		if !ok {
			return head, nil
		}
		line := strings.ToLower(strings.TrimSpace(string(text)))
		switch {
		case strings.HasPrefix(line, powerEnd):
			fields, _, ok := split.next()
			if !ok || isData(bytes.Join(fields, []byte{','})) {
				return head, nil
			}
			return head, fields
		case strings.HasPrefix(line, "year,"):
			split.split(text)
			return head, split.fields
		}
		head.stated = true
		head.take(line, split.line, f)
	}
}

// take keeps what a line of the preamble, in lower case, says.
func (h *powerHead) take(line string, at int, f *faults) {
	words := strings.Fields(line)
	switch {
	case strings.HasPrefix(line, "location:"):
		for i, word := range words[:len(words)-1] {
			switch word {
			case "latitude":
				h.station.Latitude = coordinate(f, at, word, words[i+1], 90)
			case "longitude":
				h.station.Longitude = coordinate(f, at, word, words[i+1], 180)
			}
		}
	case strings.HasPrefix(line, "elevation"):
		if _, value, ok := strings.Cut(line, "="); ok && len(strings.Fields(value)) > 0 {
			h.station.Elevation = coordinate(f, at, "elevation", strings.Fields(value)[0], 9000)
		}
	case strings.HasPrefix(line, "dates"):
		h.standard = strings.ToUpper(words[len(words)-1])
	default: // T2M_MAX     MERRA-2 Temperature at 2 Meters Maximum (C)
		if i := strings.LastIndexByte(line, '('); i >= 0 && strings.HasSuffix(line, ")") {
			h.units[strings.ToUpper(words[0])] = squeeze(line[i:])
		}
	}
}

// find finds the columns; ok is false after a fault.
func (p *powerReader) find() (ok bool) {
	for i, name := range p.names {
		p.units[i] = p.head.units[name]
	}
	p.year = p.column(anyUnit, "YEAR")
	p.month, p.dayOfMonth, p.dayOfYear = p.column(anyUnit, "MO"), p.column(anyUnit, "DY"), p.column(anyUnit, "DOY")
	p.tmax, p.tmin = p.column(temperatureUnits, "T2M_MAX"), p.column(temperatureUnits, "T2M_MIN")
	p.precip = p.column(rainUnits, "PRECTOTCORR", "PRECTOT")
	p.solar = p.column(solarUnits, "ALLSKY_SFC_SW_DWN")
	p.dew, p.humidity = p.column(temperatureUnits, "T2MDEW"), p.column(humidityUnits, "RH2M")
	p.wind2, p.wind10 = p.column(windUnits, "WS2M"), p.column(windUnits, "WS10M")
	if hour := p.column(anyUnit, "HR"); hour.has() {
		p.f.add(Fault{Line: p.line, Column: "HR", Found: "hourly rows", Allowed: "one row a day", Mend: "request the daily data of the point"})
		return false
	}
	dates := []column{p.year, p.dayOfYear}
	if p.month.has() || p.dayOfMonth.has() {
		dates = []column{p.year, p.month, p.dayOfMonth}
	}
	p.require("request the daily data of one point", dates...)
	p.require("request these parameters too", p.tmax, p.tmin, p.precip)
	return !p.f.any()
}

// day reads the current row, false when its date cannot be read. Solar radiation
// is kept as it stands, for scaleSolar.
func (p *powerReader) day() (row, bool) {
	r := missingRow(p.split.line)
	var ok bool
	if r.date, ok = p.date(); !ok {
		return r, false
	}
	r.tmax, r.tmin = r.keep(p.value(p.tmax), temperatureLimit), r.keep(p.value(p.tmin), temperatureLimit)
	r.precip = r.keep(p.value(p.precip), precipLimit)
	r.solar = p.value(p.solar)
	r.vapour = VapourFromDewPoint(p.value(p.dew))
	if math.IsNaN(r.vapour) {
		r.vapour = VapourFromMeanHumidity(r.tmin, r.tmax, p.value(p.humidity))
	}
	r.vapour = r.keep(r.vapour, vapourLimit)
	r.wind = p.value(p.wind2)
	if math.IsNaN(r.wind) {
		r.wind = WindAt2m(p.value(p.wind10), 10)
	}
	r.wind = r.keep(r.wind, windLimit)
	return r, true
}

// date reads year and day of the year, or year, month and day.
func (p *powerReader) date() (Date, bool) {
	year, ok := p.whole(p.year, firstYear, lastYear)
	if !ok {
		return 0, false
	}
	if p.dayOfYear.has() {
		n := 365
		if leapYear(year) {
			n = 366
		}
		day, ok := p.whole(p.dayOfYear, 1, n)
		return NewDate(year, 1, 1) + Date(day-1), ok
	}
	month, ok := p.whole(p.month, 1, 12)
	if !ok {
		return 0, false
	}
	day, ok := p.whole(p.dayOfMonth, 1, monthDays(year, month))
	return NewDate(year, month, day), ok
}

// place settles where the point is and when its days end.
func (p *powerReader) place(rec *record) {
	rec.station = p.head.station
	switch p.head.standard {
	case "LST":
		rec.station.ReadHour = 24
		rec.notes = append(rec.notes, "days are of local solar time, midnight to midnight")
	case "UTC":
		hour, note, ok := dayCut(0, rec.station.Longitude)
		if !ok {
			p.f.add(Fault{Column: "time standard", Found: "UTC", Allowed: "days of the place", Mend: "request the data in LST"})
		}
		rec.station.ReadHour = hour
		rec.notes = append(rec.notes, "days are of universal time (UTC)")
		if note != "" {
			rec.notes = append(rec.notes, note)
		}
	default:
		rec.notes = append(rec.notes, "the file does not say whether its days are of local time (LST) or universal time (UTC)")
	}
	if !math.IsNaN(rec.station.Elevation) {
		rec.notes = append(rec.notes, "the elevation is the mean of a cell of half a degree")
	}
}

// mostSunKWh is above any day's radiation in kWh/m2, and below that of every
// summer in MJ/m2: outside the air the day brings at most 45 MJ/m2 (FAO-56 Annex 2
// Table 2.6), 12.5 kWh.
const mostSunKWh = 12.5

// scaleSolar turns radiation into MJ/m2. Where the preamble does not name the unit
// it is MJ when a day exceeds mostSunKWh, kWh when none does in a year, and else
// what goes with the dates: MJ with YEAR,DOY and kWh with YEAR,MO,DY.
func (p *powerReader) scaleSolar(rec *record) {
	if !p.solar.has() {
		return
	}
	scale := 1.0
	if p.units[p.solar.index] == "" {
		most := 0.0
		for i := range rec.rows {
			if v := rec.rows[i].solar; v > most {
				most = v
			}
		}
		unit, why := "MJ/m2", fmt.Sprintf("the largest is %g", most)
		switch {
		case most > mostSunKWh:
		case len(rec.rows) >= 365:
			unit = "kWh/m2"
		case p.dayOfYear.has():
			why = "it goes with YEAR,DOY"
		default:
			unit, why = "kWh/m2", "it goes with YEAR,MO,DY"
		}
		if unit == "kWh/m2" {
			scale = 3.6
		}
		rec.notes = append(rec.notes, fmt.Sprintf("the unit of %s is not stated and was taken as %s: %s", p.solar.name, unit, why))
	}
	for i := range rec.rows {
		r := &rec.rows[i]
		r.solar = r.keep(r.solar*scale, solarLimit)
	}
}
