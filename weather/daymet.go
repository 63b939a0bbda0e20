package weather

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"unicode"
)

// daymetUnits are the units of the Daymet variables (ORNL DAAC), squeezed to
// letters and digits because copies saved from statistics programs write
// "prcp..mm.day." for "prcp (mm/day)".
var daymetUnits = map[string]string{
	"dayl": "s", "prcp": "mmday", "srad": "Wm2", "swe": "kgm2", "tmax": "degc", "tmin": "degc", "vp": "Pa",
}

// readDaymet reads the CSV of one Daymet pixel, with its preamble or without.
// The year has 365 days: 29 February is kept and 31 December of leap years left
// out, so that day repeats the day before with zero rain, and is marked. Daily
// radiation is srad, a mean over daylight, times the day's length. swe is the
// water in the snow, not its depth, and is not read. The product is interpolated
// from stations of all kinds, so no reading hour is known.
func readDaymet(split *splitter, _ Pick, f *faults) *record {
	d := &daymetReader{f: f, split: split, station: unknownStation()}
	if !d.header() {
		return nil
	}
	rec := &record{layout: layoutDaymet}
	for d.next() {
		if r, ok := d.day(len(rec.rows) == 0); ok {
			rec.add(r, split, f)
		}
	}
	rec.rows, rec.station = fillCalendar(rec.rows), d.station
	if !d.has("srad") || !d.has("dayl") {
		rec.notes = append(rec.notes, "no solar radiation: it takes both columns srad and dayl")
	}
	if len(d.unused) > 0 {
		rec.notes = append(rec.notes, "columns not used: "+strings.Join(d.unused, ", "))
	}
	return rec
}

// layoutDaymet is the name of the layout.
const layoutDaymet = "Daymet pixel CSV"

// isDaymet recognises the preamble or the header.
func isDaymet(head []byte) bool {
	names := headerOf(head)
	return bytes.HasPrefix(firstLine(head), []byte("Latitude:")) || names[0] == "year" && names[1] == "yday"
}

// has tells whether the file has a column.
func (d *daymetReader) has(name string) bool {
	_, has := d.columns[name]
	return has
}

// daymetReader walks over the rows of one file.
type daymetReader struct {
	f       *faults
	split   *splitter
	fields  [][]byte
	columns map[string]int
	width   int
	unused  []string
	station Station
}

// header reads the preamble and the header row; ok is false after a fault.
func (d *daymetReader) header() (ok bool) {
	var columns []string
	for {
		fields, _, more := d.split.next()
		if !more {
			d.f.add(Fault{Found: "no header", Allowed: "a row that starts with year,yday", Mend: "download it again, or put that row back"})
			return false
		}
		if columns = names(fields); len(columns) > 1 && columns[0] == "year" && columns[1] == "yday" {
			break
		}
		d.preamble(strings.TrimSpace(string(bytes.Join(fields, []byte{','}))))
	}
	line := d.split.line
	d.columns, d.width = map[string]int{}, len(columns)
	for i, column := range columns {
		name, unit := squeezeUnit(column)
		if _, twice := d.columns[name]; twice {
			d.f.add(Fault{Line: line, Column: column, Found: "the column twice", Allowed: "each column once"})
		}
		d.columns[name] = i
		if want := daymetUnits[name]; unit != "" && want != "" && unit != want {
			d.f.add(Fault{Line: line, Column: column, Found: unit, Allowed: want, Mend: "this is not the unit Daymet uses"})
		}
		switch name {
		case "year", "yday", "dayl", "prcp", "srad", "tmax", "tmin", "vp", "latitude", "longitude":
		default:
			d.unused = append(d.unused, column)
		}
	}
	for _, name := range []string{"prcp", "tmax", "tmin"} {
		if !d.has(name) {
			d.f.add(Fault{Line: line, Column: name, Found: "no such column", Allowed: "a file with prcp, tmax and tmin",
				Mend: "request these variables too"})
		}
	}
	return !d.f.any()
}

// squeezeUnit parts "srad (W/m^2)" or "srad..W.m.2." into "srad" and "Wm2".
func squeezeUnit(column string) (name, unit string) {
	i := strings.IndexAny(column, " (.")
	if i < 0 {
		return column, ""
	}
	return column[:i], strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, column[i:])
}

