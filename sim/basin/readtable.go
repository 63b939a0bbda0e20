package basin

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/gocarina/gocsv"

	"mottle/sim/unit"
)

// column is one that a table may hold. A quantity stands in the unit that the
// column's name ends in ("area_ha"), or under the plain name with its unit beside
// each number ("40 ac").
type column struct {
	name  string
	dim   unit.Dimension
	ends  []ending // in which a quantity may stand; nil for a text or a bare number
	alias string   // read too, and said
}

// ending is the end of a column's name and the unit that it stands for.
type ending struct{ end, unit string }

var (
	lengths = []ending{{"m", "m"}, {"ft", "ft"}}
	depths  = []ending{{"m", "m"}, {"cm", "cm"}, {"mm", "mm"}, {"ft", "ft"}, {"in", "in"}}
	areas   = []ending{{"ha", "ha"}, {"ac", "ac"}, {"m2", "m2"}, {"km2", "km2"}, {"mi2", "mi2"}}
	slopes  = []ending{{"percent", "%"}}
	flows   = []ending{{"m3_s", "m3/s"}, {"cfs", "cfs"}}
	rates   = []ending{{"mm_d", "mm/d"}, {"in_d", "in/d"}}
)

// titles are the names under which the columns may stand.
func titles(columns []column) []string {
	var all []string
	for _, c := range columns {
		for _, e := range c.ends {
			all = append(all, c.name+"_"+e.end)
		}
		all = append(all, c.name)
	}
	return all
}

// table is a text with named columns, on its way to typed rows. It is a
// gocsv.Decoder of its own.
type table struct {
	rd      *reading
	file    string
	columns []column
	known   []string         // of each column its plain name, "" for one that is left aside
	titles  map[string]title // by plain name
	cells   [][]string
	lines   []int
	listed  bool // a list of the basin file, not a file of its own
}

// title is how a column is headed in the file.
type title struct{ text, unit string }

// GetCSVRows gives the head and the rows.
func (t *table) GetCSVRows() ([][]string, error) {
	return append([][]string{t.known}, t.cells...), nil
}

// decode lays the rows on a slice of structs by their csv tags.
func (t *table) decode(rows any) {
	if err := gocsv.UnmarshalDecoder(t, rows); err != nil {
		t.rd.row(t.file, 1, "", "%v", err)
	}
}

// head takes the names of the columns, false after a fault. Those of aside are left
// out of consideration.
func (t *table) head(line int, names, aside []string) bool {
	t.titles = map[string]title{}
	sound := true
	fault := func(column, format string, args ...any) {
		sound = false
		t.rd.row(t.file, line, column, format, args...)
	}
	all := titles(t.columns)
	for _, name := range names {
		name = strings.TrimSpace(name)
		plain, measured, alias := t.lookup(strings.ReplaceAll(strings.ToLower(name), " ", "_"))
		switch first, twice := t.titles[plain]; {
		case slices.Contains(aside, name):
			plain = ""
		case plain == "":
			mend := "allowed " + strings.Join(t.first(), ", ")
			if near := unit.Nearest(name, all); near != "" {
				mend = fmt.Sprintf("did you mean %q?", near)
			}
			fault(legible(name), "found a name that is not known; what serves other uses is named under ignore in %s: %s", t.rd.name, mend)
		case twice:
			fault(name, "found beside column %q, which says the same; keep one", first.text)
		default:
			if alias {
				t.rd.note("%s: column %q is read as %s", t.file, name, plain)
			}
			t.titles[plain] = title{name, measured}
		}
		t.known = append(t.known, plain)
	}
	t.rd.titles[t.file] = t.titles
	return sound
}

// first are the names of the columns, of quantities in their first unit.
func (t *table) first() []string {
	var names []string
	for i := range t.columns {
		names = append(names, titles(t.columns[i : i+1])[0])
	}
	return names
}

// lookup finds the column that a name stands for, and the unit in the name.
func (t *table) lookup(name string) (plain, measured string, alias bool) {
	for _, c := range t.columns {
		if name == c.name || c.alias != "" && name == c.alias {
			return c.name, "", name == c.alias
		}
		for _, e := range c.ends {
			if name == c.name+"_"+e.end {
				return c.name, e.unit, false
			}
		}
	}
	return "", "", false
}

