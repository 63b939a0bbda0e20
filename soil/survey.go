package soil

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// SurveyPick chooses from a survey table. Empty fields leave the choice to the
// table: its first map unit, and of that the component with the largest share.
type SurveyPick struct {
	MapUnit   string // mukey or muname, letters in either case
	Component string // cokey or compname, letters in either case
}

// Share is a soil of a map unit.
type Share struct {
	Key, Name string
	Percent   float64 // of the map unit's area; NaN when not told
	Horizons  int     // rows of the table
}

// Survey is one component of a US soil survey's map unit, from a table of its
// horizons with the column names of the national database (SSURGO, gNATSGO).
type Survey struct {
	MapUnitKey, MapUnit     string
	ComponentKey, Component string
	Percent                 float64 // share of the map unit's area; NaN when not told
	Drainage                string  // natural drainage class, "" when not told
	HydrologicGroup         string  // of the curve number, "" when not told
	Slope                   float64 // percent; NaN when not told
	Invented                bool    // a name carries the word "invented"

	Horizons    []Horizon // representative values, from the mineral surface down
	Low, High   []Horizon // the survey's own low and high values beside each; NaN where it has none
	Restrictive float64   // depth of the first layer that stops water, m; NaN when none is told
	Components  []Share   // of the map unit, largest first
	MapUnits    []string  // all that the table holds, as "key name"
	Notes       []string  // what was chosen, left out, replaced and not used
}

func (s *Survey) note(format string, args ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, args...))
}

// Bounds of a table.
const (
	maxSurveyRows   = 2_000_000 // a state's horizons are fewer
	maxSurveyUnits  = 100_000   // those of a large state are a fifth
	maxSurveyLayers = 20_000    // of one map unit; a large one has a few hundred
)

// IsSurvey tells by its header whether a text is a survey's table of horizons.
func IsSurvey(head []byte) bool {
	line, _, _ := bytes.Cut(head, []byte("\n"))
	return bytes.Contains(bytes.ToLower(line), []byte(depthTop)) && bytes.ContainsRune(line, ',')
}

// ReadSurvey reads a table of horizons, CSV with the database's column names in
// any order, and picks one component. The table is streamed; only the rows of
// one map unit are kept. Every fault of those is returned, joined, as
// name:line: column: found, allowed, mend.
func ReadSurvey(name string, r io.Reader, pick SurveyPick) (*Survey, error) {
	t, err := readTable(name, r, pick.MapUnit)
	if err != nil {
		return nil, err
	}
	s := &Survey{MapUnitKey: t.unit.key, MapUnit: t.unit.name, Slope: math.NaN(), Restrictive: math.NaN(), MapUnits: t.units}
	if len(t.units) > 1 && pick.MapUnit == "" {
		s.note("the table holds %d map units; the first, %s, was taken of: %s", len(t.units), t.unit, listed(t.units))
	}
	s.Components = t.components()
	rows, err := s.choose(t, pick.Component)
	if err != nil {
		return nil, err
	}
	for _, n := range t.replaced {
		s.note("%s", n)
	}
	s.lay(t, rows)
	if err := t.faults.err(); err != nil {
		return nil, err
	}
	for _, x := range []string{s.MapUnit, s.Component} {
		s.Invented = s.Invented || strings.Contains(strings.ToLower(x), "invented")
	}
	return s, nil
}

// choose takes the rows of the component asked for, or of the largest one that
// has horizons.
func (s *Survey) choose(t *surveyTable, word string) ([]surveyRow, error) {
	var match []Share
	for _, c := range s.Components {
		switch {
		case word == "" && c.Horizons > 0 && len(match) == 0,
			word != "" && (strings.EqualFold(word, c.Key) || strings.EqualFold(word, c.Name)):
			match = append(match, c)
		}
	}
	var names []string
	for _, c := range s.Components {
		names = append(names, c.String())
	}
	if len(match) != 1 || match[0].Horizons == 0 {
		found, allowed, mend := word, "one of "+listed(names), ""
		switch {
		case len(match) > 1:
			mend = "the name stands for several, give its cokey"
		case word == "":
			found, allowed, mend = "no component with a horizon", "at least one", "take another map unit"
		case len(match) == 1:
			found, mend = word+", without a horizon", "take another component"
		}
		return nil, &surveyFault{name: t.name, column: "compname", found: found, allowed: allowed + ", of map unit " + t.unit.String(), mend: mend}
	}
	c := match[0]
	s.ComponentKey, s.Component, s.Percent = c.Key, c.Name, c.Percent
	if how := "asked for"; len(names) > 1 {
		if word == "" {
			how = "the largest share with horizons"
		}
		s.note("component %s, %s; the map unit holds: %s", c, how, listed(names))
	}
	rows := slices.DeleteFunc(slices.Clone(t.rows), func(r surveyRow) bool { return r.component != (keyName{c.Key, c.Name}) || r.empty })
	first := rows[0]
	s.Drainage, s.HydrologicGroup, s.Slope = first.drainage, first.group, first.slope
	return rows, nil
}

