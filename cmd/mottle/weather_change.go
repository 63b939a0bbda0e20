package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"mottle/weather"
)

func newChange() *cobra.Command {
	var temp, precip, write, station, weatherUnits string
	cmd := &cobra.Command{
		Use:   "change file",
		Short: "Lay a change of climate on a record",
		Long: `Change writes the record in our plain CSV with every temperature raised or lowered
and every amount of precipitation multiplied, the same on all days (delta change).
Relative humidity is kept: vapour pressure follows the temperature. Radiation, wind
and the order of wet and dry days stay; snow depth is left out. The head of the
file says what was changed.

It is one simple picture of another climate: storms, spells and seasons do not
change by it.`,
		Example: `  mottle weather change station.csv --temp "+2 C" --precip +10% > warmer.csv
  mottle weather change station.csv --temp "+3.6 F" --write warmer.csv
  mottle weather change station.csv --precip 0.9 > drier.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 || args[0] == "" {
				return badInput(fmt.Errorf("change: found %d names; allowed one weather file", len(args)))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			warmer, errTemp := readWarming(temp)
			factor, errPrecip := readFactor(precip)
			p, errPick := pick(station, weatherUnits)
			s, _, _, errRead := readWeather(args[0], p)
			if err := errors.Join(filled(cmd, "temp", "precip", "write", "station"), errTemp, errPrecip, errPick, ownInput(write, args[0]), errRead); err != nil {
				return badInput(err)
			}
			changed, err := byCivilDay(s).Change(weather.Delta{Temperature: warmer, PrecipFactor: factor})
			if err != nil {
				return badInput(fmt.Errorf("%s: %w", args[0], err))
			}
			if write != "" {
				return writeWhole(write, changed.WritePlain)
			}
			return changed.WritePlain(cmd.OutOrStdout())
		},
	}
	f := cmd.Flags()
	f.StringVar(&temp, "temp", "", "`change` of temperature, \"+2 C\" or \"+3.6 F\"")
	f.StringVar(&precip, "precip", "", "`change` of precipitation, +10% or a factor, 1.1")
	f.StringVar(&write, "write", "", "`file` in place of standard output")
	pickFlags(cmd, &station, &weatherUnits)
	return cmd
}

// readWarming reads a difference of temperature in C, or in F where it says so.
func readWarming(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	number, scale := strings.TrimSpace(text), 1.0
	if rest, ok := strings.CutSuffix(number, "F"); ok {
		number, scale = rest, 1.8
	} else {
		number = strings.TrimSuffix(number, "C")
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil {
		return 0, badInput(fmt.Errorf("--temp: found %q; allowed a difference in C or F, such as \"+2 C\" or \"+3.6 F\"", text))
	}
	return v / scale, nil
}

// readFactor reads a change in percent or a factor. A bare number with a sign may
// be either and is refused.
func readFactor(text string) (float64, error) {
	if text == "" {
		return 1, nil
	}
	number := strings.TrimSpace(text)
	percent, isPercent := strings.CutSuffix(number, "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(percent), 64)
	switch {
	case err != nil, !isPercent && strings.ContainsAny(number[:1], "+-"):
		return 0, badInput(fmt.Errorf("--precip: found %q; allowed a change in percent, such as +10%%, or a factor, such as 1.1", text))
	case isPercent:
		return 1 + v/100, nil
	}
	return v, nil
}
