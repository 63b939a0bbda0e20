package proof

import (
	"context"
	"fmt"
	"math"

	"mottle/soil"
)

// soilGroup holds retention, conductivity, pedotransfer and drainable water
// against published and recomputed tables.
func soilGroup(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		soilFunctions, soilPowerLaw, soilTexture, soilDensity, soilClasses, soilDrainable, soilDrained, soilCosby, soilYield,
	)
}

// sixDigits is the rounding of a value printed to six significant digits: half a
// unit of the sixth is at most 5e-6 of it.
const sixDigits = 5.1e-6

// printed is a check against a value of a row that was computed from the published
// form and printed to six significant digits.
func printed(id, what, source, unit string, want, got float64) Check {
	return Check{ID: id, What: what, Source: source, Status: Computed, Unit: unit,
		Expected: want, Got: got, Tolerance: sixDigits * math.Abs(want), Why: "half a unit of the sixth digit printed"}
}

// fileRow names a row of a file as an editor counts its lines.
func fileRow(file string, i int) string { return fmt.Sprintf("%s:%d", file, i+2) }

// chord is the least ratio between suctions of a tabulated curve: 32 rows to each
// doubling.
const chord = 1.0 / 32

// soilFunctions compares van Genuchten-Mualem soils in closed form with computed
// values, and the slope that the solver takes from the table.
func soilFunctions() ([]Check, error) {
	const (
		file   = "check_vg_functions.csv"
		source = "van Genuchten 1980, Mualem 1976, classes of Carsel and Parrish 1988"
	)
	tables := map[string]*soil.Table{}
	var checks []Check
	for i, r := range table(file) {
		id, class, h := fileRow(file, i), r["texture_class_carsel_parrish"], r.num("pressure_head_m")
		curve := classCurve(class, 0)
		if tables[class] == nil {
			tables[class] = flowTable(curve)
		}
		at := fmt.Sprintf("%s at %g m", class, h)
		checks = append(checks,
			printed(id, at+": water content", source, "m3/m3", r.num("theta"), curve.Theta(h)),
			printed(id, at+": conductivity", source, "m/d", r.num("K_m_per_d"), curve.K(h)/perDay))
		if h == 0 {
			continue // the capacity is zero by convention there; the table holds elastic storage
		}
		_, slope, _, _ := tables[class].At(h)
		want := r.num("C_per_m")
		checks = append(checks, Check{ID: id, What: at + ": capacity, from the table", Source: source, Status: Computed, Unit: "1/m",
			Expected: want, Got: slope, Tolerance: curve.N * chord / 2 * want,
			Why: "a chord over 1/32 of the suction against the tangent at its end: the slope's relative change over half of it, at most n/64"})
	}
	return checks, nil
}

// soilPowerLaw compares tabulated Brooks-Corey soils with Campbell's points.
func soilPowerLaw() ([]Check, error) {
	const (
		file   = "soil_clapp_hornberger_1978.csv"
		source = "Brooks and Corey 1964 with Clapp and Hornberger 1978 (parameters from memory)"
		// A chord of s^-p lies at most p(p+1)/8 of the squared ratio off the curve.
		bend = chord * chord / 8
	)
	var checks []Check
	for i, r := range table(file) {
		form := soil.BrooksCorey{ThetaS: r.num("theta_s"), Entry: -r.num("psi_s_m"), Lambda: 1 / r.num("b"), Ksat: r.num("Ks_m_per_d") * perDay}
		t, err := soil.NewFormTable(form)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", r["texture_class"], err)
		}
		add := func(what, unit string, want, got, power float64) {
			checks = append(checks, Check{ID: fileRow(file, i), What: r["texture_class"] + ": " + what, Source: source, Status: Computed, Unit: unit,
				Expected: want, Got: got, Tolerance: (sixDigits + power*(power+1)*bend) * want,
				Why: "six digits printed, and the chord of s^-p: p(p+1)/8 of (1/32)^2"})
		}
		add("tabled water content at 33 kPa", "m3/m3", r.num("theta_at_33kPa"), t.Theta(-soil.Suction33kPa), form.Lambda)
		add("tabled water content at 1500 kPa", "m3/m3", r.num("theta_at_1500kPa"), t.Theta(-soil.Suction1500kPa), form.Lambda)
		// K = Ks (theta/theta_s)^(2b+3) at the printed water content.
		_, _, k, _ := t.At(-soil.Suction33kPa)
		steepness := 2*r.num("b") + 3
		want := r.num("Ks_m_per_d") * math.Pow(r.num("theta_at_33kPa")/form.ThetaS, steepness)
		p := steepness * form.Lambda
		checks = append(checks, Check{ID: fileRow(file, i), What: r["texture_class"] + ": tabled conductivity at 33 kPa", Source: "Campbell 1974, K = Ks (theta/theta_s)^(2b+3), at the printed water content", Status: Computed, Unit: "m/d",
			Expected: want, Got: k / perDay, Tolerance: (steepness*sixDigits + p*(p+1)*bend) * want,
			Why: "the rounding of theta to the power 2b+3, and the chord of s^-p, p = 2+3/b"})
	}
	return checks, nil
}

