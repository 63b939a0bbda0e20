package site

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestKeys: the list has every key that the reader asks for and no other, and
// says what is assumed.
func TestKeys(t *testing.T) {
	listed := map[string][]string{}
	for row := range strings.Lines(Keys) {
		columns := regexp.MustCompile(` {2,}`).Split(strings.TrimSpace(row), -1)
		if len(columns) != 4 {
			t.Errorf("%q has %d columns, want 4", row, len(columns))
			continue
		}
		listed[strings.ReplaceAll(columns[0], "[]", "")] = columns
	}
	delete(listed, "key")

	data, err := os.ReadFile(filepath.Join(fields, "full.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	root, fault := newPage("full.yaml", data).parse("field", "soil with its horizons")
	if fault != nil {
		t.Fatal(fault)
	}
	r := newReader()
	r.field(r.open("", root))
	asked := map[string]bool{}
	for _, key := range r.asked {
		key = strings.Replace(key, "run_on.horizons.", "soil.horizons.", 1)
		key = regexp.MustCompile(`^farm\.crops\.[^.]+`).ReplaceAllString(key, "farm.crops.corn")
		asked[strings.Replace(key, "old_tile.", "tile.", 1)] = true
	}
	for key := range asked {
		if listed[key] == nil && !strings.Contains(Keys, "\n"+key+".") && !strings.Contains(Keys, "\n"+key+"[].") {
			t.Errorf("%s: may stand in the file, is not in the list", key)
		}
	}
	for key := range listed {
		if !asked[key] {
			t.Errorf("%s: is in the list, may not stand in the file", key)
		}
	}
	for _, a := range open(t, "minimal.yaml").Assumed {
		if row := listed[a.Key]; row == nil || row[2] != a.Value {
			t.Errorf("%s: assumed %s, the list says %v", a.Key, a.Value, row)
		}
	}
	for _, a := range open(t, "minimal.yaml").Farm.Assumed {
		if strings.HasPrefix(a.Key, "farm.crops.") {
			continue // by crop
		}
		texts := entries(a.Value)
		if row := listed[a.Key]; row == nil || row[2] != texts[len(texts)/2] {
			t.Errorf("%s: assumed %s, the list says %v", a.Key, a.Value, row)
		}
	}
}
