package proof

import (
	"fmt"
	"math"

	"mottle/soil"
)

// soilCosby compares the second pedotransfer with its regressions recomputed, the
// curve that the column runs with the power law it stands for, and both with the
// class averages that were fitted to the same kind of curve.
func soilCosby() ([]Check, error) {
	const (
		file   = "soil_cosby_1984_check.csv"
		source = "Cosby et al. 1984, multivariate regressions (from memory)"
	)
	averages := map[string]row{}
	for _, r := range table("soil_clapp_hornberger_1978.csv") {
		averages[r["texture_class"]] = r
	}
	var checks []Check
	for i, r := range table(file) {
		id, class := fileRow(file, i), r["texture_class"]
		h := soil.NewHorizon(0, 1)
		h.Sand, h.Clay, h.Structure, h.Relation = r.num("sand_pct"), r.num("clay_pct"), 1, soil.Cosby1984
		p := soil.NewCosby(h.Sand/100, h.Clay/100)
		m, err := soil.Derive(h)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", class, err)
		}
		checks = append(checks,
			printed(id, class+": exponent b", source, "-", r.num("b_multi"), p.B),
			printed(id, class+": air entry", source, "m", -r.num("psi_s_m_multi"), p.Entry),
			printed(id, class+": water content at saturation, of the curve", source, "m3/m3", r.num("theta_s_multi"), m.Curve.ThetaS),
			printed(id, class+": saturated conductivity, of the horizon", source, "m/d", r.num("Ks_m_per_d_multi"), m.Ksat/perDay))
		checks = append(checks, cosbyCurve(id, class, r, m)...)
		if a, listed := averages[class]; listed {
			checks = append(checks, cosbyBeside(id, class, a, m))
		}
	}
	return checks, nil
}

// cosbyCurve holds the tabulated curve against the power law at the dry points:
// S = (s/entry)^(-1/b), times (y/(1+y))^m for the bend at the air entry, y =
// (s/entry)^(1+1/b), over the same factor at the curve's own start at 0.02 m.
func cosbyCurve(id, class string, r row, m soil.Material) []Check {
	b, entry := r.num("b_multi"), -r.num("psi_s_m_multi")
	n := 1 + 1/b
	bend := func(s float64) float64 { return math.Pow(1+math.Pow(s/entry, -n), -(1 - 1/n)) }
	start := math.Pow(1+math.Pow(soil.AirEntry/entry, n), -(1 - 1/n))
	var checks []Check
	for _, s := range []struct {
		at      string
		suction float64
	}{{"1 m suction", 1}, {"33 kPa", soil.Suction33kPa}, {"1500 kPa", soil.Suction1500kPa}} {
		want := r.num("theta_s_multi") * math.Pow(s.suction/entry, -1/b) * bend(s.suction) / start
		checks = append(checks, Check{ID: id, What: class + ": tabled water content at " + s.at, Source: "power law of Cosby et al. 1984 (from memory) as a van Genuchten curve, n = 1+1/b", Status: Computed,
			Unit: "m3/m3", Expected: want, Got: m.Table.Theta(-s.suction), Tolerance: (4*sixDigits + chord*chord/8) * want,
			Why: "three values of six digits, b in an exponent below 3, and the chord of a curve that bends less than s^-1"})
	}
	return checks
}

// cosbyBeside reports water at 33 kPa beside the class average of Clapp and
// Hornberger (1978), whose parameters scatter within a class by a fifth and more.
func cosbyBeside(id, class string, average row, m soil.Material) Check {
	const scatter = 0.20
	want := average.num("theta_at_33kPa")
	return Check{ID: id, What: class + ": water content at 33 kPa beside the class average", Source: "Clapp and Hornberger 1978 (from memory)", Status: Memory, Unit: "m3/m3",
		Expected: want, Got: m.Theta33, Report: true, Low: (1 - scatter) * want, High: (1 + scatter) * want,
		Note: "other samples, the same power law: classes overlap by more than a fifth"}
}

// soilYield compares the profile's drained water and specific yield with the
// classes of Carsel and Parrish, a soil laid in two horizons of itself.
func soilYield() ([]Check, error) {
	const (
		file   = "check_specific_yield.csv"
		source = "integral of theta_s - theta, classes of Carsel and Parrish 1988"
	)
	var checks []Check
	for i, r := range table(file) {
		if r["parameter_set"] != "CarselParrish" {
			continue
		}
		class, depth := r["texture_class"], r.num("water_table_depth_m")
		c := classCurve(class, 0)
		profile := []soil.Material{{Horizon: soil.NewHorizon(0, 0.37), Curve: c}, {Horizon: soil.NewHorizon(0.37, 0.6), Curve: c}}
		at := fmt.Sprintf("%s in two horizons, table at %g m: ", class, depth)
		checks = append(checks,
			printed(fileRow(file, i), at+"water drained", source, "m", r.num("drained_volume_m"), soil.Drained(profile, depth)),
			printed(fileRow(file, i), at+"specific yield", source, "m3/m3", r.num("local_specific_yield"), soil.SpecificYield(profile, depth)))
	}
	return checks, nil
}
