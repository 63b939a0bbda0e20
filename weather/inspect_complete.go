package weather

import (
	"math"
	"slices"
)

// Completeness is the share of calendar days with a value, by year. The first and
// last year count only the days of the record.
type Completeness struct {
	Element string
	Share   []float64 // 0 to 1, one for each year of the record
	Days    int       // with a value, all years
}

func completeness(s *Series) []Completeness {
	var list []Completeness
	spans := yearSpans(s)
	for _, e := range elementsPresent(s) {
		c := Completeness{Element: e.name}
		for _, y := range spans {
			known := 0
			for _, v := range e.values[y.first:y.end] {
				if !math.IsNaN(v) {
					known++
				}
			}
			c.Share = append(c.Share, float64(known)/float64(y.end-y.first))
			c.Days += known
		}
		list = append(list, c)
	}
	return list
}

// Extreme is the largest or smallest value of an element.
type Extreme struct {
	Element string
	Highest bool
	Value   float64
	Unit    string // SI, as the series has it
	Date    Date   // of the first day with this value
	Times   int    // days with this value
}

func extremes(s *Series) []Extreme {
	var list []Extreme
	for _, e := range elementsPresent(s) {
		for _, highest := range []bool{false, true} {
			lowestTold := e.name == "Tmin" || e.name == "Tmax"
			if !highest && !lowestTold {
				continue // zero, or nearly
			}
			x := Extreme{Element: e.name, Highest: highest, Unit: e.unit, Value: math.NaN()}
			for i, v := range e.values {
				switch {
				case v == x.Value:
					x.Times++
				case v > x.Value && highest, v < x.Value && !highest, math.IsNaN(x.Value) && !math.IsNaN(v):
					x.Value, x.Date, x.Times = v, s.Date(i), 1
				}
			}
			if x.Times > 0 {
				list = append(list, x)
			}
		}
	}
	return list
}

// Gap is a run of days on which an element that is needed is missing.
type Gap struct {
	Element string
	First   Date
	Days    int
}

// longestFirst lists the gaps of Tmin, Tmax and precipitation by length, those of
// one length by date.
func longestFirst(s *Series) []Gap {
	var list []Gap
	for _, e := range elementsPresent(s)[:3] {
		for _, g := range gaps(e.name, e.values) {
			list = append(list, Gap{g.element, s.Date(g.first), g.days})
		}
	}
	slices.SortStableFunc(list, func(a, b Gap) int {
		if a.Days != b.Days {
			return b.Days - a.Days
		}
		return int(a.First - b.First)
	})
	return list
}
