package basin

import (
	"bytes"
	"math"
	"slices"

	"mottle/sim/crop"
	"mottle/sim/site"
	"mottle/sim/unit"
)

// unitColumns are those of a table of units, the same as the properties of GeoJSON.
var unitColumns = []column{
	{name: "id"}, {name: "group"},
	{name: "area", dim: unit.Area, ends: areas},
	{name: "soil"}, {name: "cover", alias: "crop"},
	{name: "slope", dim: unit.Percent, ends: slopes},
	{name: "drained"},
	{name: "tile_depth", dim: unit.Length, ends: depths},
	{name: "tile_spacing", dim: unit.Length, ends: lengths},
	{name: "storage", dim: unit.Length, ends: depths},
	{name: "to", alias: "drains_to"},
	{name: "length", dim: unit.Length, ends: lengths},
	{name: "station"},
	{name: "elevation", dim: unit.Length, ends: lengths},
}

// unitRow is a row as it is written.
type unitRow struct {
	ID          string `csv:"id"`
	Group       string `csv:"group"`
	Area        string `csv:"area"`
	Soil        string `csv:"soil"`
	Cover       string `csv:"cover"`
	Slope       string `csv:"slope"`
	Drained     string `csv:"drained"`
	TileDepth   string `csv:"tile_depth"`
	TileSpacing string `csv:"tile_spacing"`
	Storage     string `csv:"storage"`
	To          string `csv:"to"`
	Length      string `csv:"length"`
	Station     string `csv:"station"`
	Elevation   string `csv:"elevation"`
}

// units reads the land units, a table or a collection of features, told by content.
func (rd *reading) units(s *site.Section) {
	if !s.Has("units") {
		s.Fault("units", "missing; give a table of land units, CSV or GeoJSON")
	}
	rd.unitFile, rd.broken = s.Text("units"), true
	aside := rd.words(s, "", rd.root, "ignore")
	in := rd.file(s, "units", rd.unitFile)
	if in == nil {
		return
	}
	data := rd.all(s, "units", rd.unitFile, in)
	if data == nil {
		return
	}
	var t *table
	var shapes []feature
	var sound bool
	if start := bytes.TrimLeft(data, "\ufeff \t\r\n"); len(start) > 0 && start[0] == '{' {
		rd.features = true
		t, shapes, sound = rd.readGeoJSON(rd.unitFile, data, aside)
	} else {
		t, sound = rd.readCSV(rd.unitFile, data, unitColumns, aside)
	}
	if !sound {
		return
	}
	needed := []string{"id", "soil", "slope", "drained", "to", "length"}
	if len(rd.defaults.cover) == 0 {
		needed = append(needed, "cover")
	}
	if shapes == nil {
		needed = append(needed, "area")
	}
	head := 1
	if rd.features {
		head = 0 // there is none
	}
	t.needs(head, needed...)
	rd.broken = false
	var rows []unitRow
	t.decode(&rows)
	for i, row := range rows {
		var shape feature
		if shapes != nil {
			shape = shapes[i]
		}
		rd.b.Units = append(rd.b.Units, rd.unit(t, row, shape, t.lines[i]))
	}
	rd.outlines()
}

