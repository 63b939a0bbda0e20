package weather

import (
	"bytes"
	"math"
)

// next moves to the next whole row, false at the end.
func (w *wideReader) next() bool {
	for {
		fields, sound, ok := w.split.next()
		switch {
		case !ok:
			return false
		case !sound:
			w.f.add(unpaired(w.split.line))
		case len(fields) != len(w.columns):
			w.f.add(fieldCount(w.split.line, len(fields), len(w.columns)))
		default:
			w.fields = fields
			return true
		}
	}
}

// column returns a field of the row, nil when the file has no such column.
func (w *wideReader) column(i int) []byte {
	if i < 0 {
		return nil
	}
	return bytes.TrimSpace(w.fields[i])
}

// day reads the current row, unless it is of a station not chosen.
func (w *wideReader) day() {
	kept := w.choice.take(w.column(w.id), w.column(w.name))
	w.count()
	if !kept {
		return
	}
	text := w.column(w.date)
	date, ok := ghcnDate(text)
	if !ok {
		w.f.add(Fault{Line: w.split.line, Column: "DATE", Found: string(text), Allowed: dateAllowed, Mend: dateMend(text)})
		if shape(text) == "0000-00" {
			w.split.stop() // every row would say the same
		}
		return
	}
	if len(w.days) == 0 {
		w.place()
	}
	d := w.add(date)
	if d == nil {
		return
	}
	for e := range d.values {
		d.values[e] = w.value(ghcnElement(e))
	}
}

// count adds a row to the census of its station.
func (w *wideReader) count() {
	for _, e := range ghcnRequired {
		text := w.column(w.elements[e].value)
		if len(text) == 0 || w.flags(e).quality != 0 || w.missing(text) {
			continue
		}
		w.choice.saw(censusOf[e])
	}
}

// missing tells whether a cell holds a code for a missing value.
func (w *wideReader) missing(text []byte) bool {
	n, ok := whole(text)
	if !ok { // such as -9999.0
		v, _ := number(string(text))
		n = int(v)
	}
	return n == noCode || n == oldNoCode && w.layout == layoutOldSummary
}

// value reads an element of the row with its flags.
func (w *wideReader) value(e ghcnElement) ghcnValue {
	text := w.column(w.elements[e].value)
	missing := ghcnValue{v: math.NaN()}
	if len(text) == 0 || w.missing(text) {
		return missing
	}
	n, ok := whole(text)
	v := float64(n)
	if !ok {
		if v, ok = number(string(text)); !ok {
			w.f.add(Fault{Line: w.split.line, Column: ghcnNames[e], Found: string(text), Allowed: w.allowed(e)})
			return missing
		}
		if point := bytes.IndexByte(text, '.'); point >= 0 {
			w.decimals[e] = max(w.decimals[e], len(text)-point-1)
		}
	}
	x := w.flags(e)
	x.v = v + 0 // a zero has no sign
	if e == elementPrecip {
		w.observedAt(w.clock(e))
	}
	return x
}

// tenths are the units of the station file.
var tenths = [ghcnElements]string{"tenths of mm", "tenths of C", "tenths of C", "mm", "tenths of m/s", "tenths of mm", "days"}

// allowed is what the cells of an element may hold.
func (w *wideReader) allowed(e ghcnElement) string {
	if w.layout == layoutGHCN {
		return "a whole number, " + tenths[e]
	}
	return "a number, or blank when missing"
}

// flags reads the flags of an element of the row.
func (w *wideReader) flags(e ghcnElement) ghcnValue {
	c := &w.elements[e]
	if c.attributes >= 0 {
		measurement, rest, _ := bytes.Cut(w.fields[c.attributes], []byte{','})
		quality, _, _ := bytes.Cut(rest, []byte{','})
		return ghcnValue{measurement: flagOf(measurement), quality: flagOf(quality)}
	}
	return ghcnValue{measurement: flagOf(w.column(c.measurement)), quality: flagOf(w.column(c.quality))}
}

// clock is the time of observation of an element of the row, HHMM or blank.
func (w *wideReader) clock(e ghcnElement) []byte {
	c := &w.elements[e]
	if c.attributes < 0 {
		return w.column(c.time)
	}
	text := w.fields[c.attributes]
	for range 3 {
		_, text, _ = bytes.Cut(text, []byte{','})
	}
	return text
}

// place takes the station from the current row.
func (w *wideReader) place() {
	id := bytes.TrimPrefix(w.column(w.id), []byte(oldPrefix))
	w.station = Station{ID: string(id), Name: string(w.column(w.name)), ReadHour: math.NaN(),
		Latitude:  w.coordinate("LATITUDE", w.latitude, 90),
		Longitude: w.coordinate("LONGITUDE", w.longitude, 180),
		Elevation: w.coordinate("ELEVATION", w.elevation, 9000)}
}

// coordinate reads a position of the station, NaN when it is blank, "unknown" or
// the code of the agency's list of stations.
func (w *wideReader) coordinate(name string, i int, largest float64) float64 {
	text := string(w.column(i))
	switch text {
	case "unknown", "-999.9":
		text = ""
	}
	return coordinate(w.f, w.split.line, name, text, largest)
}
