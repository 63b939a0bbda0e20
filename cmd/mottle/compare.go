package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"mottle/plots"
	"mottle/sim/compare"
	"mottle/sim/unit"
)

// compareFlags are the command's options.
type compareFlags struct {
	Weather  string `json:"weather"`
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

--out writes yearly.csv, daily.csv, run.json and the figures into a folder.`,
		Example: `  mottle compare
  mottle compare --spacing "60 ft" --units us
  mottle compare field.yaml --weather station.csv.gz --from 1990 --out result/
  mottle compare field.yaml --weather station.csv --format json > result.json`,
		Args: func(cmd *cobra.Command, args []string) error {
			return badInput(cobra.MaximumNArgs(1)(cmd, args))
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			name := ""
			if len(args) > 0 {
				name = args[0]
			}
			return runCompare(cmd, name, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Weather, "weather", "", "weather `file`: GHCN-Daily station CSV, Daymet pixel CSV or our plain CSV, plain or gzip")
	f.StringVar(&o.Out, "out", "", "`folder` for yearly.csv, daily.csv, run.json and figures")
	f.StringVar(&o.Units, "units", "si", "units shown: si or us")
	f.StringVar(&o.Format, "format", "text", "what is printed: text or json")
	f.StringVar(&o.From, "from", "", "first `year` or date of the record to run")
	f.StringVar(&o.To, "to", "", "last `year` or date")
	f.StringVar(&o.Depth, "depth", "", "tile `depth` in place of the field file's, \"3.5 ft\"")
	f.StringVar(&o.Spacing, "spacing", "", "tile `spacing` in place of the field file's, \"50 ft\" or none")
	f.BoolVar(&o.FillGaps, "fill-gaps", false, "fill long gaps of the weather too, from the nearest year")
	f.BoolVar(&o.Central, "central", false, "the central run alone, without the ranges over what nobody measured")
	return cmd
}

func runCompare(cmd *cobra.Command, name string, o compareFlags) error {
	units, err := system(o.Units)
	if err != nil {
		return err
	}
	if o.Format != "text" && o.Format != "json" {
		return badInput(fmt.Errorf("--format: found %q; allowed text or json", o.Format))
	}
	span, err := period(o.From, o.To)
	if err != nil {
		return err
	}
	field, fieldSource, fieldText, err := readField(name)
	if err != nil {
		return err
	}
	if err := override(&field, o.Depth, o.Spacing); err != nil {
		return err
	}
	if name != "" && o.Weather == "" && !field.Invented {
		return badInput(fmt.Errorf("--weather: missing; a real field needs real weather (for an invented record: mottle weather invent)"))
	}
	series, report, weatherSource, err := readWeather(o.Weather)
	if err != nil {
		return err
	}
	met, complete, err := compare.Meet(field, series, report, span, o.FillGaps)
	if err != nil {
		return badInput(err)
	}
	result, err := compare.Run(cmd.Context(), met, complete, compare.Options{Ranges: !o.Central, Progress: progress()})
	if err != nil {
		return err
	}
	view := newView(result, units, fieldSource, weatherSource)
	if o.Out != "" {
		figures, err := plots.Compare(result, units == unit.US)
		if err != nil {
			return err
		}
		if err := writeFolder(o.Out, result, view, manifest(view, o, fieldText), figures); err != nil {
			return err
		}
	}
	if o.Format == "json" {
		return view.writeJSON(cmd.OutOrStdout())
	}
	return view.writeText(cmd.OutOrStdout())
}

func system(name string) (unit.System, error) {
	switch name {
	case "si":
		return unit.SI, nil
	case "us":
		return unit.US, nil
	}
	return unit.SI, badInput(fmt.Errorf("--units: found %q; allowed si or us", name))
}

// progress tells a terminal how far a long run is, and nobody else.
func progress() func(done, total float64) {
	if !term.IsTerminal(int(os.Stderr.Fd())) {
		return nil
	}
	began, shown := time.Now(), time.Time{}
	return func(done, total float64) {
		now := time.Now()
		if done >= total {
			fmt.Fprint(os.Stderr, "\r\033[K")
			return
		}
		if now.Sub(began) < time.Second || now.Sub(shown) < 200*time.Millisecond {
			return
		}
		shown = now
		left := time.Duration(float64(now.Sub(began)) * (total - done) / done)
		fmt.Fprintf(os.Stderr, "\r\033[K%3.0f %% of %.0f field-years, %s left", 100*done/total, total, left.Round(time.Second))
	}
}
