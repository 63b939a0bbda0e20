package column

import (
	"fmt"
	"math"

	"mottle/soil"
)

// Settings of the time stepping.
type Settings struct {
	Target    float64 // change of water content aimed at in a step, m3/m3
	Tolerance float64 // gap between linear solution and curve that is accepted, m3/m3
	Volume    float64 // error of a step's drain flow that is aimed at, m
	Iterated  bool    // iterate every step to the tolerance's hundredth (for convergence studies)
}

// DefaultSettings are those of every run.
func DefaultSettings() Settings { return Settings{Target: 0.02, Tolerance: 2e-3, Volume: 2e-4} }

// Column is one soil column and its water. Fields in capitals may be set
// between steps; water is only moved by Step.
type Column struct {
	Grid     Grid
	Surface  Surface
	Base     Base
	Laterals []Lateral
	Settings Settings

	H      []float64 // pressure head, m
	Water  []float64 // liquid water, m3/m3
	Ice    []float64 // ice as water, m3/m3
	Uptake []float64 // water taken from each cell by roots and evaporation, m/s
	Pond   float64   // water standing on the surface, m

	Last Flows // of the last accepted step

	// Totals since ResetTotals, m: flux through every edge (n+1, down), and
	// outflow of every cell to each lateral.
	Through []float64
	Out     [][]float64

	soils []*soil.Table
	block []float64 // conductivity left by ice, 0..1
	room  []float64 // share of the pores that ice leaves, 0..1
	iced  []float64 // conductivity left across the edge below cell i, 0..1
	mixed []bool    // edge below cell i parts two materials
	// 1 over the distance from the middle of cell i to that of the next, 1/m
	perDistance []float64

	dt                       float64 // next step to try, s
	supply                   float64 // of the last step, m/s
	hn                       []float64
	theta, cap, k, dk        []float64
	flux, dfu, dfl           []float64 // edge fluxes, slopes with the head above and below
	lower, diag, upper, step []float64
	scratch                  []float64
	dry                      []bool // drain inflow switched off for this step: its water ran out
}

// Flows of one step, m/s, averaged over it.
type Flows struct {
	Infiltration float64
	Runoff       float64
	Unmet        float64 // evaporation asked for that a dry surface did not yield
	BaseOut      float64
	Lateral      float64 // all laterals together
	Solves       int
}

// Unsolved is the error of a step that could not be solved.
type Unsolved struct {
	Layer int     // cell with the largest residual, from 0
	Depth float64 // its depth, m
	Head  float64 // m
	Gap   float64 // between linear solution and curve, m3/m3
	Step  float64 // length of the last step tried, s
}

func (e *Unsolved) Error() string {
	return fmt.Sprintf("water in layer %d at %.2f m (head %.3g m) could not be solved: water content off by %.2g m3/m3 after cutting the step to %.2g s", e.Layer+1, e.Depth, e.Head, e.Gap, e.Step)
}

// New makes a column of the given soils, one table per cell, hydrostatic above
// and below a water table at the given depth (m).
func New(g Grid, soils []*soil.Table, waterTable float64) *Column {
	n := g.Cells()
	if len(soils) != n {
		panic("column: one soil table is needed for each cell")
	}
	f := func() []float64 { return make([]float64, n) }
	c := &Column{
		Grid: g, soils: soils, Settings: DefaultSettings(),
		Surface: Surface{HeldHead: math.NaN()},
		H:       f(), Water: f(), Ice: f(), Uptake: f(),
		Through: make([]float64, n+1),
		block:   f(), room: f(), iced: f(), mixed: make([]bool, n), perDistance: f(),
		hn: f(), theta: f(), cap: f(), k: f(), dk: f(),
		flux: make([]float64, n+1), dfu: make([]float64, n+1), dfl: make([]float64, n+1),
		lower: f(), diag: f(), upper: f(), step: f(), scratch: f(),
		dry: make([]bool, n), dt: 600,
	}
	for i := range n {
		c.block[i], c.room[i], c.iced[i] = 1, 1, 1
		if i+1 < n {
			c.mixed[i] = soils[i] != soils[i+1]
			c.perDistance[i] = 1 / (g.Mid[i+1] - g.Mid[i])
		}
		c.SetHead(i, g.Mid[i]-waterTable)
	}
	return c
}

// SetHead sets the state of cell i.
func (c *Column) SetHead(i int, h float64) {
	c.H[i] = h
	c.Water[i] = c.liquid(i, h)
}

