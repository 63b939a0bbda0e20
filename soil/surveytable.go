package soil

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Columns that a table cannot do without; depths in cm, shares in percent by mass.
const (
	depthTop    = "hzdept_r"
	depthBottom = "hzdepb_r"
	sandColumn  = "sandtotal_r"
	clayColumn  = "claytotal_r"
)

// surveyValues are the columns of a horizon's values, each with the endings _r
// (representative), _l and _h (low and high), and what replaces an absent one.
var surveyValues = []struct {
	column    string
	low, high float64
	unit      string
	times     float64 // to our unit
	into      func(*Horizon) *float64
	instead   string // "" for what is required
}{
	{"sandtotal", 0, 100, "%", 1, func(h *Horizon) *float64 { return &h.Sand }, ""},
	{"silttotal", 0, 100, "%", 1, func(h *Horizon) *float64 { return &h.Silt }, "100 % less sand and clay"},
	{"claytotal", 0, 100, "%", 1, func(h *Horizon) *float64 { return &h.Clay }, ""},
	{"om", 0, 100, "%", 1, func(h *Horizon) *float64 { return &h.Organic }, "1 %"},
	{"dbthirdbar", 0.02, 2.6, "g/cm3", 1, func(h *Horizon) *float64 { return &h.BulkDensity }, "the density of wsatiated_r where given, else of the relation"},
	{"ksat", 0, 1000, "um/s", 1e-6, func(h *Horizon) *float64 { return &h.Ksat }, "the conductivity of the relation"},
	{"wthirdbar", 0, 100, "%", 0.01, func(h *Horizon) *float64 { return &h.Water33 }, "the water content of the relation"},
	{"wfifteenbar", 0, 100, "%", 0.01, func(h *Horizon) *float64 { return &h.Water1500 }, "the water content of the relation"},
	{"ec", 0, 200, "dS/m", 1, func(h *Horizon) *float64 { return &h.SalinityEC }, "0.5 dS/m"},
}

// surveyWords are the other columns that are read, and what their absence means.
var surveyWords = []struct{ column, instead string }{
	{"mukey", "all rows taken as one map unit by muname"},
	{"muname", "the map unit is named by its key"},
	{"cokey", "components told apart by compname"},
	{"compname", "the component is named by its key"},
	{"comppct_r", "the first component is taken as the largest"},
	{"drainagecl", "drainage class not known"},
	{"hydgrp", "hydrologic group not known"},
	{"slope_r", "slope not known"},
	{"hzname", "rock and dense layers told by texture and conductivity alone"},
	{"wsatiated_r", "saturation from the bulk density"},
}

// surveyIdle are columns of soil that have no part in the model; they are named,
// so that nobody takes them for used.
var surveyIdle = []string{"sar_r", "lep_r"}

// surveyRow is one row of the map unit taken.
type surveyRow struct {
	line            int
	component       keyName
	percent, slope  float64
	drainage, group string
	name            string // of the horizon
	empty           bool   // a component without horizons
	value, low, top Horizon
	saturated       float64 // wsatiated_r, m3/m3
}

// surveyTable is a table read, of which the rows of one map unit are kept.
type surveyTable struct {
	name     string
	columns  map[string]int
	unit     keyName
	units    []string
	rows     []surveyRow
	line     int      // of the row read last
	replaced []string // what stands in for absent columns
	faults   surveyFaults
}

// readTable streams a table and keeps the rows of the map unit asked for, or of
// the first.
func readTable(name string, r io.Reader, mapUnit string) (*surveyTable, error) {
	t := &surveyTable{name: name, faults: surveyFaults{name: name}}
	text, err := t.tableText(r)
	if err != nil {
		return nil, err
	}
	guard := &rowGuard{r: text, left: longestRow}
	in := csv.NewReader(guard)
	in.ReuseRecord, in.FieldsPerRecord = true, -1
	header, err := in.Read()
	if err != nil {
		return nil, t.broken(err, "an empty table")
	}
	t.line, _ = in.FieldPos(0)
	if err := t.readHeader(header); err != nil {
		return nil, err
	}
	width, seen, taken := len(header), map[keyName]bool{}, false
	for n := 0; ; n++ {
		guard.left = longestRow
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, t.broken(err, "")
		}
		line, _ := in.FieldPos(0)
		t.line = line
		if n == maxSurveyRows {
			t.faults.add(line, "", "a further row", fmt.Sprintf("at most %d rows", maxSurveyRows), "export fewer map units")
			return nil, t.faults.err()
		}
		if blank(record) {
			continue
		}
		if len(record) != width {
			t.faults.add(line, "", fmt.Sprintf("%d fields", len(record)), fmt.Sprintf("%d, as in the header", width), "is the row cut off, or a comma within a field?")
			continue
		}
		unit := keyName{t.cell(record, "mukey"), t.cell(record, "muname")}
		if !seen[unit] {
			unit = keyName{strings.Clone(unit.key), strings.Clone(unit.name)}
			if len(seen) == maxSurveyUnits {
				t.faults.add(line, "mukey", fmt.Sprintf("more than %d map units", maxSurveyUnits), "fewer", "export those of one county or state")
				return nil, t.faults.err()
			}
			seen[unit] = true
			t.units = append(t.units, unit.String())
			if !taken && (mapUnit == "" || strings.EqualFold(mapUnit, unit.key) || strings.EqualFold(mapUnit, unit.name)) {
				t.unit, taken = unit, true
			}
		}
		if !taken || unit != t.unit {
			continue
		}
		if len(t.rows) == maxSurveyLayers {
			t.faults.add(line, "", "a further row of map unit "+unit.String(), fmt.Sprintf("at most %d", maxSurveyLayers), "are the keys in their columns?")
			return nil, t.faults.err()
		}
		t.rows = append(t.rows, t.readRow(record, line))
	}
	if !taken {
		found, mend := "no row of data", "export the rows too"
		if mapUnit != "" {
			found, mend = mapUnit, "the table holds "+listed(t.units)
		}
		t.faults.add(0, "mukey", found, "a map unit of the table, by mukey or muname", mend)
	}
	return t, t.faults.err()
}

