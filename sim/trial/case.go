package trial

import (
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// Case is a column with everything that acts on it.
type Case struct {
	Title    string
	Horizons []Horizon
	Grid     column.Grid
	Initial  Initial
	Standing float64  // depth of water that stands before it runs off, m
	Top      []Period // in order of time, the last without end
	Base     column.Base
	Drain    *Drain    // nil for none
	Times    []float64 // at which the state is wanted, s, rising
}

// Horizon is one layer.
type Horizon struct {
	Bottom  float64   // m
	Form    soil.Form // its water
	Sand    float64   // percent, for heat
	Organic float64   // percent, for heat
	ThetaR  float64   // residual and saturated water content, m3/m3
	ThetaS  float64
	ECe     float64 // salinity of the saturation extract at the start, dS/m
}

// Initial is the state at the start: one of a water table, a head, a water
// content, or a list of heads by depth. The others are NaN or nil.
type Initial struct {
	WaterTable  float64 // depth, m, hydrostatic above and below
	Head        float64 // m, everywhere
	Water       float64 // m3/m3, everywhere
	Depths      []float64
	Heads       []float64 // m, linear between the depths
	Temperature float64   // C, everywhere; NaN for a case without heat and frost
}

// head is the pressure head (m) at a depth, for a soil of the given table.
func (i Initial) head(z float64, t *soil.Table) float64 {
	switch {
	case !math.IsNaN(i.WaterTable):
		return z - i.WaterTable
	case !math.IsNaN(i.Head):
		return i.Head
	case !math.IsNaN(i.Water):
		return t.Head(i.Water)
	}
	k := 1
	for k < len(i.Depths)-1 && z > i.Depths[k] {
		k++
	}
	share := (z - i.Depths[k-1]) / (i.Depths[k] - i.Depths[k-1])
	share = math.Max(0, math.Min(1, share))
	return i.Heads[k-1] + (i.Heads[k]-i.Heads[k-1])*share
}

// Period is what the surface meets until a time.
type Period struct {
	Until   float64 // s; +Inf for the last
	Supply  float64 // rain, m/s; negative for evaporation
	Head    float64 // held at the surface, m; NaN for rain or evaporation
	Driest  float64 // head to which evaporation dries the surface at most, m; 0 for no limit
	Surface float64 // its temperature, C; NaN without frost
}

// Drain is a parallel drain.
type Drain struct {
	Depth, Spacing, Radius float64 // m
}
