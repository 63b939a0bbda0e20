package basin

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mottle/sim/flow"
)

// group is land of one kind whose water goes one way: units of it are routed as one.
type group struct {
	kind   int // place among the network's kinds
	area   float64
	way    way
	length float64
	slope  float64
	to     int // node
}

// network is a basin under a scenario, ready to carry water hour by hour. Nodes are the
// units that others drain to, then the reaches, then the outlet.
type network struct {
	kinds  []string // keys
	groups []group
	ways   []way // of the units that are nodes, by node
	beds   []*bed
	names  []string  // of the nodes
	to     []int     // of each node but the outlet
	kindOf []int     // of each unit
	area   []float64 // of the land above each node, itself included, m2
	notes  []string
}

// newNetwork joins units under a scenario, with their kinds' keys, to the reaches.
func newNetwork(b *Basin, units []Unit, keys []string) (*network, error) {
	unitOrder, reachOrder, err := b.Order()
	if err != nil {
		return nil, err
	}
	n := &network{}
	receives := map[string]bool{}
	for i := range units {
		receives[units[i].To] = true
	}
	node := map[string]int{}
	var through []int // units that are nodes
	for _, i := range unitOrder {
		if receives[units[i].ID] {
			node[units[i].ID] = len(through)
			through = append(through, i)
		}
	}
	for k, i := range reachOrder {
		node[b.Reaches[i].ID] = len(through) + k
	}
	outlet := len(through) + len(reachOrder)
	node[Outlet] = outlet
	n.to = make([]int, outlet)
	n.area = make([]float64, outlet+1)
	n.names = append(n.names, make([]string, outlet)...)
	n.names = append(n.names, Outlet)
	for id, k := range node {
		n.names[k] = id
	}
	for k, i := range through {
		w, err := newWay(units[i].Length, units[i].Slope)
		if err != nil {
			return nil, err
		}
		n.ways, n.to[k] = append(n.ways, w), node[units[i].To]
	}
	for k, i := range reachOrder {
		n.to[len(through)+k] = node[b.Reaches[i].To]
	}

	flat := 0
	for i := range units {
		if units[i].Length > 0 && units[i].Slope < flow.Flattest {
			flat++
		}
	}
	if flat > 0 {
		n.notes = append(n.notes, fmt.Sprintf("%d units are flatter than %.4g: water crosses them as at that slope", flat, flow.Flattest))
	}

	// Groups, in an order that does not hang on that of the rows.
	place := map[string]int{}
	n.kinds = slices.Compact(slices.Sorted(slices.Values(keys)))
	for k, key := range n.kinds {
		place[key] = k
	}
	n.kindOf = make([]int, len(units))
	all := make([]group, 0, len(units))
	for _, i := range unitOrder {
		u := &units[i]
		n.kindOf[i] = place[keys[i]]
		g := group{kind: n.kindOf[i], area: u.Area, length: u.Length, slope: u.Slope, to: node[u.To]}
		if receives[u.ID] { // its own water joins at itself, and goes its way with the rest
			g.to, g.length = node[u.ID], math.NaN()
		}
		all = append(all, g)
	}
	slices.SortStableFunc(all, func(a, b group) int {
		return cmp.Or(cmp.Compare(a.to, b.to), cmp.Compare(a.kind, b.kind), cmp.Compare(a.length, b.length), cmp.Compare(a.slope, b.slope), cmp.Compare(a.area, b.area))
	})
	for _, g := range all {
		if k := len(n.groups) - 1; k >= 0 && g.to == n.groups[k].to && g.kind == n.groups[k].kind &&
			(g.length == n.groups[k].length && g.slope == n.groups[k].slope || math.IsNaN(g.length) && math.IsNaN(n.groups[k].length)) {
			n.groups[k].area += g.area
			continue
		}
		n.groups = append(n.groups, g)
	}
	for k := range n.groups {
		g := &n.groups[k]
		if !math.IsNaN(g.length) {
			if g.way, err = newWay(g.length, g.slope); err != nil {
				return nil, err
			}
		}
		n.area[g.to] += g.area
	}
	for k := range n.to {
		n.area[n.to[k]] += n.area[k]
	}
	for k, i := range reachOrder {
		bed, err := newBed(&b.Reaches[i], n.area[len(through)+k])
		if err != nil {
			return nil, err
		}
		if bed.through {
			n.notes = append(n.notes, "reach "+b.Reaches[i].ID+" is crossed within the hour and not routed")
		}
		n.beds = append(n.beds, bed)
	}
	return n, nil
}

// nodes is the number of nodes, the outlet included.
func (n *network) nodes() int { return len(n.to) + 1 }

// carry moves a year's water through the network. in is the flow of each kind's land,
// mm in the hour by part; out takes the flow at each node, m3/s by hour and part, and
// is written whole.
func (n *network) carry(in [][][parts]float64, out [][][parts]float64, hours int) {
	for k := range out {
		clear(out[k][:hours])
	}
	for k := range n.groups {
		g := &n.groups[k]
		scale := g.area / 1000 / hour
		to, land := out[g.to], in[g.kind]
		for h := range hours {
			q := land[h]
			for c := range q {
				q[c] *= scale
			}
			q = g.way.step(q)
			for c := range q {
				to[h][c] += q[c]
			}
		}
	}
	for k, to := range n.to {
		here, below := out[k], out[to]
		for h := range hours {
			var q [parts]float64
			if k < len(n.ways) {
				q = n.ways[k].step(here[h])
			} else {
				q = n.beds[k-len(n.ways)].step(here[h])
			}
			for c := range q {
				here[h][c] = q[c] // what leaves it
				below[h][c] += q[c]
			}
		}
	}
}

// stored is the water on its way, m3.
func (n *network) stored() (v float64) {
	add := func(p [parts]float64) {
		for _, x := range p {
			v += x
		}
	}
	for k := range n.groups {
		add(n.groups[k].way.stored())
	}
	for k := range n.ways {
		add(n.ways[k].stored())
	}
	for _, b := range n.beds {
		v += b.stored()
	}
	return v
}