// broken is the fault of a text that is no CSV.
func (t *surveyTable) broken(err error, empty string) error {
	var parse *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return &surveyFault{name: t.name, found: empty, allowed: "a header with " + depthTop + " and rows beneath it"}
	case errors.As(err, &parse):
		return &surveyFault{name: t.name, line: parse.StartLine, found: parse.Err.Error(), allowed: "comma-separated values (RFC 4180)", mend: "are the quotes in pairs?"}
	case errors.Is(err, errLongRow):
		return &surveyFault{name: t.name, line: t.line + 1, found: fmt.Sprintf("a row of more than %d bytes", longestRow), allowed: "shorter rows", mend: "are the quotes in pairs, and is this a survey's table?"}
	}
	return fmt.Errorf("%s: %w", t.name, err)
}

func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(s string) bool { return strings.TrimSpace(s) != "" })
}

// readHeader finds the columns. A required one that is absent is a fault; of the
// others it is noted what replaces them.
func (t *surveyTable) readHeader(header []string) error {
	t.columns = map[string]int{}
	for i, cell := range header {
		word := strings.ToLower(strings.TrimSpace(cell))
		if _, twice := t.columns[word]; twice && word != "" {
			t.faults.add(1, word, "the name twice", "each column once", "drop one")
		}
		t.columns[strings.Clone(word)] = i
	}
	required := []string{depthTop, depthBottom, sandColumn, clayColumn}
	if !slices.ContainsFunc(required, func(c string) bool { _, known := t.columns[c]; return known }) {
		return &surveyFault{name: t.name, line: 1, found: strings.Join(header, ","), allowed: "a header with " + strings.Join(required, ", "),
			mend: "export the table of horizons with the database's column names"}
	}
	for _, c := range required {
		if _, known := t.columns[c]; !known {
			t.faults.add(1, c, "no such column", "the database's own column names", "export "+c+" too")
		}
	}
	replace := func(column, instead string) {
		if _, known := t.columns[column]; !known && instead != "" {
			t.replaced = append(t.replaced, fmt.Sprintf("column %s is absent: %s", column, instead))
		}
	}
	for _, c := range surveyWords {
		replace(c.column, c.instead)
	}
	for _, c := range surveyValues {
		replace(c.column+"_r", c.instead)
	}
	for _, c := range surveyIdle {
		if _, known := t.columns[c]; known {
			t.replaced = append(t.replaced, fmt.Sprintf("column %s is not used", c))
		}
	}
	return t.faults.err()
}

// cell is the trimmed text of a column, "" without it.
func (t *surveyTable) cell(record []string, column string) string {
	i, known := t.columns[column]
	if !known {
		return ""
	}
	return strings.TrimSpace(record[i])
}

// number reads a column, NaN when it is blank or absent.
func (t *surveyTable) number(record []string, line int, column string, low, high float64, unit string) float64 {
	text := t.cell(record, column)
	if text == "" || strings.EqualFold(text, "null") {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x >= low && x <= high) {
		t.faults.add(line, column, text, fmt.Sprintf("%g to %g %s, or nothing", low, high, unit), numberMend(text, x, err))
		return math.NaN()
	}
	return x
}

// readRow reads one row of the map unit taken.
func (t *surveyTable) readRow(record []string, line int) surveyRow {
	word := func(column string) string { return strings.Clone(t.cell(record, column)) }
	number := func(column string, low, high float64, unit string) float64 {
		return t.number(record, line, column, low, high, unit)
	}
	r := surveyRow{line: line, component: keyName{word("cokey"), word("compname")}, name: word("hzname"),
		percent: number("comppct_r", 0, 100, "%"), slope: number("slope_r", 0, 999, "%"),
		drainage: word("drainagecl"), group: word("hydgrp")}
	const deepest = 2000 // cm
	top, bottom := number(depthTop, 0, deepest, "cm")/100, number(depthBottom, 0, deepest, "cm")/100
	r.value, r.low, r.top = NewHorizon(top, bottom), NewHorizon(top, bottom), NewHorizon(top, bottom)
	for _, v := range []struct {
		ending string
		into   *Horizon
	}{{"_r", &r.value}, {"_l", &r.low}, {"_h", &r.top}} {
		v.into.Name = r.name
		for _, c := range surveyValues {
			*c.into(v.into) = c.times * number(c.column+v.ending, c.low, c.high, c.unit)
		}
	}
	r.saturated = number("wsatiated_r", 0, 100, "%") / 100
	r.empty = math.IsNaN(top) && math.IsNaN(bottom) && r.name == "" && math.IsNaN(r.value.Sand)
	return r
}
