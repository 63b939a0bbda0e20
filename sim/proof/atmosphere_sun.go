package proof

import (
	"fmt"
	"math"

	"mottle/weather"
)

// sunTable compares radiation and daylight of every latitude and month with FAO-56
// Annex 2, and with its equations computed apart.
func sunTable() []Check {
	const file = "atmosphere-ra-daylength.csv"
	rows := table(file)
	var checks []Check
	for _, q := range []struct {
		what, unit, tabled, computed string
		of                           func(lat float64, day int) float64
		tolerance                    float64
	}{
		{"extraterrestrial radiation", "MJ/m2/d", "Ra_table_MJ_m2_d", "Ra_computed", weather.ExtraterrestrialRadiation, 0.10},
		{"daylight", "h", "N_table_h", "N_computed_h", weather.DaylightHours, 0.055},
	} {
		for _, r := range rows {
			if r[q.tabled] == "" {
				continue
			}
			lat, day := r.num("lat_deg"), int(r.num("day_of_year"))
			checks = append(checks, Check{ID: fmt.Sprintf("%s:%s, %g, %d", file, q.what, lat, day),
				What:   fmt.Sprintf("%s, latitude %g, day %d", q.what, lat, day),
				Source: "FAO-56 (Allen et al. 1998) annex 2, tables 2.6 and 2.7", Status: statusOf(r["provenance"]), Unit: q.unit,
				Expected: r.num(q.tabled), Got: q.of(lat, day), Tolerance: q.tolerance,
				Why: "tenths are printed, of a month's mean where this is its middle"})
		}
		for i := 0; i < len(rows); i += 12 {
			lat, worst := rows[i].num("lat_deg"), 0.0
			for _, r := range rows[i : i+12] {
				worst = math.Max(worst, math.Abs(q.of(r.num("lat_deg"), int(r.num("day_of_year")))-r.num(q.computed)))
			}
			checks = append(checks, Check{ID: fmt.Sprintf("%s:%s, %g, equation", file, q.what, lat),
				What:   fmt.Sprintf("%s, latitude %g: largest departure of 12 months from the equation", q.what, lat),
				Source: "FAO-56 (Allen et al. 1998) eq. 21-25 and 34", Status: Computed, Unit: q.unit,
				Got: worst, Tolerance: 0.0006, Why: "three decimals are kept"})
		}
	}
	return checks
}
