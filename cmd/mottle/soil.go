package main

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mottle/sim/unit"
	"mottle/soil"
)

func newSoil() *cobra.Command {
	var units string
	cmd := &cobra.Command{
		Use:   "soil [field.yaml]",
		Short: "Show what was derived for each horizon, from what, by which relation",
		Long: `Soil completes the horizons of a field file and prints what the simulation will
use: water contents, van Genuchten curve, conductivity, drainable pore space, heat
properties, each with the published relation it came from. Without a file it shows
the invented demo's soil.`,
		Example: "  mottle soil\n  mottle soil field.yaml --units us",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			u, errUnits := system(units)
			f, source, _, errField := readField(fileName(args))
			if err := errors.Join(errUnits, errField); err != nil {
				return err
			}
			materials, err := soil.DeriveProfile(f.Horizons)
			if err != nil {
				return badInput(err)
			}
			_, err = cmd.OutOrStdout().Write(soilText(title(f.Name, source.Name, f.Invented), f.Restrictive, materials, u))
			return err
		},
	}
	cmd.Flags().StringVar(&units, "units", "si", "units shown: si or us")
	return cmd
}

// soilText is the table of a profile and what each horizon's values came from.
func soilText(title string, restrictive float64, materials []soil.Material, u unit.System) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\nrestrictive layer at %s\n\n", title, u.Format(restrictive, "m"))
	length := func(m float64) string { x, _ := u.Value(m, "m"); return fmt.Sprintf("%.2f", x) }
	_, lengthUnit := u.Value(0, "m")
	rate := func(ms float64) string { x, _ := u.Value(ms*86400, "m/d"); return fmt.Sprintf("%.3g", x) }
	_, rateUnit := u.Value(0, "m/d")
	share := func(x float64) string { return fmt.Sprintf("%.3f", x) }

	rows := [][]string{
		{"horizon", "texture", "from", "to", "saturated", "1 m suction", "33 kPa", "1500 kPa", "alpha", "n", "K0", "K", "drains to 1 m", "ECe"},
		{"", "", lengthUnit, lengthUnit, "m3/m3", "m3/m3", "m3/m3", "m3/m3", "1/m", "", rateUnit, rateUnit, "m3/m3", "dS/m"},
	}
	for _, m := range materials {
		c := m.Curve
		rows = append(rows, []string{m.Name, m.Texture, length(m.Top), length(m.Bottom),
			share(c.ThetaS), share(m.FieldCapacity), share(m.Theta33), share(m.WiltingPoint),
			fmt.Sprintf("%.3g", c.Alpha), share(c.N), rate(c.KMatrix), rate(c.Ksat()),
			share(c.ThetaS - m.FieldCapacity), fmt.Sprintf("%.1f", m.SalinityEC)})
	}
	writeTable(&b, rows, 2)
	fmt.Fprintln(&b, "K: saturated, with structure. K0: without it, where the unsaturated conductivity starts (Schaap et al. 2001).")
	fmt.Fprintln(&b)
	for _, m := range materials {
		thermal := m.Thermal
		fmt.Fprintf(&b, "%s: heat %.2f W/m/K at 1 m suction, %.2f frozen; %.2f MJ/m3/K (Johansen 1975, de Vries 1963)\n", m.Name,
			thermal.Conductivity(m.FieldCapacity, 0), thermal.Conductivity(0.05, m.FieldCapacity-0.05), thermal.HeatCapacity(m.FieldCapacity, 0)/1e6)
		for _, n := range m.Notes {
			fmt.Fprintf(&b, "  %s\n", n)
		}
	}
	return b.Bytes()
}
