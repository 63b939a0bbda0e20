package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"mottle/plots"
	"mottle/sim/unit"
	"mottle/soil"
)

// soilView is a soil derived, ready to be shown.
type soilView struct {
	*ground
	materials []soil.Material
	spread    []soil.Spread
	other     []soil.Material // by another relation
	units     unit.System
}

func newSoilView(g *ground, u unit.System) (*soilView, error) {
	materials, err := soil.DeriveProfile(g.Horizons)
	if err != nil {
		return nil, err
	}
	v := &soilView{ground: g, materials: materials, units: u}
	for _, h := range g.Horizons {
		s, err := soil.Disagreement(h)
		if err != nil {
			return nil, err
		}
		v.spread = append(v.spread, s)
		h.Relation = beside(h.Relation)
		m, err := soil.Derive(h)
		if err != nil {
			return nil, err
		}
		v.other = append(v.other, m)
	}
	return v, nil
}

// beside is the first relation that is not r.
func beside(r soil.Relation) soil.Relation {
	for _, other := range soil.Relations() {
		if other != r {
			return other
		}
	}
	return r
}

// soilColumn is a number of each horizon; unit is that of sim/unit, or else as it
// stands.
type soilColumn struct {
	name, unit string
	of         func(m soil.Material, s soil.Spread) float64
}

// water is the unit of water contents, which no system changes.
const water = "m3/m3"

// soilColumns are those of soil.csv and of the JSON. Low and high are the range of
// the relations.
var soilColumns = []soilColumn{
	{"from", "m", func(m soil.Material, _ soil.Spread) float64 { return m.Top }},
	{"to", "m", func(m soil.Material, _ soil.Spread) float64 { return m.Bottom }},
	{"sand", "%", func(m soil.Material, _ soil.Spread) float64 { return m.Sand }},
	{"silt", "%", func(m soil.Material, _ soil.Spread) float64 { return m.Silt }},
	{"clay", "%", func(m soil.Material, _ soil.Spread) float64 { return m.Clay }},
	{"organic_matter", "%", func(m soil.Material, _ soil.Spread) float64 { return m.Organic }},
	{"bulk_density", "Mg/m3", func(m soil.Material, _ soil.Spread) float64 { return m.BulkDensity }},
	{"ece", "dS/m", func(m soil.Material, _ soil.Spread) float64 { return m.SalinityEC }},
	{"saturated", water, func(m soil.Material, _ soil.Spread) float64 { return m.Curve.ThetaS }},
	{"saturated_low", water, func(_ soil.Material, s soil.Spread) float64 { return s.Saturated.Low }},
	{"saturated_high", water, func(_ soil.Material, s soil.Spread) float64 { return s.Saturated.High }},
	{"suction_1m", water, func(m soil.Material, _ soil.Spread) float64 { return m.FieldCapacity }},
	{"suction_1m_low", water, func(_ soil.Material, s soil.Spread) float64 { return s.OneMetre.Low }},
	{"suction_1m_high", water, func(_ soil.Material, s soil.Spread) float64 { return s.OneMetre.High }},
	{"suction_33kPa", water, func(m soil.Material, _ soil.Spread) float64 { return m.Theta33 }},
	{"suction_1500kPa", water, func(m soil.Material, _ soil.Spread) float64 { return m.WiltingPoint }},
	{"suction_1500kPa_low", water, func(_ soil.Material, s soil.Spread) float64 { return s.WiltingPoint.Low }},
	{"suction_1500kPa_high", water, func(_ soil.Material, s soil.Spread) float64 { return s.WiltingPoint.High }},
	{"drains_to_1m", water, func(m soil.Material, _ soil.Spread) float64 { return m.Curve.ThetaS - m.FieldCapacity }},
	{"drains_to_1m_low", water, func(_ soil.Material, s soil.Spread) float64 { return s.Drainable.Low }},
	{"drains_to_1m_high", water, func(_ soil.Material, s soil.Spread) float64 { return s.Drainable.High }},
	{"conductivity", "m/d", func(m soil.Material, _ soil.Spread) float64 { return m.Ksat * 86400 }},
	{"conductivity_low", "m/d", func(_ soil.Material, s soil.Spread) float64 { return s.Ksat.Low * 86400 }},
	{"conductivity_high", "m/d", func(_ soil.Material, s soil.Spread) float64 { return s.Ksat.High * 86400 }},
	{"conductivity_matrix", "m/d", func(m soil.Material, _ soil.Spread) float64 { return m.Curve.KMatrix * 86400 }},
	{"theta_r", water, func(m soil.Material, _ soil.Spread) float64 { return m.Curve.ThetaR }},
	{"alpha", "1/m", func(m soil.Material, _ soil.Spread) float64 { return m.Curve.Alpha }},
	{"n", "", func(m soil.Material, _ soil.Spread) float64 { return m.Curve.N }},
}

