package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"

	"mottle/sim"
)

// commands lists a command and those below it.
func commands(c *cobra.Command) []*cobra.Command {
	list := []*cobra.Command{c}
	for _, below := range c.Commands() {
		list = append(list, commands(below)...)
	}
	return list
}

// TestExamples: every command has examples, and their flags are flags it has.
func TestExamples(t *testing.T) {
	for _, c := range commands(newRoot()) {
		if !c.Runnable() {
			continue // a topic
		}
		if c.Short == "" || c.Long == "" || c.Example == "" {
			t.Errorf("%s: without a short text, a long one or an example", c.CommandPath())
		}
		for _, line := range strings.Split(c.Example, "\n") {
			words := typed(line)
			if len(words) == 0 || words[0] != "mottle" {
				t.Errorf("%s: example %q", c.CommandPath(), line)
				continue
			}
			target, rest, err := newRoot().Find(words[1:])
			if err == nil {
				err = target.ParseFlags(rest)
			}
			if err == nil && target.Name() != "help" {
				err = target.ValidateArgs(target.Flags().Args())
			}
			if err != nil {
				t.Errorf("%s: example %q: %v", c.CommandPath(), line, err)
			}
		}
		for _, line := range strings.Split(c.Long+"\n"+c.Example, "\n") {
			if len(line) > 90 {
				t.Errorf("%s: a line of %d characters: %q", c.CommandPath(), len(line), line)
			}
		}
	}
}

// TestEveryMeasureIsExplained: mottle help measures names each with its unit.
func TestEveryMeasureIsExplained(t *testing.T) {
	text := output(t, "help", "measures")
	for _, m := range sim.Measures() {
		row := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(m.Name) + ` +` + regexp.QuoteMeta(m.Unit) + ` .*` + regexp.QuoteMeta(m.Label))
		if !row.MatchString(text) {
			t.Errorf("%s (%s) is not explained", m.Name, m.Unit)
		}
	}
}

// typed splits a line as a shell would, up to a comment or a redirection.
func typed(line string) []string {
	var words []string
	for _, m := range regexp.MustCompile(`"([^"]*)"|\S+`).FindAllStringSubmatch(strings.TrimSpace(line), -1) {
		word := m[0]
		if strings.HasPrefix(word, "#") || word == ">" || word == "|" {
			break
		}
		if strings.HasPrefix(word, `"`) {
			word = m[1]
		}
		words = append(words, word)
	}
	return words
}

// readme returns the code blocks of the README: lines indented by four blanks or
// between fences.
func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if os.IsNotExist(err) {
		t.Skip("there is no README.md")
	}
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fenced := false
	for line := range strings.SplitSeq(string(data), "\n") {
		code, indented := strings.CutPrefix(line, "    ")
		switch {
		case strings.HasPrefix(line, "```"):
			fenced = !fenced
		case fenced:
			b.WriteString(line + "\n")
		case indented:
			b.WriteString(code + "\n")
		default:
			b.WriteString("\n")
		}
	}
	return b.String()
}

// TestReadmeRuns: what the README says to type works, beside the field file that
// it shows and an invented station's record.
func TestReadmeRuns(t *testing.T) {
	code := readme(t)
	t.Chdir(t.TempDir())
	for block := range strings.SplitSeq(code, "\n\n") {
		if strings.Contains(block, "\nsoil:\n") {
			if err := os.WriteFile("field.yaml", []byte(strings.TrimLeft(block, "\n")), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	days, err := readInvented(output(t, "weather", "invent", "--years", "5"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("station.csv", writeGHCN(days), 0o644); err != nil {
		t.Fatal(err)
	}
	ran := 0
	for line := range strings.SplitSeq(code, "\n") {
		line = strings.TrimPrefix(line, "$ ")
		line = strings.Replace(line, "go run ./cmd/mottle", "mottle", 1)
		words := typed(line)
		if len(words) == 0 || words[0] != "mottle" {
			continue
		}
		ran++
		ctx, cancel := context.WithTimeout(t.Context(), 60*time.Second)
		defer cancel()
		var stdout, stderr bytes.Buffer
		if status := run(ctx, words[1:], &stdout, &stderr); status != 0 || stdout.Len() == 0 {
			t.Errorf("%s: exit status %d: %s", line, status, stderr.String())
		}
	}
	if ran == 0 {
		t.Error("the README says nothing to type")
	}
}
