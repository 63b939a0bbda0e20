package crop

import (
	"errors"
	"math"
	"testing"
)

func lineOf(t *testing.T, crop, name string) WetLine {
	t.Helper()
	l, err := WetLineOf(crop, name)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// M02: ten days of a water table (definition of Sieben 1964; recomputed). A pond
// counts as a table at the ground; were it to add depth, the sum would be 126.
func TestExcessWaterSum(t *testing.T) {
	var in struct {
		Table []float64 `json:"water_table_cm_below_surface"`
	}
	var out struct {
		Sum float64 `json:"SEW30_cm_days"`
	}
	worked(t, "M02", &in, &out)
	var d StressDays
	for _, x := range in.Table {
		d.Add(Flowering, x/100)
		d.Add(NoPhase, x/100) // no crop: not counted
	}
	if math.Abs(d.Sum()-out.Sum) > 1e-9 || len(in.Table) != 10 {
		t.Errorf("SEW30 of %d days: %.12g cm-d, want %g", len(in.Table), d.Sum(), out.Sum)
	}
	if d != (StressDays{3: d.Sum()}) {
		t.Errorf("flowering is the fourth stage of five: %v", d)
	}
	var by StressDays
	for p := Establishment; p <= Maturation; p++ {
		by.Add(p, 0.30-0.01*float64(p))
	}
	for j, want := range []float64{1, 2, 3, 4, 5 + 6} { // ripening with yield formation
		if math.Abs(by[j]-want) > 1e-9 {
			t.Errorf("stage %d: %.12g cm-d, want %g", j, by[j], want)
		}
	}
}

// M03: index and yield of a season of corn by both lines (Hiler 1969; Evans, Skaggs
// and Sneed 1991 and Hardjoamidjojo et al. 1982, from memory; recomputed), printed to
// 0.001 %; the case puts the same factors under both.
func TestStressDayIndex(t *testing.T) {
	var in struct {
		Factors Susceptibility
		Stage   StressDays `json:"SEW30_by_stage"`
		A, B    float64
	}
	var out struct {
		SDI   float64
		Yield float64 `json:"YR_pct"`
		Older float64 `json:"older_form_YR_pct"`
	}
	worked(t, "M03", &in, &out)
	corn, ohio := lineOf(t, "corn", ""), lineOf(t, "corn", "Ohio")
	if corn.Factors != in.Factors || corn.Intercept != in.A || corn.Slope != in.B {
		t.Errorf("corn %+v, case %+v", corn, in)
	}
	index := corn.Index(in.Stage)
	for _, c := range []struct{ got, want float64 }{
		{index, out.SDI}, {100 * corn.Yield(index), out.Yield}, {100 * ohio.Yield(ohio.Index(in.Stage)), out.Older},
	} {
		if math.Abs(c.got-c.want) > 5e-4 {
			t.Errorf("%.6f, want %g", c.got, c.want)
		}
	}
}

// M04: susceptibility from a plot trial (definition of Hiler 1969; recomputed),
// printed to four decimals.
func TestSusceptibilityOfATrial(t *testing.T) {
	var in struct {
		Best float64    `json:"Y_unstressed"`
		Each [5]float64 `json:"Y_stressed_by_stage"`
	}
	var out struct {
		CS         Susceptibility
		Normalised Susceptibility
	}
	worked(t, "M04", &in, &out)
	cs := TrialSusceptibility(in.Best, in.Each)
	n := cs.Normalised()
	for j := range cs {
		if math.Abs(cs[j]-out.CS[j]) > 5.1e-5 || math.Abs(n[j]-out.Normalised[j]) > 5.1e-5 {
			t.Errorf("stage %d: %.6f and %.6f, want %g and %g", j, cs[j], n[j], out.CS[j], out.Normalised[j])
		}
	}
}

// Factors and lines as crop-excess-water.csv lists them (from memory; soybean's equal
// factors an assumption), each with its status.
func TestWetLines(t *testing.T) {
	rows := values(t, "crop-excess-water.csv")
	find := func(item, crop, stage string) float64 {
		for _, r := range rows {
			if r["item"] == item && r["crop"] == crop && r["stage_or_form"] == stage {
				return number(t, r["value"])
			}
		}
		t.Fatalf("no row %s, %s, %s", item, crop, stage)
		return 0
	}
	const form = "YR = a - b SDI"
	corn, soy, ohio := lineOf(t, "corn", ""), lineOf(t, "soybean", ""), lineOf(t, "corn", "Ohio")
	for j, stage := range []string{"establishment", "early vegetative", "late vegetative", "flowering", "yield formation"} {
		same(t, "corn, "+stage, corn.Factors[j], find("normalised susceptibility", "corn", stage))
		same(t, "soybean, "+stage, soy.Factors[j], find("normalised susceptibility", "soybean", "each of five stages"))
	}
	same(t, "corn, intercept", corn.Intercept, find("yield intercept", "corn", form))
	same(t, "corn, slope", corn.Slope, find("yield slope", "corn", form))
	same(t, "soybean, intercept", soy.Intercept, find("yield intercept", "soybean", form))
	same(t, "soybean, slope", soy.Slope, find("yield slope", "soybean", form))
	same(t, "Ohio, intercept", ohio.Intercept, find("yield intercept", "corn", "older Ohio form, flat to SDI about 7"))
	same(t, "Ohio, slope", ohio.Slope, find("yield slope", "corn", "older Ohio form"))
	if corn.FactorStatus != FromMemory || soy.FactorStatus != Assumed || ohio.FactorStatus != Assumed {
		t.Error("a factor's status has changed")
	}
	// Flat to an index of about 7 by the Ohio form; nothing left, and not less.
	same(t, "Ohio at 7", ohio.Yield(7), 1)
	if y := ohio.Yield(8); y >= 1 {
		t.Errorf("Ohio at 8: %g", y)
	}
	same(t, "corn at 200", corn.Yield(200), 0)
	for _, name := range []string{"spring wheat", "winter wheat", "sugar beet", "alfalfa", "grass"} {
		var none *NoRelation
		if _, err := WetLineOf(name, ""); !errors.As(err, &none) || none.Crop != name {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The phases of corn follow its leaf stages (High Plains Regional Climate Center,
// medium hybrid, read, F-d): four leaves in establishment, eight early and fourteen late
// vegetative (the halves part at twelve), silks in flowering, dough in yield formation, full dent ripening.
func TestPhasesOfCorn(t *testing.T) {
	corn := named(t, "corn")
	rows := values(t, "atmosphere-corn-gdd.csv")
	for _, c := range []struct {
		leaf string
		want Phase
	}{{"4 leaves", Establishment}, {"8 leaves", EarlyVegetative}, {"14 leaves", LateVegetative}, {"silks", Flowering}, {"dough", YieldFormation}, {"full dent", Maturation}} {
		units := number(t, row(t, rows, "stage", c.leaf)["GDD_F_medium"]) / 1.8
		s := Stand{Kind: corn, Need: corn.Maturity, Units: units, Stage: Growing}
		if got := s.Phase(); got != c.want {
			t.Errorf("%s: phase %d, want %d", c.leaf, got, c.want)
		}
	}
	for _, stage := range []Stage{Waiting, Harvested} {
		if s := (Stand{Kind: corn, Need: 1, Stage: stage}); s.Phase() != NoPhase {
			t.Errorf("stage %d: phase %d", stage, s.Phase())
		}
	}
	if s := (Stand{Kind: named(t, "alfalfa"), Stage: Growing}); s.Phase() != LateVegetative {
		t.Errorf("alfalfa: phase %d", s.Phase())
	}
}
