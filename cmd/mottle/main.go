// Command mottle runs a field through decades of recorded weather, as it lies
// and with drain tile, and shows what differs.
//
// Results go to standard output or to files; progress and errors to standard
// error. Exit status: 0 done, 1 something went wrong on the way, 2 the input has
// faults (each on a line of its own), 130 interrupted.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run is the whole program; it returns the exit status.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		return 0
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "mottle: interrupted")
		return 130
	}
	for line := range strings.SplitSeq(err.Error(), "\n") { // a line for each joined error
		fmt.Fprintln(stderr, "mottle: "+line)
	}
	var input *inputError
	if errors.As(err, &input) {
		return 2
	}
	return 1
}

// inputError marks faults of what the user gave, as against faults on the way.
type inputError struct{ error }

func (e *inputError) Unwrap() error { return e.error }

func badInput(err error) error {
	if err == nil {
		return nil
	}
	return &inputError{err}
}
