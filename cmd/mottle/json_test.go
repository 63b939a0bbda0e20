package main

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/sim"
)

// resultJSON is the result as other programs read it; a value is a number, a word
// that stands in its place, or null.
type resultJSON struct {
	Measures []measureJSON      `json:"measures"`
	Ranges   []rangeJSON        `json:"ranges"`
	Yearly   []yearJSON         `json:"yearly"`
	Ledger   map[string]float64 `json:"ledger"`
	Assumed  []struct {
		Key    string `json:"key"`
		Value  string `json:"value"`
		Reason string `json:"reason"`
	} `json:"assumptions"`
	Cost struct {
		FieldYears float64 `json:"field_years"`
		CPUSeconds float64 `json:"cpu_seconds"`
	} `json:"cost"`
	Field   map[string]any `json:"field"`
	Weather map[string]any `json:"weather"`
	Spinup  map[string]any `json:"spinup"`
	Version string         `json:"version"`
}

type measureJSON struct {
	Name       string   `json:"name"`
	Unit       string   `json:"unit"`
	AsItLies   any      `json:"as_it_lies"`
	WithTile   any      `json:"with_tile"`
	Difference *float64 `json:"difference"`
	Low        *float64 `json:"low"`
	High       *float64 `json:"high"`
	Noise      *float64 `json:"noise"`
	Resolved   bool     `json:"resolved"`
}

type rangeJSON struct {
	Measure string `json:"measure"`
	Over    string `json:"over"`
	Low     any    `json:"low"`
	High    any    `json:"high"`
}

type yearJSON struct {
	Year       int      `json:"year"`
	Name       string   `json:"name"`
	Unit       string   `json:"unit"`
	AsItLies   any      `json:"as_it_lies"`
	WithTile   any      `json:"with_tile"`
	Difference *float64 `json:"difference"`
}

// readResult decodes a result, refusing keys that are not listed above.
func readResult(t *testing.T, text string) *resultJSON {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	var r resultJSON
	if err := d.Decode(&r); err != nil {
		t.Fatal(err)
	}
	if d.More() {
		t.Fatal("something follows the result")
	}
	return &r
}

func (r *resultJSON) measure(t *testing.T, name string) measureJSON {
	t.Helper()
	for _, m := range r.Measures {
		if m.Name == name {
			return m
		}
	}
	t.Fatalf("no measure %s", name)
	return measureJSON{}
}

// TestJSONKeys: the keys are those that the README promises, no more, no fewer.
func TestJSONKeys(t *testing.T) {
	text := output(t, "compare", "--from", "1981", "--to", "1981", "--format", "json")
	var top map[string]json.RawMessage
	if err := json.Unmarshal([]byte(text), &top); err != nil {
		t.Fatal(err)
	}
	keys := func(m map[string]json.RawMessage) string {
		var names []string
		for k := range m {
			names = append(names, k)
		}
		slices.Sort(names)
		return strings.Join(names, " ")
	}
	same := func(what string, got map[string]json.RawMessage, want ...string) {
		slices.Sort(want)
		if diff := cmp.Diff(strings.Join(want, " "), keys(got)); diff != "" {
			t.Errorf("%s: %s", what, diff)
		}
	}
	same("result", top, "field", "weather", "measures", "ranges", "yearly", "ledger", "assumptions", "spinup", "cost", "version")
	for list, want := range map[string][]string{
		"measures":    {"name", "unit", "as_it_lies", "with_tile", "difference", "low", "high", "noise", "resolved"},
		"ranges":      {"measure", "over", "low", "high"},
		"yearly":      {"year", "name", "unit", "as_it_lies", "with_tile", "difference"},
		"assumptions": {"key", "value", "reason"},
	} {
		var entries []map[string]json.RawMessage
		if err := json.Unmarshal(top[list], &entries); err != nil || len(entries) == 0 {
			t.Fatalf("%s: %d entries, %v", list, len(entries), err)
		}
		for _, e := range entries {
			same(list, e, want...)
		}
	}
	for object, want := range map[string][]string{
		"ledger": {"as_it_lies_water_error_mm_per_year", "as_it_lies_salt_error_kg_per_ha_per_year",
			"with_tile_water_error_mm_per_year", "with_tile_salt_error_kg_per_ha_per_year"},
		"cost": {"field_years", "cpu_seconds"},
	} {
		var o map[string]json.RawMessage
		if err := json.Unmarshal(top[object], &o); err != nil {
			t.Fatal(err)
		}
		same(object, o, want...)
	}
}

