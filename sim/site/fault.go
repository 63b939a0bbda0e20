package site

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong with a field.
type Fault struct {
	File   string `json:"file,omitempty"`   // name of the field file; "" when the field did not come from one
	Line   int    `json:"line,omitempty"`   // 0: no line is known
	Key    string `json:"key,omitempty"`    // path of the key in the field file, "tile.depth"
	Text   string `json:"text"`             // what was found, what is allowed, and the mend
	Source string `json:"source,omitempty"` // the line as it stands in the file, cut where it is very long
}

// Error writes the fault on one line: file:line: key: text.
func (f *Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		if f.Line > 0 {
			fmt.Fprintf(&b, ":%d", f.Line)
		}
		b.WriteString(": ")
	}
	if f.Key != "" {
		b.WriteString(f.Key + ": ")
	}
	b.WriteString(f.Text)
	return b.String()
}

// faults collects what is wrong.
type faults []*Fault

func (f *faults) add(key, format string, args ...any) {
	*f = append(*f, &Fault{Key: key, Text: fmt.Sprintf(format, args...)})
}

// about says whether the key, a section around it, its entry of a list, or an
// entry of its own list is at fault already: what follows from that need not be
// said again.
func (f faults) about(key string) bool {
	return slices.ContainsFunc(f, func(g *Fault) bool {
		same := entry(key) != "" && entry(g.Key) == entry(key)
		return g.Key == key || same || strings.HasPrefix(key, g.Key+".") || strings.HasPrefix(g.Key, key+"[")
	})
}

// entry is the part of a key that names an entry of a list, "" without one.
func entry(key string) string { return key[:strings.LastIndex(key, "]")+1] }

// maxFaults is how many faults of one file are written out.
const maxFaults = 50

// err joins the faults in the order of their lines, nil without one.
func (f faults) err() error {
	f.sort()
	if more := len(f) - maxFaults; more > 0 {
		f = append(f[:maxFaults:maxFaults], &Fault{File: f[0].File, Text: fmt.Sprintf("and %d more faults; mend these first", more)})
	}
	joined := make([]error, len(f))
	for i := range f {
		joined[i] = f[i]
	}
	return errors.Join(joined...)
}

func (f faults) sort() {
	slices.SortStableFunc(f, func(a, b *Fault) int { return cmp.Compare(a.Line, b.Line) })
}

// Faults lists what an error of ReadFile or Validate joins; what is no fault of a
// field file becomes one without a place.
func Faults(err error) []*Fault {
	var list []*Fault
	switch e := err.(type) {
	case nil:
	case *Fault:
		list = []*Fault{e}
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			list = append(list, Faults(one)...)
		}
	default:
		list = []*Fault{{Text: err.Error()}}
	}
	return list
}
