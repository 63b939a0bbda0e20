package weather

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// gap is a run of days on which an element is missing.
type gap struct {
	element     string
	first, days int
}

// gaps lists the runs of missing values in order.
func gaps(element string, values []float64) []gap {
	var out []gap
	for i := 0; i < len(values); i++ {
		if !math.IsNaN(values[i]) {
			continue
		}
		first := i
		for i < len(values) && math.IsNaN(values[i]) {
			i++
		}
		out = append(out, gap{element, first, i - first})
	}
	return out
}

// borrow fills a gap from the nearest year that has all its days in every source:
// a gap within ShortGap in one piece, so that a spell stays whole, a longer one by
// calendar months. set copies the value of day from to day i.
func (f *filler) borrow(g gap, set func(i, from int), sources ...[]float64) {
	pieces := []gap{g}
	if g.days > f.rule.ShortGap {
		pieces = f.byMonth(g)
	}
	for _, p := range pieces {
		from, ok := f.donor(p, sources...)
		if !ok {
			f.lost++
			if f.lost > gapsListed {
				continue
			}
			f.errs = append(f.errs, fmt.Errorf("fill weather: %s from %v, %d days: no other year has these days: enter the values by hand or choose another station",
				p.element, f.s.Date(p.first), p.days))
			continue
		}
		for k := range p.days {
			set(p.first+k, from+k)
		}
		f.note(p, fmt.Sprintf("values from %v onwards", f.s.Date(from)))
	}
}

// byMonth cuts a gap at the ends of calendar months.
func (f *filler) byMonth(g gap) []gap {
	var out []gap
	for g.days > 0 {
		y, m, d := f.s.Date(g.first).Civil()
		n := min(g.days, monthDays(y, m)-d+1)
		out = append(out, gap{g.element, g.first, n})
		g.first, g.days = g.first+n, g.days-n
	}
	return out
}

// donor returns the day from which the gap can be copied: the same calendar day as
// its first, in the nearest year in which all sources have all its days, the
// earlier of two. Days run on from the first, so none is used twice around 29
// February.
func (f *filler) donor(g gap, sources ...[]float64) (from int, ok bool) {
	year, month, day := f.s.Date(g.first).Civil()
	span := f.s.Last().Year() - f.s.Start.Year()
	for away := 1; away <= span; away++ {
		for _, y := range [...]int{year - away, year + away} {
			from := int(NewDate(y, month, day) - f.s.Start)
			if from >= 0 && from+g.days <= f.s.Days() && allKnown(from, g.days, sources) {
				return from, true
			}
		}
	}
	return 0, false
}

// allKnown tells whether every source has every day of the run.
func allKnown(first, days int, sources [][]float64) bool {
	for _, values := range sources {
		if slices.ContainsFunc(values[first:first+days], math.IsNaN) {
			return false
		}
	}
	return true
}

// gapsListed is how many gaps an error names of the first and of the longest.
const gapsListed = 5

// tooLong is the error of gaps longer than ShortGap, nil without one.
func (f *filler) tooLong() error {
	if len(f.long) == 0 {
		return nil
	}
	var errs []error
	list := func(title string, gaps []gap) {
		for _, g := range gaps[:min(gapsListed, len(gaps))] {
			errs = append(errs, fmt.Errorf("  %s: %s from %v, %d days", title, g.element, f.s.Date(g.first), g.days))
		}
	}
	slices.SortStableFunc(f.long, func(a, b gap) int { return a.first - b.first })
	list("first", f.long)
	byLength := slices.Clone(f.long)
	slices.SortStableFunc(byLength, func(a, b gap) int { return b.days - a.days })
	if len(f.long) > gapsListed {
		list("longest", byLength)
	}
	head := fmt.Errorf("fill weather: %d gaps are longer than %d days: choose other years or another station, or allow long gaps, which then take the values of the nearest year", len(f.long), f.rule.ShortGap)
	return errors.Join(append([]error{head}, errs...)...)
}
