package drain

import (
	"fmt"
	"math"
	"testing"
)

// Ernst 1962 (ILRI Bulletin 15), computed independently.
func TestErnst(t *testing.T) {
	for _, r := range table(t, "check_ernst.csv", 3) {
		v, h, rad := Ernst(r.num("q_mm_per_d")*mmPerDay, r.num("L_m"), ErnstSoil{
			VerticalThickness: r.num("Dv_m"), KVertical: r.num("Kv_m_per_d") * perDay,
			Transmissivity: r.num("sumKD_m2_per_d") * perDay,
			KRadial:        r.num("Kr_m_per_d") * perDay, RadialThickness: r.num("Dr_m"),
			GeometryFactor: r.num("a"), WetPerimeter: r.num("u_m"),
		})
		what := fmt.Sprintf("line %d", r.line)
		// u itself is printed to six digits; its rounding moves the radial head by less than its own.
		near(t, what+" vertical", v, r.num("h_vertical_m"), sixDigits)
		near(t, what+" horizontal", h, r.num("h_horizontal_m"), sixDigits)
		near(t, what+" radial", rad, r.num("h_radial_m"), sixDigits)
		near(t, what+" total", v+h+rad, r.num("h_total_m"), sixDigits)
	}
}

func TestErnstOutside(t *testing.T) {
	if v, _, _ := Ernst(1e-8, 20, ErnstSoil{}); !math.IsNaN(v) {
		t.Errorf("empty soil: %g, want NaN", v)
	}
	thin := ErnstSoil{1, 1e-6, 1e-5, 1e-6, 0.1, 1, 0.3}
	if _, _, r := Ernst(1e-8, 20, thin); !math.IsNaN(r) {
		t.Errorf("layer thinner than the wet perimeter: %g, want NaN", r)
	}
}
