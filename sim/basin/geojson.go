package basin

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"mottle/sim/site"
)

// GeoJSON as of RFC 7946: coordinates are degrees of longitude and latitude (WGS 84).

// Property is a named value of a feature.
type Property struct {
	Name  string
	Value any // as encoding/json writes it; numbers that were read are json.Number
}

// feature is what a unit takes from a feature beside its row.
type feature struct {
	geometry   []byte
	properties []Property
}

// readGeoJSON reads a collection of features: a row of each one's properties, and
// its outline.
func (rd *reading) readGeoJSON(file string, data []byte, aside []string) (*table, []feature, bool) {
	t := &table{rd: rd, file: file, columns: unitColumns}
	raws, err := rd.collection(file, data)
	if err != nil {
		fault := &site.Fault{File: file, Text: err.Error()}
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) {
			at := min(int(syntax.Offset), len(data))
			fault.Line, fault.Text = 1+bytes.Count(data[:at], []byte("\n")), "not JSON: "+err.Error()
		}
		rd.add(fault)
		return t, nil, false
	}
	shapes := make([]feature, len(raws))
	var names []string
	place := map[string]int{}
	cells := make([]map[string]string, len(raws))
	sound := true
	for i, raw := range raws {
		row, err := shapes[i].read(raw)
		if err != nil {
			rd.row(file, i+1, "", "%v", err)
			sound = false
		}
		cells[i] = row
		for _, p := range shapes[i].properties {
			if _, known := place[p.Name]; !known {
				place[p.Name] = len(names)
				names = append(names, p.Name)
			}
		}
	}
	if len(raws) == 0 {
		rd.add(&site.Fault{File: file, Text: "found no features; allowed one for each unit"})
		return t, nil, false
	}
	if _, own := place["id"]; !own && slices.ContainsFunc(cells, func(c map[string]string) bool { return c[""] != "" }) {
		names = append(names, "id")
		for _, c := range cells {
			c["id"] = c[""] // the member of the feature itself
		}
	}
	if !t.head(0, names, append([]string{"invented"}, aside...)) || !sound {
		return t, nil, false
	}
	for i, c := range cells {
		row := make([]string, len(names))
		for j, name := range names {
			row[j] = c[name]
		}
		t.cells, t.lines = append(t.cells, row), append(t.lines, i+1)
	}
	return t, shapes, true
}

// collection returns the features of a FeatureCollection. The member invented marks
// made-up data.
func (rd *reading) collection(file string, data []byte) ([]json.RawMessage, error) {
	var c struct {
		Type     string            `json:"type"`
		Features []json.RawMessage `json:"features"`
		CRS      json.RawMessage   `json:"crs"`
		Invented bool              `json:"invented"`
	}
	if err := json.Unmarshal(bytes.TrimPrefix(data, []byte("\ufeff")), &c); err != nil {
		var wrong *json.UnmarshalTypeError
		if errors.As(err, &wrong) {
			return nil, fmt.Errorf("member %q: found a JSON %s; allowed a FeatureCollection with a list of features", wrong.Field, wrong.Value)
		}
		return nil, err
	}
	if c.Type != "FeatureCollection" {
		return nil, fmt.Errorf(`member "type": found %.80q; allowed "FeatureCollection"`, c.Type)
	}
	if crs := string(c.CRS); crs != "" && crs != "null" && !strings.Contains(crs, "CRS84") && !strings.Contains(crs, "4326") {
		return nil, fmt.Errorf(`member "crs": found %.120s; allowed longitude and latitude (WGS 84, EPSG:4326): export the layer in it`, crs)
	}
	rd.b.Invented = rd.b.Invented || c.Invented
	return c.Features, nil
}

// read takes a feature apart; the row holds its properties as text, and its own id
// under the empty name.
func (f *feature) read(raw json.RawMessage) (map[string]string, error) {
	row := map[string]string{}
	var v struct {
		Type       string          `json:"type"`
		ID         any             `json:"id"`
		Geometry   json.RawMessage `json:"geometry"`
		Properties json.RawMessage `json:"properties"`
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	if err := dec.Decode(&v); err != nil {
		return row, errors.New("found no JSON object with type, geometry and properties; allowed a Feature")
	}
	if v.Type != "Feature" {
		return row, fmt.Errorf(`found type %.80q; allowed "Feature"`, v.Type)
	}
	if g := string(v.Geometry); g != "" && g != "null" {
		f.geometry = v.Geometry
	}
	row[""] = cellText(v.ID)
	var err error
	if f.properties, err = ordered(v.Properties); err != nil {
		return row, err
	}
	for _, p := range f.properties {
		switch p.Value.(type) {
		case map[string]any, []any:
			continue // no cell; it may be left aside, and is written out again
		}
		row[p.Name] = cellText(p.Value)
	}
	return row, nil
}

// ordered reads an object with the order of its members.
func ordered(raw json.RawMessage) ([]Property, error) {
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	start, err := dec.Token()
	if errors.Is(err, io.EOF) || err == nil && start == nil {
		return nil, nil
	}
	if start != json.Delim('{') {
		return nil, errors.New(`member "properties": allowed an object`)
	}
	var list []Property
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return nil, err
		}
		p := Property{Name: key.(string)}
		if err := dec.Decode(&p.Value); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(list, func(q Property) bool { return q.Name == p.Name }) {
			return nil, fmt.Errorf("property %q: found a second time; keep one", p.Name)
		}
		list = append(list, p)
	}
	return list, nil
}

// cellText is a JSON value as a cell of a table.
func cellText(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case string:
		return strings.TrimSpace(x)
	}
	return fmt.Sprint(v)
}

// outlines checks the outline of each unit, and takes from it the areas that are not
// given; areas given that differ much are noted.
func (rd *reading) outlines() {
	taken, off := 0, 0
	worst := 0.0
	for i := range rd.b.Units {
		u := &rd.b.Units[i]
		if u.Geometry == nil {
			continue
		}
		area, err := outlineArea(u.Geometry)
		switch {
		case errors.Is(err, errNoArea):
			if u.Area == 0 {
				rd.row(rd.unitFile, u.Row, "area", "found nothing, and %v; give an area, or a Polygon or MultiPolygon", err)
			}
		case err != nil:
			rd.row(rd.unitFile, u.Row, "", "geometry: %v", err)
		case u.Area == 0 && area > 0:
			u.Area, taken = area, taken+1
		case u.Area == 0:
			rd.row(rd.unitFile, u.Row, "area", "found an outline without an area; draw it anew")
		default:
			if d := math.Abs(area/u.Area - 1); d > mostOff {
				off, worst = off+1, max(worst, d)
			}
		}
	}
	if taken > 0 {
		rd.note("%s: the area of %d units is that of their outlines", rd.unitFile, taken)
	}
	if off > 0 {
		rd.note("%s: the area given differs from that of the outline by more than %g %% in %d units, at most by %.0f %%; the area given is used", rd.unitFile, 100*mostOff, off, 100*worst)
	}
}

// mostOff is by how much an area that was given may differ from that of the outline
// without a note: outlines leave out roads, areas are rounded.
const mostOff = 0.05
