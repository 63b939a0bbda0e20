package column

import (
	"fmt"
)

// Grid is the division of the column into cells, from the surface down.
type Grid struct {
	Edge []float64 // n+1 depths, m
	Mid  []float64 // n depths, m
	Dz   []float64 // n thicknesses, m
}

// Cells is the number of cells.
func (g Grid) Cells() int { return len(g.Dz) }

// Depth is the depth of the base, m.
func (g Grid) Depth() float64 { return g.Edge[len(g.Edge)-1] }

// NewGrid divides a column at the given edges, which must rise from 0.
func NewGrid(edges []float64) (Grid, error) {
	if len(edges) < 3 || edges[0] != 0 {
		return Grid{}, fmt.Errorf("column: a grid needs at least two cells and must begin at 0")
	}
	g := Grid{Edge: edges, Mid: make([]float64, len(edges)-1), Dz: make([]float64, len(edges)-1)}
	for i := range g.Dz {
		if !(edges[i+1] > edges[i]) {
			return Grid{}, fmt.Errorf("column: cell edge %d at %g m does not lie below %g m", i+1, edges[i+1], edges[i])
		}
		g.Dz[i] = edges[i+1] - edges[i]
		g.Mid[i] = (edges[i] + edges[i+1]) / 2
	}
	return g, nil
}

// Uniform is a grid of n equal cells.
func Uniform(depth float64, n int) Grid {
	edges := make([]float64, n+1)
	for i := range edges {
		edges[i] = depth * float64(i) / float64(n)
	}
	g, err := NewGrid(edges)
	if err != nil {
		panic(err)
	}
	return g
}

// Graded makes cells that grow from thin at the surface by a constant ratio to
// thick, then stay so, with edges on the given interfaces. Storm infiltration
// needs thin top cells (under 1 cm); drain flow is content with 5-10 cm.
func Graded(depth, thin, thick, ratio float64, interfaces []float64) (Grid, error) {
	edges := []float64{0}
	stops := append(append([]float64(nil), interfaces...), depth)
	next := thin
	for _, stop := range stops {
		if stop > depth {
			stop = depth
		}
		for {
			at := edges[len(edges)-1]
			left := stop - at
			if left <= 1e-9 {
				break
			}
			// Fit whole cells into what is left before the interface.
			step := next
			if left < 1.5*step {
				step = left
			} else if left < 2.5*step {
				step = left / 2
			}
			edges = append(edges, at+step)
			next = min(thick, max(step, next)*ratio)
		}
	}
	edges[len(edges)-1] = depth
	return NewGrid(edges)
}

// CellAt is the cell that holds a depth; the base belongs to the last cell.
func (g Grid) CellAt(depth float64) int {
	for i := range g.Dz {
		if depth < g.Edge[i+1] {
			return i
		}
	}
	return len(g.Dz) - 1
}