// AddLateral lays a drain in the column and returns its index.
func (c *Column) AddLateral(l Lateral) int {
	l.place(c.Grid)
	c.Laterals = append(c.Laterals, l)
	c.Out = append(c.Out, make([]float64, c.Grid.Cells()))
	return len(c.Laterals) - 1
}

// SetLevel moves the water level in drain j, for a weir or a flooded outlet.
func (c *Column) SetLevel(j int, level float64) {
	if c.Laterals[j].Level != level {
		c.Laterals[j].Level = level
		c.Laterals[j].place(c.Grid)
	}
}

// liquid is the liquid water of cell i at head h: the curve, scaled to the room
// that ice leaves.
func (c *Column) liquid(i int, h float64) float64 {
	if h >= 0 {
		return c.room[i]*c.soils[i].ThetaS + c.soils[i].Storage*h
	}
	return c.room[i] * c.soils[i].Theta(h)
}

// iceImpedance lowers conductivity by 10^(-3 Q), Q the share of ice in the
// water of the layer. The form is that of Lundin (1990) and Hansson et al.
// (2004); the exponent is lower than theirs because the liquid water's own
// conductivity has fallen already (Kurylyk and Watanabe 2013) and 7 withheld
// drain flow that was measured.
const iceImpedance = 3

// SetIce freezes or thaws cell i to the given ice content (m3/m3 of water); the
// cell's total water stays.
func (c *Column) SetIce(i int, ice float64) {
	old := c.Ice[i]
	if ice == old {
		return
	}
	gap := c.Water[i] - c.liquid(i, c.H[i])
	c.Ice[i] = ice
	c.Water[i] += old - ice
	c.room[i] = 1 - ice/c.soils[i].ThetaS
	c.block[i] = 1
	if ice > 0 {
		q := ice / (ice + c.Water[i])
		c.block[i] = math.Exp2(-iceImpedance * math.Log2E * math.Ln10 * q)
	}
	c.edge(i - 1)
	c.edge(i)
	if c.H[i] < 0 {
		// The gap that the linear step left is carried on; it heals in water.
		if h := c.soils[i].Head((c.Water[i] - gap) / c.room[i]); h < 0 {
			c.H[i] = h
		} else {
			c.H[i] = 0
		}
	}
}

// edge sets what ice leaves of the conductivity across the edge below cell i,
// its two halves in series.
func (c *Column) edge(i int) {
	if i < 0 || i+1 >= len(c.block) {
		return
	}
	a, b := c.Grid.Dz[i]/2, c.Grid.Dz[i+1]/2
	c.iced[i] = (a + b) / (a/c.block[i] + b/c.block[i+1])
}

// Adopt takes over the water of another column of the same grid and soils; base,
// surface and laterals stay its own.
func (c *Column) Adopt(o *Column) {
	copy(c.H, o.H)
	copy(c.Water, o.Water)
	copy(c.Ice, o.Ice)
	copy(c.block, o.block)
	copy(c.room, o.room)
	copy(c.iced, o.iced)
	c.Pond, c.dt, c.supply = o.Pond, o.dt, o.supply
}

// ResetTotals sets Through and Out to zero.
func (c *Column) ResetTotals() {
	clear(c.Through)
	for _, o := range c.Out {
		clear(o)
	}
}

// Storage is all water in and on the column, ice included, m.
func (c *Column) Storage() float64 {
	s := c.Pond
	for i, w := range c.Water {
		s += (w + c.Ice[i]) * c.Grid.Dz[i]
	}
	return s
}

// Soil is the table of cell i.
func (c *Column) Soil(i int) *soil.Table { return c.soils[i] }

// WaterTable is the shallowest depth (m) with zero pressure, 0 with water
// standing on the surface, and +Inf when the whole column is unsaturated. A
// perched table counts.
func (c *Column) WaterTable() float64 {
	if c.Pond > 1e-6 {
		return 0
	}
	for i, h := range c.H {
		if h < 0 {
			continue
		}
		// Zero lies between this cell's middle and the one above.
		if i == 0 {
			return max(0, c.Grid.Mid[0]-h)
		}
		up := c.H[i-1]
		return c.Grid.Mid[i] - h/(h-up)*(c.Grid.Mid[i]-c.Grid.Mid[i-1])
	}
	return math.Inf(1)
}