// preamble takes the position of the pixel from a line above the header.
func (d *daymetReader) preamble(text string) {
	words := strings.Fields(text)
	for i := 0; i+1 < len(words); i++ {
		switch words[i] {
		case "Latitude:":
			d.station.Latitude = coordinate(d.f, d.split.line, "Latitude", words[i+1], 90)
		case "Longitude:":
			d.station.Longitude = coordinate(d.f, d.split.line, "Longitude", words[i+1], 180)
		case "Elevation:":
			d.station.Elevation = coordinate(d.f, d.split.line, "Elevation", words[i+1], 9000)
		}
	}
}

// next moves to the next whole row, false at the end.
func (d *daymetReader) next() bool {
	for {
		fields, sound, ok := d.split.next()
		switch {
		case !ok:
			return false
		case !sound:
			d.f.add(unpaired(d.split.line))
		case len(fields) != d.width:
			d.f.add(fieldCount(d.split.line, len(fields), d.width))
		default:
			d.fields = fields
			return true
		}
	}
}

// day reads the current row, false when its date cannot be read. The first row
// also gives the position where the file has columns for it.
func (d *daymetReader) day(first bool) (row, bool) {
	r := missingRow(d.split.line)
	year, okY := d.wholeNumber("year", firstYear, lastYear)
	yday, okD := d.wholeNumber("yday", 1, 365)
	if !okY || !okD {
		return r, false
	}
	r.date = NewDate(year, 1, 1) + Date(yday-1)
	if first && d.has("latitude") {
		d.station.Latitude = coordinate(d.f, r.line, "latitude", d.text("latitude"), 90)
	}
	if first && d.has("longitude") {
		d.station.Longitude = coordinate(d.f, r.line, "longitude", d.text("longitude"), 180)
	}
	r.tmin = r.keep(d.value("tmin"), temperatureLimit)
	r.tmax = r.keep(d.value("tmax"), temperatureLimit)
	r.precip = r.keep(d.value("prcp"), precipLimit)
	r.solar = r.keep(d.value("srad")*d.value("dayl")/1e6, solarLimit)
	r.vapour = r.keep(d.value("vp")/1000, vapourLimit)
	return r, true
}

// text returns a field, "" when the file has no such column.
func (d *daymetReader) text(name string) string {
	i, has := d.columns[name]
	if !has {
		return ""
	}
	return string(bytes.TrimSpace(d.fields[i]))
}

// value reads a number, NaN when it is blank, NA or the column absent.
func (d *daymetReader) value(name string) float64 {
	text := d.text(name)
	if text == "" || text == "NA" {
		return math.NaN()
	}
	v, ok := number(text)
	if !ok {
		d.f.add(Fault{Line: d.split.line, Column: name, Found: text, Allowed: "a number, or blank when missing"})
	}
	return v
}

// wholeNumber reads 2000 or, as version 3 writes it, 2000.0.
func (d *daymetReader) wholeNumber(name string, lo, hi int) (int, bool) {
	text := d.text(name)
	v, ok := number(text)
	if !ok || v != math.Trunc(v) || v < float64(lo) || v > float64(hi) {
		mend := countMend([]byte(text))
		if v == float64(hi+1) && name == "yday" {
			mend = "in this calendar leap years too have 365 days, their 31 December is left out"
		}
		d.f.add(Fault{Line: d.split.line, Column: name, Found: text, Allowed: fmt.Sprintf("a whole number from %d to %d", lo, hi), Mend: mend})
		return 0, false
	}
	return int(v), true
}

// fillCalendar adds 31 December of leap years after each 30 December.
func fillCalendar(rows []row) []row {
	out := make([]row, 0, len(rows)+len(rows)/365)
	for _, r := range rows {
		out = append(out, r)
		if !leapYear(r.date.Year()) || r.date.DayOfYear() != 365 {
			continue
		}
		r.date++
		r.precip, r.rejected, r.outOfRange = 0, 0, 0
		r.marks |= CalendarFilled | DayAbsent | TemperatureFilled | PrecipFilled
		if !math.IsNaN(r.solar) || !math.IsNaN(r.vapour) {
			r.marks |= OptionalFilled
		}
		out = append(out, r)
	}
	return out
}
