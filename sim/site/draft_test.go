package site

import (
	"bytes"
	"errors"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"mottle/soil"
)

// writtenDraft is the text of a draft and the field that it reads as.
func writtenDraft(t *testing.T, d Draft) (string, Field) {
	t.Helper()
	var b bytes.Buffer
	if err := d.Write(&b); err != nil {
		t.Fatal(err)
	}
	f, err := ReadField("draft.yaml", bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	return b.String(), f
}

// loam is a soil to draft with.
func loam() []soil.Horizon { return Uniform(40, 20, 4, 3) }

// TestDraftBlank: a draft without an answer says nothing but the soil: it assumes
// all that a file of a texture alone assumes.
func TestDraftBlank(t *testing.T) {
	_, f := writtenDraft(t, Draft{Horizons: loam()})
	want := open(t, "minimal.yaml")
	if diff := cmp.Diff(want.Assumed, f.Assumed); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(want.Farm, f.Farm, cmpopts.EquateNaNs()); diff != "" {
		t.Error(diff)
	}
	want.Assumed, f.Assumed, want.Horizons, f.Horizons = nil, nil, nil, nil
	if diff := cmp.Diff(want, f, cmpopts.EquateNaNs()); diff != "" {
		t.Error(diff)
	}
}

// TestDraftAnswers: an answer stands in the file as it was typed, is read as such
// and is no longer assumed; a name may hold what YAML has other uses for.
func TestDraftAnswers(t *testing.T) {
	name := `Bob's: "north" #40, {a} [b] - \ & * ! | > %`
	text, f := writtenDraft(t, Draft{Schema: "mottle.schema.json", SoilNote: "guessed\nat the fence", Horizons: loam(), Answers: map[string]string{
		"name": name, "latitude": "46.5 deg", "tile.depth": "3.5 ft", "tile.drainage_coefficient": "none", "surface.crust": " 2 mm/h ",
		"crop": "corn, spring wheat", "run_on": "none", "groundwater.outside_level": "60 in"}})
	if f.Name != name || f.Latitude != 46.5 || f.Tile.Depth != 1.0668 || !math.IsInf(f.Tile.Coefficient, 1) || f.Base.Level != 1.524 {
		t.Errorf("%+v", f)
	}
	if len(f.Rotation) != 2 || f.Rotation[1].Name != "spring wheat" {
		t.Errorf("crops %v", f.Rotation)
	}
	for _, key := range []string{"tile.depth", "tile.drainage_coefficient", "surface.crust", "crop", "run_on", "groundwater.outside_level"} {
		if !f.Given(key) {
			t.Errorf("%s: assumed", key)
		}
	}
	for _, line := range []string{"# yaml-language-server: $schema=mottle.schema.json\n", "\n  depth: 3.5 ft ", "\n  # spacing: 15 m ", "\n  # guessed\n  # at the fence\n  horizons:\n"} {
		if !strings.Contains(text, line) {
			t.Errorf("%q is not in\n%s", line, text)
		}
	}
}

// TestDraftFarm: answers of the farm stand where they belong, a range as such, and with
// the rotation's crops those that were answered.
func TestDraftFarm(t *testing.T) {
	text, f := writtenDraft(t, Draft{Horizons: loam(), Answers: map[string]string{
		"crop": "[corn, spring wheat]", "farm.laterals": "[1 USD/ft, 1.20 USD/ft, 1.50 USD/ft]", "farm.interest": "4 %", "farm.lift.height": "6 ft",
		"farm.crops.alfalfa.price": "180 USD/t"}})
	w, _ := f.Farm.Worth("alfalfa")
	if r := f.Farm.Ranges; r[laterals].High != 1.5/0.3048 || r[interest].Middle != 0.04 || f.Farm.Lift != 1.8288 || w.Price.Low != 180 {
		t.Errorf("%+v", f.Farm)
	}
	for name, stands := range map[string]bool{"corn": true, "spring wheat": true, "alfalfa": true, "soybean": false, "grass": false} {
		if strings.Contains(text, "\n    "+name+":\n") != stands {
			t.Errorf("%s: want %v in\n%s", name, stands, text)
		}
	}
}

// TestDraftRelation: the relation that the horizons were derived by stays with them.
func TestDraftRelation(t *testing.T) {
	profile := loam()
	for i := range profile {
		profile[i].Relation = soil.Cosby1984
	}
	for _, answers := range []map[string]string{nil, {"soil.relation": "cosby"}} {
		text, f := writtenDraft(t, Draft{Horizons: profile, Answers: answers})
		if f.Horizons[1].Relation != soil.Cosby1984 || !f.Given("soil.relation") || len(answers) > 1 {
			t.Errorf("%v in\n%s", f.Horizons[1].Relation, text)
		}
	}
	if _, f := writtenDraft(t, Draft{Horizons: loam(), Answers: map[string]string{"soil.relation": "cosby"}}); f.Horizons[0].Relation != soil.Cosby1984 {
		t.Errorf("an answer gives %v", f.Horizons[0].Relation)
	}
}

// TestDraftFaults: what the reader would refuse is not written, and said of its key.
func TestDraftFaults(t *testing.T) {
	for key, answer := range map[string]string{
		"tile.depth": "3.5", "tile.spacing": "0 ft", "crop": "corn, wheat", "latitude": "-33 deg", "soil.restrictive_layer": "4 m",
		"tile.dept": "1 m", "soil.horizons": "clay", "soil.horizons.sand": "30 %", "tile.weir": "none", "name": "",
		"soil.relation": "best", "farm.laterals": "1.10", "farm.crops.maize.price": "4 USD/bu", "farm.mains": "600 ft", "farm.interest": "[1 %, 2 %]",
	} {
		var b bytes.Buffer
		err := Draft{Horizons: loam(), Answers: map[string]string{key: answer}}.Write(&b)
		about := func(f *Fault) bool {
			return strings.HasPrefix(f.Key, key) || key == "soil.restrictive_layer" && f.Key == "soil.horizons[1].to"
		}
		if !slices.ContainsFunc(Faults(err), about) || b.Len() > 0 {
			t.Errorf("%s: %q: got %v and %d bytes", key, answer, err, b.Len())
		}
	}
	mixed := loam()
	mixed[1].Relation = soil.Cosby1984
	if err := (Draft{Horizons: mixed}).Write(io.Discard); len(Faults(err)) != 1 || Faults(err)[0].Key != "soil.horizons[1]" {
		t.Errorf("two relations: got %v", err)
	}
	mixed[0].Relation = soil.Cosby1984
	if err := (Draft{Horizons: mixed, Answers: map[string]string{"soil.relation": "saxton-rawls"}}).Write(io.Discard); len(Faults(err)) == 0 || Faults(err)[0].Key != "soil.relation" {
		t.Errorf("another relation: got %v", err)
	}
	err := Draft{Horizons: loam(), Answers: map[string]string{"tile": "none", "tile.depth": "1 m"}}.Write(io.Discard)
	if len(Faults(err)) != 1 || Faults(err)[0].Key != "tile.depth" {
		t.Errorf("a depth of no tile: got %v", err)
	}
	if err := (Draft{}).Write(io.Discard); err == nil {
		t.Error("written without a soil")
	}
}

// TestDraftComments: every line that is a comment with a key is a line of the file
// once its mark is taken away, but the loss by seepage, which does nothing with the
// regional base, the share of mains, which does nothing beside a list of them, and
// rows that say again what a longer one says. Of crops the rotation's have lines.
func TestDraftComments(t *testing.T) {
	text, _ := writtenDraft(t, Draft{Horizons: loam()})
	marked := regexp.MustCompile(`(?m)^( *)# ([a-z_]+: )`)
	bare := marked.ReplaceAllStringFunc(text, func(line string) string {
		if strings.Contains(line, "seepage:") || strings.Contains(line, "mains_share:") {
			return line
		}
		return marked.ReplaceAllString(line, "$1$2")
	})
	f, err := ReadField("bare.yaml", strings.NewReader(bare))
	if err != nil {
		t.Fatalf("%v\n%s", err, bare)
	}
	if len(f.Assumed)+len(f.Farm.Assumed) != 0 || len(f.Farm.Mains) != 1 || f.Farm.LiftStations != 1 || f.Runon == nil || f.Ditch == nil || f.Old == nil || len(f.Tile.Weir) != 1 {
		t.Errorf("still assumed: %v %v", f.Assumed, f.Farm.Assumed)
	}
	for _, key := range survey().asked {
		if name, ok := strings.CutPrefix(key, "farm.crops."); ok {
			name, _, _ = strings.Cut(name, ".")
			if grown := name == "corn" || name == "soybean"; grown != strings.Contains(text, "\n    "+name+":") {
				t.Errorf("%s: grown is %v", key, grown)
			}
			continue
		}
		if parent(key) != "soil.horizons" && parent(key) != "run_on.horizons" && !strings.Contains(text, last(key)+":") {
			t.Errorf("%s: no line", key)
		}
	}
}

// TestDraftHorizons: horizons are read back as they were, to the last digits of a
// double.
func TestDraftHorizons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		between := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		maybe := func(low, high float64, name string) float64 {
			if rapid.Bool().Draw(t, "has "+name) {
				return between(low, high, name)
			}
			return math.NaN()
		}
		depth := 0.0
		var profile []soil.Horizon
		for i := range rapid.IntRange(1, 6).Draw(t, "n") {
			h := soil.NewHorizon(depth, depth+between(0.1, 1, "thickness"))
			h.Name = rapid.SampledFrom([]string{"", "Ap", "2Cg1", "B/C (mixed)", "null", "a: b", "-"}).Draw(t, "name")
			h.Sand, h.Clay = between(0, 50, "sand"), between(1, 50, "clay")
			h.Organic, h.BulkDensity = maybe(0.1, 8, "organic"), maybe(1, 1.8, "density")
			h.Ksat, h.Structure, h.SalinityEC = maybe(1e-9, 1e-4, "ksat"), maybe(1, 20, "structure"), maybe(0, 20, "ece")
			if !math.IsNaN(h.Ksat) && i%2 == 0 {
				h.ThetaR, h.ThetaS, h.Alpha, h.N = 0.05, between(0.3, 0.6, "theta_s"), between(0.1, 10, "alpha"), between(1.1, 3, "n")
			}
			if h.Water33, h.Water1500 = math.NaN(), math.NaN(); math.IsNaN(h.ThetaS) && i%3 == 0 {
				h.Water33, h.Water1500 = between(0.2, 0.4, "water at 33 kPa"), between(0.05, 0.15, "water at 1500 kPa")
			}
			depth = h.Bottom
			profile = append(profile, h)
		}
		var b bytes.Buffer
		d := Draft{Horizons: profile, Answers: map[string]string{"soil.restrictive_layer": exact(math.Min(depth, 9)) + " m", "tile": "none"}}
		if depth < 0.5 {
			return
		}
		if err := d.Write(&b); err != nil {
			t.Fatal(err)
		}
		f, err := ReadField("x", &b)
		if err != nil {
			t.Fatal(err)
		}
		// Twelve digits are written.
		if diff := cmp.Diff(profile, f.Horizons, cmpopts.EquateNaNs(), cmpopts.EquateApprox(1e-11, 0)); diff != "" {
			t.Error(diff)
		}
	})
}

