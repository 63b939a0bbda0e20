package weather

import "math"

// NeighbourSkill says how well a neighbour tells what a station would have read.
type NeighbourSkill struct {
	Station  Station // the neighbour
	Elements []ElementSkill
}

// ElementSkill compares estimates with readings on days that both stations know,
// each calendar month of a year estimated without the common days of that month of
// that year. Numbers are NaN where there are no days.
type ElementSkill struct {
	Element, Unit string
	Days          int     // days compared
	Bias          float64 // mean of estimate less reading
	MAE           float64 // mean absolute error
	Correlation   float64 // of estimates with readings, by day
}

// skill leaves out one month after the other.
func (p pair) skill(overlap [13]common) ElementSkill {
	out := ElementSkill{Element: p.name, Unit: p.unit}
	var estimates, readings []float64
	for i := 0; i < len(p.values); {
		m, first := p.month(i), i
		var own common
		for i < len(p.values) && p.month(i) == m {
			if p.known(i) {
				own.plus(p.values[i], p.neighbour[i])
			}
			i++
		}
		rest := overlap[m].less(own)
		for j := first; j < i; j++ {
			if v, ok := p.estimate(p.neighbour[j], rest); ok && p.known(j) {
				estimates, readings = append(estimates, v), append(readings, p.values[j])
			}
		}
	}
	out.Days = len(readings)
	absolute := 0.0
	for i, v := range estimates {
		absolute += math.Abs(v - readings[i])
	}
	meanE, sdE := meanAndSpread(estimates)
	meanR, sdR := meanAndSpread(readings)
	product := 0.0
	for i, v := range estimates {
		product += (v - meanE) * (readings[i] - meanR)
	}
	n := float64(out.Days)
	out.Bias, out.MAE, out.Correlation = meanE-meanR, absolute/n, product/n/(sdE*sdR)
	return out
}

// Overlap compares two records on the days that both know.
type Overlap struct {
	First, Last Date // of the calendar days in both; First after Last without one
	Elements    []OverlapElement
}

// OverlapElement is one element of an overlap. Numbers are NaN without common days.
type OverlapElement struct {
	Element, Unit string
	Days          int     // known to both
	Difference    float64 // mean of the first record less the second
	Ratio         float64 // of the totals, first to second
	Correlation   float64 // by day
}

// Compare lines up two records and compares them, first less second.
func Compare(a, b *Series) Overlap {
	o := Overlap{First: max(a.Start, b.Start), Last: min(a.Last(), b.Last())}
	for _, p := range pairs(a, b) {
		var here, there []float64
		for i := range p.values {
			if p.known(i) {
				here, there = append(here, p.values[i]), append(there, p.neighbour[i])
			}
		}
		meanA, sdA := meanAndSpread(here)
		meanB, sdB := meanAndSpread(there)
		product := 0.0
		for i := range here {
			product += (here[i] - meanA) * (there[i] - meanB)
		}
		o.Elements = append(o.Elements, OverlapElement{p.name, p.unit, len(here), meanA - meanB, meanA / meanB, product / float64(len(here)) / (sdA * sdB)})
	}
	return o
}
