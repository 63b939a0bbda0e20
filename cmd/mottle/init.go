package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"mottle/sim/site"
	"mottle/soil"
)

func newInit() *cobra.Command {
	var out, survey string
	var pick soil.SurveyPick
	var replace bool
	a := &interview{typed: map[string]*string{}}
	cmd := &cobra.Command{
		Use:   "init",
		Short: "Write a commented field file from a few questions, or from flags",
		Long: `Init writes a field file. In a terminal it asks a few questions; a question whose
flag is given is not asked, an empty answer takes the default that is said, and an
answer that the field file could not hold is asked again. Without a terminal the
flags alone are taken. Lengths and rates are typed with their units, "3.5 ft".

The file holds every key with its meaning. What was not answered stands there as a
comment and is assumed, so that compare says so and runs it over its range.`,
		Example: `  mottle init
  mottle init --out north.yaml --latitude "46.5 deg" --texture "silty clay loam"
  mottle init --soil survey.csv --depth "3.5 ft" --spacing "50 ft"
  mottle init --sand "18 %" --clay "32 %" --depth "3.5 ft" --spacing "60 ft" --replace`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			names := []string{"out", "soil", "mapunit", "component"}
			for _, q := range questions {
				names = append(names, q.flag)
			}
			if err := errors.Join(filled(cmd, names...), vacant(out, replace)); err != nil {
				return badInput(err)
			}
			if err := a.readSoil(survey, pick); err != nil {
				return err
			}
			in, _ := cmd.InOrStdin().(*os.File)
			terminal := in != nil && term.IsTerminal(int(in.Fd()))
			draft, err := a.answers(cmd.InOrStdin(), cmd.ErrOrStderr(), terminal)
			if err != nil {
				return err
			}
			return create(cmd.OutOrStdout(), draft, out, replace)
		},
	}
	f := cmd.Flags()
	f.StringVar(&out, "out", "field.yaml", "`file` to write")
	f.StringVar(&survey, "soil", "", "soil-survey table of horizons, a CSV `file`, in place of a texture")
	f.StringVar(&pick.MapUnit, "mapunit", "", "map `unit` of the survey's table, by mukey or muname")
	f.StringVar(&pick.Component, "component", "", "`component` of the map unit, by cokey or compname")
	f.BoolVar(&replace, "replace", false, "write over a file that is there already")
	for _, q := range questions {
		a.typed[q.flag] = f.String(q.flag, "", q.usage())
	}
	return cmd
}

// readSoil reads the survey's table, where one is named.
func (a *interview) readSoil(name string, pick soil.SurveyPick) error {
	if name == "" {
		if pick != (soil.SurveyPick{}) {
			return badInput(errors.New("--mapunit, --component: found without --soil; give the survey's table too"))
		}
		return nil
	}
	file, err := os.Open(name)
	if err != nil {
		return badInput(ofFile(err))
	}
	defer file.Close()
	a.survey, err = soil.ReadSurvey(name, file, pick)
	return badInput(err)
}

// vacant says whether a file may be written under a name.
func vacant(name string, replace bool) error {
	if _, err := os.Lstat(name); err != nil || replace {
		return nil // what else may be wrong is told when it is written
	}
	return badInput(fmt.Errorf("%s: there is such a file already; --replace writes over it, --out names another", name))
}

// create writes the file whole or not at all and says how to go on.
func create(stdout io.Writer, draft site.Draft, name string, replace bool) error {
	var text bytes.Buffer
	if err := draft.Write(&text); err != nil {
		return badInput(err)
	}
	write := func(w io.Writer) error { _, err := w.Write(text.Bytes()); return err }
	if replace {
		if err := writeWhole(name, write); err != nil {
			return err
		}
	} else {
		// Exclusive, should the file have come to be while the questions were asked.
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return ofFile(err)
		}
		if err := errors.Join(write(file), file.Close()); err != nil {
			os.Remove(name)
			return ofFile(err)
		}
	}
	f, err := site.ReadField(name, &text)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "wrote %s\n", name)
	for note := range strings.Lines(draft.SoilNote) {
		fmt.Fprintf(&b, "soil: %s\n", strings.TrimSpace(note))
	}
	fmt.Fprintf(&b, "what was not answered stands there as a comment (%s)\n", count(len(f.Assumed), "assumption"))
	fmt.Fprintf(&b, "\nnext:  mottle check %s\n       mottle compare %s --weather station.csv\n", name, name)
	fmt.Fprintf(&b, "       mottle schema > %s   (for hints in an editor)\n", schemaFile)
	_, err = stdout.Write(b.Bytes())
	return err
}

// schemaFile is what the written file calls the schema beside it.
const schemaFile = "mottle.schema.json"
