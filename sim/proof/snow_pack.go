package proof

import (
	"fmt"

	"mottle/sim/snow"
	"mottle/sim/unit"
)

// lengthOf reads a length as a field file gives it, m.
func lengthOf(text string) float64 {
	m, err := unit.Parse(text, unit.Length)
	if err != nil {
		panic(err)
	}
	return m
}

// snowConduction holds the conductivity on both sides of the density at which the
// line of fresh snow ends, its agreement with the other form of the same data, and
// the resistance that comes of it.
func snowConduction() ([]Check, error) {
	const source = "Sturm et al. 1997 (0.023 + 0.234 rho below 0.156 g/cm3, 0.138 - 1.01 rho + 3.233 rho^2 from there)"
	var checks []Check
	for _, side := range []struct{ density, want float64 }{
		{0.155, 0.05927},   // the line; the parabola would give 0.05912
		{0.157, 0.0591202}, // the parabola; the line would give 0.05974
	} {
		checks = append(checks, Check{ID: fmt.Sprintf("S07, %g", side.density), What: fmt.Sprintf("snow conductivity beside the bend, %g g/cm3", side.density),
			Source: source, Status: Computed, Unit: "W/m/K", Expected: side.want, Got: conductivityOf(side.density), Tolerance: 1e-6,
			Why: "the digits kept; the other branch lies 1.5e-4 and 6e-4 away"})
	}
	logarithmic := listedRow("S07c")
	in, err := parseGiven(logarithmic["inputs"], nil)
	if err != nil {
		return nil, fmt.Errorf("row S07c: %w", err)
	}
	other := listed(logarithmic, conductivityOf(in["rho_gcm3"]))
	const apart = 0.16
	other.What, other.Tolerance = "snow conductivity against the log form", apart*other.Expected
	other.Why = "the quadratic and the log form of the same measurements lie up to 16 % apart (at 0.2 g/cm3)"
	return append(checks, other,
		Check{ID: "S07, resistance", What: "thermal resistance of 100 mm of water as snow of 0.3 g/cm3", Source: "definition: a third of a metre over the conductivity of S07a",
			Status: Computed, Unit: "m2 K/W", Expected: 0.1 / 0.3 / 0.12597, Got: snowOf(300).Resistance(), Tolerance: 1e-6, Why: "two divisions"}), nil
}

// settling holds snow that lies for one day and for ten.
func settling() ([]Check, error) {
	var checks []Check
	p := snowOf(100)
	for day := 1; day <= 10; day++ {
		p.Day(snow.Default(), snow.Sheltered, -10, 0, 0)
		want, ok := map[int]float64{1: 142.6744, 10: 281.8564}[day] // 300 - 200 exp(-0.24 days)
		if !ok {
			continue
		}
		checks = append(checks, Check{ID: fmt.Sprintf("settling, %d d", day), What: fmt.Sprintf("density of snow of 100 kg/m3 after %d d", day),
			Source: "Verseghy 1991: (rho - 300) exp(-0.01 hours) + 300", Status: Memory, Unit: "kg/m3",
			Expected: want, Got: p.Density, Tolerance: 1e-4, Why: "four decimals are kept of the same equation computed apart"})
	}
	return checks, nil
}

// rainOnSnow holds what the heat of rain adds to a day's melt, and reports the whole
// melt of a rainy day.
func rainOnSnow() ([]Check, error) {
	open := listedRow("S05b")
	in, err := parseGiven(open["inputs"], nil)
	if err != nil {
		return nil, fmt.Errorf("row S05b: %w", err)
	}
	t, rain := in["Ta_C"], in["P_mm"]
	melt := func(rain float64) float64 {
		p := snowOf(300)
		return p.Day(snow.Default(), snow.Sheltered, t, rain*perMillimetre, 0).Melt / perMillimetre
	}
	byRain := melt(rain) - melt(0)
	const (
		// 0.007 Pr (Ta - 32) in inches and F, in mm and C.
		inSI     = 0.007 * degree
		halfUnit = 0.0005 / 0.007 // of its last digit
		// The term of wind, 0.0084 v (Ta - 32) in inches, mph and F.
		mph  = 10.0
		wind = 0.0084 * mph * degree
		what = "melt by the heat of 25.4 mm of rain at 10 C"
	)
	inch := lengthOf("1 in") / perMillimetre
	return []Check{
		{ID: "S05b, rain's term", What: what, Source: "USACE EM 1110-2-1406, generalized equation, the term of rain", Status: Memory, Unit: "mm",
			Expected: inSI * rain * t, Got: byRain, Tolerance: halfUnit * inSI * rain * t, Why: "one digit is printed of the factor, 0.007 in inches and F: 7 %"},
		{ID: "S05b, rain's heat", What: what, Source: "definition: rain cw T/Lf, cw 4.186 kJ/kg/K, Lf 333.6 kJ/kg", Status: Computed, Unit: "mm",
			Expected: 0.01255 * rain * t, Got: byRain, Tolerance: 0.003 * 0.01255 * rain * t, Why: "0.3 %: the heat of water is taken as 4.18 to 4.19 kJ/kg/K"},
		{ID: "S05b, whole", What: "melt of a day of 10 C with 25.4 mm of rain", Source: "USACE EM 1110-2-1406, generalized equation, open", Status: Memory, Unit: "mm",
			Expected: open.num("expected"), Got: melt(rain), Report: true, Low: open.num("expected") - wind*inch*t, High: open.num("expected"),
			Note: "from still air to the expected value at 4.5 m/s; the pack knows no wind"},
	}, nil
}
