package site

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/google/go-cmp/cmp"

	"mottle/sim/unit"
)

// written is the schema as it is written, for what reads JSON.
func written(t *testing.T) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSchema(&b); err != nil {
		t.Fatal(err)
	}
	var s map[string]any
	if err := json.Unmarshal(b.Bytes(), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

// keysOf lists the keys of a schema with their sections.
func keysOf(s map[string]any, path string) []string {
	var keys []string
	if items, ok := s["items"].(map[string]any); ok {
		return keysOf(items, path)
	}
	properties, _ := s["properties"].(map[string]any)
	for name, below := range properties {
		at := name
		if path != "" {
			at = path + "." + name
		}
		keys = append(append(keys, at), keysOf(below.(map[string]any), at)...)
	}
	slices.Sort(keys)
	return keys
}

// TestSchemaKeys: the schema has the keys that the reader asks a file for.
func TestSchemaKeys(t *testing.T) {
	if diff := cmp.Diff(everyKey(t), keysOf(written(t), "")); diff != "" {
		t.Error(diff)
	}
}

// allows holds a value against a schema, for the words of JSON schema (draft
// 2020-12, validation vocabulary) that the schema uses; another word fails. It
// returns what does not fit.
func allows(s map[string]any, v any, at string) []string {
	var bad []string
	fault := func(format string, args ...any) { bad = append(bad, at+": "+fmt.Sprintf(format, args...)) }
	object, isObject := v.(map[string]any)
	array, isArray := v.([]any)
	text, isText := v.(string)
	for word, of := range s {
		switch word {
		case "$schema", "title", "description", "default", "examples":
		case "type":
			if !slices.ContainsFunc(of.([]any), func(name any) bool { return ofType(v, name.(string)) }) {
				fault("%v is none of %v", v, of)
			}
		case "enum":
			if !slices.ContainsFunc(of.([]any), func(one any) bool { return cmp.Equal(one, v) }) {
				fault("%v is none of %v", v, of)
			}
		case "pattern":
			if isText && !regexp.MustCompile(of.(string)).MatchString(text) {
				fault("%q does not match %s", text, of)
			}
		case "minimum", "maximum":
			if x, limit := fmt.Sprint(v), of.(float64); ofType(v, "number") {
				var n float64
				fmt.Sscan(x, &n)
				if word == "minimum" && n < limit || word == "maximum" && n > limit {
					fault("%v beyond %s %v", v, word, limit)
				}
			}
		case "properties", "additionalProperties":
			properties := s["properties"].(map[string]any)
			for name, value := range object {
				if below, ok := properties[name].(map[string]any); ok && word == "properties" {
					bad = append(bad, allows(below, value, at+"."+name)...)
				} else if !ok && word == "additionalProperties" && of == false {
					fault("%s is no key", name)
				}
			}
		case "required":
			for _, name := range of.([]any) {
				if _, ok := object[name.(string)]; isObject && !ok {
					fault("%s is missing", name)
				}
			}
		case "items":
			for i, value := range array {
				bad = append(bad, allows(of.(map[string]any), value, fmt.Sprintf("%s[%d]", at, i))...)
			}
		case "minItems", "maxItems":
			if n := int(of.(float64)); isArray && (word == "minItems" && len(array) < n || word == "maxItems" && len(array) > n) {
				fault("%d entries beyond %s %d", len(array), word, n)
			}
		case "anyOf":
			if !slices.ContainsFunc(of.([]any), func(one any) bool { return allows(one.(map[string]any), v, at) == nil }) {
				fault("%v fits none", v)
			}
		default:
			fault("unknown word %q", word)
		}
	}
	return bad
}

// ofType says whether a value is of JSON schema's type.
func ofType(v any, name string) bool {
	switch v.(type) {
	case nil:
		return name == "null"
	case bool:
		return name == "boolean"
	case string:
		return name == "string"
	case int, int64, uint64:
		return name == "integer" || name == "number"
	case float64:
		return name == "number"
	case []any:
		return name == "array"
	case map[string]any:
		return name == "object"
	}
	return false
}

// document reads YAML as an editor would, without the field file's reader.
func document(t *testing.T, data []byte) map[string]any {
	t.Helper()
	var v map[string]any
	if err := yaml.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// sound lists field files without a fault.
func sound(t *testing.T) map[string][]byte {
	t.Helper()
	texts := map[string][]byte{"demo.yaml": demo}
	files, err := filepath.Glob(filepath.Join(fields, "*.yaml"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(path)] = data
	}
	return texts
}

// TestSchemaAllows: every sound field file fits the schema.
func TestSchemaAllows(t *testing.T) {
	s := written(t)
	for name, data := range sound(t) {
		for _, fault := range allows(s, document(t, data), name) {
			t.Error(fault)
		}
	}
}

// TestSchemaMisspelt: each key, misspelt where it may stand, is no key; spelt right
// it is one.
func TestSchemaMisspelt(t *testing.T) {
	s, r := written(t), survey()
	// beneath is a document that has the value at the end of a path.
	var beneath func(path string, v any) any
	beneath = func(path string, v any) any {
		if path == "" {
			return v
		}
		if f := r.forms[path]; f != nil && f.kind == list {
			v = []any{v}
		}
		return beneath(parent(path), map[string]any{last(path): v})
	}
	for _, key := range everyKey(t) {
		name := last(key)
		misspelt := beneath(parent(key), map[string]any{name + "x": nil})
		if faults := allows(s, misspelt, "f"); !strings.Contains(strings.Join(faults, "\n"), name+"x is no key") {
			t.Errorf("%sx: allowed (%v)", key, faults)
		}
		right := beneath(parent(key), map[string]any{name: nil})
		if faults := allows(s, right, "f"); strings.Contains(strings.Join(faults, "\n"), "is no key") {
			t.Errorf("%s: %v", key, faults)
		}
	}
}

// TestSchemaRejects: values of a wrong form do not fit, at the key where they stand.
func TestSchemaRejects(t *testing.T) {
	s := written(t)
	for text, at := range map[string]string{
		"soil: {horizons: [{to: 3 m}]}":                     "f.soil.horizons[0]: from is missing",
		"name: x":                                           "f: soil is missing",
		"soil: {}":                                          "f.soil: horizons is missing",
		"tile: {depth: 1.1}":                                "f.tile.depth: ",
		"tile: {depth: 4 dS/m}":                             "f.tile.depth: ",
		"tile: {depth: none}":                               "f.tile.depth: ",
		"tile: {depth: 3.5 fot}":                            "f.tile.depth: ",
		"tile: no":                                          "f.tile: ",
		"tile: {envelope: cloth}":                           "f.tile.envelope: ",
		"tile: {weir: [{from: 13-01}]}":                     "f.tile.weir[0].from: ",
		"crop: [corn, flax]":                                "f.crop: ",
		"crop: []":                                          "f.crop: ",
		"invented: perhaps":                                 "f.invented: ",
		"storms: {seed: -1}":                                "f.storms.seed: ",
		"storms: {seed: 1.5}":                               "f.storms.seed: ",
		"surface: {residue: 30 pct}":                        "f.surface.residue: ",
		"surface: {snow: Open}":                             "f.surface.snow: ",
		"latitude: 43":                                      "f.latitude: ",
		"groundwater: {resistance: 1 dd}":                   "f.groundwater.resistance: ",
		"soil: {conductivity_factor: 2 m}":                  "f.soil.conductivity_factor: ",
		"soil: {relation: best}":                            "f.soil.relation: ",
		"farm: {laterals: 1.10}":                            "f.farm.laterals: ",
		"farm: {laterals: [1 USD/ft, 2 USD/ft]}":            "f.farm.laterals: ",
		"farm: {laterals: [1 ft, 2 USD/ft, 3 USD/ft]}":      "f.farm.laterals: ",
		"farm: {interest: 5 USD}":                           "f.farm.interest: ",
		"farm: {crops: {corn: {price: 4 USD}}}":             "f.farm.crops.corn.price: ",
		"farm: {crops: {alfalfa: {best_yield: 160 bu/ac}}}": "f.farm.crops.alfalfa.best_yield: ",
		"farm: {crops: {maize: {}}}":                        "f.farm.crops: maize is no key",
		"farm: {lift: yes}":                                 "f.farm.lift: ",
		"farm: {mains: [{length: 600 ft}]}":                 "f.farm.mains[0]: diameter is missing",
		"farm: {outlets: 1.5}":                              "f.farm.outlets: ",
		"evapotranspiration: [auto]":                        "f.evapotranspiration: ",
	} {
		if !slices.ContainsFunc(allows(s, document(t, []byte(text)), "f"), func(fault string) bool { return strings.HasPrefix(fault, at) }) {
			t.Errorf("%s: allowed", text)
		}
	}
}

// TestPatterns: a pattern matches what unit.ParseAny reads in each unit, and nothing
// that it refuses.
func TestPatterns(t *testing.T) {
	used := map[string][]unit.Dimension{}
	for _, f := range survey().forms {
		if f.kind == quantity || f.kind == spread {
			used[fmt.Sprint(f.dims)] = f.dims
		}
	}
	if len(used) < 20 {
		t.Errorf("%d kinds of quantity in use", len(used))
	}
	for _, dims := range used {
		p := regexp.MustCompile(pattern(dims...))
		texts := []string{"", "1", "x", "1 x", "1 m", "1 d", "1 %", "1 m/d", "1 deg", "1e3 fot", "1 h", "1 dS/m", "1,5 m", ".5 cm", "- 1 m", "none", "1 USD", "1 USD/bu", "1 bu/ac"}
		for _, dim := range dims {
			for _, u := range dim.Units() {
				texts = append(texts, "0.5 "+u, ".5"+u, "5"+u, "+1. "+u, "1e-1 "+u+" ", "1 "+u+"x", strings.ToUpper("1 x"+u))
			}
		}
		for _, text := range texts {
			_, _, err := unit.ParseAny(text, dims...)
			if p.MatchString(text) != (err == nil) {
				t.Errorf("dimensions %v, %q: pattern %v, parsed %v", dims, text, p.MatchString(text), err)
			}
		}
	}
}
