package main

import (
	"bytes"
	"fmt"
	"math"

	"mottle/soil"
)

// text is the table of a profile, how far the relations lie apart, and what each
// horizon's values came from.
func (v *soilView) text() []byte {
	var b bytes.Buffer
	u := v.units
	fmt.Fprintln(&b, v.Title)
	if v.Facts != "" {
		fmt.Fprintln(&b, v.Facts)
	}
	if math.IsNaN(v.Restrictive) {
		fmt.Fprintln(&b, "restrictive layer: none told by the horizons")
	} else {
		fmt.Fprintf(&b, "restrictive layer at %s\n", u.Format(v.Restrictive, "m"))
	}
	fmt.Fprintf(&b, "derived by %s where nothing was given\n\n", v.materials[0].Relation.Cited())
	length := func(m float64) string { x, _ := u.Value(m, "m"); return fmt.Sprintf("%.2f", x) }
	_, lengthUnit := u.Value(0, "m")
	rate := func(ms float64) string { x, _ := u.Value(ms*86400, "m/d"); return fmt.Sprintf("%.3g", x) }
	_, rateUnit := u.Value(0, "m/d")
	share := func(x float64) string { return fmt.Sprintf("%.3f", x) }
	metre := u.Format(1, "m")

	rows := [][]string{
		{"horizon", "texture", "from", "to", "saturated", metre + " suction", "33 kPa", "1500 kPa", "alpha", "n", "K0", "K", "drains to " + metre, "ECe"},
		{"", "", lengthUnit, lengthUnit, water, water, water, water, "1/m", "", rateUnit, rateUnit, water, "dS/m"},
	}
	for _, m := range v.materials {
		c := m.Curve
		rows = append(rows, []string{m.Name, m.Texture, length(m.Top), length(m.Bottom),
			share(c.ThetaS), share(m.FieldCapacity), share(m.Theta33), share(m.WiltingPoint),
			fmt.Sprintf("%.3g", c.Alpha), share(c.N), rate(c.KMatrix), rate(c.Ksat()),
			share(c.ThetaS - m.FieldCapacity), fmt.Sprintf("%.1f", m.SalinityEC)})
	}
	writeTable(&b, rows, 2)
	fmt.Fprintln(&b, "K: saturated, with structure. K0: without it, where the unsaturated conductivity starts (Schaap et al. 2001).")

	fmt.Fprintf(&b, "\nBy %s and by %s, low and high:\n", v.materials[0].Relation.Cited(), v.other[0].Relation.Cited())
	rows = [][]string{
		{"horizon", "saturated", metre + " suction", "1500 kPa", "drains to " + metre, "K"},
		{"", water, water, water, water, rateUnit},
	}
	both := func(i soil.Interval, show func(float64) string) string { return show(i.Low) + " to " + show(i.High) }
	for i, m := range v.materials {
		s := v.spread[i]
		rows = append(rows, []string{m.Name, both(s.Saturated, share), both(s.OneMetre, share), both(s.WiltingPoint, share), both(s.Drainable, share), both(s.Ksat, rate)})
	}
	writeTable(&b, rows, 1)
	fmt.Fprintln(&b, "Both take what was given; there they do not part.")
	fmt.Fprintf(&b, "Table fallen from the surface to %s: %s drained, by the other relation %s.\n\n", metre,
		u.Format(1000*soil.Drained(v.materials, 1), "mm"), u.Format(1000*soil.Drained(v.other, 1), "mm"))

	for _, n := range v.Notes {
		fmt.Fprintln(&b, wrap(n, 90, "  "))
	}
	for i, m := range v.materials {
		thermal := m.Thermal
		fmt.Fprintf(&b, "%s: heat %.2f W/m/K at %s suction, %.2f frozen; %.2f MJ/m3/K (Johansen 1975, de Vries 1963)\n", m.Name,
			thermal.Conductivity(m.FieldCapacity, 0), metre, thermal.Conductivity(0.05, m.FieldCapacity-0.05), thermal.HeatCapacity(m.FieldCapacity, 0)/1e6)
		for _, n := range m.Notes {
			fmt.Fprintf(&b, "  %s\n", n)
		}
		if i < len(v.Low) && !math.IsNaN(v.Low[i].Ksat+v.High[i].Ksat) {
			fmt.Fprintf(&b, "  the survey's own range of K: %s to %s %s\n", rate(v.Low[i].Ksat), rate(v.High[i].Ksat), rateUnit)
		}
	}
	return b.Bytes()
}
