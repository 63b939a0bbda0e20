// Package site is the field as a person describes it: where it lies, its soil,
// surface, surroundings, drains and crop, with a default and its reason for
// everything that was left out; and what its farm is worth. It reads the field file and holds the demo.
package site

import (
	"math"
	"slices"

	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/snow"
	"mottle/soil"
	"mottle/weather"
)

// Field is one field, SI throughout (m, s, m/s, dS/m, degrees).
type Field struct {
	Name     string
	Place    string
	Invented bool // the demo and whatever else is made up

	Latitude  float64 // degrees; NaN: taken from the weather file
	Elevation float64 // m; NaN: taken from the weather file
	ReadHour  float64 // local hour at which rain is read, 24 midnight; NaN: from the weather file

	Horizons    []soil.Horizon
	Restrictive float64 // depth of the dense layer that ends the column, m
	Conductance float64 // factor on every conductivity, 1 as derived
	Anisotropy  float64 // lateral over vertical conductivity

	Surface Surface
	Base    Base
	Runon   *Runon // nil: none
	Ditch   *Ditch // nil: none; slow lateral outflow that the field has by nature
	Old     *Tile  // tile that the field has already; nil: none
	Tile    *Tile  // the tile to be judged; nil: none

	Rotation []crop.Kind // by year, repeated; never empty
	ET       weather.ETChoice
	Storms   Storms

	RainEC  float64 // dS/m
	Assumed []Assumption

	Farm Farm
}

// Surface is what lies on the ground.
type Surface struct {
	Storage  float64 // depth of water that stands before it runs off, m
	CrustK   float64 // conductivity of a crust, m/s; +Inf for none
	Residue  float64 // share of the ground under crop residue, 0-1
	Exposure snow.Exposure
}

// Outside says what the field's ground water is connected to.
type Outside int

// The bases.
const (
	Regional Outside = iota // a water level outside, through a resistance, both ways
	Seepage                 // a constant loss downwards
	Closed                  // nothing
)

// Base is the lower boundary, the same for both twins.
type Base struct {
	Kind       Outside
	Level      float64 // regional: depth of the outside water level, m
	Resistance float64 // regional: s
	Flux       float64 // seepage: m/s downwards
	EC         float64 // salinity of ground water that comes in, dS/m
}

// Runon is surface water from land above a wet spot.
type Runon struct {
	Ratio    float64 // area above over area of the field
	Horizons []soil.Horizon
	Storage  float64 // m
	Level    float64 // depth of the outside water level under that land, m
}

// Ditch is a natural or dug outlet at a distance, slow lateral drainage that
// both twins keep.
type Ditch struct {
	Depth    float64 // of its water level, m
	Distance float64 // from the middle of the field, m
}

// Tile is a system of parallel laterals.
type Tile struct {
	Depth       float64 // to the pipe's centre, m
	Spacing     float64 // m; +Inf for none
	Diameter    float64 // nominal inside diameter, m
	Wrap        drain.Wrap
	Coefficient float64 // drainage coefficient that the outlet was sized for, m/s; +Inf for no limit
	OutletWater float64 // depth of the water level at the outlet, m; +Inf for a free outlet
	Weir        drain.WeirSchedule
}

// Storms says how daily rain is spread over hours.
type Storms struct {
	Seed uint64
	Draw int
}

// Assumption is an input that nobody gave, with what stands in for it.
type Assumption struct {
	Key    string `json:"key"`
	Value  string `json:"value"`
	Reason string `json:"reason"`
}

// Given says whether the user stated a key of the field file.
func (f *Field) Given(key string) bool {
	assumed := func(a Assumption) bool { return a.Key == key }
	return !slices.ContainsFunc(f.Assumed, assumed) && !slices.ContainsFunc(f.Farm.Assumed, assumed)
}

// Unknown is the value of a number that is to come from elsewhere.
var Unknown = math.NaN()
