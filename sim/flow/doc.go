// Package flow holds formulas for water that leaves a piece of land: the curve
// number's runoff from a storm, how long land takes to answer, and how a flow is
// stretched and flattened on its way to an outlet.
//
// The column does not use the curve number: it infiltrates by physics. The number
// says what decades of gauged fields would have led one to expect, so that the
// column's runoff can be held against it.
//
// Every router ([Hydrograph], [Store], [Cascade], [Muskingum]) takes the inflow of a
// step and gives the outflow of that step, and its storage changes by exactly their
// difference times the step. A step allocates nothing. SI throughout: m, s, m3/s;
// slopes in m/m.
package flow

// Router is a piece of the way to the outlet that steps through time.
type Router interface {
	// Step takes the inflow (m3/s) of one step and returns its outflow (m3/s).
	Step(inflow float64) float64
	// Storage is the water (m3) taken in and not yet let out.
	Storage() float64
}
