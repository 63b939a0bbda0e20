package site

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// askedOf reads a file of the test data and returns the keys that the reader asked
// it for, in alphabetical order.
func askedOf(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(fields, name))
	if err != nil {
		t.Fatal(err)
	}
	root, fault := newPage(name, data).parse("field", "soil with its horizons")
	if fault != nil {
		t.Fatal(fault)
	}
	r := newReader()
	r.field(r.open("", root))
	return slices.Sorted(slices.Values(r.asked))
}

// everyKey lists the keys that the reader asks the full file for; the file has no
// weir on its old tile.
func everyKey(t *testing.T) []string {
	t.Helper()
	return slices.Sorted(slices.Values(append(askedOf(t, "full.yaml"), "old_tile.weir.crest", "old_tile.weir.from", "old_tile.weir.to")))
}

// TestSurvey: the survey without a file learns the keys that a file with every key
// is asked for, no more and no fewer.
func TestSurvey(t *testing.T) {
	got := slices.Sorted(slices.Values(survey().asked))
	if diff := cmp.Diff(everyKey(t), got); diff != "" {
		t.Error(diff)
	}
}

// TestFallbacks: what the survey holds for a default is what a file without the
// key is said to assume.
func TestFallbacks(t *testing.T) {
	r := survey()
	f := open(t, "minimal.yaml")
	for _, a := range slices.Concat(f.Assumed, f.Farm.Assumed) {
		if f := r.forms[a.Key]; f == nil || f.fallback != a.Value && !(a.Value == "none" && f.none && f.fallback == "") {
			t.Errorf("%s: assumed %s, the survey has %+v", a.Key, a.Value, f)
		}
	}
}

// TestLookup: every key but those of sections that are never left out has a row.
func TestLookup(t *testing.T) {
	r := survey()
	for _, key := range r.asked {
		if k, ok := Lookup(key); ok != (r.forms[key].kind != group || r.forms[key].none) && key != "soil.horizons" {
			t.Errorf("%s: row %v, %v", key, k, ok)
		} else if ok && (k.Path != key || k.Meaning == "" || k.Example == "" || k.LeftOut == "") {
			t.Errorf("%s: %+v", key, k)
		}
	}
	if _, ok := Lookup("tile.dept"); ok {
		t.Error("found a key that there is not")
	}
}
