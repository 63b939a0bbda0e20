package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mottle/soil"
)

// soilFlags are the command's options.
type soilFlags struct {
	MapUnit, Component string
	Relation           string
	Units, Format, Out string
}

func newSoil() *cobra.Command {
	var o soilFlags
	cmd := &cobra.Command{
		Use:   "soil [field.yaml | survey.csv]",
		Short: "Show what was derived for each horizon, from what, by which relation",
		Long: `Soil completes the horizons of a field file, or of a US soil survey's table of
horizons (CSV with the database's own column names), and prints what the simulation
will use: water contents, van Genuchten curve, conductivity, drainable pore space,
heat properties, each with the published relation it came from, and how far two
relations lie apart. Without a file it shows the invented demo's soil.

Of a survey's table the first map unit is taken and of that the component with the
largest share, unless --mapunit and --component choose. --out writes soil.csv,
soil.json and figures of the profile, retention, conductivity and drainable water.`,
		Example: `  mottle soil
  mottle soil field.yaml --units us
  mottle soil field.yaml --relation cosby --out result/
  mottle soil survey.csv --mapunit 123456 --component 234567 --format csv > soil.csv`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return runSoil(cmd, fileName(args), o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.MapUnit, "mapunit", "", "map `unit` of a survey's table, by mukey or muname")
	f.StringVar(&o.Component, "component", "", "`component` of the map unit, by cokey or compname")
	f.StringVar(&o.Relation, "relation", "", "`relation` from texture to water: saxton-rawls or cosby; the file's own without it")
	f.StringVar(&o.Units, "units", "si", "units shown: si or us")
	f.StringVar(&o.Format, "format", "text", "what is printed: text, json or csv")
	f.StringVar(&o.Out, "out", "", "`folder` for soil.csv, soil.json and figures")
	return cmd
}

func runSoil(cmd *cobra.Command, name string, o soilFlags) error {
	u, errUnits := system(o.Units)
	var errFormat error
	if o.Format != "text" && o.Format != "json" && o.Format != "csv" {
		errFormat = badInput(fmt.Errorf("--format: found %q; allowed text, json or csv", o.Format))
	}
	ground, errGround := readGround(name, o)
	if errGround == nil && o.Relation != "" {
		r, err := soil.ParseRelation(o.Relation)
		if err != nil {
			errGround = badInput(fmt.Errorf("--relation: %w", err))
		}
		ground.relate(r)
	}
	if err := errors.Join(errUnits, errFormat, filled(cmd, "mapunit", "component", "relation", "out"), errGround); err != nil {
		return err
	}
	view, err := newSoilView(ground, u)
	if err != nil {
		return badInput(err)
	}
	if o.Out != "" {
		if err := view.writeFolder(o.Out); err != nil {
			return err
		}
	}
	w := cmd.OutOrStdout()
	switch o.Format {
	case "json":
		return view.writeJSON(w)
	case "csv":
		return view.writeCSV(w)
	}
	_, err = w.Write(view.text())
	return err
}
