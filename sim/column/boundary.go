package column

import "math"

// Surface is the top of the column: water arrives as rain, stands as a pond up
// to Store, and runs off beyond. Arrival below zero is evaporation.
type Surface struct {
	Store          float64 // depth that stands before water runs off, m
	CrustThickness float64 // m; 0 for no crust
	CrustK         float64 // conductivity of the crust, m/s
	HeldHead       float64 // a head held at the surface, m; NaN for rain and pond
	Driest         float64 // head to which evaporation dries the surface at most, m; 0 for no limit
}

// BaseKind says what happens at the base of the column.
type BaseKind int

// The bases.
const (
	BaseRegional BaseKind = iota // two-way exchange with an outside water level through a resistance
	BaseClosed                   // no flow
	BaseSeepage                  // a constant outflow, while there is water to leave
	BaseGravity                  // outflow at unit gradient
	BaseHead                     // a held pressure head
)

// Base is the lower boundary.
type Base struct {
	Kind       BaseKind
	Level      float64 // regional: depth of the outside water level, m
	Resistance float64 // regional: s
	Flux       float64 // seepage: m/s, out of the column
	Head       float64 // held: pressure head at the base, m
}

// denseSuction (m) is the most by which a dry base draws on the outside water: at
// greater suction the dense layer itself loses its water and conducts little
// (assumption). Without it a shallow soil over a deep outside level never ran dry.
const denseSuction = 1.0

// surfaceState is how the top boundary behaves within a step.
type surfaceState int

const (
	surfaceOpen     surfaceState = iota // all water enters
	surfacePonded                       // water stands, below the store
	surfaceSpilling                     // the store is full, the rest runs off
	surfaceDry                          // at Driest, the soil yields less than is asked for
)

// infiltration gives the flux into cell 0 and its slope with the head there,
// for water arriving at rate supply onto a pond of depth pond over a step dt.
func (c *Column) infiltration(state surfaceState, h, k, dk, supply, dt float64) (q, dq float64) {
	if !math.IsNaN(c.Surface.HeldHead) {
		return c.heldSurface(c.Surface.HeldHead, h, k, dk)
	}
	switch state {
	case surfaceOpen:
		return supply + c.Pond/dt, 0
	case surfaceDry:
		return c.drying(h, k, dk)
	}
	resistance, drain := c.surfaceResistance(k, dk)
	drive := c.Grid.Dz[0]/2 + c.Surface.CrustThickness - h
	if state == surfaceSpilling {
		q = (c.Surface.Store + drive) / resistance
		return q, (-1 - q*drain) / resistance
	}
	// Ponded: the pond falls as the water enters, pond' = pond + dt (supply - q).
	q = (c.Pond + dt*supply + drive) / (resistance + dt)
	return q, (-1 - q*drain) / (resistance + dt)
}

// heldSurface is the flux from a surface at head hs into the top cell, with its
// slope.
func (c *Column) heldSurface(hs, h, k, dk float64) (q, dq float64) {
	half := c.Grid.Dz[0] / 2
	_, _, ks, _ := c.soils[0].At(hs)
	km := (k + ks) / 2 * c.block[0]
	g := (hs-h)/half + 1
	return km * g, dk/2*c.block[0]*g - km/half
}

// drying is the flux (at most 0) from the top cell to a surface at its driest:
// soil that is drier still yields nothing.
func (c *Column) drying(h, k, dk float64) (q, dq float64) {
	if q, dq = c.heldSurface(c.Surface.Driest, h, k, dk); q > 0 {
		return 0, 0
	}
	return q, dq
}

// outruns says whether evaporation (m/s) asks for more than a top cell at head h
// yields to a surface at its driest.
func (c *Column) outruns(evaporation, h, k, dk float64) bool {
	if c.Surface.Driest == 0 || evaporation <= 0 {
		return false
	}
	q, _ := c.drying(h, k, dk)
	return evaporation > -q
}

// surfaceResistance is that of crust and half of the top cell under a wet
// surface, s, with its slope against the head in the cell.
func (c *Column) surfaceResistance(k, dk float64) (r, dr float64) {
	half := c.Grid.Dz[0] / 2
	km := (k + c.soils[0].Ksat) / 2 * c.block[0]
	r = half / km
	dr = -r / km * (dk / 2 * c.block[0])
	if c.Surface.CrustThickness > 0 {
		r += c.Surface.CrustThickness / (c.Surface.CrustK * c.block[0])
	}
	return r, dr
}

// baseFlux gives the flux out of the last cell and its slope with the head
// there.
func (c *Column) baseFlux(h, k, dk float64) (q, dq float64) {
	n := len(c.H) - 1
	half := c.Grid.Dz[n] / 2
	switch c.Base.Kind {
	case BaseRegional:
		r := c.Base.Resistance + half/(c.soils[n].Ksat*c.block[n])
		// Pressure at the base is h+half; the outside level gives depth-Level.
		// Booked nearly at mid-step, as a drain's flow is: the step's end alone
		// lost 1.3 % of the seepage of a falling table to daily steps.
		h = (1-late)*c.H[n] + late*h
		if h+half < -denseSuction {
			return (-denseSuction - (c.Grid.Depth() - c.Base.Level)) / r, 0
		}
		return (h + half - (c.Grid.Depth() - c.Base.Level)) / r, late / r
	case BaseSeepage:
		// A dry base yields no more than gravity brings.
		if kb := k * c.block[n]; kb < c.Base.Flux {
			return kb, dk * c.block[n]
		}
		return c.Base.Flux, 0
	case BaseGravity:
		return k * c.block[n], dk * c.block[n]
	case BaseHead:
		_, _, kb, _ := c.soils[n].At(c.Base.Head)
		km := (k + kb) / 2 * c.block[n]
		g := (h-c.Base.Head)/half + 1
		return km * g, dk/2*c.block[n]*g + km/half
	}
	return 0, 0
}
