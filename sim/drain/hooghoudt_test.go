package drain

import (
	"fmt"
	"math"
	"testing"
)

// Hooghoudt 1940, with the series for d; computed independently.
func TestHooghoudtFlow(t *testing.T) {
	for _, r := range table(t, "check_hooghoudt_flow.csv", 6) {
		what := fmt.Sprintf("line %d", r.line)
		k, spacing := r.num("K_m_per_d")*perDay, r.num("L_m")
		d := EquivalentDepth(spacing, r.num("D_m"), r.num("r_m"))
		near(t, what+" d", d, r.num("d_equiv_m"), sixDigits)
		near(t, what+" q", Hooghoudt(k, k, d, r.num("m_mid_m"), spacing), r.num("q_mm_per_d")*mmPerDay, sixDigits)
	}
}

// The last row, a drain on the barrier, is sqrt(4 K m^2/q) = 14.1421 m in closed form.
func TestHooghoudtSpacing(t *testing.T) {
	for _, r := range table(t, "check_hooghoudt_spacing.csv", 6) {
		depth, radius := r.num("D_m"), r.num("r_m")
		got := HooghoudtSpacing(r.num("K_above_m_per_d")*perDay, r.num("K_below_m_per_d")*perDay,
			depth, radius, r.num("m_mid_m"), r.num("q_mm_per_d")*mmPerDay)
		near(t, r.fields["case"]+": L", got, r.num("L_m"), sixDigits)
		near(t, r.fields["case"]+": d", EquivalentDepth(got, depth, radius), r.num("d_equiv_m"), sixDigits)
	}
}

// The spacing puts back the flux that it was made for, with no barrier too.
func TestHooghoudtSpacingRoundTrip(t *testing.T) {
	const k, m, q, radius = 0.4 * perDay, 0.5, 8 * mmPerDay, 0.0051
	for _, depth := range []float64{0, 0.3, 2, 30, math.Inf(1)} {
		spacing := HooghoudtSpacing(k, 2*k, depth, radius, m, q)
		// Rounding of a dozen operations on a spacing settled to 1e-14.
		near(t, fmt.Sprintf("D = %g", depth), Hooghoudt(k, 2*k, EquivalentDepth(spacing, depth, radius), m, spacing), q, 1e-12)
	}
}

func TestHooghoudtOutside(t *testing.T) {
	if q := Hooghoudt(1e-6, 1e-6, 0.7, -0.2, 20); q != 0 {
		t.Errorf("table below the drain: flux %g, want 0", q)
	}
	if q := Hooghoudt(1e-6, 1e-6, 0.7, math.NaN(), 20); !math.IsNaN(q) {
		t.Errorf("unknown table: flux %g, want NaN", q)
	}
	for what, l := range map[string]float64{
		"no flux":        HooghoudtSpacing(1e-6, 1e-6, 1, 0.005, 0.5, 0),
		"no head":        HooghoudtSpacing(1e-6, 1e-6, 1, 0.005, 0, 1e-7),
		"flux too great": HooghoudtSpacing(1e-12, 1e-12, 1, 0.005, 0.5, 1e-3),
	} {
		if !math.IsNaN(l) {
			t.Errorf("%s: spacing %g, want NaN", what, l)
		}
	}
}

func TestDailyFormulasAllocateNothing(t *testing.T) {
	schedule := WeirSchedule{{MonthDay{11, 1}, MonthDay{3, 15}, 0.3}}
	capacity := Capacity{Coefficient: 1e-7, MainDiameter: 0.15, MainGrade: 0.001, MainArea: 4e4}
	sum := 0.0
	if n := testing.AllocsPerRun(100, func() {
		d := EquivalentDepth(20, 1.5, 0.0051)
		sum += Hooghoudt(1e-6, 1e-6, d, 0.4, 20)
		sum += KirkhamPonded(1e-6, 0.01, 1, 0.0051, 2, 20)
		sum += capacity.Rate() + schedule.CrestDepth(12, 1, 1)
	}); n != 0 {
		t.Errorf("%g allocations per day, want none", n)
	}
}

func BenchmarkDay(b *testing.B) {
	d := EquivalentDepth(20, 1.5, 0.0051)
	sum := 0.0
	for b.Loop() {
		sum += Hooghoudt(1e-6, 1e-6, d, 0.4, 20)
	}
	_ = sum
}
