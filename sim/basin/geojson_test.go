package basin

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func polygon(rings ...[][2]float64) []byte {
	text, err := json.Marshal(map[string]any{"type": "Polygon", "coordinates": rings})
	if err != nil {
		panic(err)
	}
	return text
}

func box(west, south, east, north float64) [][2]float64 {
	return [][2]float64{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}
}

func areaOf(t *testing.T, geometry []byte) float64 {
	t.Helper()
	a, err := outlineArea(geometry)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestAreaOfTheGlobe: eight octants make the sphere of the same surface as the
// WGS 84 ellipsoid, of radius 6371007.1809 m (NIMA TR 8350.2, 2000, table 3.4, from
// memory; Moritz 1980 gives 6371007.1810 for GRS 80). To its last digit.
func TestAreaOfTheGlobe(t *testing.T) {
	got := 8 * areaOf(t, polygon(box(0, 0, 90, 90)))
	if radius := math.Sqrt(got / 4 / math.Pi); math.Abs(radius-6371007.1809) > 1e-3 {
		t.Errorf("radius of the sphere of equal surface %.4f m", radius)
	}
}

// TestAreaOfASquare: a quadrangle of a twentieth of a degree against the integral of
// M N cos(latitude), the radii of curvature of the ellipsoid (Snyder 1987, eqs. 4-18
// and 4-20), by the midpoint rule: 2000 steps leave less than 1e-9.
func TestAreaOfASquare(t *testing.T) {
	const south, north, wide, steps = 46.85, 46.90, 0.05, 2000
	want := 0.0
	for i := range steps {
		h := (north - south) / steps
		lat := (south + (float64(i)+0.5)*h) * math.Pi / 180
		w := 1 - eccentric*math.Pow(math.Sin(lat), 2)
		m, n := semiMajor*(1-eccentric)/math.Pow(w, 1.5), semiMajor/math.Sqrt(w)
		want += m * n * math.Cos(lat) * h * math.Pi / 180 * wide * math.Pi / 180
	}
	if got := areaOf(t, polygon(box(-97, south, -97+wide, north))); math.Abs(got/want-1) > 1e-8 {
		t.Errorf("got %.3f m2, want %.3f", got, want)
	}
}

// TestAreaOfShapes: which way a ring runs, where it begins and where it lies by
// longitude changes nothing; holes are taken off; parts add up.
func TestAreaOfShapes(t *testing.T) {
	square := areaOf(t, polygon(box(10, 46, 10.01, 46.01)))
	same := func(name string, geometry []byte, want float64) {
		if got := areaOf(t, geometry); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("%s: got %g, want %g", name, got, want)
		}
	}
	ring := box(10, 46, 10.01, 46.01)
	back := make([][2]float64, len(ring))
	for i := range ring {
		back[len(ring)-1-i] = ring[i]
	}
	same("the other way", polygon(back), square)
	same("begun elsewhere", polygon(append(ring[2:4:4], ring[0], ring[1], ring[2])), square)
	same("over the date line", polygon([][2]float64{{179.995, 46}, {-179.995, 46}, {-179.995, 46.01}, {179.995, 46.01}, {179.995, 46}}), square)
	hole := areaOf(t, polygon(box(10.002, 46.002, 10.004, 46.006)))
	same("with a hole", polygon(ring, box(10.002, 46.002, 10.004, 46.006)), square-hole)
	same("in two parts", []byte(`{"type": "MultiPolygon", "coordinates": [[[[10,46],[10.01,46],[10.01,46.01],[10,46.01],[10,46]]],[[[20,46],[20.01,46],[20.01,46.01],[20,46.01],[20,46]]]]}`), 2*square)
	same("with heights", []byte(`{"type": "Polygon", "coordinates": [[[10,46,300],[10.01,46,301],[10.01,46.01,300],[10,46.01,300],[10,46,300]]]}`), square)
}

// written is what a basin writes, in one piece.
func written(t *testing.T, b *Basin, results func(int) []Property) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.WriteGeoJSON(&out, results); err != nil {
		t.Fatal(err)
	}
	if !json.Valid(out.Bytes()) {
		t.Fatalf("not JSON: %s", out.Bytes())
	}
	return out.Bytes()
}

// TestRoundTrip: the demo's and the base's units written and read again are the same
// units, and written again the same bytes.
func TestRoundTrip(t *testing.T) {
	base, err := read(nil)
	if err != nil {
		t.Fatal(err)
	}
	text, err := opener(nil, basins+"/base")("basin.yaml")
	if err != nil {
		t.Fatal(err)
	}
	defer text.Close()
	var yaml bytes.Buffer
	if _, err := yaml.ReadFrom(text); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name  string
		b     *Basin
		again func(units []byte) (*Basin, error)
	}{
		{"demo", Demo(), func(units []byte) (*Basin, error) {
			return Read("basin.yaml", bytes.NewReader(DemoFile("basin.yaml")), opener(map[string][]byte{"units.geojson": units, "reaches.csv": DemoFile("reaches.csv")}, ""))
		}},
		{"base", base, func(units []byte) (*Basin, error) {
			return read(map[string][]byte{"units.geojson": units, "basin.yaml": bytes.Replace(yaml.Bytes(), []byte("units.csv"), []byte("units.geojson"), 1)})
		}},
	} {
		first := written(t, test.b, nil)
		b, err := test.again(first)
		if err != nil {
			t.Fatalf("%s: %v", test.name, err)
		}
		near := cmp.Comparer(func(a, b float64) bool { // percent and back costs a rounding
			return a == b || math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-12*math.Abs(a)
		})
		same := func(units []Unit) []Unit {
			list := append([]Unit(nil), units...)
			for i := range list {
				var shape bytes.Buffer
				if list[i].Geometry != nil {
					if err := json.Compact(&shape, list[i].Geometry); err != nil {
						t.Fatal(err)
					}
				}
				list[i].Geometry, list[i].Properties, list[i].Row = shape.Bytes(), nil, 0
			}
			return list
		}
		if diff := cmp.Diff(same(test.b.Units), same(b.Units), near); diff != "" {
			t.Errorf("%s: %s", test.name, diff)
		}
		if again := written(t, b, nil); !bytes.Equal(first, again) {
			t.Errorf("%s: written again\n%s\n%s", test.name, first, again)
		}
	}
}

