package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
)

// sheet reads rows of numbers below a header by the names of their columns. A
// name may carry its unit, as in "precipitation_sum (mm)" or `pr[unit="mm"]`.
type sheet struct {
	f      *faults
	split  *splitter
	line   int      // of the header
	header []string // as written
	names  []string // without units
	units  []string // squeezed, "" when not stated
	used   []bool
	codes  []float64 // numbers that stand for missing
	fields [][]byte  // of the row being read
}

// newSheet begins a sheet below the header just read.
func newSheet(split *splitter, f *faults, header [][]byte, codes ...float64) *sheet {
	t := &sheet{f: f, split: split, line: split.line, header: names(header), codes: codes}
	t.used = make([]bool, len(t.header))
	for _, column := range t.header {
		name, unit := cutUnit(column)
		t.names, t.units = append(t.names, name), append(t.units, unit)
	}
	return t
}

// cutUnit parts a column's name from the unit in brackets behind it.
func cutUnit(column string) (name, unit string) {
	i := strings.IndexAny(column, "([")
	if i < 0 {
		return column, ""
	}
	return strings.TrimSpace(column[:i]), squeeze(strings.TrimPrefix(column[i+1:], "unit="))
}

// squeeze keeps the letters and digits of ASCII, in lower case: degree signs and
// raised figures come in several encodings.
func squeeze(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case 'A' <= r && r <= 'Z':
			return r - 'A' + 'a'
		case 'a' <= r && r <= 'z', '0' <= r && r <= '9':
			return r
		}
		return -1
	}, text)
}

// column is a place in each row with the conversion of its unit; index -1 when
// the sheet has no such column.
type column struct {
	index         int
	name          string
	scale, offset float64
}

// has tells whether the sheet has the column.
func (c column) has() bool { return c.index >= 0 }

// column finds the first of the names that the sheet has. A column without a unit
// is taken in the first of the units, the one of the layout.
func (t *sheet) column(units []unit, aliases ...string) column {
	for _, name := range aliases {
		i := slices.Index(t.names, name)
		if i < 0 {
			continue
		}
		if slices.Contains(t.names[i+1:], name) {
			t.f.add(Fault{Line: t.line, Column: name, Found: "the column twice", Allowed: "each column once"})
		}
		t.used[i] = true
		u, ok := unitOf(units, t.units[i])
		if !ok {
			t.f.add(Fault{Line: t.line, Column: name, Found: t.header[i], Allowed: "the column in " + unitNames(units)})
		}
		return column{i, name, u.scale, u.offset}
	}
	return column{index: -1, name: aliases[0]}
}

// require notes each column that the sheet does not have.
func (t *sheet) require(mend string, columns ...column) {
	for _, c := range columns {
		if c.has() {
			continue
		}
		var all []string
		for _, c := range columns {
			all = append(all, c.name)
		}
		t.f.add(Fault{Line: t.line, Column: c.name, Found: "no such column", Allowed: "a file with " + strings.Join(all, ", "), Mend: mend})
	}
}

// next moves to the next whole row, false at the end.
func (t *sheet) next() bool {
	for {
		fields, sound, ok := t.split.next()
		switch {
		case !ok:
			return false
		case !sound:
			t.f.add(unpaired(t.split.line))
		case len(fields) != len(t.names):
			t.f.add(fieldCount(t.split.line, len(fields), len(t.names)))
		default:
			t.fields = fields
			return true
		}
	}
}

// text returns a field of the row, nil when the sheet has no such column.
func (t *sheet) text(c column) []byte {
	if !c.has() {
		return nil
	}
	return bytes.TrimSpace(t.fields[c.index])
}

// value reads a number in the unit of the series. NaN is blank, a word or a code
// for missing, or no such column.
func (t *sheet) value(c column) float64 {
	text := t.text(c)
	switch string(text) {
	case "", "NaN", "nan", "NA", "null":
		return math.NaN()
	}
	v, ok := number(string(text))
	if !ok {
		t.fault(c, "a number, or blank when missing", "")
		return math.NaN()
	}
	if slices.Contains(t.codes, v) {
		return math.NaN()
	}
	return v*c.scale + c.offset
}

// whole reads a whole number from lo to hi.
func (t *sheet) whole(c column, lo, hi int) (int, bool) {
	n, ok := digits(t.text(c))
	if !ok || n < lo || n > hi {
		t.fault(c, fmt.Sprintf("a whole number from %d to %d", lo, hi), countMend(t.text(c)))
		return 0, false
	}
	return n, true
}

// day reads a date written as 2006-01-02. A time behind it is passed over: gridded
// services stamp a day with the hour at which it begins or ends.
func (t *sheet) day(c column) (Date, bool) {
	text := t.text(c)
	if len(text) > 10 && (text[10] == 'T' || text[10] == ' ') {
		text = text[:10]
	}
	d, ok := parseDate(text)
	if !ok || !yearAllowed(d.Year()) {
		t.fault(c, dateAllowed, dateMend(t.text(c)))
		return 0, false
	}
	return d, true
}

// fault notes what is wrong with a field of the row.
func (t *sheet) fault(c column, allowed, mend string) {
	t.f.add(Fault{Line: t.split.line, Column: c.name, Found: string(t.text(c)), Allowed: allowed, Mend: mend})
}

// absent notes elements that the sheet has no column for.
func (t *sheet) absent(rec *record, element string, columns ...column) {
	var all []string
	for _, c := range columns {
		if c.has() {
			return
		}
		all = append(all, c.name)
	}
	rec.notes = append(rec.notes, absence(element, strings.Join(all, " or ")))
}

// absence says which element a file lacks and what takes its place, after
// ReferenceET where that uses it.
func absence(element, column string) string {
	instead := map[string]string{
		"solar radiation": "the daily range of temperature serves",
		"humidity":        "the night's least temperature serves as dew point",
		"vapour pressure": "the night's least temperature serves as dew point",
		"wind":            "2 m/s where the method asks for it",
		"mean wind":       "2 m/s where the method asks for it",
		"snow depth":      "the pack is simulated in any case",
	}[element]
	return "no " + element + ": the file has no column " + column + "; " + instead
}

// unused notes the columns that were never asked for.
func (t *sheet) unused(rec *record) {
	var all []string
	for i, used := range t.used {
		if !used {
			all = append(all, t.header[i])
		}
	}
	if len(all) > 0 {
		rec.notes = append(rec.notes, "columns not used: "+strings.Join(all, ", "))
	}
}

// count counts what a row has in the census of the station taken last.
func (c *chooser) count(r *row) {
	for element, v := range [...]float64{censusTmax: r.tmax, censusTmin: r.tmin, censusPrecip: r.precip} {
		if !math.IsNaN(v) {
			c.saw(element)
		}
	}
}

// tally is a finding that is counted over the files of one record.
type tally struct {
	n    int
	what string
}

// tallied writes the findings that were made.
func (rec *record) tallied() (notes []string) {
	for _, t := range rec.tallies {
		if t.n > 0 {
			notes = append(notes, fmt.Sprintf("%d %s", t.n, t.what))
		}
	}
	return notes
}
