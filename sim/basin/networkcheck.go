package basin

import (
	"fmt"
	"slices"
	"strings"
)

// network reports what is wrong with the ways of the water, each with all rows, and
// turns outlets sized by area into discharges.
func (rd *reading) network() {
	if rd.broken || len(rd.b.Units) == 0 {
		return // told
	}
	nodes := rd.b.nodes()
	rd.identities(nodes)
	next := onward(nodes)
	var ids []string
	for _, n := range nodes {
		if n.reach && n.id != "" {
			ids = append(ids, n.id)
		}
	}
	for i, n := range nodes {
		file, allowed := rd.unitFile, "a unit, a reach or "+Outlet
		if n.reach {
			file, allowed = rd.reachFile, "a reach or "+Outlet
		}
		switch j := next[i]; {
		case n.to == "":
			// told as a cell that is needed
		case j == nowhere:
			rd.row(file, n.row, rd.key(n, "to"), "found %.80q, which is not there: the %s drains nowhere; allowed %s%s", n.to, n.what(), allowed, meant(n.to, append(ids, Outlet)))
		case j == intoUnit:
			rd.row(file, n.row, rd.key(n, "to"), "found unit %.80q; allowed %s", n.to, allowed)
		}
	}
	for _, circle := range cycles(next) {
		n := nodes[circle[0]]
		file := rd.unitFile
		if n.reach {
			file = rd.reachFile
		}
		rd.row(file, n.row, rd.key(n, "to"), "%s (%s); one of them must lead on towards the %s", around(nodes, circle), rd.places(nodes, circle), Outlet)
	}
	rd.outlets()
}

// key is a column of a table, or a key of the list of reaches.
func (rd *reading) key(n node, column string) string {
	if !n.reach || rd.reachFile != rd.name {
		return column
	}
	i := slices.IndexFunc(rd.b.Reaches, func(r Reach) bool { return r.ID == n.id && r.Row == n.row })
	return fmt.Sprintf("reaches[%d].%s", i, column)
}

// places are the rows of nodes.
func (rd *reading) places(nodes []node, list []int) string {
	var units, reaches []int
	for _, i := range list {
		if nodes[i].reach {
			reaches = append(reaches, nodes[i].row)
		} else {
			units = append(units, nodes[i].row)
		}
	}
	var said []string
	for _, of := range []struct {
		file string
		rows []int
	}{{rd.unitFile, units}, {rd.reachFile, reaches}} {
		if len(of.rows) == 0 {
			continue
		}
		slices.Sort(of.rows)
		what := "line"
		if rd.counted(of.file) {
			what = "feature"
		}
		said = append(said, of.file+" "+ranges(what, of.rows))
	}
	return strings.Join(said, ", ")
}

// identities reports ids that stand twice or that mean something else.
func (rd *reading) identities(nodes []node) {
	first := map[string]node{}
	groups := map[string]bool{}
	for _, u := range rd.b.Units {
		groups[u.Group] = true
	}
	for _, n := range nodes {
		file := rd.unitFile
		if n.reach {
			file = rd.reachFile
		}
		before, twice := first[n.id]
		switch {
		case n.id == "":
			continue // told as a cell that is needed
		case strings.EqualFold(n.id, Outlet):
			rd.row(file, n.row, rd.key(n, "id"), "found %q, the name of the point that all water leaves by; give the %s another", n.id, n.what())
		case strings.ContainsAny(n.id, ",;"):
			rd.row(file, n.row, rd.key(n, "id"), "found %.80q; allowed an id without commas and semicolons, which part the entries of a list", n.id)
		case groups[n.id] && !n.reach:
			rd.row(file, n.row, rd.key(n, "id"), "found %.80q, which is the name of a group too; give one of them another", n.id)
		case twice:
			rd.row(file, n.row, rd.key(n, "id"), "found %.80q a second time; it stands in %s already as a %s", n.id, rd.places([]node{before}, []int{0}), before.what())
		}
		if !twice {
			first[n.id] = n
		}
	}
}

// outlets turns capacities by area into discharges, once all else is sound, and says
// which reaches carry nothing.
func (rd *reading) outlets() {
	above := rd.b.AreaAbove()
	for i := range rd.b.Reaches {
		r := &rd.b.Reaches[i]
		if above[i] == 0 {
			rd.note("reach %s: no land drains to it", r.ID)
		}
		if r.coefficient > 0 {
			r.OutletCapacity = r.coefficient * above[i]
		}
	}
}
