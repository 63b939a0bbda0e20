package soil

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// rows reads a table of the reference values by header; numbers that are not numbers
// are an error of the test.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../sim/proof/values/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, h := range all[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	return out
}

func num(t *testing.T, m map[string]string, key string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(m[key], 64)
	if err != nil {
		t.Fatalf("%s: %v", key, err)
	}
	return x
}

func class(t *testing.T, name string) Curve {
	for _, r := range rows(t, "soil_vg_carsel_parrish_1988.csv") {
		if r["texture_class"] == name {
			return Curve{ThetaR: num(t, r, "theta_r"), ThetaS: num(t, r, "theta_s"), Alpha: num(t, r, "alpha_per_m"),
				N: num(t, r, "n"), L: 0.5, KMatrix: num(t, r, "Ks_m_per_d") / 86400}
		}
	}
	t.Fatalf("no class %q", name)
	return Curve{}
}

// Saxton and Rawls (2006), table 3: water contents to the printed whole percent
// (halves were rounded either way), conductivity to 0.1 mm/h, density to 0.01.
func TestSaxtonRawlsTable(t *testing.T) {
	for _, r := range rows(t, "soil_saxton_rawls_2006_check.csv") {
		p := NewSaxtonRawls(num(t, r, "sand_pct")/100, num(t, r, "clay_pct")/100, num(t, r, "OM_pct"))
		for _, c := range []struct {
			key            string
			got, tolerance float64
		}{
			{"pub_wilting_pct", 100 * p.Theta1500, 0.52},
			{"pub_field_capacity_pct", 100 * p.Theta33, 0.52},
			{"pub_saturation_pct", 100 * p.ThetaS, 0.52},
			{"pub_Ksat_mm_per_h", p.Ksat * 3.6e6, 0.06},
			{"pub_density_g_cm3", p.BulkDensity, 0.006},
		} {
			if want := num(t, r, c.key); math.Abs(c.got-want) > c.tolerance {
				t.Errorf("%s %s: %.3f, published %.3f", r["texture_class"], c.key, c.got, want)
			}
		}
	}
}

// The same relation over organic matter and density (computed values; the 33 kPa
// water that we hold below the pores is left out of the comparison).
func TestSaxtonRawlsDensity(t *testing.T) {
	for _, r := range rows(t, "soil_saxton_rawls_om_density.csv") {
		normal := NewSaxtonRawls(num(t, r, "sand_pct")/100, num(t, r, "clay_pct")/100, num(t, r, "OM_pct"))
		p := normal.AtDensity(normal.BulkDensity * num(t, r, "density_factor"))
		if want := num(t, r, "theta_s"); math.Abs(p.ThetaS-want) > 1e-5 {
			t.Errorf("%v: saturation %.5f, computed %.5f", r, p.ThetaS, want)
		}
		if want := num(t, r, "theta_33"); want < p.ThetaS-0.031 && math.Abs(p.Theta33-want) > 1e-5 {
			t.Errorf("%v: 33 kPa %.5f, computed %.5f", r, p.Theta33, want)
		}
	}
}

// Van Genuchten-Mualem at 14 heads of 12 classes (computed from the textbook
// form to six digits).
func TestVanGenuchten(t *testing.T) {
	for _, r := range rows(t, "check_vg_functions.csv") {
		c := class(t, r["texture_class_carsel_parrish"])
		h := num(t, r, "pressure_head_m")
		if got, want := c.Theta(h), num(t, r, "theta"); math.Abs(got-want) > 2e-6 {
			t.Errorf("%s at %g m: theta %.6f, want %.6f", r["texture_class_carsel_parrish"], h, got, want)
		}
		if got, want := c.K(h)*86400, num(t, r, "K_m_per_d"); math.Abs(got-want) > 1e-5*want+1e-300 {
			t.Errorf("%s at %g m: K %.6g m/d, want %.6g", r["texture_class_carsel_parrish"], h, got, want)
		}
	}
}

// Specific yield is theta_s - theta at the height of the surface above the table.
func TestSpecificYield(t *testing.T) {
	for _, r := range rows(t, "check_specific_yield.csv") {
		if r["parameter_set"] != "CarselParrish" {
			continue
		}
		c := class(t, r["texture_class"])
		d := num(t, r, "water_table_depth_m")
		if got, want := c.ThetaS-c.Theta(-d), num(t, r, "local_specific_yield"); math.Abs(got-want) > 2e-6 {
			t.Errorf("%s, table at %g m: specific yield %.6f, want %.6f", r["texture_class"], d, got, want)
		}
	}
}

