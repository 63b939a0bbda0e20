package proof

import (
	"fmt"

	"mottle/sim/drain"
)

// drainFallingCurve compares the curves of a falling table.
func drainFallingCurve() ([]Check, error) {
	const file, source = "check_glover_dumm_curve.csv", "Glover and Dumm, Dumm 1960, series"
	var checks []Check
	for i, r := range table(file) {
		scaled := r.num("KDt_over_SL2")
		what := fmt.Sprintf("fall of the table, K D t/(S L2) = %g: ", scaled)
		checks = append(checks,
			printed(fileRow(file, i), what+"flat start", source, "-", r.num("h_over_h0_flat"), drain.GloverDummFlat(scaled)),
			printed(fileRow(file, i), what+"fourth-degree start", source, "-", r.num("h_over_h0_quartic"), drain.GloverDummQuartic(scaled)))
	}
	return checks, nil
}

// drainFallingTime compares the time that a table takes to fall.
func drainFallingTime() ([]Check, error) {
	const file, source = "check_bouwer_vanschilfgaarde.csv", "Bouwer and van Schilfgaarde 1963 (form from memory, derived from Hooghoudt)"
	var checks []Check
	for i, r := range table(file) {
		got := drain.BouwerVanSchilfgaardeTime(r.num("K_m_per_d")*perDay, r.num("d_equiv_m"), r.num("drainable_porosity"),
			r.num("C"), r.num("L_m"), r.num("m0_m"), r.num("m_m"))
		what := fmt.Sprintf("table falls from %s to %s m, K %s m/d, L %s m, C %s", r["m0_m"], r["m_m"], r["K_m_per_d"], r["L_m"], r["C"])
		checks = append(checks, printed(fileRow(file, i), what, source, "d", r.num("time_d"), got*perDay))
	}
	return checks, nil
}

// drainFallingSpacing compares the spacings that make a table fall in time.
func drainFallingSpacing() ([]Check, error) {
	const (
		file  = "check_transient_spacing.csv"
		dumm  = "Dumm 1960"
		vanSc = "van Schilfgaarde 1963 (form from memory)"
	)
	var checks []Check
	for i, r := range table(file) {
		id := fileRow(file, i)
		f := drain.Fall{
			K: r.num("K_m_per_d") * perDay, DepthToBarrierBelowDrain: r.num("D_m"), Radius: r.num("r_m"),
			Porosity: r.num("drainable_porosity"), Start: r.num("h0_m"), End: r.num("ht_m"), Time: r.num("t_d") / perDay,
		}
		what := fmt.Sprintf("spacing for a fall from %s to %s m in %s d: ", r["h0_m"], r["ht_m"], r["t_d"])
		l := drain.GloverDummSpacing(f, 0)
		checks = append(checks,
			printed(id, what+"flow depth d", dumm, "m", r.num("L_glover_dumm_d_only_m"), l),
			printed(id, what+"equivalent depth there", dumm, "m", r.num("d_equiv_m"), drain.EquivalentDepth(l, f.DepthToBarrierBelowDrain, f.Radius)),
			printed(id, what+"flow depth d and mean head", dumm, "m", r.num("L_glover_dumm_d_plus_mean_head_m"), drain.GloverDummSpacing(f, 0.5)),
			printed(id, what+"emptying of Hooghoudt's flow", vanSc, "m", r.num("L_vanschilfgaarde1963_m"), drain.VanSchilfgaardeSpacing(f)))
	}
	return checks, nil
}

// drainFallingFirstTerm asks for the spacing of falls that the first term of the
// series, with its coefficient of 1.16, is given for: the scaled time at that spacing
// must be the row's.
func drainFallingFirstTerm() ([]Check, error) {
	const file = "check_glover_dumm_curve.csv"
	var checks []Check
	for i, r := range table(file) {
		left := r.num("h_over_h0_quartic_1.16exp")
		if left >= 1 { // the first term alone rises: no fall to ask for
			continue
		}
		f := drain.Fall{K: 1 * perDay, DepthToBarrierBelowDrain: 5, Radius: 0.1, Porosity: 0.05, Start: 1, End: left, Time: 10 / perDay}
		l := drain.GloverDummSpacing(f, 0)
		d := drain.EquivalentDepth(l, f.DepthToBarrierBelowDrain, f.Radius)
		want := r.num("KDt_over_SL2")
		checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("spacing at which the first term falls to %s: K d t/(S L^2) there", r["h_over_h0_quartic_1.16exp"]), Source: "Glover and Dumm, Dumm 1960, first term", Status: Computed, Unit: "-",
			Expected: want, Got: f.K * d * f.Time / (f.Porosity * l * l), Tolerance: sixDigits / 9.87, Why: "half a unit of the sixth digit of h/h0, over pi^2"})
	}
	return checks, nil
}

// drainFallingEqual asks for the time that a table takes to fall at van
// Schilfgaarde's spacing: his formula is that of Bouwer and van Schilfgaarde with a
// mean table that falls 8/9 as far.
func drainFallingEqual() ([]Check, error) {
	const file = "check_transient_spacing.csv"
	var checks []Check
	for i, r := range table(file) {
		k, l := r.num("K_m_per_d")*perDay, r.num("L_vanschilfgaarde1963_m")
		t := drain.BouwerVanSchilfgaardeTime(k, drain.EquivalentDepth(l, r.num("D_m"), r.num("r_m")), r.num("drainable_porosity"), 8./9, l, r.num("h0_m"), r.num("ht_m"))
		want := r.num("t_d")
		checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("time in which the table falls from %s to %s m at the spacing of %s m, C 8/9", r["h0_m"], r["ht_m"], r["L_vanschilfgaarde1963_m"]), Source: "van Schilfgaarde 1963 and Bouwer and van Schilfgaarde 1963 (forms from memory)", Status: Computed, Unit: "d",
			Expected: want, Got: t * perDay, Tolerance: 2 * sixDigits * want, Why: "half a unit of the sixth digit of the spacing, which counts twice"})
	}
	return checks, nil
}
