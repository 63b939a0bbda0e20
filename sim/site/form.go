package site

import (
	"slices"
	"strings"

	"mottle/sim/unit"
)

// form is what may stand under a key, noted by the call that reads it: the schema
// and the written field file know no other source.
type form struct {
	kind     kind
	dims     []unit.Dimension // of a quantity or a spread: one of them
	words    []string         // of a word or of crops
	none     bool             // or the word none
	needed   bool             // within the section that it belongs to
	fallback string           // "" when nothing stands in
}

// kind is the kind of value under a key.
type kind int

const (
	text kind = iota
	yes
	quantity
	spread // a quantity, or a list of a low, a likely and a high one
	word
	whole
	day
	crops
	group // keys of its own
	list  // of groups
)

// form returns the form of a key of the section; asking makes the key known.
func (s *Section) form(key string) *form {
	path := unindexed(s.at(key))
	f := s.forms[path]
	if f == nil {
		f = &form{}
		s.forms[path] = f
		s.asked = append(s.asked, path)
	}
	return f
}

// survey asks for every key of a field file, without one, and returns the reader
// with their forms.
func survey() *reader {
	r := newReader()
	r.survey = true
	r.field(&Section{reader: r})
	return r
}

// below lists the keys directly under a path, in the order of asking.
func (r *reader) below(path string) []string {
	var keys []string
	for _, key := range r.asked {
		if parent(key) == path {
			keys = append(keys, key)
		}
	}
	return keys
}

// parent is the path of the section that holds a key, "" at the top.
func parent(path string) string { return path[:max(strings.LastIndexByte(path, '.'), 0)] }

// last is a key without the path of its section.
func last(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// Key is a row of Keys.
type Key struct {
	Path    string // "tile.depth"
	Example string // what may stand there
	LeftOut string // what stands in, "-" for nothing
	Meaning string
}

// Lookup finds a key's row. Old tile has the keys of tile, land above those of
// the field's soil, every crop those of corn.
func Lookup(path string) (Key, bool) {
	alike := path
	if rest, ok := strings.CutPrefix(path, "run_on.horizons."); ok {
		alike = "soil.horizons." + rest
	} else if rest, ok := strings.CutPrefix(path, "old_tile."); ok {
		alike = "tile." + rest
	} else if rest, ok := strings.CutPrefix(path, "farm.crops."); ok {
		_, rest, _ = strings.Cut(rest, ".")
		alike = "farm.crops.corn." + rest
	}
	i := slices.IndexFunc(rows, func(k Key) bool { return k.Path == alike })
	if i < 0 {
		return Key{}, false
	}
	k := rows[i]
	k.Path = path
	return k, true
}

// rows are those of Keys without its head, list marks left out of the paths.
var rows = func() []Key {
	var rows []Key
	for line := range strings.Lines(Keys) {
		var columns []string
		for column := range strings.SplitSeq(line, "  ") {
			if column = strings.TrimSpace(column); column != "" {
				columns = append(columns, column)
			}
		}
		rows = append(rows, Key{strings.ReplaceAll(columns[0], "[]", ""), columns[1], columns[2], columns[3]})
	}
	return rows[1:]
}()
