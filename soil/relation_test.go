package soil

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

// The words of field files go there and back.
func TestRelationWords(t *testing.T) {
	for _, r := range Relations() {
		if got, err := ParseRelation(strings.ToUpper(r.String())); err != nil || got != r {
			t.Errorf("%v: %v, %v", r, got, err)
		}
	}
	if _, err := ParseRelation("best"); err == nil || !strings.Contains(err.Error(), `found "best"; allowed saxton-rawls or cosby`) {
		t.Errorf("error %v", err)
	}
}

// The regressions of Cosby et al. (1984) at the centres of the twelve classes,
// computed from the printed coefficients to six digits (coefficients from memory).
func TestCosbyTable(t *testing.T) {
	for _, r := range rows(t, "soil_cosby_1984_check.csv") {
		p := NewCosby(num(t, r, "sand_pct")/100, num(t, r, "clay_pct")/100)
		for _, c := range []struct {
			column string
			got    float64
		}{{"b_multi", p.B}, {"psi_s_m_multi", -p.Entry}, {"theta_s_multi", p.ThetaS}, {"Ks_m_per_d_multi", p.Ksat * 86400}} {
			if want := num(t, r, c.column); math.Abs(c.got-want) > 5.1e-6*math.Abs(want) {
				t.Errorf("%s: %s %.7g, want %.7g", r["texture_class"], c.column, c.got, want)
			}
		}
	}
}

// The curve that the column runs holds the power law's water where the soil is
// dry: they part by y/(1+y) to the power m, y = (s/entry)^n.
func TestCosbyCurveIsThePowerLaw(t *testing.T) {
	for _, texture := range [][2]float64{{65, 10}, {40, 20}, {20, 15}, {10, 45}, {25, 50}} {
		h := NewHorizon(0, 1)
		h.Sand, h.Clay, h.Relation, h.Structure = texture[0], texture[1], Cosby1984, 1
		m, err := Derive(h)
		if err != nil {
			t.Fatal(err)
		}
		p := NewCosby(h.Sand/100, h.Clay/100)
		for _, s := range []float64{Suction33kPa, 20, Suction1500kPa} {
			y := math.Pow(s/p.Entry, m.Curve.N)
			wet := math.Pow(AirEntry/p.Entry, m.Curve.N) // the curve begins at its air entry
			want := p.Theta(s) * math.Pow(y/(1+y)*(1+wet), 1-1/m.Curve.N)
			if got := m.Curve.Theta(-s); math.Abs(got/want-1) > 1e-12 {
				t.Errorf("sand %g clay %g at %.3g m: %.4f, the power law %.4f", h.Sand, h.Clay, s, got, want)
			}
		}
		if math.Abs(m.Ksat/p.Ksat-1) > 1e-12 || m.Curve.ThetaS != p.ThetaS {
			t.Errorf("sand %g clay %g: Ksat %g m/s, saturated %g; want %g, %g", h.Sand, h.Clay, m.Ksat, m.Curve.ThetaS, p.Ksat, p.ThetaS)
		}
	}
}

// The spread holds what each relation gives, and is none where all was measured.
func TestDisagreement(t *testing.T) {
	h := NewHorizon(0, 1)
	h.Sand, h.Clay, h.Organic = 40, 20, 2.5
	s, err := Disagreement(h)
	if err != nil {
		t.Fatal(err)
	}
	// Saxton and Rawls (2006), table 3, loam: 46 % at saturation. Cosby et al.: 44.08 %.
	if math.Abs(s.Saturated.High-0.46) > 0.005 || math.Abs(s.Saturated.Low-0.4408) > 1e-9 {
		t.Errorf("saturated %v, want 0.4408 to 0.46", s.Saturated)
	}
	// 15.5 mm/h and 0.363953 m/d, each times the structure of a loam.
	if low, high := s.Ksat.Low*86400/DefaultStructure, s.Ksat.High*86400/DefaultStructure; math.Abs(low-0.363953) > 1e-6 || math.Abs(high-15.5*24/1000) > 0.002 {
		t.Errorf("matrix %g to %g m/d, want 0.363953 to 0.372", low, high)
	}
	if !(s.Drainable.Low > 0 && s.Drainable.High > s.Drainable.Low && s.WiltingPoint.High > s.WiltingPoint.Low && s.OneMetre.High > s.OneMetre.Low) {
		t.Errorf("no spread: %+v", s)
	}
	h.ThetaR, h.ThetaS, h.Alpha, h.N, h.Ksat = 0.05, 0.45, 2, 1.4, 1e-6
	if s, err = Disagreement(h); err != nil || s.Saturated.Low != s.Saturated.High || s.Ksat.Low != s.Ksat.High || s.Drainable.Low != s.Drainable.High {
		t.Errorf("measured: %+v, %v; want no spread", s, err)
	}
	h.Clay = 90
	if _, err := Disagreement(h); err == nil {
		t.Error("130 % of sand and clay: no error")
	}
}