// components sums up the map unit, largest share first, shares not told last.
func (t *surveyTable) components() []Share {
	var list []Share
	at := map[keyName]int{}
	for _, r := range t.rows {
		i, known := at[r.component]
		if !known {
			i = len(list)
			at[r.component] = i
			list = append(list, Share{Key: r.component.key, Name: r.component.name, Percent: r.percent})
		}
		if !r.empty {
			list[i].Horizons++
		}
	}
	size := func(s Share) float64 {
		if math.IsNaN(s.Percent) {
			return -1
		}
		return s.Percent
	}
	slices.SortStableFunc(list, func(a, b Share) int { return cmp.Compare(size(b), size(a)) })
	return list
}

// String is "key name (60 %)", with what is known.
func (s Share) String() string {
	text := keyName{s.Key, s.Name}.String()
	if !math.IsNaN(s.Percent) {
		text += fmt.Sprintf(" (%.3g %%)", s.Percent)
	}
	if s.Horizons == 0 {
		text += ", no horizons"
	}
	return text
}

// keyName is a map unit or component.
type keyName struct{ key, name string }

func (k keyName) String() string { return strings.TrimSpace(k.key + " " + k.name) }

// listed joins words, the first twelve of them.
func listed(words []string) string {
	const most = 12
	if n := len(words); n > most {
		return strings.Join(words[:most], "; ") + fmt.Sprintf("; and %d more", n-most)
	}
	return strings.Join(words, "; ")
}

// surveyFault is one thing wrong with a table.
type surveyFault struct {
	name    string
	line    int    // 0 for the table as a whole
	column  string // "" when no single one is at fault
	found   string
	allowed string
	mend    string // "" when allowed says it all
}

// Error writes the fault on one line: name:line: column c: found "x"; allowed ...: mend.
func (f *surveyFault) Error() string {
	var b strings.Builder
	b.WriteString(f.name)
	if f.line > 0 {
		fmt.Fprintf(&b, ":%d", f.line)
	}
	if f.column != "" {
		fmt.Fprintf(&b, ": column %s", f.column)
	}
	fmt.Fprintf(&b, ": found %.80q; allowed %s", f.found, f.allowed)
	if f.mend != "" {
		b.WriteString(": " + f.mend)
	}
	return b.String()
}

// surveyFaults collects the faults of a table, the first fifty in full.
type surveyFaults struct {
	name string
	list []error
	more int
}

func (f *surveyFaults) add(line int, column, found, allowed, mend string) {
	if len(f.list) >= 50 {
		f.more++
		return
	}
	f.list = append(f.list, &surveyFault{f.name, line, column, found, allowed, mend})
}

// wanted adds a fault where a value is missing.
func (f *surveyFaults) wanted(line int, column string, x float64, allowed, mend string) {
	if math.IsNaN(x) {
		f.add(line, column, "", allowed, mend)
	}
}

// addError adds what the check of a horizon says, each of its faults.
func (f *surveyFaults) addError(r *surveyRow, err error) {
	list := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		list = joined.Unwrap()
	}
	for _, e := range list {
		f.list = append(f.list, fmt.Errorf("%s:%d: %s: %w", f.name, r.line, called(*r), e))
	}
}

func (f *surveyFaults) err() error {
	if f.more > 0 {
		return errors.Join(append(f.list, fmt.Errorf("%s: and %d more", f.name, f.more))...)
	}
	return errors.Join(f.list...)
}
