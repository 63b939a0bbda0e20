package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"mottle/sim/compare"
	"mottle/sim/site"
)

func newCheck() *cobra.Command {
	var o recordFlags
	var form string
	cmd := &cobra.Command{
		Use:   "check field.yaml",
		Short: "Check a field file without running it, and say what is odd",
		Long: `Check reads a field file as compare does and runs nothing. Every error is shown at
once, with its line and the mend. What is allowed but odd is a warning: a drain too
near the restrictive layer, a pipe of a size that is not made, a conductivity far
from that of its texture. With --weather the field is held against the record too:
its place, its length, crops that would not ripen. The list of what would be
assumed ends the report.

Exit status: 0 without an error, warnings or not; 2 with one.`,
		Example: `  mottle check field.yaml
  mottle check field.yaml --weather station.csv
  mottle check field.yaml --format json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badInput(errors.New("check: found no name; give one field file"))
			}
			return oneFile(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := errors.Join(filled(cmd, "weather", "station", "hourly"), format(form)); err != nil {
				return badInput(err)
			}
			report, err := check(args[0], o)
			if err != nil {
				return err
			}
			write := report.writeText
			if form == "json" {
				write = report.writeJSON
			}
			if err := write(cmd.OutOrStdout()); err != nil {
				return err
			}
			if n := len(report.Errors); n > 0 {
				return badInput(fmt.Errorf("%s: %s", args[0], count(n, "error")))
			}
			return nil
		},
	}
	o.add(cmd)
	cmd.Flags().StringVar(&form, "format", "text", "what is printed: text or json")
	return cmd
}

// checkReport is what check found.
type checkReport struct {
	File        string            `json:"file"`
	Errors      []*site.Fault     `json:"errors"`
	Warnings    []*site.Fault     `json:"warnings"`
	NotChecked  []string          `json:"not_checked"`
	Assumptions []site.Assumption `json:"assumptions"`
}

// check reads a field, and weather when it is named. The error is of files that
// cannot be read; what is wrong in them is in the report.
func check(name string, o recordFlags) (*checkReport, error) {
	r := &checkReport{File: name, Errors: []*site.Fault{}, Warnings: []*site.Fault{}, Assumptions: []site.Assumption{}}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, badInput(ofFile(err))
	}
	file, faults := site.ReadFile(name, bytes.NewReader(data))
	r.Errors = append(r.Errors, site.Faults(faults)...)
	if o.Weather == "" {
		r.NotChecked = []string{"whether the field goes with its weather: name the record with --weather"}
		if file != nil {
			r.Warnings = append(r.Warnings, file.Warnings(nil)...)
			r.Assumptions = file.Field.Assumed
		}
		return r, nil
	}
	// The record's own reader says what is wrong with it, a line each.
	if _, err := os.Stat(o.Weather); err != nil {
		return nil, badInput(ofFile(err))
	}
	rec, _, err := o.read()
	if err != nil {
		r.wrong(err)
		return r, nil
	}
	if file == nil {
		return r, nil
	}
	r.Warnings = append(r.Warnings, file.Warnings(rec.Series)...)
	r.Assumptions = file.Field.Assumed
	met, _, err := compare.Meet(file.Field, rec, compare.Period{}, false)
	if gap := (*compare.GapError)(nil); errors.As(err, &gap) {
		first, _, _ := strings.Cut(err.Error(), "\n")
		r.Warnings = append(r.Warnings, &site.Fault{Text: fmt.Sprintf("%s: %s: compare asks for --fill-gaps", o.Weather, first)})
		met, _, err = compare.Meet(file.Field, rec, compare.Period{}, true)
	}
	if err != nil {
		r.wrong(fmt.Errorf("%s: %w", o.Weather, err))
		return r, nil
	}
	r.Assumptions = met.Assumed
	return r, nil
}

// wrong notes every line of an error of the weather.
func (r *checkReport) wrong(err error) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		r.Errors = append(r.Errors, &site.Fault{Text: line})
	}
}

func (r *checkReport) writeJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(r)
}

func (r *checkReport) writeText(w io.Writer) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s, %s\n", r.File, count(len(r.Errors), "error"), count(len(r.Warnings), "warning"))
	writeFindings(&b, "error", r.Errors)
	writeFindings(&b, "warning", r.Warnings)
	for _, what := range r.NotChecked {
		fmt.Fprintf(&b, "not checked: %s\n", what)
	}
	if len(r.Errors) == 0 {
		(&view{Assumptions: r.Assumptions}).assumed(&b)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// writeFindings writes each finding with the line of the file that it is about,
// which is shown once for all that is said of it.
func writeFindings(b *bytes.Buffer, what string, list []*site.Fault) {
	shown := 0
	for _, f := range list {
		if f.Line != shown && f.Source != "" {
			fmt.Fprintf(b, "%5d | %s\n", f.Line, strings.TrimRight(f.Source, " \t"))
		}
		shown = f.Line
		fmt.Fprintf(b, "%s: %s\n", what, f.Error())
	}
}
