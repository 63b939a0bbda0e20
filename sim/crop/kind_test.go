package crop

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// named finds a crop that there is.
func named(t *testing.T, name string) Kind {
	t.Helper()
	k, err := Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// values reads a table of reference values as rows by column name; its own README
// and columns say where each row is from.
func values(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../proof/values/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// row finds the row whose column holds a text.
func row(t *testing.T, rows []map[string]string, column, text string) map[string]string {
	t.Helper()
	for _, r := range rows {
		if r[column] == text {
			return r
		}
	}
	t.Fatalf("no row with %s %q", column, text)
	return nil
}

// number reads a number.
func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// span reads a range, "0.6-1.3", or a number as a range of nothing.
func span(t *testing.T, text string) (low, high float64) {
	t.Helper()
	from, to, ranged := strings.Cut(text, "-")
	if !ranged {
		to = from
	}
	return number(t, from), number(t, to)
}

// worked reads a worked example of crop-money-checks.csv.
func worked(t *testing.T, name string, inputs, expected any) {
	t.Helper()
	r := row(t, values(t, "crop-money-checks.csv"), "case", name)
	for text, into := range map[string]any{r["inputs_json"]: inputs, r["expected_json"]: expected} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatalf("case %s: %v", name, err)
		}
	}
}

// Corn's published heat units, in F-d (C06a-d: a Purdue newsletter and an extension
// column, read): exact but for rounding in going from F to C and back.
func TestCornHeatUnitsInFahrenheit(t *testing.T) {
	corn := named(t, "corn")
	rows := values(t, "atmosphere-checks.csv")
	for _, id := range []string{"C06a", "C06b", "C06c", "C06d"} {
		r := row(t, rows, "id", id)
		high, low, _ := strings.Cut(r["inputs"], ";")
		c := func(text string) float64 {
			_, f, _ := strings.Cut(text, "=")
			return (number(t, f) - 32) / 1.8
		}
		want := number(t, r["expected"])
		if got := 1.8 * corn.HeatUnits(c(low), c(high)); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s, %s: %.12g F-d, published %g", id, r["inputs"], got, want)
		}
	}
}

// M01: seven points of Feddes' factor for maize (Feddes et al. 1978, set of
// Wesseling 1991; from memory, recomputed), printed to four decimals.
func TestFeddesPointsOfMaize(t *testing.T) {
	var in struct {
		Points [][2]float64 `json:"points_h_cm_Tp_mm_d"`
	}
	var out struct {
		Alpha []float64
		H3    float64 `json:"h3_at_Tp4_cm"`
	}
	worked(t, "M01", &in, &out)
	corn := named(t, "corn")
	if len(in.Points) != 7 {
		t.Fatalf("%d points", len(in.Points))
	}
	for i, p := range in.Points {
		wet, dry := corn.Uptake(-p[0]/100, p[1])
		if got := 1 - wet - dry; math.Abs(got-out.Alpha[i]) > 5.1e-5 {
			t.Errorf("%g cm at %g mm/d: %.5f, table %.4f", p[0], p[1], got, out.Alpha[i])
		}
	}
	// h3 lies where drought begins: none there, some 1 mm of suction beyond.
	h3 := -out.H3 / 100
	if _, dry := corn.Uptake(h3, 4); dry != 0 {
		t.Errorf("drought of %g at h3", dry)
	}
	if _, dry := corn.Uptake(h3+0.001, 4); math.Abs(dry-0.001/(80-h3)) > 1e-12 {
		t.Errorf("drought of %g one mm beyond h3", dry)
	}
}

// h3 runs in a straight line from 1 to 5 mm/d, and no further (Feddes et al. 1978,
// from memory): for maize 0.6875 m less for each mm/d.
func TestDroughtBeginsByDemand(t *testing.T) {
	corn := named(t, "corn")
	for _, c := range []struct{ demand, h3 float64 }{{0, 6}, {1, 6}, {1.1, 5.93125}, {2, 5.3125}, {3, 4.625}, {4.9, 3.31875}, {5, 3.25}, {9, 3.25}} {
		if _, dry := corn.Uptake(c.h3-1e-9, c.demand); dry != 0 {
			t.Errorf("%g mm/d: drought of %g at h3", c.demand, dry)
		}
		if _, dry := corn.Uptake((c.h3+80)/2, c.demand); math.Abs(dry-0.5) > 1e-12 {
			t.Errorf("%g mm/d: drought of %g half way from h3 to h4", c.demand, dry)
		}
	}
}

// The suctions of each crop against the sets of crop-feddes.csv (from memory; wet
// sides of wheat and soybean an assumption of the table).
func TestSuctionSets(t *testing.T) {
	rows := values(t, "crop-feddes.csv")
	for name, set := range map[string]string{"corn": "maize (corn)", "grass": "grass / pasture",
		"spring wheat": "wheat (wet-sensitive variant)", "winter wheat": "wheat (wet-sensitive variant)", "soybean": "soybean (bean values)",
		"sugar beet": "sugar beet", "alfalfa": "alfalfa"} {
		k, r := named(t, name), row(t, rows, "crop", set)
		for column, got := range map[string]float64{"h1_cm": k.H1, "h2_cm": k.H2, "h3_high_cm": k.H3High, "h3_low_cm": k.H3Low, "h4_cm": k.H4} {
			if want := number(t, r[column]); math.Abs(got*-100-want) > 1e-9 {
				t.Errorf("%s: %s %g, table %g", name, column, got*-100, want)
			}
		}
	}
}

