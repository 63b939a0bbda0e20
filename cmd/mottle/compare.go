package main

import (
	"github.com/spf13/cobra"

	"mottle/plots"
	"mottle/sim/compare"
	"mottle/sim/unit"
)

// compareFlags are the command's options; run.json holds those that change what
// is computed.
type compareFlags struct {
	recordFlags
	Out      string `json:"-"`
	Units    string `json:"units"`
	Format   string `json:"-"`
	From     string `json:"from"`
	To       string `json:"to"`
	Depth    string `json:"depth"`
	Spacing  string `json:"spacing"`
	FillGaps bool   `json:"fill_gaps"`
	Central  bool   `json:"central"`
}

func newCompare() *cobra.Command {
	var o compareFlags
	cmd := &cobra.Command{
		Use:   "compare [field.yaml]",
		Short: "Run a field as it lies and with tile, and show what differs",
		Long: `Compare runs the same field, weather and first day twice, as it lies and with
tile, and prints each measure for both, the difference and its 90 % interval over
years. What nobody measured is tried over its range, with a few extra runs, and
the answer's range over it is printed beneath. Without a field file the invented
demo is run; without --weather its invented weather.

--out writes yearly.csv, daily.csv, run.json and the figures into a folder. The
measures are listed by: mottle help measures`,
		Example: `  mottle compare
  mottle compare --spacing "60 ft" --units us
  mottle compare field.yaml --weather station.csv.gz --from 1990 --out result/
  mottle compare field.yaml --weather station.csv --format json > result.json`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return runCompare(cmd, fileName(args), o) },
	}
	o.pairFlags(cmd)
	f := cmd.Flags()
	f.BoolVar(&o.Central, "central", false, "the central run alone, without the ranges over what nobody measured")
	return cmd
}

// pairFlags are the options of every command that runs the pair.
func (o *compareFlags) pairFlags(cmd *cobra.Command) {
	f := cmd.Flags()
	o.recordFlags.add(cmd)
	f.StringVar(&o.Out, "out", "", "`folder` for yearly.csv, daily.csv, run.json and figures")
	f.StringVar(&o.Units, "units", "si", "units shown: si or us")
	f.StringVar(&o.Format, "format", "text", "what is printed: text or json")
	f.StringVar(&o.From, "from", "", "first `year` or date of the record to run")
	f.StringVar(&o.To, "to", "", "last `year` or date")
	f.StringVar(&o.Depth, "depth", "", "tile `depth` in place of the field file's, \"3.5 ft\"")
	f.StringVar(&o.Spacing, "spacing", "", "tile `spacing` in place of the field file's, \"50 ft\" or none")
	f.BoolVar(&o.FillGaps, "fill-gaps", false, "fill long gaps of the weather too, from the nearest year")
}

func runCompare(cmd *cobra.Command, name string, o compareFlags) error {
	in, err := readInput(cmd, name, o)
	if err != nil {
		return err
	}
	tell, wipe := progress()
	before := cpuSeconds()
	result, err := compare.Run(cmd.Context(), in.field, in.series, compare.Options{Ranges: !o.Central, Progress: tell})
	wipe()
	if err != nil {
		return err
	}
	view := newView(result, in.units, in.fieldSource, in.weatherSources, cpuSeconds()-before)
	if o.Out != "" {
		figures, err := plots.Compare(result, in.units == unit.US)
		if err != nil {
			return err
		}
		if err := writeFolder(o.Out, result, view, manifest(view, o, in.fieldText), figures); err != nil {
			return err
		}
	}
	if o.Format == "json" {
		return view.writeJSON(cmd.OutOrStdout())
	}
	return view.writeText(cmd.OutOrStdout())
}