// soilTexture compares the pedotransfer with its published table, and with the
// same equations recomputed.
func soilTexture() ([]Check, error) {
	const file = "soil_saxton_rawls_2006_check.csv"
	var checks []Check
	for i, r := range table(file) {
		p := soil.NewSaxtonRawls(r.num("sand_pct")/100, r.num("clay_pct")/100, r.num("OM_pct"))
		for _, q := range []struct {
			what, unit, published, computed string
			got, half                       float64
			why                             string
		}{
			{"water content at 1500 kPa", "%", "pub_wilting_pct", "calc_wilting_pct", 100 * p.Theta1500, 0.52, "printed to a whole percent; halves rounded either way"},
			{"water content at 33 kPa", "%", "pub_field_capacity_pct", "calc_field_capacity_pct", 100 * p.Theta33, 0.52, "printed to a whole percent; halves rounded either way"},
			{"water content at saturation", "%", "pub_saturation_pct", "calc_saturation_pct", 100 * p.ThetaS, 0.52, "printed to a whole percent; halves rounded either way"},
			{"saturated conductivity", "mm/h", "pub_Ksat_mm_per_h", "calc_Ksat_mm_per_h", p.Ksat * 3.6e6, 0.06, "printed to 0.1 mm/h"},
			{"bulk density", "Mg/m3", "pub_density_g_cm3", "calc_density_g_cm3", p.BulkDensity, 0.006, "printed to 0.01 Mg/m3"},
		} {
			what := r["texture_class"] + ": " + q.what
			checks = append(checks,
				Check{ID: fileRow(file, i), What: what, Source: "Saxton and Rawls 2006, table 3", Status: Published, Unit: q.unit,
					Expected: r.num(q.published), Got: q.got, Tolerance: q.half, Why: q.why},
				printed(fileRow(file, i), what+", recomputed", "Saxton and Rawls 2006, equations", q.unit, r.num(q.computed), q.got))
		}
	}
	return checks, nil
}

// soilDensity compares the pedotransfer over organic matter and density. Where the
// corrected water at 33 kPa would leave less than 0.03 of air, the product holds
// it there: those rows check the limit.
func soilDensity() ([]Check, error) {
	const (
		file   = "soil_saxton_rawls_om_density.csv"
		source = "Saxton and Rawls 2006, equations with the density factor"
		air    = 0.03 // of air that stays
	)
	var checks []Check
	for i, r := range table(file) {
		normal := soil.NewSaxtonRawls(r.num("sand_pct")/100, r.num("clay_pct")/100, r.num("OM_pct"))
		p := normal.AtDensity(normal.BulkDensity * r.num("density_factor"))
		id := fileRow(file, i)
		at := fmt.Sprintf("sand %s, clay %s, organic %s %%, density x %s: ", r["sand_pct"], r["clay_pct"], r["OM_pct"], r["density_factor"])
		checks = append(checks,
			printed(id, at+"bulk density", source, "Mg/m3", r.num("bulk_density_g_cm3"), p.BulkDensity),
			printed(id, at+"water content at saturation", source, "m3/m3", r.num("theta_s"), p.ThetaS))
		if most := r.num("theta_s") - air; r.num("theta_33") > most {
			checks = append(checks, Check{ID: id, What: at + "water content at 33 kPa, held below the pores", Source: "limit of the product: 0.03 of air stays", Status: Computed, Unit: "m3/m3",
				Expected: most, Got: p.Theta33, Tolerance: sixDigits, Why: "six digits of the saturated water content"})
			continue
		}
		checks = append(checks,
			printed(id, at+"water content at 33 kPa", source, "m3/m3", r.num("theta_33"), p.Theta33),
			printed(id, at+"water content at 1500 kPa", source, "m3/m3", r.num("theta_1500"), p.Theta1500),
			printed(id, at+"saturated conductivity", source, "mm/h", r.num("Ksat_mm_per_h"), p.Ksat*3.6e6))
	}
	return checks, nil
}
