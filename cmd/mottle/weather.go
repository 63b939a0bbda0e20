package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"mottle/weather"
)

func newWeather() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "weather",
		Short: "Invent weather records",
		Args:  cobra.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newInvent())
	return cmd
}

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
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			switch {
			case years < 1 || years > 1000:
				return badInput(fmt.Errorf("--years: found %d; allowed 1 to 1000", years))
			case start < 1 || start > 9000:
				return badInput(fmt.Errorf("--start: found %d; allowed a year from 1 to 9000", start))
			case !(wetter > 0.1 && wetter < 5):
				return badInput(fmt.Errorf("--wetter: found %g; allowed 0.1 to 5", wetter))
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
