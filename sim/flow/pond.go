package flow

import (
	"fmt"
	"math"
)

const gravity = 9.80665 // m/s2

// Orifice is the flow (m3/s) through an opening of area (m2) under a head (m) above
// its middle: C A sqrt(2 g h), C about 0.6 for a sharp edge (Chow, Maidment and Mays
// 1988, table 8.2.1; from memory).
func Orifice(coefficient, area, head float64) float64 {
	return coefficient * area * math.Sqrt(2*gravity*math.Max(head, 0))
}

// Crest is the flow (m3/s) over a broad crest of length (m) under a head (m):
// (2/3)^1.5 g^0.5 L h^1.5, critical flow on the crest, 1.705 L h^1.5.
func Crest(length, head float64) float64 {
	return math.Pow(2./3, 1.5) * math.Sqrt(gravity) * length * math.Pow(math.Max(head, 0), 1.5)
}

// NewPond makes the store of a pond whose surface is level: for depths (m) rising from
// 0 its area (m2) and its outflow (m3/s); storage is the trapezoid of the area. Above
// the last depth it spills over its bank.
func NewPond(depths, areas, outflows []float64, dt float64) (*Store, error) {
	if len(areas) != len(depths) || len(outflows) != len(depths) {
		return nil, fmt.Errorf("pond: found %d depths, %d areas and %d outflows, wanted as many of each", len(depths), len(areas), len(outflows))
	}
	levels := make([]Level, len(depths))
	for i := range depths {
		levels[i].Outflow = outflows[i]
		if i > 0 {
			levels[i].Storage = levels[i-1].Storage + (depths[i]-depths[i-1])*(areas[i]+areas[i-1])/2
		}
	}
	return NewStore(levels, dt)
}
