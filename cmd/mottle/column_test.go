package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"mottle/sim/trial"
)

// typeColumn runs the command and returns its status and what it printed.
func typeColumn(args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = run(context.Background(), append([]string{"column"}, args...), &out, &err)
	return status, out.String(), err.String()
}

// TestColumnCases runs every case of the folder: profiles with all columns, a row
// for each cell and time, numbers everywhere but for the temperature.
func TestColumnCases(t *testing.T) {
	cases, err := filepath.Glob(filepath.Join("..", "..", "testdata", "columns", "*.yaml"))
	if err != nil || len(cases) < 6 {
		t.Fatalf("%d cases, %v", len(cases), err)
	}
	for _, name := range cases {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			c, err := trial.Read(name, bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			out := filepath.Join(t.TempDir(), "profiles.csv")
			status, stdout, stderr := typeColumn(name, "--out", out)
			if status != 0 || stderr != "" {
				t.Fatalf("status %d: %s", status, stderr)
			}
			if !strings.HasPrefix(stdout, c.Title+"\n") || !strings.Contains(stdout, "gain of water") {
				t.Errorf("printed %q", stdout)
			}
			f, err := os.Open(out)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			rows, err := csv.NewReader(f).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			if want := 1 + len(c.Times)*c.Grid.Cells(); len(rows) != want {
				t.Errorf("%d rows, expected %d", len(rows), want)
			}
			frost := strings.Contains(name, "freezing")
			for _, row := range rows[1:] {
				for i, cell := range row {
					if empty := cell == ""; cell == "NaN" || empty != (rows[0][i] == "temperature_C" && !frost) {
						t.Fatalf("%s: %q in %v", rows[0][i], cell, row)
					}
				}
			}
		})
	}
}

// TestColumnWithoutOut prints the balance and writes nothing.
func TestColumnWithoutOut(t *testing.T) {
	status, stdout, stderr := typeColumn(filepath.Join("..", "..", "testdata", "columns", "infiltration-sand.yaml"))
	if status != 0 || stderr != "" || !strings.Contains(stdout, "infiltrated") {
		t.Errorf("status %d, printed %q, %q", status, stdout, stderr)
	}
}

// TestColumnFaults: bad input ends with status 2, says everything at once, and
// leaves no file.
func TestColumnFaults(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.yaml")
	text := "horizons: [{to: 1 m, form: exponential, theta_s: 0.4, ksat: 1 m, alpha: 5 1/m}]\ngrid: {cells: 20}\ninitial: {head: -1 m}\ntop: [{rain: 0 mm/h}]\nbase: {kind: moon}\ntimes: [1 d]\n"
	if err := os.WriteFile(bad, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "out.csv")
	for _, test := range []struct {
		name string
		args []string
		want []string
	}{
		{"no file", nil, []string{"found 0 case files"}},
		{"two files", []string{bad, bad}, []string{"found 2 case files"}},
		{"missing file", []string{filepath.Join(dir, "none.yaml")}, []string{"none.yaml: no such file"}},
		{"two faults", []string{bad, "--out", out}, []string{"bad.yaml:1: horizons[0].ksat", "bad.yaml:5: base.kind: found \"moon\""}},
		{"empty out", []string{bad, "--out", ""}, []string{"--out: found an empty value"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			status, stdout, stderr := typeColumn(test.args...)
			lines := strings.Split(strings.TrimSuffix(stderr, "\n"), "\n")
			if status != 2 || stdout != "" || len(lines) != len(test.want) {
				t.Fatalf("status %d, printed %q, said:\n%s", status, stdout, stderr)
			}
			for i, want := range test.want {
				if !strings.Contains(lines[i], want) {
					t.Errorf("said %q, expected %q", lines[i], want)
				}
			}
		})
	}
	if _, err := os.Stat(out); err == nil {
		t.Error("a file was left behind")
	}
}