// TestQuoted: any text without control characters is read back as it was, but for
// blanks at its ends.
func TestQuoted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-#:,?{}\[\]&*!|>'"%@. 0-9a-z~\\/]{1,12}`)).Draw(t, "text")
		if strings.TrimSpace(text) == "" || text == "none" {
			return
		}
		var b bytes.Buffer
		if err := (Draft{Horizons: loam(), Answers: map[string]string{"place": text}}).Write(&b); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		f, err := ReadField("x", &b)
		if err != nil || f.Place != strings.TrimSpace(text) {
			t.Fatalf("%q: read as %q, %v", text, f.Place, err)
		}
	})
}

// fullDisk takes nothing.
type fullDisk struct{}

var errFull = errors.New("no space left on device")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

// TestDraftFullDisk: what cannot be written is an error.
func TestDraftFullDisk(t *testing.T) {
	if err := (Draft{Horizons: loam()}).Write(fullDisk{}); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}

// TestTextureMiddle: each class's middle lies in the class (Soil Survey Manual,
// 2017, chapter 3), as Saxton and Rawls (2006, table 3) have them.
func TestTextureMiddle(t *testing.T) {
	for _, name := range Textures() {
		sand, clay, err := TextureMiddle(strings.ToUpper(name) + " ")
		if err != nil || soil.TextureClass(sand, clay) != name {
			t.Errorf("%s: %g %% sand and %g %% clay are %s, %v", name, sand, clay, soil.TextureClass(sand, clay), err)
		}
	}
	if len(Textures()) != 12 {
		t.Errorf("%d classes, 12 are defined", len(Textures()))
	}
	if _, _, err := TextureMiddle("silty clay lom"); err == nil || !strings.HasSuffix(err.Error(), `did you mean "silty clay loam"?`) {
		t.Errorf("got %v", err)
	}
}

// TestUniform: one texture from the surface to the depth, however shallow.
func TestUniform(t *testing.T) {
	for depth, want := range map[float64]int{3: 2, 0.6: 2, 0.25: 1, 0.2: 1} {
		p := Uniform(30, 35, 4, depth)
		if err := soil.CheckProfile(p); err != nil || len(p) != want || p[len(p)-1].Bottom != depth {
			t.Errorf("%g m: %v, %v", depth, p, err)
		}
	}
}
