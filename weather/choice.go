package weather

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// chooser keeps the rows of one station of a file that may hold several, and
// counts the days of all of them, so that a choice can be asked for. Without a
// choice the only station is kept; a second one ends the keeping.
type chooser struct {
	f      *faults
	split  *splitter
	column string // that names the station
	prefix string // that ids may carry and that is left out
	want   string // id or name asked for, "" for the only station

	met    map[string]*census // by id
	last   *census            // of the row before
	kept   *census            // nil until found
	second *census            // another that the choice fits as well
}

// census counts the days of one station.
type census struct {
	id, name string
	days     [3]int // with a usable maximum, minimum and precipitation
}

// The elements that a census counts.
const (
	censusTmax = iota
	censusTmin
	censusPrecip
)

// Bounds of a list of stations.
const (
	mostStations = 250_000 // twice those of GHCN-Daily
	mostListed   = 20
	longestName  = 80 // characters
)

// newChooser begins a choice; prefix is left out of ids and of the choice.
func newChooser(f *faults, split *splitter, column, prefix string, pick Pick) *chooser {
	want := strings.TrimSpace(pick.Station)
	if len(want) > len(prefix) && strings.EqualFold(want[:len(prefix)], prefix) {
		want = want[len(prefix):]
	}
	return &chooser{f: f, split: split, column: column, prefix: prefix, want: want, met: map[string]*census{}}
}

// take tells whether a row of this station is kept. The name may be empty.
func (c *chooser) take(id, name []byte) bool {
	id = bytes.TrimPrefix(bytes.TrimSpace(id), []byte(c.prefix))
	if c.last == nil || string(id) != c.last.id {
		c.last = c.met[string(id)]
		if c.last == nil {
			c.meet(string(id), name)
		}
	}
	return c.last == c.kept
}

// meet enters a station not met before.
func (c *chooser) meet(id string, name []byte) {
	name = bytes.TrimSpace(name)
	s := &census{id: id, name: string(name[:min(len(name), longestName)])}
	fits := c.want == "" || strings.EqualFold(id, c.want) || strings.EqualFold(string(name), c.want)
	switch {
	case fits && len(c.met) == 0, fits && c.want != "" && c.kept == nil:
		c.kept = s
	case fits && c.want != "":
		c.second = s
	case c.want == "":
		c.kept = nil
	}
	if len(c.met) == mostStations {
		c.f.add(Fault{Line: c.split.line, Column: c.column, Found: fmt.Sprintf("more than %d stations", mostStations), Allowed: "fewer: is this a daily record?"})
		c.split.stop()
	}
	c.met[id], c.last = s, s
}

// saw counts a usable value of the station taken last.
func (c *chooser) saw(element int) { c.last.days[element]++ }

// settled tells whether one station was chosen; if not, a fault lists the stations.
func (c *chooser) settled() bool {
	switch {
	case c.second != nil:
		c.f.add(Fault{Column: c.column, Found: c.want, Allowed: "one station", Mend: fmt.Sprintf("it fits %v and %v, give --station the id", c.kept, c.second)})
	case len(c.met) == 0: // no row at all, which is said elsewhere
		return true
	case c.want != "" && c.kept == nil:
		c.f.add(Fault{Column: c.column, Found: c.want, Allowed: "a station of the file, by id or name", Mend: c.list()})
	case c.kept == nil:
		c.f.add(Fault{Column: c.column, Found: fmt.Sprintf("%d stations", len(c.met)), Allowed: "one, or a choice of one with --station", Mend: c.list()})
	default:
		return true
	}
	return false
}

// list writes the stations, those with most usable days first.
func (c *chooser) list() string {
	all := make([]*census, 0, len(c.met))
	for _, s := range c.met {
		all = append(all, s)
	}
	slices.SortFunc(all, func(a, b *census) int {
		return cmp.Or(cmp.Compare(slices.Min(b.days[:]), slices.Min(a.days[:])), strings.Compare(a.id, b.id))
	})
	var out []string
	for _, s := range all[:min(len(all), mostListed)] {
		out = append(out, s.String())
	}
	if more := len(all) - len(out); more > 0 {
		out = append(out, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(out, "; ")
}

// String writes id, name and days, or what the station lacks.
func (s *census) String() string {
	text := cmp.Or(strings.TrimSpace(s.id+" "+s.name), "one without id or name")
	warm, wet := min(s.days[censusTmax], s.days[censusTmin]), s.days[censusPrecip]
	switch {
	case warm == 0 && wet == 0:
		return text + " (no temperature, no precipitation)"
	case warm == 0:
		return text + " (no temperature)"
	case wet == 0:
		return text + " (no precipitation)"
	}
	return fmt.Sprintf("%s (%d days)", text, min(warm, wet))
}
