package main

import (
	"fmt"
	"text/tabwriter"

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
		Args: func(cmd *cobra.Command, args []string) error {
			return badInput(cobra.MaximumNArgs(1)(cmd, args))
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			u, err := system(units)
			if err != nil {
				return err
			}
			name := ""
			if len(args) > 0 {
				name = args[0]
			}
			f, _, _, err := readField(name)
			if err != nil {
				return err
			}
			materials, err := soil.DeriveProfile(f.Horizons)
			if err != nil {
				return badInput(err)
			}
			return writeSoil(cmd, f.Name, f.Restrictive, f.Invented, materials, u)
		},
	}
	cmd.Flags().StringVar(&units, "units", "si", "units shown: si or us")
	return cmd
}

func writeSoil(cmd *cobra.Command, name string, restrictive float64, invented bool, materials []soil.Material, u unit.System) error {
	w := cmd.OutOrStdout()
	mark := ""
	if invented {
		mark = " - INVENTED"
	}
	fmt.Fprintf(w, "%s%s\nrestrictive layer at %s\n\n", name, mark, u.Format(restrictive, "m"))
	length := func(m float64) string { x, _ := u.Value(m, "m"); return fmt.Sprintf("%.2f", x) }
	_, lengthUnit := u.Value(0, "m")
	rate := func(ms float64) string { x, _ := u.Value(ms*86400, "m/d"); return fmt.Sprintf("%.3g", x) }
	_, rateUnit := u.Value(0, "m/d")

	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(t, "horizon\tfrom\tto\ttexture\tsaturated\t1 m suction\t33 kPa\t1500 kPa\talpha\tn\tmatrix K\tK\tdrains to 1 m\tECe\t\n")
	fmt.Fprintf(t, "\t%s\t%s\t\tm3/m3\tm3/m3\tm3/m3\tm3/m3\t1/m\t\t%s\t%s\tm3/m3\tdS/m\t\n", lengthUnit, lengthUnit, rateUnit, rateUnit)
	for _, m := range materials {
		c := m.Curve
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%.3f\t%.3f\t%.3f\t%.3f\t%.3g\t%.3f\t%s\t%s\t%.3f\t%.1f\t\n",
			m.Name, length(m.Top), length(m.Bottom), m.Texture, c.ThetaS, m.FieldCapacity, m.Theta33, m.WiltingPoint,
			c.Alpha, c.N, rate(c.KMatrix), rate(c.Ksat()), c.ThetaS-m.FieldCapacity, m.SalinityEC)
	}
	t.Flush()
	fmt.Fprintln(w)
	for _, m := range materials {
		thermal := m.Thermal
		fmt.Fprintf(w, "%s: heat %.2f W/m/K at 1 m suction, %.2f frozen; %.2f MJ/m3/K (Johansen 1975, de Vries 1963)\n", m.Name,
			thermal.Conductivity(m.FieldCapacity, 0), thermal.Conductivity(0.05, m.FieldCapacity-0.05), thermal.HeatCapacity(m.FieldCapacity, 0)/1e6)
		for _, n := range m.Notes {
			fmt.Fprintf(w, "  %s\n", n)
		}
	}
	return nil
}
