package weather

import (
	"fmt"
	"math"
	"slices"
)

// multiDay is precipitation read once for several days (GHCN-Daily MDPR, DAPR).
type multiDay struct {
	end  Date
	days float64 // NaN when the number of days is not given
	mm   float64
}

// longestSpan is the most days a total is spread over; common practice, longer
// ones say nothing about any day.
const longestSpan = 60

// spreadTotals shares each total evenly among the days that end on its date and
// marks them. A total is left out, and a note says why, when one of its days
// already has a reading of its own, when it overlaps another total, or when its
// number of days is not known. Days before the record begins take their share
// with them.
func spreadTotals(s *Series, totals []multiDay) (notes []string) {
	slices.SortStableFunc(totals, func(a, b multiDay) int { return int(a.end - b.end) })
	for k, t := range totals {
		if k > 0 && t == totals[k-1] {
			continue // the row itself is a repeat
		}
		leave := func(why string) {
			notes = append(notes, fmt.Sprintf("total of %.1f mm read on %v was left out: %s", t.mm, t.end, why))
		}
		if !(t.days >= 1 && t.days <= longestSpan) {
			leave(fmt.Sprintf("the number of days is not known or not within 1 to %d", longestSpan))
			continue
		}
		share := t.mm / t.days
		if !precipLimit.within(share) {
			leave("the amount cannot be true")
			continue
		}
		last := int(t.end - s.Start)
		first := max(0, last-int(t.days)+1)
		why := ""
		for i := first; i <= last && why == ""; i++ {
			switch {
			case s.Marks[i].Has(SpreadTotal):
				why = fmt.Sprintf("it overlaps another total on %v", s.Date(i))
			case !math.IsNaN(s.Precip[i]):
				why = fmt.Sprintf("%v has a reading of its own", s.Date(i))
			}
		}
		if why != "" {
			leave(why)
			continue
		}
		for i := first; i <= last; i++ {
			s.Precip[i] = share
			s.Marks[i] |= SpreadTotal
		}
	}
	return notes
}
