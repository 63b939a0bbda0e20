// Package heat conducts heat through snow and soil and freezes the soil's own
// water.
//
// The state of a cell is its enthalpy E = C T - L ice, so that latent heat is
// never lost; temperature and ice follow from it by the freezing curve, which is
// the retention curve at the suction that ice exerts (Clapeyron, 124.5 m per
// degree). Steps are implicit, a day long unless the solution needs less; a
// step is accepted when the linearised enthalpy lies on the curve within a
// tolerance, and the linear value is what is booked.
//
// Depth is positive down, flux positive down, metres, seconds, degrees C. Heat
// carried by moving water is left out.
package heat

import (
	"fmt"
	"math"

	"mottle/sim/tridiag"
	"mottle/soil"
)

// Layer is one cell: its thermal properties and the table whose retention curve
// is its freezing curve.
type Layer struct {
	Thickness float64 // m
	Thermal   *soil.Thermal
	Freezing  *soil.Table
}

// Column is the soil's heat, from the surface to a depth where the year is not
// felt. No heat passes its base.
type Column struct {
	Temperature []float64 // C
	Water       []float64 // liquid and ice, m3/m3; set by the caller
	Ice         []float64 // m3/m3 of water
	Inflow      float64   // J/m2 that entered through the surface in the last step

	layers   []Layer
	enthalpy []float64 // J/m3
	moved    []float64 // water content that enthalpy stands for
	k        []float64 // W/m/K
	link     []float64 // conductance of the edge above cell i, W/m2/K
	next     []float64 // temperature at the linearisation point
	found    []float64 // temperature after it
	value    []float64 // enthalpy there
	slope    []float64 // its slope, J/m3/K

	entered float64                                        // J/m2, in the last booked solve
	before  struct{ enthalpy, temperature, ice []float64 } // the last booked solve

	lower, diag, upper, step, scratch []float64
}

// Unsolved is the error of a step that could not be solved.
type Unsolved struct {
	Layer       int
	Temperature float64 // C
	Gap         float64 // J/m3
}

func (e *Unsolved) Error() string {
	return fmt.Sprintf("heat in layer %d (%.3g C) could not be solved: enthalpy off by %.3g J/m3", e.Layer+1, e.Temperature, e.Gap)
}

// New makes a column at one temperature, above freezing, with the given water.
func New(layers []Layer, water []float64, temperature float64) *Column {
	n := len(layers)
	if len(water) != n {
		panic("heat: one water content is needed for each layer")
	}
	f := func() []float64 { return make([]float64, n) }
	c := &Column{layers: layers, Temperature: f(), Water: f(), Ice: f(),
		enthalpy: f(), moved: f(), k: f(), link: f(), next: f(), found: f(), value: f(), slope: f(),
		lower: f(), diag: f(), upper: f(), step: f(), scratch: f()}
	c.before.enthalpy, c.before.temperature, c.before.ice = f(), f(), f()
	copy(c.Water, water)
	copy(c.moved, water)
	for i := range layers {
		c.SetTemperature(i, temperature)
	}
	return c
}

// SetTemperature sets cell i to a temperature in equilibrium with its water.
func (c *Column) SetTemperature(i int, temperature float64) {
	c.Temperature[i] = temperature
	c.moved[i] = c.Water[i]
	c.Ice[i] = c.Water[i] - c.unfrozen(i, temperature)
	c.enthalpy[i], _ = c.curve(i, temperature)
}

// unfrozen is the water of cell i that stays liquid at a temperature.
func (c *Column) unfrozen(i int, temperature float64) float64 {
	if temperature >= 0 {
		return c.Water[i]
	}
	return min(c.Water[i], c.layers[i].Freezing.Theta(soil.ClapeyronSlope*temperature))
}

// curve is enthalpy against temperature, with its slope.
func (c *Column) curve(i int, temperature float64) (e, slope float64) {
	th, w := c.layers[i].Thermal, c.Water[i]
	if temperature >= 0 {
		cap := th.Solids + th.Water*w
		return cap * temperature, cap
	}
	liquid, dl, _, _ := c.layers[i].Freezing.At(soil.ClapeyronSlope * temperature)
	if liquid >= w {
		cap := th.Solids + th.Water*w
		return cap * temperature, cap
	}
	dl *= soil.ClapeyronSlope
	ice := w - liquid
	cap := th.HeatCapacity(liquid, ice)
	return cap*temperature - soil.LatentHeat*ice,
		cap + (soil.LatentHeat+(th.Water-th.Ice)*temperature)*dl
}