// Johansen (1975): the worked soil of density 1350 kg/m3 and 30 % quartz, checks
// H01a-f of the reference pack. Tabled conductivity interpolates between 64
// points: 1e-3 W/m/K is allowed.
func TestJohansen(t *testing.T) {
	th := NewThermal(1.35, 0.30, 0, false)
	// The pack takes porosity 0.5; ours follows from 2.65 Mg/m3 and is 0.4906, so
	// the check is on its own porosity through the exact formula.
	n := th.Porosity
	solids := math.Pow(7.7, 0.3) * math.Pow(2, 0.7)
	if math.Abs(solids-2.996872) > 1e-5 {
		t.Errorf("solids %.6f W/m/K, published form 2.996872", solids)
	}
	if math.Abs(th.dry-0.173719) > 1e-5 {
		t.Errorf("dry %.6f W/m/K, published form 0.173719", th.dry)
	}
	for _, c := range []struct {
		name        string
		liquid, ice float64
		want        float64
	}{
		{"thawed, Sr 0.6", 0.6 * n, 0, th.dry + (math.Pow(solids, 1-n)*math.Pow(0.57, n)-th.dry)*(math.Log10(0.6)+1)},
		{"frozen, all ice", 0, 0.6 * n, th.dry + (math.Pow(solids, 1-n)*math.Pow(2.2, n)-th.dry)*0.6},
		{"frozen, 0.05 liquid", 0.05, 0.6*n - 0.05, th.dry + (math.Pow(solids, 1-n)*math.Pow(2.2, n-0.05)*math.Pow(0.57, 0.05)-th.dry)*0.6},
	} {
		if got := th.Conductivity(c.liquid, c.ice); math.Abs(got-c.want) > 1e-3 {
			t.Errorf("%s: %.5f W/m/K, want %.5f", c.name, got, c.want)
		}
	}
	// With the pack's porosity of 0.5 the same form gives its 1.05557 and 1.61011.
	half := math.Pow(solids, 0.5)
	if got := 0.173719 + (half*math.Sqrt(0.57)-0.173719)*(math.Log10(0.6)+1); math.Abs(got-1.055573) > 1e-5 {
		t.Errorf("published case thawed %.6f, want 1.055573", got)
	}
}

// Clapeyron: 124.54 m of suction per degree (reference pack section 4.1).
func TestClapeyron(t *testing.T) {
	if math.Abs(ClapeyronSlope-124.54) > 0.01 {
		t.Errorf("%.3f m per degree, want 124.54", ClapeyronSlope)
	}
}

// The table against the closed form, and its own inverse.
func TestTable(t *testing.T) {
	for _, texture := range [][3]float64{{8, 34, 1.2}, {18, 32, 1.45}, {40, 22, 1.35}, {6, 52, 1.15}, {65, 10, 1.4}} {
		h := NewHorizon(0, 1)
		h.Sand, h.Clay, h.BulkDensity, h.Organic = texture[0], texture[1], texture[2], 2
		m, err := Derive(h)
		if err != nil {
			t.Fatal(err)
		}
		c := m.Curve
		for s := 1e-5; s < 1e5; s *= 1.37 {
			theta, slope, k, _ := m.Table.At(-s)
			// 32 intervals to the octave: a chord errs by 1/8 (2.2 %)^2 of the bend.
			if math.Abs(theta-c.Theta(-s)) > 5e-5 {
				t.Errorf("%s at %.3g m: theta %.6f, curve %.6f", m.Texture, s, theta, c.Theta(-s))
			}
			if exact := c.K(-s); math.Abs(k-exact) > 0.01*exact+1e-20 {
				t.Errorf("%s at %.3g m: K %.4g, curve %.4g", m.Texture, s, k, exact)
			}
			if slope > 1e-6 {
				if back := -m.Table.Head(theta); math.Abs(back/s-1) > 1e-6 {
					t.Errorf("%s: head of theta(%.4g m) is %.4g m", m.Texture, s, back)
				}
			}
		}
		// Through the three points it was laid through.
		ptf := NewSaxtonRawls(texture[0]/100, texture[1]/100, 2).AtDensity(texture[2])
		if math.Abs(c.Theta(-Suction1500kPa)-ptf.Theta1500) > 1e-6 || math.Abs(c.Theta(0)-ptf.ThetaS) > 1e-12 {
			t.Errorf("%s: the curve misses its points", m.Texture)
		}
	}
}

// Class names at points well inside each class of the USDA triangle (Soil Survey
// Manual 2017), the centres that the Saxton and Rawls table lists.
func TestTextureClass(t *testing.T) {
	for _, r := range rows(t, "soil_saxton_rawls_2006_check.csv") {
		if got := TextureClass(num(t, r, "sand_pct"), num(t, r, "clay_pct")); got != r["texture_class"] {
			t.Errorf("sand %s clay %s: %q, want %q", r["sand_pct"], r["clay_pct"], got, r["texture_class"])
		}
	}
}

// Every fault of a profile is found, not the first alone.
func TestProfileFaults(t *testing.T) {
	a, b, c := NewHorizon(0, 0.3), NewHorizon(0.35, 0.6), NewHorizon(0.5, 0.9)
	a.Sand, a.Silt, a.Clay = 20, 50, 60
	b.Sand = 20
	c.Sand, c.Clay, c.BulkDensity = 30, 20, 4
	err := CheckProfile([]Horizon{a, b, c})
	if err == nil {
		t.Fatal("no fault found")
	}
	for _, want := range []string{"add up to 130", "gap below 0.3", "overlap", "give two of sand, silt and clay", "bulk_density: found 4"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("faults lack %q:\n%v", want, err)
		}
	}
}
