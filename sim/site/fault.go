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
	File string // name of the field file; "" when the field did not come from one
	Line int    // 0: no line is known
	Key  string // path of the key in the field file, "tile.depth"
	Text string // what was found, what is allowed, and the mend
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

// err joins the faults in the order of their lines, nil without one.
func (f faults) err() error {
	slices.SortStableFunc(f, func(a, b *Fault) int { return cmp.Compare(a.Line, b.Line) })
	joined := make([]error, len(f))
	for i := range f {
		joined[i] = f[i]
	}
	return errors.Join(joined...)
}
