package basin

import (
	"fmt"
	"math"
	"slices"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/site"
	"mottle/soil"
)

// ground are the keys of a field file that a soil may hold; surroundings those that
// a survey leaves open.
var (
	ground       = []string{"soil", "surface", "groundwater", "ditch"}
	surroundings = ground[1:]
)

// soils reads the soils by name. Each takes what holds for the whole basin.
func (rd *reading) soils(s *site.Section, whole site.Field) {
	list := child(rd.root, "soils")
	for i, e := range s.Sections("soils") {
		name := rd.named(e, "soil", rd.soilNames)
		if !slices.Contains(rd.soilNames, name) {
			rd.soilNames = append(rd.soilNames, name)
		}
		f := rd.soil(e, fmt.Sprintf("soils[%d].", i), entryOf(list, i))
		f.Latitude, f.Elevation, f.ReadHour = whole.Latitude, whole.Elevation, whole.ReadHour
		f.ET, f.Storms, f.RainEC = whole.ET, whole.Storms, whole.RainEC
		f.Assumed = append(f.Assumed, whole.Assumed...)
		rd.b.Soils[name] = f
		e.End()
	}
	if len(rd.soilNames) == 0 && !s.Has("soils") {
		s.Fault("soils", "missing; give each soil a name and its horizons, a field file or a survey's table")
	}
}

// soil reads one soil, from one of its three sources.
func (rd *reading) soil(e *site.Section, path string, node ast.Node) site.Field {
	file, survey := e.Text("file"), e.Text("survey")
	for _, key := range append([]string{"map_unit", "component"}, ground...) {
		e.Has(key)
	}
	sources := 0
	for _, key := range []string{"soil", "file", "survey"} {
		if e.Has(key) {
			sources++
		}
	}
	switch {
	case sources == 0:
		e.Fault("soil", "missing; give its horizons, or file (a field file) or survey (a survey's table of horizons)")
	case sources > 1:
		e.Fault("soil", "found beside another source; give one of soil, file, survey")
	case file != "":
		for _, key := range ground[1:] {
			if e.Has(key) {
				e.Fault(key, "found beside file, which says it; give one or the other")
			}
		}
		return rd.fieldFile(e, path, file)
	case survey != "":
		f, _ := rd.field(path, node, surroundings, deepLoam, noTile)
		rd.survey(e, survey, &f)
		return f
	default:
		for _, key := range []string{"component", "map_unit"} {
			if e.Has(key) {
				e.Fault(key, "found %.80q; it does nothing without survey: take it out", e.Text(key))
			}
		}
		f, _ := rd.field(path, node, ground, noTile)
		return f
	}
	return site.Field{}
}

// fieldFile takes the ground from a field file and leaves the rest aside.
func (rd *reading) fieldFile(e *site.Section, path, name string) site.Field {
	in := rd.file(e, "file", name)
	if in == nil {
		return site.Field{}
	}
	f, err := site.ReadField(name, in)
	in.Close()
	for _, fault := range site.Faults(err) {
		rd.add(fault)
	}
	rd.note("%sfile: of %s only soil, surface, groundwater and ditch are taken", path, name)
	if f.Runon != nil {
		rd.note("%sfile: the run_on of %s is left out: land above is a unit of its own here", path, name)
	}
	f.Runon, f.Old, f.Tile, f.Farm = nil, nil, nil, site.Farm{}
	f.Assumed = slices.DeleteFunc(f.Assumed, func(a site.Assumption) bool {
		return !slices.ContainsFunc(ground, func(k string) bool { return within(a.Key, k) })
	})
	return f
}

// assumedDense is the depth of the dense layer where a survey tells none, m: the
// field file's default.
const assumedDense = 3.0

