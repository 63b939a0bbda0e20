package weather

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// layoutECCC is the name of the layout.
const layoutECCC = "Environment Canada daily CSV"

// isECCC recognises the preamble of the older files or the header of both.
func isECCC(head []byte) bool {
	header := headerOf(head)
	return header[0] == "Station Name" || header[0] == "Date/Time" || slices.Contains(header, "Climate ID")
}

// ecccReader reads one station's calendar year (Environment and Climate Change
// Canada, Historical Climate Data, Technical documentation: Daily Data), with the
// preamble of about 25 lines or without.
type ecccReader struct {
	*sheet
	station  Station
	id, name column // of the newer files; the older ones have a preamble
	lat, lon column

	date, tmax, tmin, precip, snow column
	flags                          map[string]column // by the name of the element
	quality                        column

	estimated, incomplete, unreviewed, unknown int
	uncertain                                  []Date // days flagged C or L since the last reading
}

// readECCC reads the preamble, the header and the days. The columns are matched by
// the beginning of their names, since the degree sign comes in two encodings.
// Precipitation is the water of rain and snow together.
func readECCC(split *splitter, _ Pick, f *faults) *record {
	e := &ecccReader{station: unknownStation(), flags: map[string]column{}}
	header := e.preamble(split, f)
	if header == nil {
		f.add(Fault{Found: "no header", Allowed: "a row with Date/Time below the preamble", Mend: "download it again, or put that row back"})
		return nil
	}
	e.sheet = newSheet(split, f, header)
	if !e.find() {
		return nil
	}
	rec := &record{layout: layoutECCC}
	for e.next() {
		if rec.rows == nil && e.name.has() {
			e.place()
		}
		if e.id.has() && string(e.text(e.id)) != e.station.ID {
			e.fault(e.id, "one station, "+e.station.ID, "keep the rows of one of them")
			split.stop()
			break
		}
		if r, ok := e.day(rec); ok {
			rec.add(r, split, f)
		}
	}
	rec.station = e.station
	rec.notes = append(rec.notes, "the hour of reading is not in the file; stations read round the clock end their day at 06:00 UTC since July 1961")
	rec.tallies = []tally{
		{e.estimated, "values estimated by the agency (flag E or F), kept"},
		{e.incomplete, "values based on incomplete data (flag ^), kept"},
		{e.unknown, "values with a flag that is not in the agency's legend, kept"},
		{e.unreviewed, "days not or not fully reviewed by the agency, kept"},
	}
	e.absent(rec, "snow depth", e.snow)
	rec.notes = append(rec.notes, "no humidity, solar radiation or mean wind in this layout")
	return rec
}

// preamble reads the station from the lines "name","value" and returns the header
// below them, nil without one.
func (e *ecccReader) preamble(split *splitter, f *faults) (header [][]byte) {
	for {
		fields, _, ok := split.next()
		if !ok {
			return nil
		}
		if slices.ContainsFunc(names(fields), func(name string) bool { name, _ = cutUnit(name); return name == "Date/Time" }) {
			return fields
		}
		if len(fields) < 2 {
			continue
		}
		value := bytes.TrimSpace(fields[1])
		switch string(bytes.TrimSpace(fields[0])) {
		case "Station Name":
			e.station.Name = latin(value)
		case "Climate Identifier":
			e.station.ID = string(value)
		case "Latitude":
			e.station.Latitude = coordinate(f, split.line, "Latitude", string(value), 90)
		case "Longitude":
			e.station.Longitude = coordinate(f, split.line, "Longitude", string(value), 180)
		case "Elevation":
			e.station.Elevation = coordinate(f, split.line, "Elevation", string(value), 9000)
		}
	}
}

// latin decodes a name that is not UTF-8 as Latin-1.
func latin(text []byte) string {
	if !utf8.Valid(text) {
		text, _ = charmap.ISO8859_1.NewDecoder().Bytes(text) // every byte is a letter of it
	}
	return string(text)
}

// The elements, by the beginning of their names.
const (
	ecccTmax, ecccTmin     = "Max Temp", "Min Temp"
	ecccPrecip, ecccGround = "Total Precip", "Snow on Grnd"
)

// ecccDepthUnits are those of snow on the ground; cm where none is stated.
var ecccDepthUnits = append([]unit{{"cm", 0.01, 0}}, depthUnits...)