// unit turns a row into a unit.
func (rd *reading) unit(t *table, row unitRow, shape feature, line int) Unit {
	fault := t.fault(line)
	u := Unit{ID: row.ID, Group: row.Group, Soil: row.Soil, To: row.To, Row: line, Geometry: shape.geometry, Properties: shape.properties,
		Slope:     t.within(fault, "slope", row.Slope, 1e-4, 100, "above 0 to 100 %") / 100,
		Length:    t.within(fault, "length", row.Length, 0, 1e5, "0 to 100 km"),
		Elevation: t.within(fault, "elevation", row.Elevation, -500, 9000, "-500 to 9000 m"),
		Design:    rd.defaults.tile,
	}
	for _, cell := range []struct{ plain, text string }{{"id", row.ID}, {"soil", row.Soil}, {"slope", row.Slope}, {"drained", row.Drained}, {"to", row.To}, {"length", row.Length}} {
		if _, there := t.titles[cell.plain]; there && cell.text == "" {
			fault(cell.plain, "found nothing; every unit needs it")
		}
	}
	rd.unitArea(t, fault, &u, row.Area)
	if row.Soil != "" && len(rd.soilNames) > 0 && !slices.Contains(rd.soilNames, row.Soil) {
		fault("soil", "found %.80q; allowed %s%s", row.Soil, listed(rd.soilNames, "soil"), meant(row.Soil, rd.soilNames))
	}
	rd.cover(fault, &u, row.Cover)
	rd.tile(t, fault, &u, row)
	u.Storage = t.quantity(fault, "storage", row.Storage)
	if f, ok := rd.b.Soils[row.Soil]; ok && row.Storage == "" {
		u.Storage = f.Surface.Storage
	}
	rd.unitStation(fault, &u, row.Station)
	return u
}

// within is a quantity that lies in a range.
func (t *table) within(fault cellFault, plain, text string, low, high float64, allowed string) float64 {
	x := t.quantity(fault, plain, text)
	if !math.IsNaN(x) && (x < low || x > high) {
		fault(plain, "found %.80q; allowed %s", text, allowed)
		return math.NaN()
	}
	return x
}

// largestUnit is more than any piece of land with one soil and one way down, m2.
const largestUnit = 1e10

// unitArea takes the area from the table, or else from the outline.
func (rd *reading) unitArea(t *table, fault cellFault, u *Unit, text string) {
	switch {
	case text == "" && u.Geometry == nil:
		if _, there := t.titles["area"]; there || rd.features {
			fault("area", "found nothing; every unit needs it, or an outline")
		}
	case text != "":
		u.Area = t.quantity(fault, "area", text)
		if u.Area <= 0 || u.Area > largestUnit {
			fault("area", "found %.80q; allowed above 0 to 10,000 km2", text)
		}
	}
}

// cover reads the crops by year.
func (rd *reading) cover(fault cellFault, u *Unit, text string) {
	if text == "" {
		u.Cover = rd.defaults.cover
		if len(u.Cover) == 0 {
			fault("cover", "found nothing; every unit needs it, or name a cover under defaults in %s", rd.name)
		}
		return
	}
	for _, name := range split(text) {
		kind, err := crop.Named(name)
		if err != nil {
			fault("cover", "%v%s", err, meant(name, crop.Names()))
		}
		u.Cover = append(u.Cover, kind)
	}
}

// tile reads what drains the unit, and what would be laid.
func (rd *reading) tile(t *table, fault cellFault, u *Unit, row unitRow) {
	if x := t.quantity(fault, "tile_depth", row.TileDepth); row.TileDepth != "" {
		u.Design.Depth = x
	}
	if x := t.quantity(fault, "tile_spacing", row.TileSpacing); row.TileSpacing != "" {
		u.Design.Spacing = x
	}
	switch row.Drained {
	case "yes", "true":
		laid := u.Design
		u.Tile = &laid
	case "no", "false", "":
	default:
		fault("drained", "found %.80q; allowed yes, no", row.Drained)
	}
}

func (rd *reading) unitStation(fault cellFault, u *Unit, name string) {
	u.Station = name
	switch {
	case name == "":
		u.Station = rd.defaults.station
		if u.Station == "" && len(rd.stationNames) > 1 {
			fault("station", "found nothing; with several stations every unit needs one (%s), or name one under defaults in %s", listed(rd.stationNames, "station"), rd.name)
		}
	case !slices.Contains(rd.stationNames, name):
		fault("station", "found %.80q; allowed %s%s", name, listed(rd.stationNames, "station"), meant(name, rd.stationNames))
	}
}
