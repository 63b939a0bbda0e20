package site

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/unit"
)

// Text returns a value as it is written, "" when it is absent.
func (s *Section) Text(key string) string {
	node := s.take(key)
	if node == nil {
		return ""
	}
	text, ok := scalar(node)
	switch {
	case !ok:
		s.faults.add(s.at(key), "found %s; allowed a single value", describe(node))
	case text == "":
		s.faults.add(s.at(key), "found an empty text; give a value, or take the key out")
	}
	s.texts[s.at(key)] = text
	return text
}

// given returns a value in the unit of its dimension. Without one, absent tells
// a key that was left out from a value at fault, which is reported here.
func (s *Section) given(key string, dim unit.Dimension) (x float64, ok, absent bool) {
	form := s.form(key)
	form.kind, form.dims = quantity, []unit.Dimension{dim}
	if s.take(key) == nil {
		return 0, false, true
	}
	text := s.Text(key)
	if text == "" {
		return 0, false, false
	}
	x, err := unit.Parse(text, dim)
	if err != nil {
		s.faults.add(s.at(key), "%v", err)
	}
	return x, err == nil, false
}

// quantity returns a value in the unit of its dimension, or the fallback, which
// then is an assumption. A value at fault yields Unknown, which no other value
// can be at odds with.
func (s *Section) quantity(key string, dim unit.Dimension, fallback, reason string) float64 {
	s.form(key).fallback = fallback
	x, ok, absent := s.given(key, dim)
	switch {
	case ok:
		return x
	case !absent:
		return Unknown
	}
	s.assume(key, fallback, reason)
	x, err := unit.Parse(fallback, dim)
	if err != nil {
		panic(err) // a fallback is the program's own
	}
	return x
}

// unlimited is a quantity or the word none, which is +Inf and the fallback.
func (s *Section) unlimited(key string, dim unit.Dimension, reason string) float64 {
	if s.None(key) {
		return math.Inf(1)
	}
	x, ok, absent := s.given(key, dim)
	if ok {
		return x
	}
	if absent {
		s.assume(key, "none", reason)
	}
	return math.Inf(1)
}

// Optional is a value or Unknown, about which nothing is assumed here.
func (s *Section) Optional(key string, dim unit.Dimension) float64 {
	if x, ok, _ := s.given(key, dim); ok {
		return x
	}
	return Unknown
}

// Quantities is a list of values, each in the unit of the dimension, Unknown for
// one at fault; nil when the key is absent.
func (s *Section) Quantities(key string, dim unit.Dimension) []float64 {
	var list []float64
	for i, node := range s.list(key) {
		at := fmt.Sprintf("%s[%d]", key, i)
		text, ok := scalar(node)
		if !ok {
			s.Fault(at, "found %s; allowed %s", describe(node), dim.Allowed())
			list = append(list, Unknown)
			continue
		}
		x, err := unit.Parse(text, dim)
		if err != nil {
			s.Fault(at, "%v", err)
			x = Unknown
		}
		list = append(list, x)
	}
	return list
}

// Required is a value that has no default.
func (s *Section) Required(key string, dim unit.Dimension) float64 {
	s.form(key).needed = true
	x, ok, absent := s.given(key, dim)
	if absent && !s.faulty {
		s.faults.add(s.at(key), "missing; give %s", dim.Allowed())
	}
	if !ok {
		return Unknown
	}
	return x
}

// None says whether a value is the word none.
func (s *Section) None(key string) bool {
	s.form(key).none = true
	text, _ := scalar(s.take(key))
	return text == "none"
}

// Choice returns one of the words, or the fallback, which then is an assumption.
func (s *Section) Choice(key string, words []string, fallback, reason string) string {
	form := s.form(key)
	form.kind, form.words, form.fallback = word, words, fallback
	if s.take(key) == nil {
		s.assume(key, fallback, reason)
		return fallback
	}
	found := s.Text(key)
	if slices.Contains(words, found) {
		return found
	}
	if found != "" {
		s.faults.add(s.at(key), "found %.80q; allowed %s%s", found, strings.Join(words, ", "), meant(found, words))
	}
	return fallback
}

// meant is the mend of a word that is almost right.
func meant(found string, words []string) string {
	if near := unit.Nearest(found, words); near != "" {
		return fmt.Sprintf(": did you mean %q?", near)
	}
	return ""
}

// scalar is the text of a plain or quoted value, whatever YAML would make of it.
func scalar(node ast.Node) (string, bool) {
	switch n := node.(type) {
	case *ast.StringNode:
		return strings.TrimSpace(n.Value), true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, true
	}
	return "", false
}
