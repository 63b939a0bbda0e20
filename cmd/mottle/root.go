package main

import (
	"runtime/debug"

	"github.com/spf13/cobra"
)

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "mottle",
		Short: "What drain tile changes on this field, under this weather",
		Long: `Mottle runs a field day by day through decades of recorded weather, as it lies
and with drain tile, and shows what differs: days saturated, drain flow, runoff,
peak flow, salt, frost. Without a file it runs an invented demo.

It is a calculation, not a design, a permit or a survey. Before any work: wetland
determination, drainage law and outlet rights, utilities located, trench safety,
and a licensed engineer where outlets or pumps are concerned.`,
		Example: `  mottle compare
  mottle compare field.yaml --weather station.csv --out result/
  mottle soil field.yaml
  mottle weather invent --years 40 > weather.csv`,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          noArgs,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(flagFault)
	root.SetHelpCommand(newHelp())
	root.AddCommand(newCompare(), newWorth(), newBasin(), newBasinFiles(), newSoil(), newWeather(), newMeasures(), newWeatherFiles(), newProof(), newColumn(), newInit(), newCheck(), newSchema())
	return root
}

// version is the module's version, or the commit that it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return s.Value
		}
	}
	return "development"
}
