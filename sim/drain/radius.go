package drain

import (
	"fmt"
	"math"
)

// Wrap says what surrounds the wall of a drain tube.
type Wrap int

const (
	// Bare is tube with its standard openings against the soil.
	Bare Wrap = iota
	// Sock is tube in a thin fabric envelope. Water reaches the openings along
	// the fabric, so the whole wall takes water in: the upper limit of what a
	// clean sock does (common practice; a clogged one does less than bare tube).
	Sock
)

// tube is a row of the table of corrugated drain tube.
type tube struct {
	low, high float64 // nominal diameter, metric size to inch size, m
	outside   float64 // outside diameter, m
	effective float64 // effective radius with standard openings, m
}

// Skaggs 1978; Mohammad & Skaggs 1983, from memory; 100 mm is well attested,
// 75 and 125 mm less so, 150 mm of low confidence.
var tubes = [...]tube{
	{0.075, 0.0762, 0.089, 0.0035},
	{0.100, 0.1016, 0.114, 0.0051},
	{0.125, 0.1270, 0.140, 0.0103},
	{0.150, 0.1524, 0.175, 0.0148},
}

// EffectiveRadius returns the radius, m, of the fully open drain that takes in
// water as easily as corrugated tube of the nominal diameter (m) does through
// its openings, and the tube's outside diameter, m. It stands in place of an entrance loss
// alpha q L/K with alpha = ln(outside radius/effective)/(2 pi): use one or the
// other. Sizes are 75, 100, 125 and 150 mm (or 3, 4, 5 and 6 in), linear
// between; any other is an error, to be met by stating a radius of one's own.
func EffectiveRadius(nominalDiameter float64, w Wrap) (effective, outside float64, err error) {
	if w != Bare && w != Sock {
		return 0, 0, fmt.Errorf("drain: wrap %d unknown, allowed Bare or Sock", w)
	}
	first, last := tubes[0], tubes[len(tubes)-1]
	if !(nominalDiameter >= first.low && nominalDiameter <= last.high) {
		return 0, 0, fmt.Errorf("drain: no effective radius known for %.4g mm tube, allowed %g-%g mm: state the effective radius itself",
			nominalDiameter*1e3, first.low*1e3, last.high*1e3)
	}
	effective, outside = first.effective, first.outside
	for i, b := range tubes[1:] {
		a := tubes[i]
		share := math.Min(1, math.Max(0, (nominalDiameter-a.high)/(b.low-a.high)))
		effective += share * (b.effective - a.effective)
		outside += share * (b.outside - a.outside)
	}
	if w == Sock {
		effective = outside / 2
	}
	return effective, outside, nil
}
