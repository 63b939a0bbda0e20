package weather

import (
	"bytes"
	"slices"
	"strings"
)

// layoutLong is the name of the layout with one line a station, day and element
// (GHCN-Daily by year and by station; README of Daily GHCN 3.22).
const layoutLong = "GHCN-Daily long CSV"

// longNames are the names of the columns in the order of a file without header; the
// second of each stands in a copy that lost the station's id.
var longNames = [...][2]string{
	{"ID", ""}, {"DATE", "date"}, {"ELEMENT", "attr"}, {"DATA_VALUE", "value"},
	{"M_FLAG", "a"}, {"Q_FLAG", "b"}, {"S_FLAG", "c"}, {"OBS_TIME", "d"},
}

// Columns by number.
const (
	longID, longDate, longElement, longValue = 0, 1, 2, 3
	longMeasurement, longQuality, longOn     = 4, 5, 7
)

// isLong recognises the header, with one required name missing too, or the first
// line of a file without header.
func isLong(head []byte) bool {
	header := headerOf(head)
	return longHeader(header) != longNone || isLongLine(header)
}

// Forms of the header.
const (
	longNone = iota - 1
	longFull
	longBare // without id
)

// longHeader tells which form a header has.
func longHeader(header []string) int {
	for form := longFull; form <= longBare; form++ {
		known := 0
		for _, k := range [...]int{longElement, longValue, longMeasurement, longQuality} {
			if slices.Contains(header, longNames[k][form]) {
				known++
			}
		}
		if known >= 3 {
			return form
		}
	}
	return longNone
}

// isLongLine recognises a line of data.
func isLongLine(fields []string) bool {
	if n := len(fields) - 2; n < longOn { // headerOf adds two
		return false
	}
	_, dated := digits([]byte(fields[longDate]))
	_, valued := whole([]byte(fields[longValue]))
	return isStationID([]byte(fields[longID])) && len(fields[longDate]) == 8 && dated && valued && isElementName([]byte(fields[longElement]))
}

// longReader reads the lines of one file.
type longReader struct {
	*ghcnBook
	choice  *chooser
	fields  [][]byte
	width   int
	columns [len(longNames)]int // -1 when absent
}

// readLong reads a line an element; lines may come in any order.
func readLong(split *splitter, pick Pick, f *faults) *record {
	l := &longReader{ghcnBook: newBook(split, f), choice: newChooser(f, split, longNames[longID][0], "", pick)}
	if !l.begin() {
		return nil
	}
	for ok := true; ok; ok = l.next() {
		if len(l.fields) > 0 {
			l.read()
		}
	}
	if !l.choice.settled() || f.any() || len(l.days) > 0 && !l.complete(0, "element") {
		return nil
	}
	rec := l.record(layoutLong, "element", &tenthsScale)
	if l.columns[longQuality] < 0 {
		rec.notes = append(rec.notes, "no column of quality flags: values that failed the agency's quality check cannot be told")
	}
	return rec
}

// begin finds the columns; the first line is kept when it is one of data. ok is
// false after a fault.
func (l *longReader) begin() (ok bool) {
	fields, sound, _ := l.split.next()
	if !sound {
		l.f.add(unpaired(l.split.line))
		return false
	}
	header := names(fields)
	l.width = len(header)
	form := longHeader(header)
	if form == longNone {
		for k := range l.columns {
			l.columns[k] = k
		}
		if l.width <= longOn {
			l.columns[longOn] = -1
		}
		l.fields = fields
		return true
	}
	for k, name := range longNames {
		l.columns[k] = slices.Index(header, name[form])
		switch {
		case l.columns[k] < 0 && k != longID && k <= longValue:
			l.f.add(Fault{Line: l.split.line, Column: name[form], Found: "no such column", Allowed: "a file with " + strings.Join([]string{
				longNames[longDate][form], longNames[longElement][form], longNames[longValue][form]}, ", ")})
		case l.columns[k] >= 0 && slices.Contains(header[l.columns[k]+1:], name[form]):
			l.f.add(Fault{Line: l.split.line, Column: name[form], Found: "the column twice", Allowed: "each column once"})
		}
	}
	return !l.f.any()
}

// next moves to the next whole line, false at the end.
func (l *longReader) next() bool {
	for {
		fields, sound, ok := l.split.next()
		switch {
		case !ok:
			return false
		case !sound:
			l.f.add(unpaired(l.split.line))
		case len(fields) != l.width:
			l.f.add(fieldCount(l.split.line, len(fields), l.width))
		default:
			l.fields = fields
			return true
		}
	}
}

// column returns a field of the line, nil when the file has no such column.
func (l *longReader) column(k int) []byte {
	if l.columns[k] < 0 {
		return nil
	}
	return bytes.TrimSpace(l.fields[l.columns[k]])
}

// read reads the current line, unless it is of a station not chosen.
func (l *longReader) read() {
	kept := l.choice.take(l.column(longID), nil)
	e, used := elementNamed(l.column(longElement))
	if !used {
		if kept {
			l.pass(l.column(longElement))
		}
		return
	}
	text := l.column(longValue)
	n, ok := whole(text)
	x := ghcnValue{v: float64(n), measurement: flagOf(l.column(longMeasurement)), quality: flagOf(l.column(longQuality))}
	if k := censusOf[e]; ok && n != noCode && k >= 0 && x.quality == 0 {
		l.choice.saw(k)
	}
	if !kept {
		return
	}
	l.station.ID, l.seen[e] = l.choice.last.id, true
	if !ok {
		l.f.add(Fault{Line: l.split.line, Column: ghcnNames[e], Found: string(text), Allowed: "a whole number, -9999 where missing"})
		return
	}
	date, ok := ghcnDate(l.column(longDate))
	switch {
	case !ok:
		l.f.add(Fault{Line: l.split.line, Column: "DATE", Found: string(l.column(longDate)), Allowed: "a day written as 20060102", Mend: dateMend(l.column(longDate))})
	case n != noCode:
		l.put(date, e, x)
		if e == elementPrecip {
			l.observedAt(l.column(longOn))
		}
	}
}
