package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"mottle/sim/proof"
)

// proofView is the result of the checks for programs.
type proofView struct {
	Checks []proofRow `json:"checks"`
	Passed int        `json:"passed"`
	Failed int        `json:"failed"`
}

type proofRow struct {
	proof.Check
	Passed bool `json:"pass"`
}

func newProof() *cobra.Command {
	var only, as, field, cold, stations string
	cmd := &cobra.Command{
		Use:   "proof",
		Short: "Check every piece of physics against published values",
		Long: `Proof runs the code that a comparison runs against embedded reference values and
prints, for each, what was expected, from which source, what came out and how far
apart the two may lie. Rows marked common practice are rules of thumb: they say
inside or outside, and never fail. Exit status 1 if a check fails.

With --field the records of measured drain flow and water table in a folder are
simulated instead, uncalibrated, and scored (temperature from the weather folder
beside it, or --stations); with --cold the measured soil temperatures.`,
		Example: `  mottle proof
  mottle proof --only drain
  mottle proof --format json > proof.json
  mottle proof --field ../shared/field --stations ../shared/weather
  mottle proof --cold ../shared/weather/uscrn`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if field != "" || cold != "" {
				return evidence(cmd, field, stations, cold)
			}
			groups, err := chosenGroups(only)
			if err := errors.Join(err, format(as)); err != nil {
				return err
			}
			var v proofView
			for _, g := range groups {
				checks, err := g.Run(cmd.Context())
				if err != nil {
					return fmt.Errorf("%s: %w", g.Process, err)
				}
				for _, c := range checks {
					v.Checks = append(v.Checks, proofRow{c, c.Pass()})
					if c.Failed() {
						v.Failed++
					} else if !c.Report {
						v.Passed++
					}
				}
			}
			if as == "json" {
				e := json.NewEncoder(cmd.OutOrStdout())
				e.SetIndent("", " ")
				err = e.Encode(v)
			} else {
				err = v.writeText(cmd.OutOrStdout())
			}
			if err != nil {
				return err
			}
			if v.Failed > 0 {
				return fmt.Errorf("%d of %d checks failed", v.Failed, v.Failed+v.Passed)
			}
			return nil
		},
	}
	f := cmd.Flags()
	f.StringVar(&only, "only", "", "these `processes` alone, parted by commas: "+strings.Join(processNames(), ", "))
	f.StringVar(&field, "field", "", "`folder` of measured drain flow and water tables to score against")
	f.StringVar(&stations, "stations", "", "`folder` of station weather for --field (default: weather beside that folder)")
	f.StringVar(&cold, "cold", "", "`folder` of station soil temperatures to score against")
	f.StringVar(&as, "format", "text", "what is printed: text or json")
	return cmd
}

// evidence scores measured records instead of running the checks.
func evidence(cmd *cobra.Command, field, stations, cold string) error {
	if field != "" {
		if stations == "" {
			stations = filepath.Join(filepath.Dir(filepath.Clean(field)), "weather")
		}
		if err := folders(field, stations); err != nil {
			return err
		}
		r, err := proof.Field(cmd.Context(), os.DirFS(field), os.DirFS(stations))
		if err != nil {
			return err
		}
		if err := r.Write(cmd.OutOrStdout()); err != nil {
			return err
		}
	}
	if cold != "" {
		if err := folders(cold); err != nil {
			return err
		}
		r, err := proof.Cold(cmd.Context(), os.DirFS(cold))
		if err != nil {
			return err
		}
		return r.Write(cmd.OutOrStdout())
	}
	return nil
}

// folders checks that each is one.
func folders(names ...string) error {
	var faults []error
	for _, n := range names {
		if info, err := os.Stat(n); err != nil {
			faults = append(faults, ofFile(err))
		} else if !info.IsDir() {
			faults = append(faults, fmt.Errorf("%s: found a file; allowed a folder", n))
		}
	}
	return badInput(errors.Join(faults...))
}

func processNames() []string {
	var names []string
	for _, g := range proof.Groups() {
		names = append(names, g.Process)
	}
	return names
}

// chosenGroups finds the processes of a list parted by commas; none means all.
func chosenGroups(only string) ([]proof.Group, error) {
	if only == "" {
		return proof.Groups(), nil
	}
	var chosen []proof.Group
	var faults []error
	for _, name := range strings.Split(only, ",") {
		name = strings.TrimSpace(name)
		found := false
		for _, g := range proof.Groups() {
			if g.Process == name {
				chosen, found = append(chosen, g), true
			}
		}
		if !found {
			faults = append(faults, fmt.Errorf("--only: found %q; allowed %s", name, strings.Join(processNames(), ", ")))
		}
	}
	return chosen, badInput(errors.Join(faults...))
}

// writeText prints a table for each process.
func (v *proofView) writeText(w io.Writer) error {
	var b bytes.Buffer
	var rows [][]string
	var sources []string // behind the table, as long as they are
	flush := func() {
		var t bytes.Buffer
		writeTable(&t, rows, 2)
		for i, line := range strings.Split(strings.TrimSuffix(t.String(), "\n"), "\n") {
			if i < len(sources) {
				b.WriteString(line + "  " + sources[i] + "\n")
			}
		}
		rows, sources = nil, nil
	}
	process := ""
	for _, c := range v.Checks {
		if c.Process != process {
			flush()
			process = c.Process
			fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(process))
			rows = append(rows, []string{"", "what", "expected", "got", "within", "unit"})
			sources = append(sources, "status, source")
		}
		mark, expected, tolerance := "ok", fmt.Sprintf("%.6g", c.Expected), fmt.Sprintf("%.2g", c.Tolerance)
		switch {
		case c.Report:
			mark, expected, tolerance = "inside", fmt.Sprintf("%.4g to %.4g", c.Low, c.High), "-"
			if !c.Pass() {
				mark = "OUTSIDE"
			}
		case c.Failed():
			mark = "FAILED"
		}
		source := string(c.Status) + ", " + c.Source
		if c.Note != "" {
			source += " - " + c.Note
		}
		unit := c.Unit
		if unit == "" {
			unit = "-" // so that the table keeps its width
		}
		rows = append(rows, []string{mark, c.What, expected, fmt.Sprintf("%.6g", c.Got), tolerance, unit})
		sources = append(sources, source)
	}
	flush()
	fmt.Fprintf(&b, "\n%d checks passed, %d failed; rows marked inside and OUTSIDE are reports, not checks\n", v.Passed, v.Failed)
	_, err := w.Write(b.Bytes())
	return err
}
