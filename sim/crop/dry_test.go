package crop

import (
	"errors"
	"math"
	"testing"
)

// M05: corn at four fifths of its water (FAO-33, Doorenbos and Kassam 1979, Ky from
// memory; recomputed). The water comes in over a season of all stages.
func TestSeasonOfDrought(t *testing.T) {
	var in struct {
		Ky  float64
		ETa float64 `json:"ETa_mm"`
		ETm float64 `json:"ETm_mm"`
	}
	var out struct {
		Yield float64 `json:"Ya_over_Ym"`
	}
	worked(t, "M05", &in, &out)
	corn, err := KyOf("corn")
	if err != nil || corn.Season != in.Ky {
		t.Fatalf("Ky %+v, %v; case %g", corn, err, in.Ky)
	}
	var water Thirst
	for p := NoPhase; p <= Maturation; p++ { // the first does not count
		water.Add(p, in.ETm/6, (in.ETm-in.ETa)/6)
	}
	if got := corn.SeasonYield(water.Season()); math.Abs(got-out.Yield) > 1e-12 {
		t.Errorf("yield %.12g, want %g", got, out.Yield)
	}
	if corn.SeasonYield(0) != 0 || corn.SeasonYield(1) != 1 {
		t.Error("yield without water, or with all of it")
	}
	if empty := (&Thirst{}); empty.Season() != 1 || empty.Stages() != [4]float64{1, 1, 1, 1} {
		t.Error("a season that asked for nothing is short of water")
	}
}

// M06: corn by stages, product form (FAO-33 stage factors, from memory; the product
// common practice; recomputed), printed to four decimals.
func TestStagesOfDrought(t *testing.T) {
	var in struct {
		Ky    [4]float64
		Ratio [4]float64 `json:"ETa_over_ETm"`
	}
	var out struct {
		Yield float64 `json:"Ya_over_Ym"`
	}
	worked(t, "M06", &in, &out)
	corn, err := KyOf("corn")
	if err != nil || corn.Stage != in.Ky {
		t.Fatalf("Ky %+v, %v; case %v", corn, err, in.Ky)
	}
	var water Thirst
	for j, p := range []Phase{LateVegetative, Flowering, YieldFormation, Maturation} {
		water.Add(p, 100, 100*(1-in.Ratio[j]))
	}
	got, err := corn.StageYield(water.Stages())
	if err != nil || math.Abs(got-out.Yield) > 1e-9 {
		t.Errorf("yield %.12g, want %g; %v", got, out.Yield, err)
	}
	// Establishment and early growth count with vegetative growth.
	var young Thirst
	young.Add(Establishment, 10, 5)
	young.Add(EarlyVegetative, 30, 15)
	if young.Stages() != [4]float64{0.5, 1, 1, 1} {
		t.Errorf("stages %v", young.Stages())
	}
}

// Every Ky as crop-ky-rooting.csv lists it (FAO-33 and FAO-56 table 24, from memory);
// a blank there is no relation here, or a stage without effect.
func TestKyOfCrops(t *testing.T) {
	rows := values(t, "crop-ky-rooting.csv")
	for _, name := range Names() {
		r := row(t, rows, "crop", listedAs(name))
		k, err := KyOf(name)
		if r["Ky_season"] == "" {
			var none *NoRelation
			if !errors.As(err, &none) || none.Crop != name {
				t.Errorf("%s: %+v, %v", name, k, err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		same(t, name+", season", k.Season, number(t, r["Ky_season"]))
		for j, column := range []string{"Ky_vegetative", "Ky_flowering", "Ky_yield_formation", "Ky_ripening"} {
			want := 0.0
			if r[column] != "" {
				want = number(t, r[column])
			}
			same(t, name+", "+column, k.Stage[j], want)
		}
		_, err = k.StageYield([4]float64{1, 1, 1, 1})
		if staged := r["Ky_flowering"] != ""; k.Staged != staged || (err == nil) != staged {
			t.Errorf("%s: stages listed %v, answer %v", name, staged, err)
		}
	}
}
