package weather

import (
	"bytes"
	"slices"
	"strings"
)

// Names of the layouts with one row a day and one column an element: the station
// file of GHCN-Daily, in tenths, and the two layouts of the agency's export of
// daily summaries, which do not state their units.
const (
	layoutGHCN       = "GHCN-Daily station CSV"
	layoutSummary    = "NOAA daily summaries CSV"
	layoutOldSummary = "NOAA daily summaries CSV, older layout"
)

// isWide recognises the header of any of the three, with one name missing too.
func isWide(header []string) bool {
	known := 0
	for _, e := range ghcnRequired {
		if slices.Contains(header, ghcnNames[e]) {
			known++
		}
	}
	return header[0] == "STATION" || known >= 2
}

// isGHCN recognises the header of the station file.
func isGHCN(head []byte) bool {
	header := headerOf(head)
	return isWide(header) && header[1] == "DATE" && !isOldSummary(head)
}

// isSummary recognises the header of the export.
func isSummary(head []byte) bool {
	return isWide(headerOf(head)) && !isGHCN(head) && !isOldSummary(head)
}

// isOldSummary recognises the older export by its flag columns, its name column or
// the prefix of its ids.
func isOldSummary(head []byte) bool {
	header := headerOf(head)
	return isWide(header) && (slices.Contains(header, flagNames[0]) || slices.Contains(header, "STATION_NAME") ||
		bytes.Contains(head, []byte(oldPrefix)))
}

// flagNames are the columns that the older export repeats behind each element.
var flagNames = [...]string{"Measurement Flag", "Quality Flag", "Source Flag", "Time of Observation"}

// oldPrefix stands before the ids of the older export.
const oldPrefix = "GHCND:"

// wideReader reads rows of one day each. Beside a value stand its attributes
// "M,Q,S" or "M,Q,S,HHMM" in one column, or in the older export in four: flags of
// measurement, quality and source, time of observation.
type wideReader struct {
	*ghcnBook
	layout  string
	choice  *chooser
	fields  [][]byte // of the row being read
	columns []string

	id, date, name, latitude, longitude, elevation int // columns, -1 when absent
	elements                                       [ghcnElements]wideElement
	decimals                                       [ghcnElements]int // most digits behind a point
}

// wideElement are the columns of an element, -1 when absent.
type wideElement struct{ value, attributes, measurement, quality, time int }

func readGHCN(split *splitter, pick Pick, f *faults) *record {
	return readWide(layoutGHCN, split, pick, f)
}

func readSummary(split *splitter, pick Pick, f *faults) *record {
	return readWide(layoutSummary, split, pick, f)
}

func readOldSummary(split *splitter, pick Pick, f *faults) *record {
	return readWide(layoutOldSummary, split, pick, f)
}

// readWide reads one of the three layouts. A station file with decimals is the
// export under another order of columns.
func readWide(layout string, split *splitter, pick Pick, f *faults) *record {
	w := &wideReader{ghcnBook: newBook(split, f), layout: layout, choice: newChooser(f, split, "STATION", oldPrefix, pick)}
	if !w.header() {
		return nil
	}
	for w.next() {
		w.day()
	}
	if !w.choice.settled() || f.any() {
		return nil
	}
	scales, told := &tenthsScale, ""
	if layout != layoutGHCN || slices.Max(w.decimals[:]) > 0 {
		if layout == layoutGHCN {
			layout = layoutSummary
		}
		if scales, told = tellUnits(w.days, w.decimals, pick.Units, f); f.any() {
			return nil
		}
	}
	rec := w.record(layout, "column", scales)
	if told != "" {
		rec.unitsChosen = true
		rec.notes = append(rec.notes, told)
	}
	for _, e := range ghcnRequired {
		if w.elements[e].attributes < 0 && w.elements[e].quality < 0 {
			rec.notes = append(rec.notes, "attribute columns are missing: values that failed the agency's quality check cannot be told")
			break
		}
	}
	return rec
}

// header finds the columns by name; ok is false after a fault.
func (w *wideReader) header() (ok bool) {
	fields, sound, _ := w.split.next()
	if !sound {
		w.f.add(unpaired(w.split.line))
		return false
	}
	w.columns = names(fields)
	w.id, w.date, w.name, w.latitude, w.longitude, w.elevation = -1, -1, -1, -1, -1, -1
	for e := range w.elements {
		w.elements[e] = wideElement{-1, -1, -1, -1, -1}
	}
	last := &wideElement{} // the element that a flag column belongs to
	for i, name := range w.columns {
		element, attributes := strings.CutSuffix(name, "_ATTRIBUTES")
		e, known := elementNamed([]byte(element))
		switch {
		case name == flagNames[0]:
			last.measurement = i
		case name == flagNames[1]:
			last.quality = i
		case name == flagNames[2]:
		case name == flagNames[3]:
			last.time = i
		case known && attributes:
			w.only(&w.elements[e].attributes, i)
		case known:
			last = &w.elements[e]
			w.only(&last.value, i)
			w.seen[e] = true
		default:
			last = &wideElement{}
			if at := w.placeColumn(name); at != nil {
				w.only(at, i)
			} else if !attributes {
				w.pass([]byte(name))
			}
		}
	}
	if w.date < 0 {
		w.f.add(Fault{Line: w.split.line, Column: "DATE", Found: "no such column", Allowed: "a file with DATE, PRCP, TMAX and TMIN", Mend: "keep the column of days and its name"})
	}
	return w.complete(w.split.line, "column") && !w.f.any()
}

// placeColumn is where the index of a column that is no element goes, nil for a
// name without use.
func (w *wideReader) placeColumn(name string) *int {
	switch name {
	case "STATION":
		return &w.id
	case "DATE":
		return &w.date
	case "NAME", "STATION_NAME":
		return &w.name
	case "LATITUDE":
		return &w.latitude
	case "LONGITUDE":
		return &w.longitude
	case "ELEVATION":
		return &w.elevation
	}
	return nil
}

// only sets the index of a column; one that stands twice is a fault.
func (w *wideReader) only(at *int, i int) {
	if *at >= 0 {
		w.f.add(Fault{Line: w.split.line, Column: w.columns[i], Found: "the column twice", Allowed: "each column once"})
	}
	*at = i
}
