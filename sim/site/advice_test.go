package site

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/weather"
)

// quiet is a field file about which there is nothing to say. INVENTED.
const quiet = `latitude: 46 deg
elevation: 300 m
rain_read_at: 7 h
soil:
  restrictive_layer: 2 m
  conductivity_factor: 1
  lateral_over_vertical: 2
  horizons:
    - {name: Ap, from: 0 cm, to: 30 cm, sand: 40 %, clay: 22 %, organic_matter: 4 %, bulk_density: 1.3 g/cm3, ksat: 1 m/d, ece: 0.5 dS/m}
    - {name: B, from: 30 cm, to: 200 cm, sand: 40 %, silt: 38 %, clay: 22 %, bulk_density: 1.5 g/cm3, structure: 5}
surface: {standing_water: 15 mm, residue: 30 %}
groundwater: {outside_level: 1.4 m, resistance: 1500 d}
run_on: {area_ratio: 3, horizons: [{from: 0 m, to: 2 m, sand: 40 %, clay: 22 %}]}
ditch: {depth: 1.2 m, distance: 150 m}
old_tile: {depth: 3 ft, spacing: 60 ft, diameter: 5 in, drainage_coefficient: 0.375 in/d}
tile: {depth: 3.5 ft, spacing: 50 ft, diameter: 4 in, drainage_coefficient: 0.5 in/d, weir: [{from: 10-15, to: 04-15, crest: 1.5 ft}]}
crop: [corn, soybean]
rain_salinity: 0.02 dS/m
`