// survey takes the horizons from a survey's component; where it tells of no dense
// layer its last horizon goes on to the depth that is assumed.
func (rd *reading) survey(e *site.Section, name string, f *site.Field) {
	pick := soil.SurveyPick{MapUnit: e.Text("map_unit"), Component: e.Text("component")}
	in := rd.file(e, "survey", name)
	if in == nil {
		return
	}
	s, err := soil.ReadSurvey(name, in, pick)
	in.Close()
	for _, fault := range site.Faults(err) {
		rd.add(fault)
	}
	if err != nil {
		return
	}
	said := e.Text("name")
	for _, n := range s.Notes {
		rd.note("soil %s, %s: %s", said, name, n)
	}
	f.Horizons, f.Restrictive = slices.Clone(s.Horizons), s.Restrictive
	last := &f.Horizons[len(f.Horizons)-1]
	if math.IsNaN(f.Restrictive) {
		f.Restrictive = max(assumedDense, last.Bottom)
		f.Assumed = append(f.Assumed, site.Assumption{Key: "soil.restrictive_layer", Value: fmt.Sprintf("%.4g m", f.Restrictive), Reason: "the survey tells of no dense layer"})
	}
	if last.Bottom < f.Restrictive {
		rd.note("soil %s, %s: it ends at %.4g m: its last horizon was continued to %.4g m", said, name, last.Bottom, f.Restrictive)
		last.Bottom = f.Restrictive
	}
	for _, fault := range site.Faults(f.Validate()) {
		e.Fault("survey", "%s: %s", fault.Key, fault.Text)
	}
}

// grounds checks what is laid on each soil: the tile of units and scenarios and the
// storage of units. Equal pairs are checked once.
func (rd *reading) grounds() {
	b := rd.b
	laid := map[string]bool{} // soils on which a scenario may lay tile
	for i := range b.Units {
		u := &b.Units[i]
		f, err := b.Field(u)
		if err != nil || len(f.Horizons) == 0 {
			continue // told
		}
		laid[u.Soil] = laid[u.Soil] || u.Tile == nil && u.drainable()
		f.Tile = nil
		if u.drainable() {
			f.Tile = &u.Design
		}
		for _, fault := range site.Faults(f.Validate()) {
			switch {
			case within(fault.Key, "tile.depth") && unknown(u.Design.Depth), within(fault.Key, "tile.spacing") && unknown(u.Design.Spacing):
				// told where it was read
			case within(fault.Key, "tile.depth"), within(fault.Key, "tile.spacing"):
				rd.row(rd.unitFile, u.Row, "tile_"+fault.Key[len("tile."):], "%s (on soil %q)", fault.Text, u.Soil)
			case within(fault.Key, "surface.standing_water") && !math.IsNaN(u.Storage):
				rd.row(rd.unitFile, u.Row, "storage", "%s", fault.Text)
			}
		}
	}
	list := child(rd.root, "scenarios")
	for i, s := range b.Scenarios {
		if s.Tile == nil {
			continue
		}
		for _, name := range rd.soilNames {
			f := b.Soils[name]
			if f.Tile = s.Tile; len(f.Horizons) == 0 || !laid[name] {
				continue
			}
			for _, fault := range site.Faults(f.Validate()) {
				if within(fault.Key, "tile") {
					rd.at(lineOf(child(entryOf(list, i), "tile")), fmt.Sprintf("scenarios[%d].%s", i, fault.Key), "%s (on soil %q)", fault.Text, name)
				}
			}
		}
	}
	rd.assumptions()
}

// unknown says whether a measure of tile was at fault where it was read.
func unknown(x float64) bool { return math.IsNaN(x) || x == 0 }

// assumptions gathers what was assumed of each soil that a unit stands on.
func (rd *reading) assumptions() {
	for i, name := range rd.soilNames {
		storage := slices.ContainsFunc(rd.b.Units, func(u Unit) bool { return u.Soil == name && u.Storage == rd.b.Soils[name].Surface.Storage })
		for _, a := range rd.b.Soils[name].Assumed {
			if !slices.ContainsFunc(ground, func(k string) bool { return within(a.Key, k) }) || a.Key == "surface.standing_water" && !storage {
				continue
			}
			a.Key = fmt.Sprintf("soils[%d].%s", i, a.Key)
			rd.b.Assumed = append(rd.b.Assumed, a)
		}
	}
}
