package basin

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// WriteGeoJSON writes the units as features in the order of Basin.Units: the outline
// as it was read, the properties as they were read or, of a table, the unit's own,
// and then the results. Results gives those of the i-th unit; it may be nil. A number
// that is not known (NaN) is written as null. Nothing is written after an error: an
// infinite number, or a result of the name of a property that is there already.
func (b *Basin) WriteGeoJSON(w io.Writer, results func(i int) []Property) error {
	var out bytes.Buffer
	out.WriteString("{\"type\": \"FeatureCollection\"")
	if b.Name != "" {
		fmt.Fprintf(&out, ", \"name\": %s", jsonText(b.Name))
	}
	if b.Invented {
		out.WriteString(", \"invented\": true")
	}
	out.WriteString(", \"features\": [")
	for i := range b.Units {
		u := &b.Units[i]
		if i > 0 {
			out.WriteByte(',')
		}
		properties := u.Properties
		if properties == nil {
			properties = u.own()
		}
		if b.Invented && !slices.ContainsFunc(properties, func(p Property) bool { return p.Name == "invented" }) {
			properties = append(slices.Clip(properties), Property{"invented", true})
		}
		if results != nil {
			for _, p := range results(i) {
				if slices.ContainsFunc(properties, func(q Property) bool { return q.Name == p.Name }) {
					return fmt.Errorf("unit %s: found result %q beside a property of that name", u.ID, p.Name)
				}
				properties = append(slices.Clip(properties), p)
			}
		}
		if err := writeFeature(&out, u, properties); err != nil {
			return err
		}
	}
	out.WriteString("\n]}\n")
	_, err := w.Write(out.Bytes())
	return err
}

func writeFeature(out *bytes.Buffer, u *Unit, properties []Property) error {
	fmt.Fprintf(out, "\n{\"type\": \"Feature\", \"id\": %s, \"geometry\": ", jsonText(u.ID))
	if u.Geometry == nil {
		out.WriteString("null")
	} else if err := json.Compact(out, u.Geometry); err != nil {
		return fmt.Errorf("unit %s: geometry: %w", u.ID, err)
	}
	out.WriteString(", \"properties\": {")
	for i, p := range properties {
		if i > 0 {
			out.WriteString(", ")
		}
		if x, ok := p.Value.(float64); ok && math.IsNaN(x) {
			p.Value = nil
		}
		text, err := json.Marshal(p.Value)
		if err != nil {
			return fmt.Errorf("unit %s: property %q: %w", u.ID, p.Name, err)
		}
		fmt.Fprintf(out, "%s: %s", jsonText(p.Name), text)
	}
	out.WriteString("}}")
	return nil
}

// own are the properties of a unit by the names of Columns.
func (u *Unit) own() []Property {
	cover := make([]string, len(u.Cover))
	for i, k := range u.Cover {
		cover[i] = k.Name
	}
	drained := "no"
	if u.Tile != nil {
		drained = "yes"
	}
	list := []Property{{"id", u.ID}}
	if u.Group != "" {
		list = append(list, Property{"group", u.Group})
	}
	list = append(list, []Property{
		{"area_m2", u.Area}, {"soil", u.Soil}, {"cover", strings.Join(cover, "; ")}, {"slope_percent", 100 * u.Slope},
		{"drained", drained}, {"tile_depth_m", u.Design.Depth}, {"tile_spacing_m", u.Design.Spacing}, {"storage_m", u.Storage},
		{"to", u.To}, {"length_m", u.Length}}...)
	if u.Station != "" {
		list = append(list, Property{"station", u.Station})
	}
	if !math.IsNaN(u.Elevation) {
		list = append(list, Property{"elevation_m", u.Elevation})
	}
	return list
}

// jsonText is a text in JSON.
func jsonText(s string) []byte {
	text, err := json.Marshal(s)
	if err != nil {
		panic(err) // a string always has one
	}
	return text
}
