package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"mottle/sim/unit"
	"mottle/weather"
)

// weatherFlags are the options of the look at records.
type weatherFlags struct {
	Format, Units      string
	Out                string
	Station, FileUnits string
	Fill, Write        string
}

func newWeather() *cobra.Command {
	var o weatherFlags
	cmd := &cobra.Command{
		Use:   "weather [file...]",
		Short: "Look over weather records, fill them from a neighbour, change or invent them",
		Long: `Weather shows what a careful person checks of a record first: where and when it
was observed, how complete it is, its extremes, the precipitation of its years and
their trend, the freezing index of its winters, its longest gaps, what reading it
counted, values and units that are probably wrong, and how far it allows to
compute evapotranspiration. Nothing is changed; what looks wrong may be right.
Several files get a section each, and the first is set against the others.

--fill takes the days that are missing from a neighbouring station, precipitation
by the ratio of the totals of a calendar month (normal ratio, Paulhus & Kohler
1952), temperature by the mean difference, and says how well that does on days
that both know. --write writes the record, filled or not, in our plain CSV, with
the extremes on their own days. The layouts are listed by: mottle help weather-files`,
		Example: `  mottle weather station.csv
  mottle weather station.csv.gz neighbour.csv.gz --units us --out figures/
  mottle weather station.csv --fill neighbour.csv --write filled.csv
  mottle weather change station.csv --temp "+2 C" --precip +10% > warmer.csv
  mottle weather invent > weather.csv`,
		Args: func(cmd *cobra.Command, args []string) error { return recordNames(cmd, args) },
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			return runWeather(cmd, args, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Format, "format", "text", "what is printed: text or json")
	f.StringVar(&o.Units, "units", "si", "units shown: si or us")
	f.StringVar(&o.Out, "out", "", "`folder` for the figure of each record, SVG and PNG")
	f.StringVar(&o.Fill, "fill", "", "weather `file` of a neighbour, to fill gaps from")
	f.StringVar(&o.Write, "write", "", "`file` for the record in our plain CSV")
	pickFlags(cmd, &o.Station, &o.FileUnits)
	cmd.AddCommand(newInvent(), newChange())
	return cmd
}

// pickFlags are the options that settle what a file leaves open.
func pickFlags(cmd *cobra.Command, station, weatherUnits *string) {
	cmd.Flags().StringVar(station, "station", "", "`id` or name of the station, where the file holds several")
	cmd.Flags().StringVar(weatherUnits, "weather-units", "", "units of a file that does not state them: metric or standard")
}

// pick reads them.
func pick(station, weatherUnits string) (weather.Pick, error) {
	units, err := weather.ParseUnits(weatherUnits)
	if err != nil {
		return weather.Pick{}, badInput(fmt.Errorf("--weather-units: %w", err))
	}
	return weather.Pick{Station: station, Units: units}, nil
}

// recordNames checks the words after the command. A word that is no file may be a
// command misspelt.
func recordNames(cmd *cobra.Command, args []string) error {
	for _, name := range args {
		if name == "" {
			return badInput(fmt.Errorf("%s: found an empty name; allowed weather files", cmd.Name()))
		}
	}
	if len(args) == 1 {
		var commands []string
		for _, c := range cmd.Commands() {
			commands = append(commands, c.Name())
		}
		if _, err := os.Stat(args[0]); err != nil && unit.Nearest(args[0], commands) != "" {
			return badInput(unknownCommand(cmd, args[0]))
		}
	}
	return nil
}

// record is a file with what is found in it.
type record struct {
	name   string
	series *weather.Series
	source source
	found  *weather.Inspection
}

// readRecord reads a file and looks it over.
func readRecord(name string, p weather.Pick) (record, error) {
	s, report, from, err := readWeather(name, p)
	if err != nil {
		return record{}, err
	}
	return record{name, s, from, weather.Inspect(s, report)}, nil
}

// runWeather reads flags and files, reports every fault of any of them, and shows
// and writes what was asked for.
func runWeather(cmd *cobra.Command, names []string, o weatherFlags) error {
	var faults []error
	note := func(err error) {
		if err != nil {
			faults = append(faults, err)
		}
	}
	note(filled(cmd, "out", "fill", "write", "station"))
	units, err := system(o.Units)
	note(err)
	note(format(o.Format))
	p, err := pick(o.Station, o.FileUnits)
	note(err)
	for flag, given := range map[string]string{"--fill": o.Fill, "--write": o.Write} {
		if given != "" && len(names) > 1 {
			note(badInput(fmt.Errorf("%s: found %d weather files; allowed one", flag, len(names))))
		}
	}
	note(ownInput(o.Write, append([]string{o.Fill}, names...)...))
	var records []record
	for _, name := range names {
		r, err := readRecord(name, p)
		note(err)
		records = append(records, r)
	}
	var neighbour record
	if o.Fill != "" {
		neighbour.series, _, neighbour.source, err = readWeather(o.Fill, p)
		note(err)
	}
	if err := errors.Join(faults...); err != nil {
		return err
	}
	v := newWeatherView(records, units)
	result := byCivilDay(records[0].series)
	if o.Fill != "" {
		full, notes, skill, err := result.FillFrom(byCivilDay(neighbour.series))
		if err != nil {
			return badInput(fmt.Errorf("%s and %s: %w", names[0], o.Fill, err))
		}
		v.Fill = newFillView(result, full, notes, skill, neighbour.source, units)
		result = full
	}
	if o.Write != "" {
		if err := writeWhole(o.Write, result.WritePlain); err != nil {
			return err
		}
	}
	if o.Out != "" {
		if err := writeRecordFigures(o.Out, records, units); err != nil {
			return err
		}
	}
	if o.Format == "json" {
		return v.writeJSON(cmd.OutOrStdout())
	}
	return v.writeText(cmd.OutOrStdout())
}
