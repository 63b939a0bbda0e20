package basin

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// The network is a graph in which every unit and every reach has one way on: units
// to units, reaches or the outlet, reaches to reaches or the outlet.

// node is a unit or a reach.
type node struct {
	id, to string
	reach  bool
	row    int
}

// nodes are the units and then the reaches.
func (b *Basin) nodes() []node {
	list := make([]node, 0, len(b.Units)+len(b.Reaches))
	for _, u := range b.Units {
		list = append(list, node{u.ID, u.To, false, u.Row})
	}
	for _, r := range b.Reaches {
		list = append(list, node{r.ID, r.To, true, r.Row})
	}
	return list
}

func (n node) what() string {
	if n.reach {
		return "reach"
	}
	return "unit"
}

// Ends of the way other than a node.
const (
	atOutlet = -1
	nowhere  = -2
	intoUnit = -3 // of a reach, which is not allowed
)

// onward is for each node the one that it drains to.
func onward(nodes []node) []int {
	at := make(map[string]int, len(nodes))
	for i, n := range nodes {
		if _, twice := at[n.id]; !twice {
			at[n.id] = i
		}
	}
	next := make([]int, len(nodes))
	for i, n := range nodes {
		j, ok := at[n.to]
		switch {
		case n.to == Outlet:
			j = atOutlet
		case !ok:
			j = nowhere
		case n.reach && !nodes[j].reach:
			j = intoUnit
		}
		next[i] = j
	}
	return next
}

// cycles lists the nodes of each circle, the first of the list at its head.
func cycles(next []int) [][]int {
	const fresh, done = 0, -1
	mark := make([]int, len(next)) // number of the walk that came by
	var found [][]int
	for start := range next {
		i, walk := start, start+1
		for i >= 0 && mark[i] == fresh {
			mark[i] = walk
			i = next[i]
		}
		if i >= 0 && mark[i] == walk {
			var circle []int
			for j := i; len(circle) == 0 || j != i; j = next[j] {
				circle = append(circle, j)
			}
			first := slices.Index(circle, slices.Min(circle))
			found = append(found, slices.Concat(circle[first:], circle[:first]))
		}
		for i = start; i >= 0 && mark[i] == walk; i = next[i] {
			mark[i] = done
		}
	}
	return found
}

// Order lists the units, and then the reaches, each by its place in Basin.Units and
// Basin.Reaches, so that everything stands before what it drains to: by the most
// steps from the head of the water, then by id. It does not depend on the order of
// the file. The error names the circles and what drains nowhere.
func (b *Basin) Order() (units, reaches []int, err error) {
	nodes := b.nodes()
	next := onward(nodes)
	var faults []error
	for _, circle := range cycles(next) {
		faults = append(faults, fmt.Errorf("%s %s", nodes[circle[0]].what(), around(nodes, circle)))
	}
	for i, n := range nodes {
		if next[i] == nowhere || next[i] == intoUnit {
			faults = append(faults, fmt.Errorf("%s %s drains to %q: allowed is a reach or outlet, of a unit also a unit", n.what(), n.id, n.to))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return nil, nil, err
	}
	order := downstream(nodes, next)
	for _, i := range order {
		if nodes[i].reach {
			reaches = append(reaches, i-len(b.Units))
		} else {
			units = append(units, i)
		}
	}
	return units, reaches, nil
}

// downstream sorts nodes without circles.
func downstream(nodes []node, next []int) []int {
	steps, above := make([]int, len(nodes)), make([]int, len(nodes))
	for _, j := range next {
		if j >= 0 {
			above[j]++
		}
	}
	var ready, order []int
	for i, n := range above {
		if n == 0 {
			ready = append(ready, i)
		}
	}
	for len(ready) > 0 {
		i := ready[len(ready)-1]
		ready, order = ready[:len(ready)-1], append(order, i)
		if j := next[i]; j >= 0 {
			steps[j] = max(steps[j], steps[i]+1)
			if above[j]--; above[j] == 0 {
				ready = append(ready, j)
			}
		}
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(steps[i], steps[j]), strings.Compare(nodes[i].id, nodes[j].id))
	})
	return order
}

// around writes a circle.
func around(nodes []node, circle []int) string {
	const most = 20
	var b strings.Builder
	b.WriteString("drains in a circle: ")
	for k, i := range circle {
		if k == most {
			fmt.Fprintf(&b, "%d more -> ", len(circle)-most)
			break
		}
		fmt.Fprintf(&b, "%s -> ", nodes[i].id)
	}
	b.WriteString(nodes[circle[0]].id)
	return b.String()
}

// AreaAbove is for each reach, as in Basin.Reaches, the land that drains through it,
// m2. Circles and ways that end nowhere count as far as they lead.
func (b *Basin) AreaAbove() []float64 {
	nodes := b.nodes()
	next := onward(nodes)
	area := make([]float64, len(nodes))
	for i, u := range b.Units {
		area[i] = u.Area
	}
	for _, i := range downstream(nodes, next) {
		if j := next[i]; j >= 0 {
			area[j] += area[i]
		}
	}
	return area[len(b.Units):]
}
