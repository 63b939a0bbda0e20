package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mottle/weather"
)

func newInvent() *cobra.Command {
	var start, years int
	var seed uint64
	var wetter float64
	cmd := &cobra.Command{
		Use:   "invent",
		Short: "Invent a daily record from the demo's climate",
		Long: `Invent writes a made-up daily record in our plain CSV, by the generator of
Richardson (1981, Water Resour. Res. 17:182) with invented parameters of a
cold-winter continental climate. The same seed gives the same record. It is
weather of no place: for trying things out, not for deciding them.`,
		Example: "  mottle weather invent > weather.csv\n  mottle weather invent --years 100 --seed 7 --wetter 1.3 > wet.csv",
		Args:    noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			var faults []error
			if years < 1 || years > 1000 {
				faults = append(faults, fmt.Errorf("--years: found %d; allowed 1 to 1000", years))
			}
			if start < 1700 || start+years > 2201 {
				faults = append(faults, fmt.Errorf("--start: found %d; allowed a year from 1700, the record ending by 2200", start))
			}
			if !(wetter > 0.1 && wetter < 5) {
				faults = append(faults, fmt.Errorf("--wetter: found %g; allowed more than 0.1 and less than 5", wetter))
			}
			if len(faults) > 0 {
				return badInput(errors.Join(faults...))
			}
			s := weather.Invent(weather.DemoClimate().Wetter(wetter), weather.NewDate(start, 1, 1), years, seed)
			return s.WritePlain(cmd.OutOrStdout())
		},
	}
	f := cmd.Flags()
	f.IntVar(&years, "years", demoYears, "length of the record")
	f.IntVar(&start, "start", demoStart, "first year")
	f.Uint64Var(&seed, "seed", demoSeed, "seed of the generator")
	f.Float64Var(&wetter, "wetter", demoWetter, "factor on the rain of every wet day")
	return cmd
}