// Given points are passed exactly, but on sands, whose note says so.
func TestGivenPoints(t *testing.T) {
	for _, r := range Relations() {
		h := NewHorizon(0, 1)
		h.Sand, h.Clay, h.BulkDensity, h.Water33, h.Water1500, h.Relation = 30, 25, 1.35, 0.31, 0.15, r
		m, err := Derive(h)
		if err != nil {
			t.Fatal(err)
		}
		// The structure's pores hold less than 1e-4 at 33 kPa: (5 x 3.37)^-2 of 0.025.
		if math.Abs(m.Theta33-0.31) > 1e-4 || math.Abs(m.WiltingPoint-0.15) > 1e-5 {
			t.Errorf("%v: %.5f at 33 kPa, %.5f at 1500 kPa; want 0.31, 0.15", r, m.Theta33, m.WiltingPoint)
		}
		h.Sand, h.Clay = 90, 4
		if m, err = Derive(h); err != nil || !strings.Contains(strings.Join(m.Notes, "\n"), "two dry points say little of a sand") {
			t.Errorf("%v, sand: %v, notes %q", r, err, m.Notes)
		}
		h.Water1500 = 0
		if _, err := Derive(h); err == nil || !strings.Contains(err.Error(), "give both or neither") {
			t.Errorf("%v: one point alone: error %v", r, err)
		}
	}
}

// Points that no curve passes are an error of Derive and a note of a survey.
func TestPointsBeyondThePores(t *testing.T) {
	text := "hzdept_r,hzdepb_r,sandtotal_r,claytotal_r,dbthirdbar_r,wthirdbar_r,wfifteenbar_r\n0,90,30,30,1.6,42,20\n"
	s, err := ReadSurvey("s.csv", bytes.NewReader([]byte(text)), SurveyPick{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Horizons[0].pointsGiven() || !strings.Contains(strings.Join(s.Notes, "\n"), "fit no curve below the pores") {
		t.Errorf("notes %q", s.Notes)
	}
}

// Water drained and its slope, Carsel and Parrish (1988) soils, computed from the
// closed form to six digits; Simpson's rule on 200 intervals adds less than 1e-6.
func TestDrained(t *testing.T) {
	for _, r := range rows(t, "check_specific_yield.csv") {
		if r["parameter_set"] != "CarselParrish" {
			continue
		}
		c := class(t, r["texture_class"])
		// One soil in two layers is one soil.
		profile := []Material{{Horizon: NewHorizon(0, 0.37), Curve: c}, {Horizon: NewHorizon(0.37, 0.6), Curve: c}}
		d := num(t, r, "water_table_depth_m")
		if got, want := Drained(profile, d), num(t, r, "drained_volume_m"); math.Abs(got-want) > 6e-6*want {
			t.Errorf("%s, table at %g m: %.7g m drained, want %.7g", r["texture_class"], d, got, want)
		}
		if got, want := SpecificYield(profile, d), num(t, r, "local_specific_yield"); math.Abs(got-want) > 2e-6 {
			t.Errorf("%s, table at %g m: yield %.6f, want %.6f", r["texture_class"], d, got, want)
		}
	}
}