// value is a column's number of horizon i and its unit, in the units asked for.
func (v *soilView) value(c soilColumn, i int) (float64, string) {
	x := c.of(v.materials[i], v.spread[i])
	if c.unit == water || c.unit == "1/m" {
		return x, c.unit
	}
	return v.units.Value(x, c.unit)
}

// writeCSV is one row for each horizon; a column's name ends with its unit.
func (v *soilView) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	row := []string{"name", "texture", "relation"}
	for _, c := range soilColumns {
		_, u := v.value(c, 0)
		row = append(row, strings.TrimSuffix(c.name+" "+u, " "))
	}
	if err := out.Write(row); err != nil {
		return err
	}
	for i, m := range v.materials {
		row = append(row[:0], m.Name, m.Texture, m.Relation.String())
		for _, c := range soilColumns {
			text := ""
			if x, _ := v.value(c, i); !math.IsNaN(x) {
				text = strconv.FormatFloat(x, 'g', 5, 64)
			}
			row = append(row, text)
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// writeJSON holds the same, with the notes.
func (v *soilView) writeJSON(w io.Writer) error {
	type horizon struct {
		Name     string            `json:"name"`
		Texture  string            `json:"texture"`
		Relation string            `json:"relation"`
		Values   map[string]number `json:"values"`
		Notes    []string          `json:"notes"`
	}
	depth, lengthUnit := v.units.Value(v.Restrictive, "m")
	file := struct {
		Title       string            `json:"title"`
		From        string            `json:"from"`
		Invented    bool              `json:"invented"`
		Restrictive number            `json:"restrictive_layer"`
		LengthUnit  string            `json:"restrictive_layer_unit"`
		Facts       string            `json:"facts,omitempty"`
		Notes       []string          `json:"notes,omitempty"`
		Units       map[string]string `json:"units"`
		Horizons    []horizon         `json:"horizons"`
		Version     string            `json:"version"`
	}{v.Title, v.From, v.Invented, number{value: depth}, lengthUnit, v.Facts, v.Notes, map[string]string{}, nil, version()}
	for i, m := range v.materials {
		h := horizon{m.Name, m.Texture, m.Relation.String(), map[string]number{}, m.Notes}
		for _, c := range soilColumns {
			x, u := v.value(c, i)
			h.Values[c.name], file.Units[c.name] = number{value: x}, u
		}
		file.Horizons = append(file.Horizons, h)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(file)
}

// writeFolder writes soil.csv, soil.json and the figures, each whole or not at all.
func (v *soilView) writeFolder(dir string) error {
	figures, err := plots.Soil(plots.Profile{Name: v.Title, Source: v.From, Invented: v.Invented, Restrictive: v.Restrictive,
		Facts: v.Facts, Materials: v.materials, Other: v.other}, v.units == unit.US)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return ofFile(err)
	}
	if err := writeWhole(filepath.Join(dir, "soil.csv"), v.writeCSV); err != nil {
		return err
	}
	if err := writeWhole(filepath.Join(dir, "soil.json"), v.writeJSON); err != nil {
		return err
	}
	for _, f := range figures {
		for ext, data := range map[string][]byte{".svg": f.SVG, ".png": f.PNG} {
			if err := writeWhole(filepath.Join(dir, f.Name+ext), func(w io.Writer) error { _, err := w.Write(data); return err }); err != nil {
				return err
			}
		}
	}
	return nil
}
