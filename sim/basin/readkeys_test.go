package basin

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"mottle/sim/site"
)

// TestKeys: the reader takes every key of the list, and the list names every key
// that the reader allows.
func TestKeys(t *testing.T) {
	listed := map[string][]string{} // by section
	for line := range strings.Lines(Keys) {
		key, _, _ := strings.Cut(line, "  ")
		section, name := "", key
		if i := strings.LastIndexByte(key, '.'); i >= 0 {
			section, name = strings.TrimSuffix(key[:i], "[]"), key[i+1:]
		}
		if key = strings.TrimSpace(key); key != "key" && !strings.HasPrefix(line, "key ") {
			listed[section] = append(listed[section], name)
		}
	}
	listed[""] = append(listed[""], "soils", "stations", "defaults", "scenarios")
	const text = "zzzzzz: 1\nsoils: [{zzzzzz: 1}]\nstations: [{zzzzzz: 1}]\ndefaults: {zzzzzz: 1}\nscenarios: [{zzzzzz: 1}]\n"
	_, err := Read("b.yaml", strings.NewReader(text), nil)
	for section, keys := range listed {
		at := "zzzzzz"
		switch section {
		case "":
		case "defaults":
			at = section + ".zzzzzz"
		default:
			at = section + "[0].zzzzzz"
		}
		fault := faultAt(err, at)
		_, allowed, _ := strings.Cut(fault, "allowed ")
		known := strings.Split(allowed, ", ")
		slices.Sort(known)
		slices.Sort(keys)
		if !slices.Equal(known, keys) {
			t.Errorf("%s: the reader allows %q, the list has %q", section, known, keys)
		}
	}
}

func faultAt(err error, key string) string {
	for _, f := range site.Faults(err) {
		if f.Key == key {
			return f.Text
		}
	}
	return ""
}

// TestColumns: the list names every column with every ending.
func TestColumns(t *testing.T) {
	units, reaches, _ := strings.Cut(Columns, "\n\n")
	for _, of := range []struct {
		text    string
		columns []column
	}{{units, unitColumns}, {reaches, reachColumns}} {
		rows := strings.Split(strings.TrimSpace(of.text), "\n")[1:]
		if len(rows) != len(of.columns) {
			t.Fatalf("%d rows for %d columns", len(rows), len(of.columns))
		}
		for i, c := range of.columns {
			cells := regexp.MustCompile("  +").Split(rows[i], 4)
			var ends []string
			for k, e := range c.ends {
				end := "_" + e.end
				if k == 0 {
					end = c.name + end
				}
				ends = append(ends, end)
			}
			if c.alias != "" {
				ends = append(ends, c.alias)
			}
			or := strings.Join(ends, " ")
			if or == "" {
				or = "-"
			}
			if cells[0] != c.name || cells[1] != or {
				t.Errorf("found %q %q, want %q %q", cells[0], cells[1], c.name, or)
			}
		}
	}
}
