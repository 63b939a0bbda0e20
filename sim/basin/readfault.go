package basin

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"

	"mottle/sim/site"
)

// reading is a basin on its way, with all that is wrong with it.
type reading struct {
	b    *Basin
	name string   // of the basin file
	rows []string // its lines
	root ast.Node // its map; nil where it is no YAML
	open func(path string) (io.ReadCloser, error)

	files  []string // in the order of their faults
	faults []*site.Fault
	alike  map[rowFault][]int // faults of rows of tables, with their lines
	order  []rowFault
	titles map[string]map[string]title // of each table: how its columns are headed, by plain name

	unitFile, reachFile string
	broken              bool         // units or reaches cannot be read: ways are not followed
	features            bool         // the units are features of GeoJSON, counted from 1, not lines
	soilNames           []string     // in the order of the file, those at fault too
	stationNames        []string     // likewise
	defaults            unitDefaults // for units
}

func newReading(name string, data []byte, open func(string) (io.ReadCloser, error)) *reading {
	if open == nil {
		open = func(string) (io.ReadCloser, error) { return nil, errNoOpen }
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	rd := &reading{name: name, open: open, files: []string{name}, alike: map[rowFault][]int{}, titles: map[string]map[string]title{},
		b:    &Basin{Soils: map[string]site.Field{}, Stations: map[string]Station{}},
		rows: strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(data)), "\n")}
	return rd
}

// tree parses the basin file once more, for what site.Section does not hand out.
func (rd *reading) tree() {
	file, err := parser.ParseBytes([]byte(strings.Join(rd.rows, "\n")), 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return // told by site.ReadKeys
	}
	for _, doc := range file.Docs {
		if m, ok := doc.Body.(ast.MapNode); ok {
			rd.root = m.(ast.Node)
			return
		}
	}
}

// rowFault is what is wrong with rows of a table, the same with each.
type rowFault struct{ file, column, text string }

// row notes what is wrong with a column in a line of a file.
func (rd *reading) row(file string, line int, column, format string, args ...any) {
	if head, ok := rd.titles[file][column]; ok {
		column = head.text
	}
	switch {
	case column == "" || strings.Contains(column, "["):
	case rd.counted(file):
		column = fmt.Sprintf("property %q", column)
	default:
		column = fmt.Sprintf("column %q", column)
	}
	f := rowFault{file, column, fmt.Sprintf(format, args...)}
	lines := rd.alike[f]
	if lines == nil {
		rd.order = append(rd.order, f)
	}
	if n := len(lines); n == 0 || lines[n-1] != line {
		rd.alike[f] = append(lines, line)
	}
}

// add notes a fault.
func (rd *reading) add(f *site.Fault) {
	if f.File != "" && !slices.Contains(rd.files, f.File) {
		rd.files = append(rd.files, f.File)
	}
	rd.faults = append(rd.faults, f)
}

// at notes what is wrong in a line of the basin file.
func (rd *reading) at(line int, key, format string, args ...any) {
	f := &site.Fault{File: rd.name, Line: line, Key: key, Text: fmt.Sprintf(format, args...)}
	if line > 0 && line <= len(rd.rows) {
		f.Source = legible(rd.rows[line-1])
	}
	rd.add(f)
}

// note says what was read otherwise than it stands.
func (rd *reading) note(format string, args ...any) {
	rd.b.Notes = append(rd.b.Notes, printable(fmt.Sprintf(format, args...)))
}

// err joins all faults, file by file, in the order of their lines.
func (rd *reading) err() error {
	for _, f := range rd.order {
		lines := rd.alike[f]
		text := f.text
		what := "line"
		fault := &site.Fault{File: f.file, Line: lines[0], Key: f.column}
		if rd.counted(f.file) && lines[0] > 0 {
			what = "feature"
			fault.Key = strings.TrimSuffix(fmt.Sprintf("feature %d: %s", lines[0], f.column), ": ")
		}
		if len(lines) > 1 {
			text += " (also in " + ranges(what, lines[1:]) + ")"
		}
		fault.Text = text
		rd.add(fault)
	}
	rd.order = nil
	slices.SortStableFunc(rd.faults, func(a, b *site.Fault) int {
		return cmp.Or(cmp.Compare(slices.Index(rd.files, a.File), slices.Index(rd.files, b.File)), cmp.Compare(a.Line, b.Line))
	})
	list := make([]error, len(rd.faults))
	for i, f := range rd.faults {
		if strings.HasPrefix(f.Key, "feature ") && rd.counted(f.File) {
			f.Line = 0 // it was the feature's number, for the order
		}
		list[i] = f
	}
	return errors.Join(list...)
}

// counted says whether a file's rows are features, not lines.
func (rd *reading) counted(file string) bool { return rd.features && file == rd.unitFile }

// ranges writes lines as "line 4", "lines 4, 7-12".
func ranges(what string, lines []int) string {
	var b strings.Builder
	b.WriteString(what)
	if len(lines) > 1 {
		b.WriteByte('s')
	}
	for i := 0; i < len(lines); {
		j := i
		for j+1 < len(lines) && lines[j+1] == lines[j]+1 {
			j++
		}
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, " %d", lines[i])
		if j > i {
			fmt.Fprintf(&b, "-%d", lines[j])
		}
		i = j + 1
	}
	return b.String()
}

// longest is how much of a line is shown, characters.
const longest = 160

// printable is a text without what would disturb a terminal.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\t' && !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// legible is a line that is printable, cut where it is long.
func legible(text string) string {
	shown := []rune(printable(text))
	if len(shown) > longest {
		return string(shown[:longest-3]) + "..."
	}
	return string(shown)
}