// Wet and dry parts stay within 0 and 1, never both at once, and drought begins the
// sooner the more the air asks (Feddes et al. 1978: h3 falls from 5 to 1 mm/d).
func TestUptakeIsMonotone(t *testing.T) {
	for _, name := range Names() {
		k := named(t, name)
		lastWet, lastDry := 1.0, 0.0
		for suction := 0.0; suction < 1.1*k.H4; suction += 0.05 {
			wet, dry := k.Uptake(suction, 3)
			if wet > lastWet || dry < lastDry || wet*dry != 0 || wet < 0 || dry > 1 {
				t.Fatalf("%s at %g m: wet %g after %g, dry %g after %g", name, suction, wet, lastWet, dry, lastDry)
			}
			lastWet, lastDry = wet, dry
			if _, more := k.Uptake(suction, 4); more < dry {
				t.Fatalf("%s at %g m: less drought at 4 mm/d than at 3", name, suction)
			}
		}
		if lastWet != 0 || lastDry != 1 {
			t.Errorf("%s beyond h4: wet %g, dry %g", name, lastWet, lastDry)
		}
	}
}

// Coefficients, height and rooting depth within atmosphere-crops.csv (FAO-56 tables
// 17, 12 and 22, from memory).
func TestTabledConstants(t *testing.T) {
	rows := values(t, "atmosphere-crops.csv")
	for name, listed := range map[string]string{"corn": "corn_grain_dry_end", "soybean": "soybean", "spring wheat": "spring_wheat", "winter wheat": "winter_wheat_frozen_soil",
		"alfalfa": "alfalfa_hay_averaged_cutting", "grass": "grazed_pasture_rotated"} {
		k, r := named(t, name), row(t, rows, "crop", listed)
		for column, got := range map[string]float64{"Kcb_ini": k.KcbStart, "Kcb_mid": k.KcbMid, "Kcb_end": k.KcbEnd, "h_max_m": k.Height} {
			if k.Perennial && column == "Kcb_end" || r[column] == "" {
				continue // alfalfa's mean over cuts has a single coefficient alone
			}
			if low, high := span(t, r[column]); got < low || got > high {
				t.Errorf("%s: %s %g, table %s", name, column, got, r[column])
			}
		}
		if low, high := number(t, r["Zr_min_m"]), number(t, r["Zr_max_m"]); k.RootMax < low || k.RootMax > high {
			t.Errorf("%s: roots to %g m, table %g-%g", name, k.RootMax, low, high)
		}
	}
}

// Roots within crop-ky-rooting.csv (FAO-56 table 22, from memory), which has sugar
// beet too; and alfalfa's basal coefficient 0.05 to 0.10 under the single one of a
// mean over cuts (FAO-56 table 12, read second hand; the difference, table 18, from
// memory).
func TestRootsAndAlfalfa(t *testing.T) {
	rows := values(t, "crop-ky-rooting.csv")
	for _, name := range Names() {
		k, r := named(t, name), row(t, rows, "crop", listedAs(name))
		if low, high := number(t, r["root_min_m"]), number(t, r["root_max_m"]); k.RootMax < low || k.RootMax > high {
			t.Errorf("%s: roots to %g m, table %g-%g", name, k.RootMax, low, high)
		}
	}
	single := number(t, row(t, values(t, "atmosphere-crops.csv"), "crop", "alfalfa_hay_averaged_cutting")["Kc_mid"])
	if less := single - named(t, "alfalfa").KcbMid; less < 0.05-1e-9 || less > 0.10+1e-9 {
		t.Errorf("alfalfa: basal coefficient %g under the single one", less)
	}
}

// listedAs is a crop's name in crop-ky-rooting.csv.
func listedAs(name string) string {
	switch name {
	case "corn":
		return "maize (grain)"
	case "alfalfa":
		return "alfalfa (hay)"
	case "grass":
		return "grazed pasture"
	}
	return name
}

// Corn's stages beside the table of the High Plains Regional Climate Center (medium
// hybrid, read) in F-d: ripe at full maturity; full cover between 16 leaves, where
// its coefficient reaches the top, and silks; leaves turn between beginning dent,
// its last top value, and full dent; up at 100-120 (extension, from memory), to
// within a day's 10 F-d.
func TestCornStages(t *testing.T) {
	corn := named(t, "corn")
	rows := values(t, "atmosphere-corn-gdd.csv")
	at := func(stage string) float64 {
		return number(t, row(t, rows, "stage", stage)["GDD_F_medium"]) / 1.8
	}
	between := func(what string, got, low, high float64) {
		if got < low || got > high {
			t.Errorf("%s at %.0f C-d, table %.0f-%.0f", what, got, low, high)
		}
	}
	between("maturity", corn.Maturity, at("full maturity")-0.5, at("full maturity")+0.5) // whole C-d
	between("full cover", corn.Full*corn.Maturity, at("16 leaves"), at("silks"))
	between("turning", corn.Late*corn.Maturity, at("beginning dent"), at("full dent"))
	between("emergence", corn.Emergence*corn.Maturity, (100-10)/1.8, (120+10)/1.8)
}

// A name is found whatever its case and blanks; an error quotes what was found and
// lists, in order, all that there are.
func TestNamesOfCrops(t *testing.T) {
	for _, name := range Names() {
		if k := named(t, " "+strings.ToUpper(name)+" "); k.Name != name || k.RootMax <= 0 {
			t.Errorf("%q found as %q with roots to %g m", name, k.Name, k.RootMax)
		}
	}
	_, err := Named("Rye")
	if want := `found "Rye"; allowed: alfalfa, corn, grass, soybean, spring wheat, sugar beet, winter wheat`; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}
