package basin

import (
	"fmt"
	"math"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/site"
	"mottle/sim/unit"
)

// reachColumns are those of a table of reaches, and the keys of a list of them.
var reachColumns = []column{
	{name: "id"}, {name: "to", alias: "drains_to"},
	{name: "length", dim: unit.Length, ends: lengths},
	{name: "slope", dim: unit.Percent, ends: slopes},
	{name: "width", dim: unit.Length, ends: lengths},
	{name: "roughness", dim: unit.Number},
	{name: "pond_area", dim: unit.Area, ends: areas},
	{name: "pond_depth", dim: unit.Length, ends: lengths},
	{name: "pond_outlet", dim: discharge, ends: flows},
	{name: "outlet_capacity", dim: discharge, ends: flows},
	{name: "outlet_coefficient", dim: unit.Conductivity, ends: rates},
}

// reachRow is a row as it is written.
type reachRow struct {
	ID                string `csv:"id"`
	To                string `csv:"to"`
	Length            string `csv:"length"`
	Slope             string `csv:"slope"`
	Width             string `csv:"width"`
	Roughness         string `csv:"roughness"`
	PondArea          string `csv:"pond_area"`
	PondDepth         string `csv:"pond_depth"`
	PondOutlet        string `csv:"pond_outlet"`
	OutletCapacity    string `csv:"outlet_capacity"`
	OutletCoefficient string `csv:"outlet_coefficient"`
}

// discharge is a dimension of reaches: a volume of water by time, m3/s.
const discharge unit.Dimension = -1

// discharges are its units; a cubic foot is 0.3048^3 m3 (international yard and
// pound agreement of 1959).
var discharges = []struct {
	name string
	si   float64
}{{"m3/s", 1}, {"L/s", 1e-3}, {"cfs", 0.3048 * 0.3048 * 0.3048}}

// parse is unit.Parse with discharge as well.
func parse(text string, dim unit.Dimension) (float64, error) {
	if dim != discharge {
		return unit.Parse(text, dim)
	}
	for _, d := range discharges {
		if number, ok := strings.CutSuffix(text, d.name); ok {
			if x, err := unit.Parse(number, unit.Number); err == nil {
				return x * d.si, nil
			}
		}
	}
	return 0, fmt.Errorf(`found %.80q; allowed a discharge with one of m3/s, L/s, cfs (for example "0.5 m3/s")`, text)
}

// reaches reads the reaches, from a list in the basin file or from a table.
func (rd *reading) reaches(s *site.Section) {
	if !s.Has("reaches") {
		return // units may drain to the outlet itself
	}
	if list, ok := child(rd.root, "reaches").(*ast.SequenceNode); ok {
		rd.reachFile = rd.name
		for i, e := range s.Sections("reaches") {
			rd.listedReach(e, list.Values[i].GetToken().Position.Line)
		}
		return
	}
	before := rd.broken
	rd.reachFile, rd.broken = s.Text("reaches"), true
	in := rd.file(s, "reaches", rd.reachFile)
	if in == nil {
		return
	}
	data := rd.all(s, "reaches", rd.reachFile, in)
	if data == nil {
		return
	}
	t, sound := rd.readCSV(rd.reachFile, data, reachColumns, nil)
	if !sound {
		return
	}
	t.needs(1, "id", "to", "length", "slope", "width", "roughness")
	rd.broken = before
	var rows []reachRow
	t.decode(&rows)
	for i, row := range rows {
		rd.b.Reaches = append(rd.b.Reaches, reach(t, t.fault(t.lines[i]), row, t.lines[i]))
	}
}

// listedReach reads a reach of the basin file.
func (rd *reading) listedReach(e *site.Section, line int) {
	t := &table{rd: rd, columns: reachColumns, listed: true}
	row := reachRow{}
	cells := []*string{&row.ID, &row.To, &row.Length, &row.Slope, &row.Width, &row.Roughness,
		&row.PondArea, &row.PondDepth, &row.PondOutlet, &row.OutletCapacity, &row.OutletCoefficient} // as reachColumns
	for i, c := range reachColumns {
		*cells[i] = e.Text(c.name)
	}
	r := reach(t, e.Fault, row, line)
	e.End()
	rd.b.Reaches = append(rd.b.Reaches, r)
}

// reach turns a row into a reach. What its outlet carries by area is a coefficient
// until the land above is known.
func reach(t *table, fault cellFault, row reachRow, line int) Reach {
	for _, cell := range []struct{ plain, text string }{{"id", row.ID}, {"to", row.To}, {"length", row.Length}, {"slope", row.Slope}, {"width", row.Width}, {"roughness", row.Roughness}} {
		if _, there := t.titles[cell.plain]; (there || t.listed) && cell.text == "" {
			fault(cell.plain, "found nothing; every reach needs it")
		}
	}
	r := Reach{ID: row.ID, To: row.To, Row: line,
		Length: t.within(fault, "length", row.Length, 1, 1e6, "1 m to 1000 km"),
		Slope:  t.within(fault, "slope", row.Slope, 1e-4, 100, "above 0 to 100 %") / 100,
		Width:  t.within(fault, "width", row.Width, 0.01, 1000, "0.01 to 1000 m"),
		// Chow (1959, table 5-6): 0.01 of smooth pipe to 0.2 of timbered flood plains.
		Roughness:      t.within(fault, "roughness", row.Roughness, 0.005, 0.5, "Manning's n, 0.005 to 0.5"),
		OutletCapacity: math.Inf(1),
	}
	if row.OutletCapacity != "" && row.OutletCoefficient != "" {
		fault("outlet_coefficient", "found beside outlet_capacity; give one or the other")
	}
	if row.OutletCapacity != "" {
		r.OutletCapacity = t.within(fault, "outlet_capacity", row.OutletCapacity, 1e-9, 1e6, "above 0")
	}
	if row.OutletCoefficient != "" {
		r.coefficient = t.within(fault, "outlet_coefficient", row.OutletCoefficient, 1e-12, 1e-3, "above 0")
	}
	parts := []struct{ plain, text string }{{"pond_area", row.PondArea}, {"pond_depth", row.PondDepth}, {"pond_outlet", row.PondOutlet}}
	if row.PondArea+row.PondDepth+row.PondOutlet == "" {
		return r
	}
	for _, p := range parts {
		if p.text == "" {
			fault(p.plain, "found nothing; a pond needs pond_area, pond_depth and pond_outlet")
		}
	}
	r.Pond = &Pond{
		Area:    t.within(fault, "pond_area", row.PondArea, 1e-6, largestUnit, "above 0 to 10,000 km2"),
		Depth:   t.within(fault, "pond_depth", row.PondDepth, 1e-6, 100, "above 0 to 100 m"),
		Outflow: t.within(fault, "pond_outlet", row.PondOutlet, 1e-9, 1e6, "above 0"),
	}
	return r
}
