package weather

import (
	"fmt"
	"math"
)

// limit is the range within which a daily value can be true.
type limit struct {
	lo, hi float64
	unit   string
}

// within tells whether a value lies in the range; NaN does not.
func (l limit) within(v float64) bool { return v >= l.lo && v <= l.hi }

// The ranges are common practice, a little wider than the records of inhabited
// places, so that what falls outside is a slip or another unit.
var (
	temperatureLimit = limit{-60, 55, "C"}
	precipLimit      = limit{0, 500, "mm/d"}
	solarLimit       = limit{0, 50, "MJ/m2/d"}
	vapourLimit      = limit{0, 7, "kPa"}
	windLimit        = limit{0, 60, "m/s"}
	snowDepthLimit   = limit{0, 12, "m"}
)

// Years outside these are taken for a slip.
const firstYear, lastYear = 1700, 2200

// dateAllowed is what a date column may hold.
var dateAllowed = fmt.Sprintf("a day from %d to %d written as 2006-01-02", firstYear, lastYear)

// yearAllowed tells whether a year is within what dateAllowed says.
func yearAllowed(year int) bool { return year >= firstYear && year <= lastYear }

// coordinate reads a position of a station, NaN when blank.
func coordinate(f *faults, line int, column, text string, largest float64) float64 {
	if text == "" {
		return math.NaN()
	}
	v, ok := number(text)
	if !ok || math.Abs(v) > largest {
		f.add(Fault{Line: line, Column: column, Found: text, Allowed: fmt.Sprintf("a number from %v to %v", -largest, largest)})
	}
	return v
}