// find finds the columns; ok is false after a fault.
func (e *ecccReader) find() (ok bool) {
	e.date = e.column(anyUnit, "Date/Time")
	e.name, e.id = e.column(anyUnit, "Station Name"), e.column(anyUnit, "Climate ID")
	e.lon, e.lat = e.column(anyUnit, "Longitude"), e.column(anyUnit, "Latitude")
	e.quality = e.column(anyUnit, "Data Quality")
	e.tmax, e.tmin = e.column(temperatureUnits, ecccTmax), e.column(temperatureUnits, ecccTmin)
	e.precip, e.snow = e.column(rainUnits, ecccPrecip), e.column(ecccDepthUnits, ecccGround)
	for _, name := range []string{ecccTmax, ecccTmin, ecccPrecip, ecccGround} {
		e.flags[name] = e.column(anyUnit, name+" Flag")
	}
	mend := "take the station's daily data"
	switch day := e.column(anyUnit, "Day"); {
	case slices.ContainsFunc(e.names, func(name string) bool { return strings.HasPrefix(name, "Time") }):
		mend = "this is an hourly file, take the daily one"
	case !day.has():
		mend = "this is a monthly file, take the daily one"
	}
	e.require(mend, e.tmax, e.tmin, e.precip)
	return !e.f.any()
}

// place takes the station from the first row of a newer file.
func (e *ecccReader) place() {
	e.station.Name, e.station.ID = latin(e.text(e.name)), string(e.text(e.id))
	e.station.Latitude = coordinate(e.f, e.split.line, e.lat.name, string(e.text(e.lat)), 90)
	e.station.Longitude = coordinate(e.f, e.split.line, e.lon.name, string(e.text(e.lon)), 180)
}

// day reads the current row, false when its date cannot be read.
func (e *ecccReader) day(rec *record) (row, bool) {
	r := missingRow(e.split.line)
	var ok bool
	if r.date, ok = e.sheet.day(e.date); !ok {
		return r, false
	}
	if len(e.text(e.quality)) > 0 {
		e.unreviewed++
	}
	r.tmax, r.tmin = r.keep(e.flagged(e.tmax), temperatureLimit), r.keep(e.flagged(e.tmin), temperatureLimit)
	r.snowDepth = r.keep(e.flagged(e.snow), snowDepthLimit)
	e.rain(&r, rec)
	return r, true
}

// flag returns the flag beside an element, 0 without one.
func (e *ecccReader) flag(c column) byte {
	flag := e.text(e.flags[c.name])
	if len(flag) == 0 {
		return 0
	}
	return flag[0]
}

// flagged reads a value as its flag allows: M, N and Y say that it is missing.
func (e *ecccReader) flagged(c column) float64 {
	v := e.value(c)
	switch e.flag(c) {
	case 'M', 'N', 'Y':
		return math.NaN()
	case 'E', 'F':
		e.estimated++
	case '^':
		e.incomplete++
	case 0, 'A', 'C', 'L', 'S', 'T':
	default:
		e.unknown++
	}
	return v
}

// rain reads precipitation. A trace counts as 0. An amount is unknown on days
// flagged C (it occurred) or L (it may have), and an amount flagged A or F is that
// of its own day and of such days just before it, to be spread.
func (e *ecccReader) rain(r *row, rec *record) {
	mm := r.keep(e.flagged(e.precip), precipLimit)
	switch flag := e.flag(e.precip); flag {
	case 'C', 'L':
		if n := len(e.uncertain); n > 0 && e.uncertain[n-1] != r.date-1 {
			e.uncertain = e.uncertain[:0]
		}
		e.uncertain = append(e.uncertain, r.date)
		return
	case 'A', 'F':
		if n := len(e.uncertain); n > 0 && e.uncertain[n-1] == r.date-1 && !math.IsNaN(mm) {
			rec.totals = append(rec.totals, multiDay{end: r.date, days: float64(n + 1), mm: mm})
			e.uncertain = e.uncertain[:0]
			return
		}
	case 'T':
		if !(mm > 0) { // written 0.0 or left blank
			mm = 0
			r.marks |= TraceRain
		}
	}
	e.uncertain = e.uncertain[:0]
	r.precip = mm
}
