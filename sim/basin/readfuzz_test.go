package basin

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"mottle/sim/site"
)

// sound checks what came of any text: a basin that can be gone through, written and
// read again, or faults of one line each.
func sound(t *testing.T, b *Basin, err error) {
	if err != nil {
		for _, f := range site.Faults(err) {
			if f.Text == "" || strings.ContainsAny(f.Error(), "\n\r") {
				t.Errorf("%q", f.Error())
			}
		}
		return
	}
	if _, _, err := b.Order(); err != nil {
		t.Error(err)
	}
	for i := range b.Units {
		u := &b.Units[i]
		if !(u.Area > 0) || !(u.Slope > 0) || !(u.Length >= 0) || !(u.Storage >= 0) || len(u.Cover) == 0 || u.ID == "" {
			t.Errorf("unit %+v", u)
		}
		f, err := b.Field(u)
		if err != nil {
			t.Error(err)
		} else if err := f.Validate(); err != nil {
			t.Error(err)
		}
	}
	for _, s := range b.Scenarios {
		if _, err := b.Under(&s, make([]float64, len(b.Units))); err != nil {
			t.Error(err)
		}
	}
	var out bytes.Buffer
	if err := b.WriteGeoJSON(&out, nil); err != nil {
		t.Error(err)
	}
}

// seeds adds every text of a name among the broken basins.
func seeds(f *testing.F, add func(files map[string][]byte, want string), want string) {
	paths, err := filepath.Glob(basins + "/broken/*.txtar")
	if err != nil || len(paths) == 0 {
		f.Fatalf("%d archives, %v", len(paths), err)
	}
	for _, path := range paths {
		archive, err := txtar.ParseFile(path)
		if err != nil {
			f.Fatal(err)
		}
		files := map[string][]byte{}
		for _, one := range archive.Files {
			files[one.Name] = one.Data
		}
		if files[want] != nil {
			add(files, want)
		}
	}
}

// FuzzUnitsCSV: any text as the table of units.
func FuzzUnitsCSV(f *testing.F) {
	seeds(f, func(files map[string][]byte, name string) { f.Add(files[name]) }, "units.csv")
	base, err := os.ReadFile(basins + "/base/units.csv")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(base)
	f.Add(bytes.ReplaceAll(base, []byte(","), []byte("\t")))
	yaml, reaches := baseFile(f, "basin.yaml"), baseFile(f, "reaches.csv")
	f.Fuzz(func(t *testing.T, units []byte) {
		b, err := Read("b.yaml", bytes.NewReader(yaml), opener(map[string][]byte{"units.csv": units, "reaches.csv": reaches}, ""))
		sound(t, b, err)
	})
}

// FuzzGeoJSON: any text as the collection of units.
func FuzzGeoJSON(f *testing.F) {
	seeds(f, func(files map[string][]byte, name string) { f.Add(files[name]) }, "units.geojson")
	demo := DemoFile("units.geojson")
	lines := bytes.SplitAfter(demo, []byte("\n"))
	f.Add(bytes.Join([][]byte{lines[0], bytes.TrimSuffix(lines[1], []byte(",\n")), []byte("]}")}, nil))
	yaml := bytes.Replace(baseFile(f, "basin.yaml"), []byte("units.csv"), []byte("u.geojson"), 1)
	reaches := baseFile(f, "reaches.csv")
	f.Fuzz(func(t *testing.T, units []byte) {
		b, err := Read("b.yaml", bytes.NewReader(yaml), opener(map[string][]byte{"u.geojson": units, "reaches.csv": reaches}, ""))
		sound(t, b, err)
	})
}

// FuzzBasin: any text as the basin file.
func FuzzBasin(f *testing.F) {
	seeds(f, func(files map[string][]byte, name string) { f.Add(files[name]) }, "basin.yaml")
	f.Add(DemoFile("basin.yaml"))
	files := map[string][]byte{"units.csv": baseFile(f, "units.csv"), "reaches.csv": baseFile(f, "reaches.csv"),
		"units.geojson": DemoFile("units.geojson")}
	f.Fuzz(func(t *testing.T, yaml []byte) {
		b, err := Read("b.yaml", bytes.NewReader(yaml), opener(files, ""))
		sound(t, b, err)
	})
}

func baseFile(f *testing.F, name string) []byte {
	data, err := os.ReadFile(basins + "/base/" + name)
	if err != nil {
		f.Fatal(err)
	}
	return data
}
