package main

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"mottle/sim"
	"mottle/sim/unit"
	"mottle/weather"
)

// newHelp shows the help of a command or a topic; a word that is neither is a
// fault.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:     "help [command or topic]",
		Short:   "Show the help of a command, or a topic",
		Long:    "Help shows what a command does, with examples, or explains a topic.",
		Example: "  mottle help compare\n  mottle help weather invent\n  mottle help measures",
		RunE: func(cmd *cobra.Command, args []string) error {
			about := cmd.Root()
			for _, word := range args {
				next := named(about, word)
				if next == nil {
					return badInput(unknownCommand(about, word))
				}
				about = next
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}

// named finds a command below another, nil when there is none.
func named(parent *cobra.Command, word string) *cobra.Command {
	for _, c := range parent.Commands() {
		if c.Name() == word {
			return c
		}
	}
	return nil
}

// newMeasures is the topic that lists what compare reports.
func newMeasures() *cobra.Command {
	return &cobra.Command{Use: "measures", Short: "The measures: name, unit and meaning", Args: noArgs, Long: measuresText()}
}

// newWeatherFiles is the topic that lists the layouts of weather files.
func newWeatherFiles() *cobra.Command {
	return &cobra.Command{Use: "weather-files", Short: "The layouts of weather files that are read", Args: noArgs,
		Long: "Weather files are told apart by content, plain or packed with gzip, whatever their name:\n\n  " +
			strings.Join(weather.Layouts(), "\n  ") + "\n\n" + plainLayoutText}
}

// plainLayoutText describes our own layout.
const plainLayoutText = `Our own plain CSV, for records that come in none of these: comment lines
"# key: value" (station, name, latitude, longitude, elevation_m, read_hour,
temperature_day, invented, origin), then a header and one row a day in order:

  date,tmin_C,tmax_C,precip_mm                    needed, blank where missing
  solar_MJ_m2,vapour_kPa,wind_m_s,snow_depth_m    where known
  hourly_precip_mm                                24 values parted by blanks
  marks                                           what was filled or mended

  # latitude: 43.1
  # read_hour: 7
  date,tmin_C,tmax_C,precip_mm
  1991-04-01,-2.2,8.9,0
  1991-04-02,1.1,12.8,14.2`

// measuresText is the table of measures with how to read it.
func measuresText() string {
	var b bytes.Buffer
	b.WriteString(`Each measure is one figure of a calendar year; compare shows its mean over years,
of dates the median. Names are those of yearly.csv and of the JSON, where a range
is that of the difference and, of dates, that of the date with tile.

`)
	rows := [][]string{{"name", "unit", "us", "meaning"}}
	for _, m := range sim.Measures() {
		_, us := unit.US.Value(0, m.Unit)
		meaning := m.Label
		if m.ByMedian {
			meaning += fmt.Sprintf("; or %q, %q", m.Low, m.High)
		}
		rows = append(rows, []string{m.Name, m.Unit, us, meaning})
	}
	writeTable(&b, rows, len(rows[0]))
	return b.String()
}