// temperatureOf inverts the enthalpy curve of cell i, from a guess.
func (c *Column) temperatureOf(i int, e, guess float64) float64 {
	th, w := c.layers[i].Thermal, c.Water[i]
	if e >= 0 {
		return e / (th.Solids + th.Water*w)
	}
	const unbounded = -1e4
	high, low := 0.0, unbounded
	t := guess
	if t >= 0 {
		t = -0.05
	}
	for range 60 {
		v, slope := c.curve(i, t)
		if math.Abs(v-e) <= tolerance/20 {
			break
		}
		if v > e {
			high = t
		} else {
			low = t
		}
		t += (e - v) / slope
		if !(t > low && t < high) {
			if t = (low + high) / 2; low == unbounded {
				t = 4*high - 0.05
			}
		}
	}
	return t
}

// Surface is what lies between air and soil for a step.
type Surface struct {
	Air   float64 // C
	Snow  float64 // thermal resistance of the snow, m2 K/W; 0 for none
	Cover float64 // resistance of residue or sod, below the snow
	Film  float64 // resistance of the air at the surface
}

const (
	tolerance = 3e4 // J/m3: 1e-4 m3/m3 of ice, or about a hundredth of a degree
	// Two temperatures that differ by less drive the same flux for all purposes.
	closeEnough = 0.005 // C
	solves      = 12
	shortest    = 60.0 // s
)

// Step advances by seconds. It returns the heat that the soil gave to melt snow
// from below, J/m2.
func (c *Column) Step(seconds float64, s Surface) (groundMelt float64, err error) {
	c.bookWater()
	c.Inflow = 0
	for left, dt := seconds, seconds; left > 1e-6; {
		dt = min(dt, left)
		c.conductivities()
		melt, ok := c.advance(dt, s)
		if ok {
			groundMelt += melt
			c.Inflow += c.entered
			left -= dt
			dt *= 2
			continue
		}
		if dt /= 3; dt < shortest {
			return groundMelt, c.unsolved()
		}
	}
	return groundMelt, nil
}

// bookWater accounts for water that came or went since the last step, at the
// cell's own temperature, and for liquid that met ice.
func (c *Column) bookWater() {
	for i, w := range c.Water {
		if w == c.moved[i] {
			continue
		}
		c.enthalpy[i] += c.layers[i].Thermal.Water * (w - c.moved[i]) * max(c.Temperature[i], 0)
		c.moved[i] = w
	}
}

func (c *Column) conductivities() {
	for i := range c.layers {
		c.k[i] = c.layers[i].Thermal.Conductivity(c.Water[i]-c.Ice[i], c.Ice[i])
	}
	for i := 1; i < len(c.layers); i++ {
		c.link[i] = 1 / (c.layers[i-1].Thickness/2/c.k[i-1] + c.layers[i].Thickness/2/c.k[i])
	}
}

// advance tries one step of length dt.
func (c *Column) advance(dt float64, s Surface) (melt float64, ok bool) {
	half := c.layers[0].Thickness / 2 / c.k[0]
	if s.Snow == 0 {
		c.link[0] = 1 / (half + s.Cover + s.Film)
		return 0, c.solve(dt, s.Air)
	}
	// Under snow, whose own surface cannot pass 0 C.
	top := min(s.Air, 0)
	c.link[0] = 1 / (half + s.Cover + s.Snow + s.Film)
	if !c.solve(dt, top) {
		return 0, false
	}
	up := c.link[0] * (c.Temperature[0] - top) // W/m2 out of the soil
	if contact := top + up*(s.Snow+s.Film); contact <= 0 {
		return 0, true
	}
	// The underside of the snow would be above freezing: it is held at 0 C and
	// melts.
	c.restore()
	c.link[0] = 1 / (half + s.Cover)
	if !c.solve(dt, 0) {
		return 0, false
	}
	given := c.link[0] * c.Temperature[0]
	lost := (0 - top) / (s.Snow + s.Film)
	return max(given-lost, 0) * dt, true
}

