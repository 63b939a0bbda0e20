package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"mottle/sim/trial"
)

func newColumn() *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "column case.yaml",
		Short: "Run a bare column of soil under given boundary conditions",
		Long: `Column runs one bare column of soil from a case file: layers, grid, state at the
start, what the surface and the base meet, a drain and frost if there are any. It
prints the balance of water; with --out it writes head, water content, flux,
temperature, ice and salinity over depth at the asked times as CSV.

The keys of a case file:

` + trial.Keys,
		Example: "  mottle column case.yaml --out profiles.csv",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return badInput(fmt.Errorf("found %d case files; give one", len(args)))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := filled(cmd, "out"); err != nil {
				return err
			}
			data, err := os.ReadFile(args[0])
			if err != nil {
				return badInput(ofFile(err))
			}
			c, err := trial.Read(args[0], bytes.NewReader(data))
			if err != nil {
				return badInput(err)
			}
			b, err := runColumn(cmd, c, out)
			if err != nil {
				return err
			}
			return writeBalance(cmd.OutOrStdout(), c, b)
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "`file` for the profiles (CSV)")
	return cmd
}

// runColumn runs a case and writes its profiles when a file is named.
func runColumn(cmd *cobra.Command, c *trial.Case, out string) (b trial.Balance, err error) {
	run := func(seen func(trial.State) error) error {
		b, err = trial.Run(cmd.Context(), c, seen)
		return err
	}
	if out == "" {
		return b, run(func(trial.State) error { return nil })
	}
	return b, writeWhole(out, func(w io.Writer) error {
		t, err := trial.NewWriter(w)
		return errors.Join(err, run(t.Write))
	})
}

// writeBalance prints what went in and out.
func writeBalance(w io.Writer, c *trial.Case, b trial.Balance) error {
	rows := [][]string{{"balance", "", ""}}
	add := func(what string, m float64) { rows = append(rows, []string{what, fmt.Sprintf("%.4f", m*1000), "mm"}) }
	add("infiltrated (evaporation below 0)", b.Infiltrated)
	add("run off", b.Runoff)
	add("asked for by the air and not given", b.Unmet)
	add("drained", b.Drained)
	add("out through the base", b.BaseOut)
	add("standing on the surface", b.Pond)
	add("gain of water", b.Gain)
	rows = append(rows, []string{"gap", fmt.Sprintf("%.1e", b.Gap()*1000), "mm"}, []string{"gap of salt", fmt.Sprintf("%.1e", b.SaltGap*1e4), "kg/ha"})
	var text bytes.Buffer
	if c.Title != "" {
		fmt.Fprintln(&text, c.Title)
	}
	fmt.Fprintf(&text, "after %.6g h\n\n", c.Times[len(c.Times)-1]/3600)
	writeTable(&text, rows, 1)
	_, err := w.Write(text.Bytes())
	return err
}
