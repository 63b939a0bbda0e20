package worth

import (
	"mottle/sim/compare"
	"mottle/sim/money"
	"mottle/sim/site"
)

// Result is the decision with everything that it rests on.
type Result struct {
	Field   *site.Field // with its Farm: prices, yields and costs
	Compare *compare.Result
	Years   []int

	AsItLies, WithTile []Season  // by year
	Income             []float64 // extra income of each year of the record, USD/ha
	Bill               money.Bill
	Upkeep             money.Bill // of a mean year
	Money              Money
	Trials             []Trial  // gains that were weighed elsewhere, at this field's prices
	Futures            *Futures // nil while they are not yet drawn

	Map         *Map
	Outlets     []Outlet
	Others      []Alternative
	Controlled  Controlled
	LateralWay  float64 // distance to which a line lowers the table, m: a screening figure
	Questions   []Question
	Cautions    []Caution
	Assumptions []site.Assumption

	screened *screened // made when first asked for
}

// Money is the central answer: mean prices, the record's own years.
type Money struct {
	Outlay         float64 // USD for the drained area
	PerArea        float64 // USD/ha
	Income         float64 // mean extra income, USD/ha a year
	YearlyCost     float64 // outlay and upkeep spread evenly, USD/ha a year
	NPV            float64 // USD/ha
	Rate           float64 // internal rate of return; NaN where none, or several, exist
	RateWhy        string  // why there is none
	Simple         money.Payback
	Discounted     money.Payback
	BreakEvenGain  float64 // t/ha of the first crop, every year; +Inf where none pays
	BreakEvenPrice float64 // USD/t of the first crop, the others' income held; +Inf where none pays
	DoingNothing   float64 // lost each year to wetness and late planting, USD/ha
}

// Futures are resampled decisions: years in blocks, prices, costs and soils drawn
// from their ranges.
type Futures struct {
	Draws  int
	Seed   uint64
	NPV    []float64 // USD/ha, ascending
	Pays   []Chance  // within some years
	Fan    []FanYear // running discounted sum by year
	Inputs []Swing   // what moves the NPV, largest first
}

// Chance is the share of futures in which the tile has paid back within some years.
type Chance struct {
	Within int
	Share  float64 // 0-1
}

// FanYear is the running discounted sum at the end of a year, USD/ha, at quantiles.
type FanYear struct {
	Year                       int
	Q05, Q25, Median, Q75, Q95 float64
}

// Swing is the NPV's median in the lower and in the upper third of an input's draws.
type Swing struct {
	Input     string
	Low, High float64 // USD/ha
}

// Map is the worth of designs over depth and spacing, in screening precision.
type Map struct {
	Depths, Spacings []float64   // m
	NPV              [][]float64 // USD/ha, by depth and spacing
	Saturated        [][]float64 // days a year with tile
	Best             Design
	Flat             []Design // designs within a tenth of the outlay of the best
	Step             string   // how far the map may be trusted, in words
}

// Design is a place on the map.
type Design struct {
	Depth, Spacing float64 // m
	NPV            float64 // USD/ha
	Saturated      float64 // days a year
}

// Outlet is what a drainage coefficient means for the design.
type Outlet struct {
	Coefficient float64 // m/s; +Inf for no limit
	Saturated   float64 // days a year
	Drain       float64 // mm a year
	Peak        float64 // mm/h, mean of yearly largest
	NPV         float64 // USD/ha, with the mains that it takes; NaN where none are listed
	Main        float64 // least trade diameter that carries it off the drained area at the main's grade, m; NaN when not known
}

// Alternative to tile.
type Alternative struct {
	Name       string
	How        string  // what was changed in the run
	Saturated  float64 // days a year
	Income     float64 // extra, USD/ha a year, against the field as it lies
	WorthUpTo  float64 // outlay that it would pay back over the life, USD/ha
	Runoff     float64 // mm a year
	Considered bool    // the field has what it changes
}

// Controlled drainage: the same tile behind a weir by calendar.
type Controlled struct {
	Calendar  string
	Drain     float64      // mm a year less than free drainage
	Saturated float64      // days a year more
	Income    float64      // USD/ha a year against free drainage
	Nitrate   money.Spread // kg N/ha a year kept from the ditch, over published concentrations
}

// Verdict is the answer to a question.
type Verdict string

// The verdicts.
const (
	Yes     Verdict = "yes"
	No      Verdict = "no"
	Depends Verdict = "depends"
	Unknown Verdict = "can't say"
)

// Question is one that people ask, answered from this field's own numbers.
type Question struct {
	Ask       string
	Verdict   Verdict
	Answer    string  // a sentence with its numbers
	Measure   string  // of compare that it rests on; "" where it rests on something else
	Low, High float64 // 90 % interval of the figure it rests on
	Unit      string
	Why       string
}

// Caution follows from the inputs and results.
type Caution struct {
	Topic, Text, Rule string
	Strong            bool // this field calls for it in particular
}
