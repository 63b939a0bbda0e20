package site

import (
	"fmt"
	"io"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// maxFile is the greatest size of a field file, bytes. One that is longer is
// something else.
const maxFile = 1 << 14

// File is a field file that was read without a fault.
type File struct {
	Field Field
	page  *page
	lines map[string]int
	farm  bool // something is said of what the farm is worth
}

// ReadField is the field of ReadFile.
func ReadField(name string, r io.Reader) (Field, error) {
	f, err := ReadFile(name, r)
	if err != nil {
		return Field{}, err
	}
	return f.Field, nil
}

// ReadFile reads a field file (YAML, see Keys). Every fault is reported, each a
// *Fault on a line of its own with the name, the line and the key; the name serves
// only for that. Keys that were left out take a default, listed in Assumed.
func ReadFile(name string, r io.Reader) (*File, error) {
	p, root, err := load(name, r, "field", "soil with its horizons")
	if err != nil {
		return nil, err
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
	p.locate(w.faults, w.lines)
	if err := w.faults.err(); err != nil {
		return nil, err
	}
	farm := false
	for key := range w.texts {
		farm = farm || strings.HasPrefix(key, "farm.")
	}
	return &File{Field: f, page: p, lines: w.lines, farm: farm}, nil
}

// ReadKeys reads another file of keys by the rules of field files: strict keys,
// values with units, every fault with its line. The kind ("case") and the least
// that it must hold are for the messages.
func ReadKeys(name string, r io.Reader, kind, least string, read func(*Section)) error {
	p, root, err := load(name, r, kind, least)
	if err != nil {
		return err
	}
	w := newReader()
	read(w.open("", root))
	p.locate(w.faults, w.lines)
	return w.faults.err()
}

// load reads a file of keys and returns its text and its map.
func load(name string, r io.Reader, kind, least string) (*page, ast.Node, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(data) > maxFile {
		return nil, nil, &Fault{File: name, Text: fmt.Sprintf("found more than %d bytes; allowed a %s file: is it the right one?", maxFile, kind)}
	}
	p := newPage(name, data)
	fault := p.illegible()
	var root ast.Node
	if fault == nil {
		root, fault = p.parse(kind, least)
	}
	if fault != nil {
		p.locate(faults{fault}, nil)
		return nil, nil, fault
	}
	return p, root, nil
}
