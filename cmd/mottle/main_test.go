package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"mottle": main})
}

// TestScripts types the commands of testdata/script as a newcomer would. The
// first word of a script's name is the command it is about.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("testdata", "script"),
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"faults": faultsCommand,
			"exits":  exitsCommand,
			"files":  filesCommand,
			"ghcn":   layoutCommand(writeGHCN),
			"daymet": layoutCommand(writeDaymet),
		},
	})
}

// exitsCommand runs a command that ends with a status: exits 1 mottle compare ...
func exitsCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits status command...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// faultsCommand runs a command whose input is bad: status 2, nothing on standard
// output, and on standard error exactly so many lines, one a fault, without any
// text on usage: faults 3 mottle compare ...
func faultsCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: faults count command...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	exitsCommand(ts, false, append([]string{"2"}, args[1:]...))
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("standard output: %q, want nothing", out)
	}
	said := ts.ReadFile("stderr")
	lines := strings.Split(strings.TrimSuffix(said, "\n"), "\n")
	if len(lines) != want {
		ts.Fatalf("%d lines, want %d:\n%s", len(lines), want, said)
	}
	for _, line := range lines {
		if !strings.HasPrefix(line, "mottle: ") || strings.Contains(line, "Usage:") {
			ts.Fatalf("no line about a fault: %q", line)
		}
	}
}

// filesCommand checks that a folder holds these files and no others: files out
// yearly.csv daily.csv
func filesCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: files folder name...")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	got, want := map[string]bool{}, map[string]bool{}
	for _, e := range entries {
		got[e.Name()] = true
	}
	for _, name := range args[1:] {
		want[name] = true
	}
	if diff := cmp.Diff(want, got); diff != "" {
		ts.Fatalf("%s: %s", args[0], diff)
	}
}

// output runs the program in this process and returns what it printed, failing
// the test when it ends otherwise than well.
func output(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if status := run(context.Background(), args, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("mottle %s: exit status %d: %s", strings.Join(args, " "), status, stderr.String())
	}
	return stdout.String()
}

// An interrupted run says so in one line, leaves no result and ends with 130, as
// shells have it: 128 and the number of SIGINT, 2 (POSIX.1-2017, signal.h).
func TestInterrupt(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	out := filepath.Join(t.TempDir(), "result")
	var stdout, stderr bytes.Buffer
	status := run(ctx, []string{"compare", "--out", out}, &stdout, &stderr)
	if status != 130 || stdout.Len() > 0 || stderr.String() != "mottle: interrupted\n" {
		t.Errorf("exit status %d, standard output %q, standard error %q", status, stdout.String(), stderr.String())
	}
	if _, err := os.Stat(out); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%s: %v; want no such folder", out, err)
	}
}

// fullDisk takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// A result that cannot be written is an error, not a success.
func TestFullDisk(t *testing.T) {
	for _, args := range [][]string{
		{"compare", "--central", "--to", "1981"},
		{"compare", "--central", "--to", "1981", "--format", "json"},
		{"soil"},
		{"weather", "invent", "--years", "1"},
	} {
		var stderr bytes.Buffer
		if status := run(context.Background(), args, fullDisk{}, &stderr); status != 1 || strings.Count(stderr.String(), "\n") != 1 {
			t.Errorf("%s: exit status %d, standard error %q; want 1 and one line", strings.Join(args, " "), status, stderr.String())
		}
	}
}
