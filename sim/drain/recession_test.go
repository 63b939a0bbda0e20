package drain

import (
	"fmt"
	"math"
	"testing"
)

// Glover-Dumm curves (Dumm 1960), computed independently; values near one are
// printed to 1e-6.
func TestGloverDummCurves(t *testing.T) {
	for _, r := range table(t, "check_glover_dumm_curve.csv", 12) {
		scaled := r.num("KDt_over_SL2")
		what := fmt.Sprintf("T = %g", scaled)
		near(t, what+" flat", GloverDummFlat(scaled), r.num("h_over_h0_flat"), sixDigits)
		near(t, what+" quartic", GloverDummQuartic(scaled), r.num("h_over_h0_quartic"), sixDigits)
	}
}

// Late in the fall the first term rules: 4/pi, and (192/pi^3)(1 - 8/pi^2) =
// 1.1730, which the handbooks round to 1.16-1.17. The second term is
// exp(-8 pi^2 0.4) = 2e-14 of the first.
func TestGloverDummLeadingTerm(t *testing.T) {
	decay := math.Exp(-math.Pi * math.Pi * 0.4)
	near(t, "flat", GloverDummFlat(0.4)/decay, 4/math.Pi, 1e-13)
	near(t, "quartic", GloverDummQuartic(0.4)/decay, 1.1730, 0.00005/1.1730)
}

// The short-time forms and the series are the same functions.
func TestGloverDummShortTimes(t *testing.T) {
	for _, scaled := range []float64{0.0005, 0.0019} {
		sum, sign := 0.0, 1.0
		for k := 1.0; k < 2001; k += 2 {
			sum += sign * (k*k - 8/(math.Pi*math.Pi)) / math.Pow(k, 5) * math.Exp(-k*k*math.Pi*math.Pi*scaled)
			sign = -sign
		}
		near(t, "quartic", GloverDummQuartic(scaled), 192/math.Pow(math.Pi, 3)*sum, 1e-13)
	}
	for _, scaled := range []float64{0.001, 0.0099} {
		sum, sign := 0.0, 1.0
		for k := 1.0; k < 2001; k += 2 {
			sum += sign / k * math.Exp(-k*k*math.Pi*math.Pi*scaled)
			sign = -sign
		}
		near(t, "flat", GloverDummFlat(scaled), 4/math.Pi*sum, 1e-13)
	}
	for what, h := range map[string]float64{"flat": GloverDummFlat(0), "quartic": GloverDummQuartic(0)} {
		if h != 1 {
			t.Errorf("%s: h/h0 = %g at the start, want 1", what, h)
		}
	}
	if !math.IsNaN(GloverDummFlat(-1)) || !math.IsNaN(GloverDummQuartic(-1)) {
		t.Error("negative time: want NaN")
	}
}

// Bouwer & van Schilfgaarde 1963 (from memory), computed independently.
func TestBouwerVanSchilfgaardeTime(t *testing.T) {
	for _, r := range table(t, "check_bouwer_vanschilfgaarde.csv", 15) {
		got := BouwerVanSchilfgaardeTime(r.num("K_m_per_d")*perDay, r.num("d_equiv_m"), r.num("drainable_porosity"),
			r.num("C"), r.num("L_m"), r.num("m0_m"), r.num("m_m"))
		near(t, fmt.Sprintf("line %d", r.line), got, r.num("time_d")*secondsPerDay, sixDigits)
	}
}

// The time is the integral of mu C dm/q with Hooghoudt's q, by Simpson's rule
// on 2,000 steps (error below 1e-10 for this smooth integrand).
func TestBouwerVanSchilfgaardeIsHooghoudtEmptying(t *testing.T) {
	const k, d, mu, c, l, m0, m = 0.5 * perDay, 0.9, 0.05, 0.8, 20, 1.0, 0.3
	const steps = 2000
	dm, sum := (m0-m)/steps, 0.0
	for i := 0; i <= steps; i++ {
		weight := 2 + 2*float64(i%2)
		if i == 0 || i == steps {
			weight = 1
		}
		sum += weight * mu * c / Hooghoudt(k, k, d, m+float64(i)*dm, l)
	}
	near(t, "time", BouwerVanSchilfgaardeTime(k, d, mu, c, l, m0, m), sum*dm/3, 1e-10)
	if got := BouwerVanSchilfgaardeTime(k, d, mu, c, l, 0.3, 1); !math.IsNaN(got) {
		t.Errorf("a rising table: %g, want NaN", got)
	}
}

// Dumm 1960 and van Schilfgaarde 1963 (from memory), computed independently.
func TestTransientSpacing(t *testing.T) {
	for _, r := range table(t, "check_transient_spacing.csv", 3) {
		what := fmt.Sprintf("line %d", r.line)
		f := Fall{
			K: r.num("K_m_per_d") * perDay, DepthToBarrierBelowDrain: r.num("D_m"), Radius: r.num("r_m"),
			Porosity: r.num("drainable_porosity"), Start: r.num("h0_m"), End: r.num("ht_m"), Time: r.num("t_d") * secondsPerDay,
		}
		depthOnly := GloverDummSpacing(f, 0)
		near(t, what+" d only", depthOnly, r.num("L_glover_dumm_d_only_m"), sixDigits)
		near(t, what+" d", EquivalentDepth(depthOnly, f.DepthToBarrierBelowDrain, f.Radius), r.num("d_equiv_m"), sixDigits)
		near(t, what+" d + mean head", GloverDummSpacing(f, 0.5), r.num("L_glover_dumm_d_plus_mean_head_m"), sixDigits)
		near(t, what+" van Schilfgaarde", VanSchilfgaardeSpacing(f), r.num("L_vanschilfgaarde1963_m"), sixDigits)
	}
	rising := Fall{K: 1e-6, DepthToBarrierBelowDrain: 1, Radius: 0.005, Porosity: 0.05, Start: 0.3, End: 0.5, Time: 1e5}
	if !math.IsNaN(GloverDummSpacing(rising, 0)) || !math.IsNaN(VanSchilfgaardeSpacing(rising)) {
		t.Error("a rising table: want NaN")
	}
}
