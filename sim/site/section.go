package site

import (
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/unit"
)

// reader walks a field file and gathers faults, assumptions, the line of every
// key and the form of every key that it asks for.
type reader struct {
	faults  faults
	assumed []Assumption
	lines   map[string]int
	texts   map[string]string // values as they are written
	forms   map[string]*form  // by key, list indices left out
	asked   []string          // the keys of forms in the order in which they are asked for
	survey  bool              // no file: every section is opened once, to learn the forms
}

func newReader() *reader {
	return &reader{lines: map[string]int{}, texts: map[string]string{}, forms: map[string]*form{}}
}

// Section is a map of a file of keys. Every key that is asked for is one that may
// stand there; End reports the others. What is at fault is noted with its line and
// reported when the whole file has been read.
type Section struct {
	*reader
	path   string
	values map[string]ast.Node
	order  []string
	keys   []string // asked for
	faulty bool     // not a map at all
}

// at is the path of a key of the section.
func (s *Section) at(key string) string {
	if s.path == "" {
		return key
	}
	return s.path + "." + key
}

// features are the sections that may be none.
var features = []string{"run_on", "ditch", "old_tile", "tile", "farm.lift"}

// open makes a section of a node, an empty one if it is not a map.
func (r *reader) open(path string, node ast.Node) *Section {
	s := &Section{reader: r, path: path, values: map[string]ast.Node{}}
	entries, ok := node.(ast.MapNode)
	if !ok {
		or := ""
		if slices.Contains(features, path) {
			or = ", or none"
		}
		r.faults.add(path, "found %s; allowed keys with values%s", describe(node), or)
		s.faulty = true
		return s
	}
	for e := entries.MapRange(); e.Next(); {
		key, value := e.Key().GetToken().Value, e.Value()
		path, line := s.at(legible(key)), e.Key().GetToken().Position.Line
		if first, twice := r.lines[path]; twice {
			r.faults.add(path, "found a second time; it stands in line %d already: keep one", first)
			r.faults[len(r.faults)-1].Line = line
			continue
		}
		r.lines[path] = line
		s.order = append(s.order, key)
		s.values[key] = value
	}
	return s
}

// take returns the node of a key, nil when the key is absent or left empty.
func (s *Section) take(key string) ast.Node {
	if !slices.Contains(s.keys, key) {
		s.keys = append(s.keys, key)
		s.form(key)
	}
	node := s.values[key]
	if node == nil || node.Type() == ast.NullType {
		return nil
	}
	return node
}

// unindexed strips a path of list indices: "soil.horizons[2].sand" becomes
// "soil.horizons.sand".
func unindexed(path string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(path, "[") {
		if _, after, ok := strings.Cut(part, "]"); ok {
			part = after
		}
		b.WriteString(part)
	}
	return b.String()
}

// End reports keys that nobody asked for.
func (s *Section) End() {
	for _, key := range s.order {
		if slices.Contains(s.keys, key) {
			continue
		}
		mend := "allowed " + strings.Join(s.keys, ", ")
		if near := unit.Nearest(key, s.keys); near != "" {
			mend = fmt.Sprintf("did you mean %q?", near)
		}
		s.faults.add(s.at(legible(key)), "found a key that is not known: %s", mend)
	}
}

// assume notes what stands in for a key that was left out.
func (s *Section) assume(key, value, reason string) {
	s.assumed = append(s.assumed, Assumption{Key: s.at(key), Value: value, Reason: reason})
}

// Group opens a section within this one, an empty one when it is absent.
func (s *Section) Group(key string) *Section {
	s.form(key).kind = group
	node := s.take(key)
	if node == nil {
		return &Section{reader: s.reader, path: s.at(key)}
	}
	return s.open(s.at(key), node)
}

// feature opens a section for something that a field may have, nil for none,
// which is assumed when the key is left out.
func (s *Section) feature(key, reason string) *Section {
	s.form(key).kind = group
	if s.None(key) {
		return nil
	}
	if s.survey {
		return &Section{reader: s.reader, path: s.at(key)}
	}
	node := s.take(key)
	if node == nil {
		s.assume(key, "none", reason)
		return nil
	}
	return s.open(s.at(key), node)
}

// Sections opens every entry of a list.
func (s *Section) Sections(key string) []*Section {
	s.form(key).kind = list
	if s.survey {
		return []*Section{{reader: s.reader, path: s.at(key) + "[0]"}}
	}
	nodes := s.list(key)
	sections := make([]*Section, len(nodes))
	for i, node := range nodes {
		sections[i] = s.open(fmt.Sprintf("%s[%d]", s.at(key), i), node)
	}
	return sections
}

// Has says whether a key is given.
func (s *Section) Has(key string) bool { return s.take(key) != nil }

// Fault notes what is wrong with a key: what was found, what is allowed.
func (s *Section) Fault(key, format string, args ...any) {
	s.faults.add(s.at(key), format, args...)
}

// Sound says whether nothing was at fault so far.
func (s *Section) Sound() bool { return len(s.faults) == 0 }

// list returns the entries of a list, nil when it is absent.
func (s *Section) list(key string) []ast.Node {
	node := s.take(key)
	if node == nil {
		return nil
	}
	seq, ok := node.(*ast.SequenceNode)
	if !ok {
		s.faults.add(s.at(key), "found %s; allowed a list", describe(node))
		return nil
	}
	for i, entry := range seq.Values {
		s.lines[fmt.Sprintf("%s[%d]", s.at(key), i)] = entry.GetToken().Position.Line
	}
	return seq.Values
}

// describe names a node that is not what it should be.
func describe(node ast.Node) string {
	if text, ok := scalar(node); ok {
		return fmt.Sprintf("%.80q", text)
	}
	switch node.(type) {
	case ast.MapNode:
		return "keys with values"
	case *ast.SequenceNode:
		return "a list"
	}
	return "a YAML " + strings.ToLower(node.Type().String())
}