// solve finds the temperatures after dt with the air held at the given value
// above the first link, and books them.
func (c *Column) solve(dt, air float64) bool {
	n := len(c.layers)
	copy(c.next, c.Temperature)
	for range solves {
		for i := range n {
			c.value[i], c.slope[i] = c.curve(i, c.next[i])
		}
		for i := range n {
			up, down := c.link[i], 0.0
			above := air
			if i > 0 {
				above = c.next[i-1]
				c.lower[i] = -up
			}
			flow := up * (above - c.next[i])
			if i+1 < n {
				down = c.link[i+1]
				flow -= down * (c.next[i] - c.next[i+1])
				c.upper[i] = -down
			}
			dz := c.layers[i].Thickness
			c.diag[i] = c.slope[i]*dz/dt + up + down
			c.step[i] = (c.enthalpy[i]-c.value[i])*dz/dt + flow
		}
		tridiag.Solve(c.lower, c.diag, c.upper, c.step, c.scratch)
		if c.onCurve() {
			c.entered = c.link[0] * (air - c.next[0] - c.step[0]) * dt
			for i, d := range c.step {
				c.before.enthalpy[i], c.before.temperature[i], c.before.ice[i] = c.enthalpy[i], c.Temperature[i], c.Ice[i]
				c.enthalpy[i] = c.value[i] + c.slope[i]*d
				c.Temperature[i] = c.found[i]
				c.Ice[i] = c.Water[i] - c.unfrozen(i, c.Temperature[i])
			}
			return true
		}
		// Newton in enthalpy: the heat that the linear step moved is kept and the
		// temperature follows from it. In temperature alone the iteration jumps to
		// and fro across the freezing point, where the slope changes a thousandfold.
		copy(c.next, c.found)
	}
	return false
}

// restore undoes the last booked solve.
func (c *Column) restore() {
	copy(c.enthalpy, c.before.enthalpy)
	copy(c.Temperature, c.before.temperature)
	copy(c.Ice, c.before.ice)
}

// onCurve finds the temperature that belongs to each cell's linear enthalpy and
// says whether the fluxes, which used the linear temperature, may stand: the two
// agree in heat or in temperature.
func (c *Column) onCurve() bool {
	ok := true
	for i, d := range c.step {
		t, e := c.next[i]+d, c.value[i]+c.slope[i]*d
		if v, _ := c.curve(i, t); !(math.Abs(v-e) <= tolerance) {
			exact := c.temperatureOf(i, e, c.next[i])
			ok = ok && math.Abs(exact-t) <= closeEnough
			t = exact
		}
		c.found[i] = t
	}
	return ok
}

func (c *Column) unsolved() error {
	worst, at := -1.0, 0
	for i, d := range c.step {
		e, _ := c.curve(i, c.next[i]+d)
		if gap := math.Abs(e - c.value[i] - c.slope[i]*d); gap > worst || math.IsNaN(gap) {
			worst, at = gap, i
		}
	}
	return &Unsolved{Layer: at, Temperature: c.next[at], Gap: worst}
}

// Adopt takes over the state of another column of the same layers.
func (c *Column) Adopt(o *Column) {
	copy(c.Temperature, o.Temperature)
	copy(c.Water, o.Water)
	copy(c.Ice, o.Ice)
	copy(c.enthalpy, o.enthalpy)
	copy(c.moved, o.moved)
}

// Heat is the enthalpy of the column above liquid water at 0 C, J/m2.
func (c *Column) Heat() float64 {
	sum := 0.0
	for i, e := range c.enthalpy {
		sum += e * c.layers[i].Thickness
	}
	return sum
}

// FrostDepth is the depth (m) of the 0 C isotherm below the deepest cell that
// holds ice above the given content (m3/m3), 0 when there is none.
func (c *Column) FrostDepth(limit float64) float64 {
	depth, deepest := 0.0, 0.0
	for i := range c.layers {
		bottom := depth + c.layers[i].Thickness
		if c.Ice[i] > limit {
			// Where the temperature passes 0 C on the way to the next cell.
			deepest = bottom
			if i+1 < len(c.layers) && c.Ice[i+1] <= limit {
				mid, below := depth+c.layers[i].Thickness/2, bottom+c.layers[i+1].Thickness/2
				if ti, tj := c.Temperature[i], c.Temperature[i+1]; tj > ti && ti < 0 && tj > 0 {
					deepest = mid + (below-mid)*(-ti)/(tj-ti)
				}
			}
		}
		depth = bottom
	}
	return deepest
}