// read reads a field file of a test.
func read(t *testing.T, text string) *File {
	t.Helper()
	f, err := ReadFile("odd.yaml", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestWarnings: each odd value gives one warning, at its key and its line, that
// says what is odd. The limits are argued beside the code; here each is passed by a
// little, and not by a little less.
func TestWarnings(t *testing.T) {
	if w := read(t, quiet).Warnings(nil); len(w) != 0 {
		t.Fatalf("about nothing: %v", w[0])
	}
	for _, c := range []struct{ from, to, key, says string }{
		{"spacing: 50 ft", "spacing: 4.9 m", "tile.spacing", "usual are 5 m to 60 m"},
		{"spacing: 50 ft", "spacing: 61 m", "tile.spacing", "usual are 5 m to 60 m"},
		{"spacing: 50 ft", "spacing: 60 m", "", ""},
		{"spacing: 60 ft", "spacing: 3 m", "old_tile.spacing", "usual are 5 m to 60 m"},
		{"depth: 3.5 ft", "depth: 0.59 m, outlet_water: 3 m", "tile.depth", "usual are 0.6 m to 1.8 m"},
		{"depth: 3.5 ft", "depth: 1.71 m", "tile.depth", "0.29 m above the restrictive layer"},
		{"depth: 3.5 ft", "depth: 1.69 m", "", ""},
		{"diameter: 4 in", "diameter: 110 mm", "tile.diameter", "found 110 mm; laterals are made in"},
		{"diameter: 4 in", "diameter: 100 mm", "", ""},
		{"coefficient: 0.5 in/d", "coefficient: 0.12 in/d", "tile.drainage_coefficient", "(1/8 in/d)"},
		{"coefficient: 0.5 in/d", "coefficient: 1.01 in/d", "tile.drainage_coefficient", "found 25.7 mm/d"},
		{"coefficient: 0.5 in/d", "coefficient: 0.125 in/d", "", ""},
		{"coefficient: 0.5 in/d", "coefficient: 1 in/d", "", ""},
		{"coefficient: 0.5 in/d", "coefficient: none", "", ""},
		{"crest: 1.5 ft", "crest: 10 cm", "tile.weir[0].crest", "nearly to the surface"},
		{"tile: {depth: 3.5 ft,", "tile: {depth: 3.5 ft, outlet_water: 3 ft,", "tile.outlet_water", "0.15 m above the drain"},
		{"bulk_density: 1.5", "bulk_density: 1.65", "old_tile.depth", "dense ground (B, 1.65 g/cm3)"},
		{"bulk_density: 1.3 ", "bulk_density: 0.8 ", "soil.horizons[0].bulk_density", "usual are 0.9 to 1.9"},
		{"silt: 38 %", "silt: 39 %", "soil.horizons[1].sand", "add up to 101 %"},
		{"organic_matter: 4 %", "organic_matter: 9 %", "soil.horizons[0].organic_matter", "hold to 8 %"},
		{"structure: 5", "structure: 25", "soil.horizons[1].structure", "gave 2 to 15"},
		{"ksat: 1 m/d", "ksat: 0.01 um/s", "soil.horizons[0].ksat", "more than a factor of 100 apart"},
		{"ksat: 1 m/d", "ksat: 20 m/d", "", ""},
		{"ece: 0.5 dS/m", "ece: 9 dS/m", "soil.horizons[0].ece", "corn loses half of its yield at 5.87"},
		{"conductivity_factor: 1", "conductivity_factor: 11", "soil.conductivity_factor", "usual are 0.1 to 10"},
		{"lateral_over_vertical: 2", "lateral_over_vertical: 0.5", "soil.lateral_over_vertical", "usual are 1 to 10"},
		{"standing_water: 15 mm", "standing_water: 60 mm", "surface.standing_water", "usual are 2 mm to 50 mm"},
		{"residue: 30 %", "residue: 95 %", "surface.residue", "no-till leaves 60 to 80 %"},
		{"outside_level: 1.4 m", "outside_level: 0.2 m", "groundwater.outside_level", "is it a depth?"},
		{"resistance: 1500 d", "resistance: 20 d", "groundwater.resistance", "usual are 100 d to 10000 d"},
		{"area_ratio: 3", "area_ratio: 21", "run_on.area_ratio", "is it a channel"},
		{"area_ratio: 3", "area_ratio: 20", "", ""},
		{"distance: 150 m", "distance: 1100 m", "ditch.distance", "next to nothing"},
		{"rain_salinity: 0.02", "rain_salinity: 0.3", "rain_salinity", "0.01 to 0.05"},
		{"latitude: 46 deg", "latitude: 46 deg\nname: Back forty (invented)", "name", `add "invented: true"`},
		{"latitude: 46 deg", "latitude: 46 deg\nname: Back forty (invented)\ninvented: true", "", ""},
	} {
		text := strings.Replace(quiet, c.from, c.to, 1)
		if c.from == "spacing: 50 ft" || c.from == "depth: 3.5 ft" || strings.HasPrefix(c.from, "diameter: 4") {
			i := strings.Index(quiet, "\ntile:")
			text = quiet[:i] + strings.Replace(quiet[i:], c.from, c.to, 1)
		}
		if text == quiet {
			t.Fatalf("%s: is not in the file", c.from)
		}
		got := read(t, text).Warnings(nil)
		if c.key == "" {
			if len(got) != 0 {
				t.Errorf("%s: %v", c.to, got[0])
			}
			continue
		}
		if len(got) == 0 || got[0].Key != c.key || !strings.Contains(got[0].Text, c.says) {
			t.Errorf("%s: got %v", c.to, got)
			continue
		}
		if c.key == "old_tile.depth" {
			continue // said of the drain, whose line is another
		}
		if !strings.Contains(got[0].Source, c.to[strings.LastIndex(c.to, "\n")+1:]) || got[0].File != "odd.yaml" {
			t.Errorf("%s: shown as %q of %s", c.to, got[0].Source, got[0].File)
		}
	}
}

// TestWarningsOfBases: what concerns another base, and a horizon that plays no part.
func TestWarningsOfBases(t *testing.T) {
	seeping := strings.Replace(quiet, "groundwater: {outside_level: 1.4 m, resistance: 1500 d}", "groundwater: {kind: seepage, seepage: 3 mm/d}", 1)
	deeper := strings.Replace(quiet, "surface:", "    - {name: C, from: 200 cm, to: 250 cm, sand: 40 %, clay: 22 %}\nsurface:", 1)
	for key, text := range map[string]string{"groundwater.seepage": seeping, "soil.horizons[2].from": deeper} {
		if got := read(t, text).Warnings(nil); len(got) != 1 || got[0].Key != key || got[0].Line == 0 {
			t.Errorf("%s: got %v", key, got)
		}
	}
	if got := read(t, strings.Replace(quiet, "\ntile: {", "\ntile: none\n# {", 1)).Warnings(nil); len(got) != 0 {
		t.Errorf("about tile that there is not: %v", got)
	}
}

// TestWarningsOfAssumptions: nobody is asked about what nobody gave.
func TestWarningsOfAssumptions(t *testing.T) {
	for name, data := range sound(t) {
		f, err := ReadFile(name, strings.NewReader(string(data)))
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range f.Warnings(nil) {
			if !f.Field.Given(w.Key) || w.Line == 0 {
				t.Errorf("%v", w)
			}
		}
	}
}

// record is a series of one unchanging temperature range over whole years.
func record(years int, tmin, tmax float64) *weather.Series {
	start := weather.NewDate(1991, 1, 1)
	n := int(weather.NewDate(1991+years, 1, 1) - start)
	s := &weather.Series{Station: weather.Station{Latitude: 46.2, Elevation: 320, ReadHour: 7, Longitude: -95}, Start: start, Precip: make([]float64, n)}
	for range n {
		s.Tmin, s.Tmax = append(s.Tmin, tmin), append(s.Tmax, tmax)
	}
	return s
}

// TestWarningsOfWeather: the field is held against the place, the length and the
// warmth of the record. 10 May to 25 September are 139 days: at 10 to 24 C they give
// (10 + 24)/2 - 10 = 7 C-d a day, 973 in all, by the rule of Gilmore and Rogers
// (1958); corn's earliest need 0.7 x 1361 = 953, soybean's 0.7 x 1250 = 875.
func TestWarningsOfWeather(t *testing.T) {
	keys := func(text string, s *weather.Series) []string {
		var keys []string
		for _, w := range read(t, text).Warnings(s) {
			keys = append(keys, w.Key)
		}
		return keys
	}
	short, cold, cool := record(9, 10, 24), record(12, 10, 22), record(12, 10, 23)
	far := record(12, 10, 24)
	far.Station.Latitude, far.Station.Elevation, far.Station.ReadHour = 47, 800, 24
	unknown := record(12, 10, 24)
	unknown.Station = weather.Station{Latitude: math.NaN(), Elevation: math.NaN(), ReadHour: math.NaN()}
	holes := record(12, 10, 24)
	for i := 0; i < len(holes.Tmax); i += 3 {
		holes.Tmax[i] = math.NaN()
	}
	for _, c := range []struct {
		name   string
		text   string
		series *weather.Series
		want   []string
	}{
		{"as it should be", quiet, record(12, 10, 24), nil},
		{"nothing known of the station", quiet, unknown, nil},
		{"days without temperature", quiet, holes, nil},
		{"far", quiet, far, []string{"latitude", "elevation", "rain_read_at"}},
		{"short", quiet, short, []string{"weather"}},
		{"too cool for corn", quiet, cool, []string{"crop[0]"}},            // 6.5 x 139 = 904
		{"too cool for both", quiet, cold, []string{"crop[0]", "crop[1]"}}, // 6 x 139 = 834
		{"assumed crops", strings.Replace(quiet, "crop:", "# crop:", 1), cool, []string{"crop"}},
		{"grass", strings.Replace(quiet, "[corn, soybean]", "grass", 1), cold, nil},
	} {
		if diff := cmp.Diff(c.want, keys(c.text, c.series)); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
	}
}
