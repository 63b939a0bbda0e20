// Package drain holds the formulas of parallel pipe drains: how much water
// they take from a soil with a given water table, how fast the table falls
// between them, what the pipe itself can carry, and where a control weir holds
// the outlet.
//
// Everything is a pure function of its arguments in SI units: m, s, m/s, m3/s;
// a flux in m/s is a volume per drained area. Depths are positive downward
// from the ground surface, heads positive upward from the drain. A formula
// given an argument outside its stated range returns NaN; it never bends the
// argument to fit.
//
// A drain discharges at the least of three rates: the flow through the soil
// under the present water table ([Hooghoudt]), or under a ponded surface
// ([KirkhamPonded]), and what pipe and outlet carry ([Capacity]).
package drain

// positive reports whether every x is above zero (+Inf included, NaN not).
func positive(xs ...float64) bool {
	for _, x := range xs {
		if !(x > 0) {
			return false
		}
	}
	return true
}
