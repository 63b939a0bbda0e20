package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"mottle/sim/unit"
)

// noArgs is for a command that takes no word of its own: what stands there is a
// command misspelt, or one word too many.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return badInput(unknownCommand(cmd, args[0]))
}

// unknownCommand names the commands that are allowed in place of a word.
func unknownCommand(cmd *cobra.Command, word string) error {
	var allowed []string
	for _, c := range cmd.Commands() {
		allowed = append(allowed, c.Name())
	}
	if len(allowed) == 0 {
		return fmt.Errorf("%s: found %.80q; allowed no word after it", cmd.Name(), word)
	}
	slices.Sort(allowed)
	mend := ""
	if near := unit.Nearest(word, allowed); near != "" {
		mend = fmt.Sprintf(": did you mean %q?", near)
	}
	return fmt.Errorf("command: found %.80q; allowed %s%s", strings.TrimPrefix(cmd.CommandPath()+" "+word, cmd.Root().Name()+" "), strings.Join(allowed, ", "), mend)
}

// oneFile is for a command that takes a field file or none. An empty name is
// that of a variable without a value, and is not the demo.
func oneFile(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) > 1:
		return badInput(fmt.Errorf("%s: found %d words; allowed one field file", cmd.Name(), len(args)))
	case len(args) == 1 && args[0] == "":
		return badInput(fmt.Errorf("%s: found an empty name; allowed a field file, or nothing for the demo", cmd.Name()))
	}
	return nil
}

// fileName is the argument, "" without one.
func fileName(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}

// filled reports flags that were given without a value.
func filled(cmd *cobra.Command, names ...string) error {
	var faults []error
	for _, name := range names {
		if f := cmd.Flag(name); f.Changed && f.Value.String() == "" {
			faults = append(faults, fmt.Errorf("--%s: found an empty value; give one, or leave the flag out", name))
		}
	}
	return badInput(errors.Join(faults...))
}

// numbers are what a flag of a kind may hold, by the function that reads it.
var numbers = map[string]string{
	"ParseInt": "a whole number", "ParseUint": "a whole number from 0", "ParseFloat": "a number", "ParseBool": "true or false",
}

// flagFault says what is allowed where a flag cannot be read.
func flagFault(cmd *cobra.Command, err error) error {
	var number *strconv.NumError
	if errors.As(err, &number) && numbers[number.Func] != "" {
		what := strings.TrimSuffix(err.Error(), ": "+number.Error())
		return badInput(fmt.Errorf("%s; allowed %s", what, numbers[number.Func]))
	}
	return badInput(fmt.Errorf("%w; what is allowed: %s --help", err, cmd.CommandPath()))
}
