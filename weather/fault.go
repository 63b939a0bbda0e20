package weather

import (
	"errors"
	"fmt"
	"strings"
)

// Fault is one thing wrong with a file, with its place and the way to mend it.
type Fault struct {
	Name    string // of the file
	Line    int    // 1 is the first line, 0 the file as a whole
	Column  string // "" when no single column is at fault
	Found   string // the text as it stands in the file
	Allowed string // what may stand there
	Mend    string // what to do, "" when Allowed says it all
}

// Error writes the fault on one line: name:line: column C: found "x"; allowed ...: mend.
func (f *Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.Name)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	if f.Column != "" {
		fmt.Fprintf(&b, ": column %s", f.Column)
	}
	fmt.Fprintf(&b, ": found %.80q; allowed %s", f.Found, f.Allowed)
	if f.Mend != "" {
		b.WriteString(": " + f.Mend)
	}
	return b.String()
}

// maxFaults is how many faults of one file are written out.
const maxFaults = 50

// faults collects what is wrong with one file.
type faults struct {
	name string
	list []error
	more int // found past maxFaults
}

// add notes a fault; name need not be set.
func (f *faults) add(fault Fault) {
	if len(f.list) >= maxFaults {
		f.more++
		return
	}
	fault.Name = f.name
	f.list = append(f.list, &fault)
}

// any tells whether a fault was noted.
func (f *faults) any() bool { return len(f.list) > 0 }

// err joins the faults, nil without one.
func (f *faults) err() error {
	if f.more > 0 {
		return errors.Join(append(f.list, fmt.Errorf("%s: and %d more", f.name, f.more))...)
	}
	return errors.Join(f.list...)
}

// nearest returns the allowed word most like the one found, for "did you mean";
// "" when none is near.
func nearest(found string, allowed []string) string {
	best, least := "", len(found)/2+1
	for _, word := range allowed {
		if d := editDistance(strings.ToLower(found), strings.ToLower(word)); d < least {
			best, least = word, d
		}
	}
	return best
}

// editDistance counts the insertions, deletions and replacements that turn a
// into b (Levenshtein 1966).
func editDistance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// unpaired is the fault of a line whose quotes do not match.
func unpaired(line int) Fault {
	return Fault{Line: line, Found: "a quote without its partner", Allowed: "quotes in pairs", Mend: "close it or take it out; is the line cut off?"}
}

// fieldCount is the fault of a row that is longer or shorter than the header.
func fieldCount(line, found, want int) Fault {
	return Fault{Line: line, Found: fmt.Sprintf("%d fields", found), Allowed: fmt.Sprintf("%d, as in the header", want),
		Mend: "is the row cut off, or a comma within a field?"}
}