// TestJSONHangsTogether: what is said of a measure agrees with what is said of
// its years. Means of a few years are good to 1e-9 of their size.
func TestJSONHangsTogether(t *testing.T) {
	r := readResult(t, output(t, "compare", "--central", "--from", "1984", "--to", "1987", "--format", "json"))
	if len(r.Ranges) != 0 {
		t.Errorf("%d ranges beside --central", len(r.Ranges))
	}
	names := sim.Measures()
	if len(r.Measures) != len(names) || len(r.Yearly) != 4*len(names) {
		t.Fatalf("%d measures, %d yearly values; want %d and four times as many", len(r.Measures), len(r.Yearly), len(names))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }
	for i, m := range r.Measures {
		if m.Name != names[i].Name {
			t.Errorf("measure %d: %s, want %s", i, m.Name, names[i].Name)
		}
		if m.Low != nil && (*m.Low > *m.High || m.Noise != nil && *m.Noise < 0) {
			t.Errorf("%s: low %g, high %g, noise %g", m.Name, *m.Low, *m.High, *m.Noise)
		}
		if m.Difference != nil && m.Noise != nil && m.Resolved != (math.Abs(*m.Difference) > *m.Noise) {
			t.Errorf("%s: difference %g, noise %g, resolved %v", m.Name, *m.Difference, *m.Noise, m.Resolved)
		}
		mean := 0.0
		for _, y := range r.Yearly {
			if y.Name != m.Name {
				continue
			}
			lies, ok1 := y.AsItLies.(float64)
			tiled, ok2 := y.WithTile.(float64)
			if both := ok1 && ok2; both != (y.Difference != nil) || both && !near(*y.Difference, tiled-lies) {
				t.Errorf("%s of %d: %v as it lies, %v with tile, difference %v", m.Name, y.Year, y.AsItLies, y.WithTile, y.Difference)
			}
			mean += tiled / 4
		}
		if names[i].ByMedian {
			continue
		}
		lies, tiled := m.AsItLies.(float64), m.WithTile.(float64)
		if !near(tiled, mean) || !near(*m.Difference, tiled-lies) {
			t.Errorf("%s: %g as it lies, %g with tile (years give %g), difference %g", m.Name, lies, tiled, mean, *m.Difference)
		}
	}
	for key, x := range r.Ledger {
		// Every millimetre and gram is accounted for, to rounding of some 1e4 mm or
		// kg/ha that pass in a year.
		if !(math.Abs(x) < 1e-6) {
			t.Errorf("%s: %g", key, x)
		}
	}
	if !(r.Cost.FieldYears > 2*2*4) || !(r.Cost.CPUSeconds > 0) { // both twins, twice, four years
		t.Errorf("cost %+v", r.Cost)
	}
}

// TestUnits: the same run in both systems, by exact factors: 1 in = 25.4 mm,
// 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 ac = 4046.8564224 m2 (NIST Handbook
// 44, appendix C). A rounding of a double is allowed, 1e-12.
func TestUnits(t *testing.T) {
	args := []string{"compare", "--central", "--from", "1984", "--to", "1985", "--format", "json", "--units"}
	si, us := readResult(t, output(t, append(args, "si")...)), readResult(t, output(t, append(args, "us")...))
	for _, c := range []struct {
		name, si, us string
		per          float64 // SI units in one of the other
	}{
		{"precipitation", "mm", "in", 25.4},
		{"peak_hour", "mm/h", "in/h", 25.4},
		{"deepest_frost", "m", "ft", 0.3048},
		{"salt_drained", "kg/ha", "lb/ac", 0.45359237 / 0.40468564224},
		{"days_saturated", "d", "d", 1},
	} {
		a, b := si.measure(t, c.name), us.measure(t, c.name)
		x, y := a.WithTile.(float64), b.WithTile.(float64)*c.per
		if a.Unit != c.si || b.Unit != c.us || x == 0 || math.Abs(x-y) > 1e-12*x {
			t.Errorf("%s: %g %s, or %g %s", c.name, x, a.Unit, b.WithTile, b.Unit)
		}
	}
}

// TestDeterministic: the same command gives the same bytes, but for its cost.
func TestDeterministic(t *testing.T) {
	var runs [2]string
	for i := range runs {
		text := output(t, "compare", "--from", "1981", "--to", "1981", "--format", "json")
		var all map[string]json.RawMessage
		if err := json.Unmarshal([]byte(text), &all); err != nil {
			t.Fatal(err)
		}
		if all["cost"] == nil {
			t.Fatal("no cost")
		}
		before, after, ok := strings.Cut(text, `"cost": `+string(all["cost"]))
		if !ok {
			t.Fatalf("cost %s does not stand in the text", all["cost"])
		}
		runs[i] = before + after
	}
	if diff := cmp.Diff(runs[0], runs[1]); diff != "" {
		t.Error(diff)
	}
	args := []string{"compare", "--central", "--from", "1981", "--to", "1981"}
	if diff := cmp.Diff(output(t, args...), output(t, args...)); diff != "" {
		t.Error(diff)
	}
}
