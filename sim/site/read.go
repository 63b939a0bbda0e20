package site

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// maxFile is the greatest size of a field file, bytes. One that is longer is
// something else, and the time to parse nested brackets grows with its square.
const maxFile = 1 << 14

// ReadField reads a field file (YAML, see Keys). Every fault is reported, each on
// a line of its own with the name, the line and the key; the name serves only
// for that. Keys that were left out take a default, listed in Assumed.
func ReadField(name string, r io.Reader) (Field, error) {
	root, err := load(name, r, "field", "soil with its horizons")
	if err != nil {
		return Field{}, err
	}
	w := newReader()
	f := w.field(w.open("", root))
	f.Assumed = w.assumed
	read := w.faults
	for _, fault := range f.check() {
		if read.about(fault.Key) {
			continue
		}
		if text := w.texts[fault.Key]; !strings.Contains(fault.Text, text) {
			fault.Text += fmt.Sprintf(" (the file says %q)", text)
		}
		w.faults = append(w.faults, fault)
	}
	if err := w.located(name); err != nil {
		return Field{}, err
	}
	return f, nil
}

// ReadKeys reads another file of keys by the rules of field files: strict keys,
// values with units, every fault with its line. The kind ("case") and the least
// that it must hold are for the messages.
func ReadKeys(name string, r io.Reader, kind, least string, read func(*Section)) error {
	root, err := load(name, r, kind, least)
	if err != nil {
		return err
	}
	w := newReader()
	read(w.open("", root))
	return w.located(name)
}

// located gives every fault its file and line and joins them.
func (r *reader) located(name string) error {
	for _, fault := range r.faults {
		fault.File = name
		if fault.Line == 0 {
			fault.Line = r.line(fault.Key)
		}
	}
	return r.faults.err()
}

// load reads a file of keys and returns its map.
func load(name string, r io.Reader, kind, least string) (ast.Node, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(data) > maxFile {
		return nil, &Fault{File: name, Text: fmt.Sprintf("found more than %d bytes; allowed a %s file: is it the right one?", maxFile, kind)}
	}
	return parse(name, kind, least, bytes.TrimPrefix(data, []byte("\ufeff"))) // a byte-order mark, as some editors set
}

// parse turns the text into YAML's tree and returns its map.
func parse(name, kind, least string, data []byte) (ast.Node, error) {
	file, err := parser.ParseBytes(data, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		fault := &Fault{File: name, Text: err.Error()}
		var syntax yaml.Error
		if errors.As(err, &syntax) {
			fault.Text = "not YAML: " + syntax.GetMessage()
			if at := syntax.GetToken(); at != nil {
				fault.Line = at.Position.Line
				fault.Text = fmt.Sprintf("column %d: %s", at.Position.Column, fault.Text)
			}
		}
		return nil, fault
	}
	var bodies []ast.Node
	for _, doc := range file.Docs {
		if doc.Body != nil && doc.Body.Type() != ast.CommentType {
			bodies = append(bodies, doc.Body)
		}
	}
	switch len(bodies) {
	case 0:
		return nil, &Fault{File: name, Text: "found nothing; allowed at least " + least}
	case 1:
		if _, ok := bodies[0].(ast.MapNode); !ok {
			return nil, &Fault{File: name, Line: bodies[0].GetToken().Position.Line, Text: fmt.Sprintf("found %s; allowed keys with values", describe(bodies[0]))}
		}
		return bodies[0], nil
	}
	return nil, &Fault{File: name, Line: bodies[1].GetToken().Position.Line, Text: "found a second document; allowed one " + kind + " in a file"}
}

// line is that of a key, or of the nearest section around it that is there.
func (r *reader) line(key string) int {
	for key != "" {
		if line, ok := r.lines[key]; ok {
			return line
		}
		key = key[:max(strings.LastIndexAny(key, ".["), 0)]
	}
	return 0
}
