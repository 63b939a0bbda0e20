package basin

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"mottle/sim/site"
)

var update = flag.Bool("update", false, "write the lines of the broken basins anew")

const basins = "../../testdata/basins"

// opener reads from the files of an archive and, where it has none, from a folder.
func opener(files map[string][]byte, folder string) func(string) (io.ReadCloser, error) {
	return func(name string) (io.ReadCloser, error) {
		if data, ok := files[name]; ok {
			return io.NopCloser(bytes.NewReader(data)), nil
		}
		if folder == "" {
			return nil, fs.ErrNotExist
		}
		return os.Open(filepath.Join(folder, name))
	}
}

// read reads a basin of the archive's files over those of the base.
func read(files map[string][]byte) (*Basin, error) {
	open := opener(files, basins+"/base")
	in, err := open("basin.yaml")
	if err != nil {
		return nil, err
	}
	defer in.Close()
	return Read("basin.yaml", in, open)
}

// TestBroken: each broken basin gives exactly the lines that stand with it, one a
// fault. An archive holds what differs from the base.
func TestBroken(t *testing.T) {
	paths, err := filepath.Glob(basins + "/broken/*.txtar")
	if err != nil || len(paths) < 60 {
		t.Fatalf("found %d archives (%v); there are more", len(paths), err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			archive, err := txtar.ParseFile(path)
			if err != nil {
				t.Fatal(err)
			}
			files := map[string][]byte{}
			for _, f := range archive.Files {
				files[f.Name] = f.Data
			}
			b, err := read(files)
			if err == nil || b != nil {
				t.Fatalf("read without a fault: %v, %v", b, err)
			}
			for range 3 { // in the same order each time
				if _, again := read(files); again.Error() != err.Error() {
					t.Fatal(cmp.Diff(err.Error(), again.Error()))
				}
			}
			got := err.Error() + "\n"
			if *update {
				last := &archive.Files[len(archive.Files)-1]
				last.Data = []byte(got)
				if err := os.WriteFile(path, txtar.Format(archive), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(string(files["want"]), got); diff != "" {
				t.Error(diff)
			}
			if n := len(site.Faults(err)); n != strings.Count(got, "\n") {
				t.Errorf("%d faults in %d lines", n, strings.Count(got, "\n"))
			}
		})
	}
}

// TestBase: every value of the base comes out in SI; each expected number is the
// file's own, times the exact size of its unit.
func TestBase(t *testing.T) {
	b, err := read(nil)
	if err != nil {
		t.Fatal(err)
	}
	u := b.Units[0]
	if u.ID != "a" || u.Area != 40e4 || u.Slope != 0.015 || u.Length != 300 || u.To != "c" || u.Station != "demo" || u.Row != 2 {
		t.Errorf("unit a: %+v", u)
	}
	if u.Tile == nil || u.Tile.Depth != 1.1 || u.Tile.Spacing != 15 || u.Design.Depth != 1.1 {
		t.Errorf("tile of unit a: %+v", u.Tile)
	}
	if u.Storage != 0.008 || b.Units[1].Storage != 0.025 {
		t.Errorf("storage: %g m of the soil, %g m of the unit", u.Storage, b.Units[1].Storage)
	}
	if d := b.Units[3]; d.Tile != nil || d.Design.Depth != 1 || len(d.Cover) != 2 || d.Cover[0].Name != "spring wheat" {
		t.Errorf("unit d: %+v", d)
	}
	r := b.Reaches[0]
	// 12.7 mm/d off the 70 ha of units a, b and c.
	if want := 0.0127 / 86400 * 70e4; math.Abs(r.OutletCapacity/want-1) > 1e-12 || r.Pond != nil {
		t.Errorf("reach r1: %+v, want a capacity of %g", r, want)
	}
	if p := b.Reaches[1].Pond; p == nil || *p != (Pond{1.5e4, 1.2, 0.6}) || !math.IsInf(b.Reaches[1].OutletCapacity, 1) {
		t.Errorf("reach r2: %+v", b.Reaches[1])
	}
	f, err := b.Field(&b.Units[1])
	if err != nil || f.Restrictive != 1.5 || f.Tile != nil || f.Surface.Storage != 0.025 || len(f.Rotation) != 2 {
		t.Errorf("field of unit b: %+v, %v", f, err)
	}
	if err := f.Validate(); err != nil {
		t.Error(err)
	}
}

// TestSameInOtherWords: other units, names, marks, line ends and reaches in the file
// itself say the same.
func TestSameInOtherWords(t *testing.T) {
	want, err := read(nil)
	if err != nil {
		t.Fatal(err)
	}
	base := func(name string) string {
		data, err := os.ReadFile(basins + "/base/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	units := base("units.csv")
	for name, files := range map[string]map[string]string{
		"semicolons":         {"units.csv": strings.NewReplacer("; ", ", ", "\"", "").Replace(strings.ReplaceAll(strings.ReplaceAll(units, "wheat, soy", "wheat: soy"), ",", ";"))},
		"mark and line ends": {"units.csv": "\ufeff" + strings.ReplaceAll(units, "\n", "\r\n")},
		"plain names": {"units.csv": strings.NewReplacer("area_ha", "Area", "slope_percent", "slope", "a,,40,", "a,,40 ha,", "20,clay", "0.2 km2,clay", "10,clay", "100000 m2,clay", "30,loam", "30 ha,loam",
			",1.5,", ",1.5 %,", ",0.2,", ",0.2 %,", ",0.1,", ",0.1 %,", ",0.8,", ",0.8 %,").Replace(units)},
		"aliases":        {"units.csv": strings.NewReplacer("cover", "crop", ",to,", ",Drains to,").Replace(units)},
		"blank lines":    {"units.csv": strings.ReplaceAll(units, "\nc,", "\n,,,,,,,,,,,\nc,")},
		"column ignored": {"units.csv": strings.ReplaceAll(units, "group", "Notes"), "basin.yaml": base("basin.yaml") + "ignore: [Notes]\n"},
		"listed reaches": {"basin.yaml": strings.ReplaceAll(base("basin.yaml"), "reaches: reaches.csv", `reaches:
  - {id: r1, to: r2, length: 800 m, slope: 0.05 %, width: 150 cm, roughness: 0.035, outlet_coefficient: 0.5 in/d}
  - {id: r2, to: outlet, length: 1200 m, slope: 0.04 %, width: 2 m, roughness: 0.04, pond_area: 1.5 ha, pond_depth: 1.2 m, pond_outlet: 600 L/s}`)},
	} {
		texts := map[string][]byte{}
		for k, v := range files {
			if name == "semicolons" {
				v = strings.ReplaceAll(v, "wheat: soy", "wheat, soy")
			}
			texts[k] = []byte(v)
		}
		got, err := read(texts)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for i := range got.Units {
			got.Units[i].Row = want.Units[i].Row
			if name == "column ignored" {
				got.Units[i].Group = want.Units[i].Group
			}
		}
		for i := range got.Reaches {
			got.Reaches[i].Row, got.Reaches[i].coefficient = want.Reaches[i].Row, want.Reaches[i].coefficient
		}
		near := cmp.Comparer(func(a, b float64) bool {
			return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-12*math.Abs(a)
		})
		if diff := cmp.Diff(want.Units, got.Units, near); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
		if diff := cmp.Diff(want.Reaches, got.Reaches, near, cmp.AllowUnexported(Reach{})); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestSources: soils from a field file and from a survey's table, weather from a
// file, paths outside the folder noted.
func TestSources(t *testing.T) {
	text, err := os.ReadFile(basins + "/base/basin.yaml")
	if err != nil {
		t.Fatal(err)
	}
	at := strings.Index(string(text), "soils:")
	yaml := string(text[:at]) + `soils:
  - {name: loam, file: ../../fields/full.yaml}
  - name: clay
    survey: ../../soil/survey-invented.csv
    groundwater: {outside_level: 2 m}
stations:
  - {name: north, weather: ../../weather/plain-invented.csv}
`
	b, err := read(map[string][]byte{"basin.yaml": []byte(yaml)})
	if err != nil {
		t.Fatal(err)
	}
	loam, clay := b.Soils["loam"], b.Soils["clay"]
	if loam.Tile != nil || loam.Runon != nil || loam.Old != nil || loam.Ditch == nil {
		t.Errorf("of the field file only the ground is taken: %+v", loam)
	}
	if len(clay.Horizons) == 0 || clay.Base.Level != 2 || clay.Horizons[len(clay.Horizons)-1].Bottom < clay.Restrictive {
		t.Errorf("survey: %+v", clay)
	}
	if clay.Given("groundwater.resistance") || !clay.Given("groundwater.outside_level") {
		t.Error("assumptions of the surveyed soil")
	}
	if s := b.Stations["north"]; s.Record.Series == nil || s.Demo || b.Units[0].Station != "north" {
		t.Errorf("station %+v", s)
	}
	notes := strings.Join(b.Notes, "\n")
	for _, want := range []string{"full.yaml lies outside", "survey-invented.csv lies outside", "plain-invented.csv lies outside", "run_on of ../../fields/full.yaml is left out"} {
		if !strings.Contains(notes, want) {
			t.Errorf("no note that %s in\n%s", want, notes)
		}
	}
}

// TestNoFiles: without a way to open files the fault says so, and a reader's own
// error is handed on.
func TestNoFiles(t *testing.T) {
	_, err := Read("x.yaml", strings.NewReader("units: u.csv\n"), nil)
	if err == nil || !strings.Contains(err.Error(), `x.yaml:1: units: found "u.csv", which cannot be read: no other files are at hand here`) {
		t.Errorf("got %v", err)
	}
	gone := errors.New("the disk is gone")
	if _, err := Read("x.yaml", io.MultiReader(strings.NewReader("name: x"), broken{gone}), nil); !errors.Is(err, gone) {
		t.Errorf("got %v", err)
	}
}

type broken struct{ err error }

func (b broken) Read([]byte) (int, error) { return 0, b.err }

// TestManyRows: equal faults share a line, each row is named.
func TestManyRows(t *testing.T) {
	if got, want := ranges("line", []int{3, 4, 5, 9, 11, 12}), "lines 3-5, 9, 11-12"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := fmt.Sprint(ranges("feature", []int{7})); got != "feature 7" {
		t.Error(got)
	}
}
