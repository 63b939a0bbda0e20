package weather

import "math"

// Shift is a jump in how often it rains, which is more often a change of observer,
// gauge or rule of writing down small amounts than of climate.
type Shift struct {
	Year          int     // the first year after it
	Before, After float64 // wet days a year of 365 days known
	P             float64 // chance of a jump as large without one (Pettitt 1979)
}

// A shift is told with this much of a change; common practice.
const (
	shiftChance = 0.01
	shiftRatio  = 1.2
	shiftYears  = 10 // fewest years
	shiftKnown  = 300
)

// WetDayShift looks for the year at which the number of days with measurable
// precipitation jumps, by the test of Pettitt (1979, Appl. Stat. 28:126):
// K = max |sum over i <= k < j of sign(xi - xj)|, p = 2 exp(-6 K^2/(n^3 + n^2)).
// It returns nil without a jump of a fifth that is sure to 1 in 100.
func WetDayShift(s *Series) *Shift {
	var years []int
	var wet []float64
	for _, y := range yearSpans(s) {
		days, known := 0.0, 0.0
		for _, v := range s.Precip[y.first:y.end] {
			if !math.IsNaN(v) {
				known++
				if v > 0 {
					days++
				}
			}
		}
		if known >= shiftKnown {
			years, wet = append(years, y.year), append(wet, 365*days/known)
		}
	}
	n := float64(len(wet))
	if n < shiftYears {
		return nil
	}
	at, most := 0, 0.0
	for k := 1; k < len(wet); k++ {
		u := 0.0
		for _, a := range wet[:k] {
			for _, b := range wet[k:] {
				switch {
				case a > b:
					u++
				case a < b:
					u--
				}
			}
		}
		if math.Abs(u) > most {
			at, most = k, math.Abs(u)
		}
	}
	p := math.Min(1, 2*math.Exp(-6*most*most/(n*n*n+n*n)))
	before, _ := meanAndSpread(wet[:at])
	after, _ := meanAndSpread(wet[at:])
	if !(p < shiftChance) || math.Max(before/after, after/before) < shiftRatio {
		return nil
	}
	return &Shift{years[at], before, after, p}
}