// needs reports columns that must be there, and are not.
func (t *table) needs(line int, plain ...string) {
	for _, name := range plain {
		if _, ok := t.titles[name]; !ok {
			i := slices.IndexFunc(t.columns, func(c column) bool { return c.name == name })
			t.rd.row(t.file, line, "", "found no column %s; add it", strings.Join(titles(t.columns[i:i+1]), " or "))
		}
	}
}

// cellFault notes what is wrong with a column of a row.
type cellFault func(plain, format string, args ...any)

func (t *table) fault(line int) cellFault {
	return func(plain, format string, args ...any) { t.rd.row(t.file, line, plain, format, args...) }
}

// quantity is a cell in SI, NaN when it is empty or at fault.
func (t *table) quantity(fault cellFault, plain, text string) float64 {
	if text == "" {
		return math.NaN()
	}
	i := slices.IndexFunc(t.columns, func(c column) bool { return c.name == plain })
	c, named := t.columns[i], t.titles[plain]
	if named.unit == "" || c.ends == nil {
		if c.dim == unit.Percent && !strings.HasSuffix(text, "%") {
			fault(plain, "found %.80q; allowed a percentage with %% (for example \"0.5 %%\")", text)
			return math.NaN()
		}
		x, err := parse(text, c.dim)
		switch {
		case err == nil:
			return x
		case t.listed || c.ends == nil:
			fault(plain, "%v", err)
		default:
			fault(plain, "%v; or name the unit in the column: %s", err, strings.Join(titles([]column{c})[:len(c.ends)], ", "))
		}
		return math.NaN()
	}
	if _, err := unit.Parse(text, unit.Number); err != nil {
		fault(plain, "found %.80q; allowed a number, the column is in %s", text, named.unit)
		return math.NaN()
	}
	x, err := parse(text+" "+named.unit, c.dim)
	if err != nil {
		fault(plain, "%v", err)
		return math.NaN()
	}
	return x
}

// readCSV reads a table parted by commas, semicolons or tabs, whichever its head
// holds.
func (rd *reading) readCSV(file string, data []byte, columns []column, aside []string) (*table, bool) {
	t := &table{rd: rd, file: file, columns: columns}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if i := bytes.IndexByte(data, 0); i >= 0 {
		rd.row(file, 1+bytes.Count(data[:i], []byte("\n")), "", "found a byte of 0; allowed text in UTF-8: save the table as CSV in UTF-8")
		return t, false
	}
	head, _, _ := bytes.Cut(bytes.TrimSpace(data), []byte("\n"))
	in := csv.NewReader(bytes.NewReader(data))
	in.FieldsPerRecord, in.TrimLeadingSpace = -1, true
	for _, mark := range ";\t" {
		if !bytes.ContainsRune(head, ',') && bytes.ContainsRune(head, mark) {
			in.Comma = mark
		}
	}
	sound := true
	for n := 0; ; n++ {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			line := 0
			var at *csv.ParseError
			if errors.As(err, &at) {
				line, err = at.Line, at.Err
			}
			rd.row(file, line, "", "not CSV: %v", err)
			return t, false
		}
		line, _ := in.FieldPos(0)
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		switch {
		case n == 0:
			if !t.head(line, cells, aside) {
				sound = false
			}
		case slices.IndexFunc(cells, func(c string) bool { return c != "" }) < 0:
			// a line of blanks or of commas, as spreadsheets leave below a table
		case len(cells) != len(t.known):
			rd.row(file, line, "", "found %d cells; allowed %d, as many as columns are named: is a text with a comma without quotes?", len(cells), len(t.known))
			sound = false
		default:
			t.cells, t.lines = append(t.cells, cells), append(t.lines, line)
		}
	}
	if len(t.lines) == 0 && sound {
		rd.row(file, 1, "", "found no rows; allowed a head with the names of columns, and a row for each")
		sound = false
	}
	return t, sound
}
