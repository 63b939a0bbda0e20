package drain

import (
	"fmt"
	"math"
	"testing"
)

// Manning with n of ASAE EP480 (from memory), computed independently.
func TestManningFullPipe(t *testing.T) {
	const inchPerDay, hectare, acre = 0.0254 / secondsPerDay, 1e4, 4046.8564224
	for _, r := range table(t, "drain_pipe_capacity.csv", 63) {
		what := fmt.Sprintf("line %d", r.line)
		diameter := r.num("inside_diameter_mm") / 1000
		if n := ManningN(diameter); n != r.num("manning_n") {
			t.Errorf("%s: n = %g, want %g", what, n, r.num("manning_n"))
		}
		q := ManningFullPipe(diameter, r.num("grade_pct")/100)
		near(t, what+" capacity", q, r.num("capacity_L_per_s")/1000, sixDigits)
		near(t, what+" velocity", q/(math.Pi*diameter*diameter/4), r.num("velocity_m_per_s"), sixDigits)
		for _, c := range []struct {
			inches  float64
			ha, acs string
		}{{0.25, "ha_at_0.25in_d", "ac_at_0.25in_d"}, {0.375, "ha_at_0.375in_d", "ac_at_0.375in_d"}, {0.5, "ha_at_0.5in_d", "ac_at_0.5in_d"}, {0.75, "ha_at_0.75in_d", "ac_at_0.75in_d"}, {1, "ha_at_1in_d", "ac_at_1in_d"}} {
			area := PipeAreaServed(q, c.inches*inchPerDay)
			near(t, what+" "+c.ha, area/hectare, r.num(c.ha), sixDigits)
			near(t, what+" "+c.acs, area/acre, r.num(c.acs), sixDigits)
		}
	}
}

// ASAE EP480's table of minimum grades (from memory) is printed to 0.01 %, and
// rounds to 0.0061 % at worst (0.3061 printed as 0.30).
func TestMinimumGrade(t *testing.T) {
	for _, r := range table(t, "drain_minimum_grade.csv", 7) {
		diameter := r.num("nominal_in") * 0.0254
		tube := ManningN(diameter)
		for _, c := range []struct {
			n, velocity       float64
			computed, printed string
		}{
			{ClayTileN, VelocityCleanWater, "calc_n0.013_v0.152mps_pct", "table_tile_v0.5fps_pct"},
			{tube, VelocityCleanWater, "calc_cpt_v0.152mps_pct", "table_cpt_v0.5fps_pct"},
			{ClayTileN, VelocityFineSand, "calc_n0.013_v0.427mps_pct", "table_tile_v1.4fps_pct"},
			{tube, VelocityFineSand, "calc_cpt_v0.427mps_pct", "table_cpt_v1.4fps_pct"},
		} {
			got := 100 * MinimumGrade(diameter, c.n, c.velocity)
			near(t, fmt.Sprintf("line %d %s", r.line, c.computed), got, r.num(c.computed), sixDigits)
			if r.fields[c.printed] != "" && math.Abs(got-r.num(c.printed)) > 0.0062 {
				t.Errorf("line %d %s: got %.4f, printed %s", r.line, c.printed, got, r.fields[c.printed])
			}
		}
	}
}

func TestPipeOutside(t *testing.T) {
	for what, v := range map[string]float64{
		"no diameter":    ManningFullPipe(0, 0.001),
		"uphill":         ManningFullPipe(0.1, -0.001),
		"no velocity":    MinimumGrade(0.1, 0.015, 0),
		"no coefficient": PipeAreaServed(0.001, 0),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %g, want NaN", what, v)
		}
	}
}
