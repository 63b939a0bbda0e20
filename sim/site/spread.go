package site

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/money"
	"mottle/sim/unit"
)

// measure is how a quantity may be written.
type measure struct {
	dims   []unit.Dimension
	bushel float64 // mass of a bushel, kg, where bushels are among the dimensions
}

// of is the measure of one dimension.
func of(dim unit.Dimension) measure { return measure{dims: []unit.Dimension{dim}} }

// read turns a text into the program's own unit, bushels into mass.
func (m measure) read(text string) (float64, error) {
	x, dim, err := unit.ParseAny(text, m.dims...)
	switch dim {
	case unit.BushelYield:
		x *= m.bushel / 1000 // t in a bushel
	case unit.BushelPrice:
		x /= m.bushel / 1000
	}
	if err != nil && m.bushel == 0 {
		for _, bushels := range []unit.Dimension{unit.BushelYield, unit.BushelPrice} {
			if _, wrong := unit.Parse(text, bushels); wrong == nil {
				err = fmt.Errorf("found %.80q; allowed %s: the mass of its bushel is not known", text, unit.AllowedAny(m.dims...))
			}
		}
	}
	return x, err
}

// unknown is the spread of what nobody knows.
var unknown = money.Spread{Low: Unknown, Middle: Unknown, High: Unknown}

const oneOrThree = "allowed one value, or a list of three: low, likely, high"

// spread returns what is known of a quantity: one value, or a low, a likely and a
// high one. Left out it is the fallback, written likewise, which then is an
// assumption, or unknown where there is none. A value at fault makes it unknown.
func (s *Section) spread(key string, m measure, fallback, reason string) money.Spread {
	form := s.form(key)
	form.kind, form.dims, form.fallback = spread, m.dims, fallback
	var found []float64
	var texts []string
	read := func(at, text string) {
		texts = append(texts, text)
		x, err := m.read(text)
		if err != nil {
			s.Fault(at, "%v", err)
			x = Unknown
		}
		found = append(found, x)
	}
	switch node := s.take(key).(type) {
	case nil:
		if fallback == "" {
			return unknown
		}
		s.assume(key, fallback, reason)
		for _, text := range entries(fallback) {
			read(key, text)
		}
	case *ast.SequenceNode:
		for i, entry := range s.list(key) {
			at := fmt.Sprintf("%s[%d]", key, i)
			if text, ok := scalar(entry); ok {
				read(at, text)
			} else {
				s.Fault(at, "found %s; allowed %s", describe(entry), unit.AllowedAny(m.dims...))
				found = append(found, Unknown)
			}
		}
		s.texts[s.at(key)] = "[" + strings.Join(texts, ", ") + "]"
	default:
		if _, ok := scalar(node); !ok {
			s.Fault(key, "found %s; %s", describe(node), oneOrThree)
			return unknown
		}
		text := s.Text(key)
		if text == "" {
			return unknown
		}
		read(key, text)
	}
	switch len(found) {
	case 1:
		return money.Spread{Low: found[0], Middle: found[0], High: found[0]}
	case 3:
		return money.Spread{Low: found[0], Middle: found[1], High: found[2]}
	}
	s.Fault(key, "found a list of %d; %s", len(found), oneOrThree)
	return unknown
}

// entries are the texts of a list, with or without its brackets, or of one value.
func entries(text string) []string {
	list := strings.Split(strings.Trim(text, "[] "), ",")
	for i := range list {
		list[i] = strings.TrimSpace(list[i])
	}
	return list
}

// spreadText is a spread of a measure as it stands in a file, in a unit of which one is
// x in the program's own.
func spreadText(s money.Spread, x float64, unit string) string {
	one := func(v float64) string { return strings.TrimSpace(exact(v/x) + " " + unit) }
	if s.Low == s.High {
		return one(s.Middle)
	}
	return "[" + one(s.Low) + ", " + one(s.Middle) + ", " + one(s.High) + "]"
}