// TestResults: results stand behind the properties as read, in order; what cannot be
// written is an error, and then nothing is.
func TestResults(t *testing.T) {
	b := Demo()
	out := string(written(t, b, func(i int) []Property {
		return []Property{{"days_saturated_removed", 1.5 + float64(i)}, {"yield_gain", math.NaN()}, {"remark", `"wet"`}}
	}))
	lines := strings.Split(out, "\n")
	if len(lines) != 60+3 { // the head, sixty features, the end
		t.Fatalf("%d lines", len(lines))
	}
	for i, u := range b.Units {
		want := fmt.Sprintf(`, "invented": true, "days_saturated_removed": %g, "yield_gain": null, "remark": "\"wet\""}}`, 1.5+float64(i))
		if line := strings.TrimSuffix(lines[i+1], ","); !strings.HasSuffix(line, want) || !strings.Contains(line, fmt.Sprintf(`"properties": {"id": %q, "group"`, u.ID)) {
			t.Errorf("%s\nhas not %s", line, want)
		}
	}
	for name, p := range map[string]Property{"infinite": {"x", math.Inf(1)}, "the name of a property": {"soil", 1}, "no value": {"x", func() {}}} {
		var out bytes.Buffer
		if err := b.WriteGeoJSON(&out, func(int) []Property { return []Property{p} }); err == nil || out.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", name, err, out.Len())
		}
	}
}

// TestFeatures: what features say beside the names of columns.
func TestFeatures(t *testing.T) {
	const square = `{"type":"Polygon","coordinates":[[[-97,47],[-96.99,47],[-96.99,47.01],[-97,47.01],[-97,47]]]}`
	read := func(features string) (*Basin, error) {
		const yaml = "units: u.geojson\nignore: [NAME, extra]\nsoils: [{name: loam, soil: {restrictive_layer: 2 m, horizons: [{from: 0 m, to: 2 m, sand: 40 %, clay: 20 %}]}}]\n"
		return Read("b.yaml", strings.NewReader(yaml), opener(map[string][]byte{"u.geojson": []byte(features)}, ""))
	}
	_, err := read(`{"type":"FeatureCollection","invented":true,"features":[
{"type":"Feature","id":7,"geometry":` + square + `,"properties":{"NAME":"Ä","extra":{"deep":[1]},"soil":"loam","cover":"corn","slope_percent":1.0,"drained":true,"to":"8","length_m":10}},
{"type":"Feature","id":8,"geometry":null,"properties":{"soil":"loam","cover":"corn","slope":"2 %","drained":"no","to":"outlet","length_m":0,"area_ac":10}}]}`)
	if err == nil || !strings.Contains(err.Error(), `property "slope": found beside column "slope_percent"`) {
		t.Errorf("two names for the slope: %v", err)
	}
	b, err := read(`{"type":"FeatureCollection","invented":true,"features":[
{"type":"Feature","id":7,"geometry":` + square + `,"properties":{"NAME":"Ä","extra":{"deep":[1]},"soil":"loam","cover":"corn","slope_percent":1.0,"drained":true,"to":"8","length_m":10}},
{"type":"Feature","id":8,"geometry":null,"properties":{"soil":"loam","cover":"corn","slope_percent":2,"drained":"no","to":"outlet","length_m":0,"area_ac":10}}]}`)
	if err != nil {
		t.Fatal(err)
	}
	// 10 acres of 4046.8564224 m2 (international acre).
	if !b.Invented || b.Units[0].ID != "7" || b.Units[0].Tile == nil || math.Abs(b.Units[1].Area-40468.564224) > 1e-6 {
		t.Errorf("got %+v", b.Units)
	}
	if want := areaOf(t, []byte(square)); b.Units[0].Area != want {
		t.Errorf("area %g, want that of the outline, %g", b.Units[0].Area, want)
	}
	if out := string(written(t, b, nil)); !strings.Contains(out, `{"NAME": "Ä", "extra": {"deep":[1]}, "soil": "loam", "cover": "corn", "slope_percent": 1.0, "drained": true`) {
		t.Errorf("properties as they were: %s", out)
	}
	if len(b.Notes) != 1 || !strings.Contains(b.Notes[0], "the area of 1 units is that of their outlines") {
		t.Errorf("notes %q", b.Notes)
	}
}
