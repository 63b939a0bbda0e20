package soil

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// inventedSurvey is a table of invented soils with the database's column names.
func inventedSurvey(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("../testdata/soil/survey-invented.csv")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func readInvented(t *testing.T, pick SurveyPick) *Survey {
	t.Helper()
	s, err := ReadSurvey("survey.csv", bytes.NewReader(inventedSurvey(t)), pick)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// layer is a horizon of the invented table; units there: cm, percent, g/cm3, um/s, dS/m.
func layer(name string, top, bottom, sand, silt, clay, om, density, ksat, w33, w15, ec float64) Horizon {
	h := NewHorizon(top/100, bottom/100)
	h.Name, h.Sand, h.Silt, h.Clay, h.Organic, h.BulkDensity = name, sand, silt, clay, om, density
	h.Ksat, h.Water33, h.Water1500, h.SalinityEC = ksat*1e-6, w33/100, w15/100, ec
	return h
}

// floats are conversions by powers of ten: a few units of the last place.
var floats = cmp.Options{cmpopts.EquateNaNs(), cmpopts.EquateApprox(1e-12, 0)}

// The largest component is taken, its layers from the top down whatever the order
// of rows, each value in our units.
func TestSurveyTakesTheLargestComponent(t *testing.T) {
	s := readInvented(t, SurveyPick{})
	want := []Horizon{
		layer("Ap", 0, 20, 8, 58, 34, 6.5, 1.2, 4, 38, 21, 1),
		layer("A", 20, 55, 8, 56, 36, 4.5, 1.25, 3, 38, 22, 1.2),
		layer("Bg", 55, 110, 10, 52, 38, 1.2, 1.35, 1.5, 37, 23, 1.5),
		layer("Cg", 110, 203, 32, 40, 28, .3, 1.6, 1, 30, 17, 2.5),
	}
	if d := cmp.Diff(want, s.Horizons, floats); d != "" {
		t.Error(d)
	}
	if s.Component != "Inventum" || s.Percent != 60 || s.Drainage != "Poorly drained" || s.HydrologicGroup != "C/D" || s.Slope != 1 || !s.Invented {
		t.Errorf("component %q, %g %%, %q, %q, slope %g, invented %v", s.Component, s.Percent, s.Drainage, s.HydrologicGroup, s.Slope, s.Invented)
	}
	if !math.IsNaN(s.Restrictive) {
		t.Errorf("restrictive layer at %g m, none is told", s.Restrictive)
	}
	if got := s.Low[0].Ksat * 1e6; math.Abs(got-1) > 1e-9 || math.Abs(s.High[0].Ksat*1e6-15) > 1e-9 || !math.IsNaN(s.Low[0].Sand) {
		t.Errorf("low and high ksat %g, %g um/s, sand %g; want 1, 15, none", got, s.High[0].Ksat*1e6, s.Low[0].Sand)
	}
	for _, w := range []string{"2 map units; the first, 9000001", "90002 Inventum (60 %)", "90003 Water (5 %), no horizons", "sar_r is not used"} {
		if !strings.Contains(strings.Join(s.Notes, "\n"), w) {
			t.Errorf("notes lack %q:\n%s", w, strings.Join(s.Notes, "\n"))
		}
	}
	if _, err := DeriveProfile(s.Horizons); err != nil {
		t.Error(err)
	}
}

// A dense layer stops water and keeps its texture; litter is left out and depths
// count from the mineral soil; rock ends the profile.
func TestSurveyLayersThatAreNoPloughland(t *testing.T) {
	dense := readInvented(t, SurveyPick{MapUnit: "9000001", Component: "feigning"})
	if n := len(dense.Horizons); n != 3 || math.Abs(dense.Restrictive-0.70) > 1e-12 {
		t.Errorf("%d horizons, restrictive at %g m; want 3, 0.70", n, dense.Restrictive)
	}
	rock := readInvented(t, SurveyPick{Component: "90004"})
	want := []Horizon{
		layer("A", 0, 18, 62, 28, 10, 2, 1.4, 28, 19, 8, 0),
		layer("2Bw", 18, 60, 66, 22, 12, .5, 1.5, 28, 17, 8, 0),
	}
	if d := cmp.Diff(want, rock.Horizons, floats); d != "" {
		t.Error(d)
	}
	if math.Abs(rock.Restrictive-0.60) > 1e-12 {
		t.Errorf("restrictive at %g m, want 0.60", rock.Restrictive)
	}
	for _, w := range []string{"3 cm of organic material", "2Cr is weathered bedrock", "2R from 0.87 m lies below"} {
		if !strings.Contains(strings.Join(rock.Notes, "\n"), w) {
			t.Errorf("notes lack %q:\n%s", w, strings.Join(rock.Notes, "\n"))
		}
	}
}

// Density from wsatiated_r where none is told, 2.65 (1 - 0.54) = 1.219; water that
// fits no curve below those pores is derived.
func TestSurveyFillsWhatIsBlank(t *testing.T) {
	s := readInvented(t, SurveyPick{MapUnit: "Mentior silty clay, ponded (INVENTED)"})
	if got := s.Horizons[1].BulkDensity; math.Abs(got-1.219) > 1e-9 {
		t.Errorf("density %g, want 1.219", got)
	}
	if _, err := DeriveProfile(s.Horizons); err != nil {
		t.Error(err)
	}
}

// A required column is named; an optional one is named with what replaces it; the
// header may stand in any order and case, behind a byte-order mark, with CRLF.
func TestSurveyHeader(t *testing.T) {
	_, err := ReadSurvey("s.csv", strings.NewReader("mukey,hzdept_r,hzdepb_r,silttotal_r\n1,0,20,30\n"), SurveyPick{})
	for _, c := range []string{"sandtotal_r", "claytotal_r"} {
		if err == nil || !strings.Contains(err.Error(), "s.csv:1: column "+c+": found \"no such column\"") {
			t.Errorf("error %v does not name %s", err, c)
		}
	}
	s, err := ReadSurvey("s.csv", strings.NewReader("\uFEFF\"ClayTotal_R\",hzdepb_r,HZDEPT_R,sandtotal_r\r\n20,30,0,40\r\n\r\n30,150,30,35\r\n"), SurveyPick{})
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Horizons) != 2 || s.Horizons[0].Clay != 20 || s.Horizons[1].Top != 0.3 {
		t.Errorf("horizons %v", s.Horizons)
	}
	if notes := strings.Join(s.Notes, "\n"); !strings.Contains(notes, "column ksat_r is absent: the conductivity of the relation") {
		t.Errorf("notes %s", notes)
	}
}

// Faults name file, line, column, what was found, what is allowed and the mend.
func TestSurveyFaults(t *testing.T) {
	head := "compname,hzname,hzdept_r,hzdepb_r,sandtotal_r,silttotal_r,claytotal_r,om_r,dbthirdbar_r\n"
	for _, c := range []struct{ name, rows, want string }{
		{"gap", "x,A,0,20,40,40,20,2,1.3\nx,B,25,60,40,40,20,1,1.4\n", `s.csv:3: column hzdept_r: found "25 cm"; allowed 20 cm, where the layer above ends: a gap`},
		{"overlap", "x,A,0,20,40,40,20,2,1.3\nx,B,15,60,40,40,20,1,1.4\n", "an overlap"},
		{"upside down", "x,A,20,0,40,40,20,2,1.3\n", "s.csv:2: column hzdepb_r"},
		{"no depth", "x,A,,20,40,40,20,2,1.3\n", `s.csv:2: column hzdept_r: found ""; allowed a depth in cm`},
		{"below the surface", "x,A,5,20,40,40,20,2,1.3\n", `found "5 cm"; allowed 0 cm`},
		{"shares", "x,A,0,20,60,40,20,2,1.3\n", `column claytotal_r: found "sand 60, silt 40, clay 20 %"; allowed shares that make 100 %`},
		{"no number", "x,A,0,20,forty,40,20,2,1.3\n", `s.csv:2: column sandtotal_r: found "forty"; allowed 0 to 100 %`},
		{"not a number", "x,A,0,20,NaN,40,20,2,1.3\n", `found "NaN"`},
		{"texture missing", "x,A,0,20,40,40,20,2,1.3\nx,B,20,60,,,,1,1.4\nx,C,60,90,40,40,20,1,1.4\n", `s.csv:3: column sandtotal_r: found ""`},
		{"peat", "x,Oa,0,60,,,,60,.2\nx,C,60,90,40,40,20,1,1.4\n", "peat and muck"},
		{"fields", "x,A,0\n", `s.csv:2: found "3 fields"; allowed 9`},
		{"density", "x,A,0,20,40,40,20,2,2.5\n", "s.csv:2: A: bulk_density: found 2.5 Mg/m3; allowed 0.5 to 2.2"},
		{"quotes", "x,\"A,0\n", "comma-separated values"},
		{"nothing", "", "no row of data"},
		{"no horizon", "x,,,,,,,,\n", "no component with a horizon"},
	} {
		_, err := ReadSurvey("s.csv", strings.NewReader(head+c.rows), SurveyPick{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

// A word that picks nothing, or two, lists what there is.
func TestSurveyPicks(t *testing.T) {
	for _, c := range []struct {
		pick SurveyPick
		want string
	}{
		{SurveyPick{MapUnit: "7"}, "the table holds 9000001 Inventum-Feigning complex"},
		{SurveyPick{Component: "Inventor"}, "one of 90002 Inventum (60 %); 90001 Feigning (25 %)"},
		{SurveyPick{Component: "Water"}, "without a horizon"},
	} {
		_, err := ReadSurvey("s.csv", bytes.NewReader(inventedSurvey(t)), c.pick)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: error %v, want %q", c.pick, err, c.want)
		}
	}
	twice := "cokey,compname,hzdept_r,hzdepb_r,sandtotal_r,claytotal_r\n1,x,0,90,40,20\n2,X,0,90,40,20\n"
	if _, err := ReadSurvey("s.csv", strings.NewReader(twice), SurveyPick{Component: "x"}); err == nil || !strings.Contains(err.Error(), "give its cokey") {
		t.Errorf("two of a name: error %v", err)
	}
	if s, err := ReadSurvey("s.csv", strings.NewReader(twice), SurveyPick{Component: "2"}); err != nil || s.ComponentKey != "2" {
		t.Errorf("by key: %v", err)
	}
}

// A table is told from a field file by its header.
func TestIsSurvey(t *testing.T) {
	for text, want := range map[string]bool{string(inventedSurvey(t)): true, "name: hzdept_r\nsoil:\n": false, "": false} {
		if got := IsSurvey([]byte(text)); got != want {
			t.Errorf("%.30q: %v, want %v", text, got, want)
		}
	}
}

// FuzzSurvey: whatever the text, a survey that is read has a profile that can be
// derived, and an error is no panic.
func FuzzSurvey(f *testing.F) {
	f.Add(inventedSurvey(f), "", "")
	f.Add(inventedSurvey(f), "9000001", "Fabula")
	f.Add([]byte("hzdept_r,hzdepb_r,sandtotal_r,claytotal_r\n0,30,40,20\n"), "", "")
	names, err := filepath.Glob(filepath.Join("..", "testdata", "broken", "soil", "*.*"))
	if err != nil || len(names) == 0 {
		f.Fatalf("%d broken inputs: %v", len(names), err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, "", "")
	}
	f.Fuzz(func(t *testing.T, data []byte, unit, component string) {
		s, err := ReadSurvey("fuzz.csv", bytes.NewReader(data), SurveyPick{MapUnit: unit, Component: component})
		if err != nil {
			if strings.TrimSpace(err.Error()) == "" {
				t.Error("an error without words")
			}
			return
		}
		if len(s.Horizons) == 0 || len(s.Low) != len(s.Horizons) || len(s.High) != len(s.Horizons) || slices.Contains(s.Notes, "") {
			t.Errorf("%d horizons, %d low, %d high", len(s.Horizons), len(s.Low), len(s.High))
		}
		if _, err := DeriveProfile(s.Horizons); err != nil {
			t.Errorf("read, yet not to be derived: %v", err)
		}
	})
}
