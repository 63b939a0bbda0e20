package salt

import "math"

// Class is a salinity class of soil. Authors' names differ by one step of the
// scale, so a class is best shown by its limits.
type Class struct {
	From, Below float64 // ECe, dS/m; Below is +Inf for the last
	Name        string  // of the Soil Survey Manual (from memory)
	Meaning     string
}

// Limits of Handbook 60 (Richards 1954).
var classes = [...]Class{
	{0, 2, "non-saline", "effects are mostly negligible"},
	{2, 4, "very slightly saline", "yields of very sensitive crops are restricted"},
	{4, 8, "slightly saline", "yields of many crops are restricted"},
	{8, 16, "moderately saline", "only tolerant crops yield well"},
	{16, math.Inf(1), "strongly saline", "only a few very tolerant crops yield well"},
}

// ClassOf is the class of an ECe (dS/m). Below 0 and for NaN it is the zero Class.
func ClassOf(ece float64) Class {
	for _, c := range classes {
		if ece >= c.From && ece < c.Below {
			return c
		}
	}
	return Class{}
}
