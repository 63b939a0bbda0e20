package weather

import (
	"math"
	"slices"
)

// Winter is the frost of one cold season, from 1 July to 30 June.
type Winter struct {
	Begins        int     // year of its 1 July
	FreezingIndex float64 // C-d; NaN when too many days are missing
	Known         int     // days from October to April with both extremes
	Days          int     // days from October to April, 212 or 213
}

// mostWinterMissing is the most days from October to April that may be missing
// before a winter's index is left out; common practice.
const mostWinterMissing = 10

// FreezingIndex returns the index of each winter of which the series holds every
// day from October to April: the sum of the daily means (Tmin + Tmax)/2 below
// 0 C, with the sign turned, in C-d. Days above 0 C take nothing off, so that it
// lies a little above the fall of the curve of cumulative degree-days by which
// frost design manuals define the index (US Army TM 5-852-6, from memory). Up to
// ten missing days count as the mean of the days known.
func FreezingIndex(s *Series) []Winter {
	var winters []Winter
	for year := s.Start.Year() - 1; year <= s.Last().Year(); year++ {
		first, last := NewDate(year, 10, 1), NewDate(year+1, 4, 30)
		if first < s.Start || last > s.Last() {
			continue
		}
		w := Winter{Begins: year, Days: int(last-first) + 1}
		sum, core := 0.0, 0.0
		for d := max(NewDate(year, 7, 1), s.Start); d <= min(NewDate(year+1, 6, 30), s.Last()); d++ {
			i := int(d - s.Start)
			mean := (s.Tmin[i] + s.Tmax[i]) / 2
			if math.IsNaN(mean) {
				continue
			}
			sum += max(0, -mean)
			if d >= first && d <= last {
				core += max(0, -mean)
				w.Known++
			}
		}
		missing := w.Days - w.Known
		w.FreezingIndex = sum + core/float64(w.Known)*float64(missing)
		if missing > mostWinterMissing {
			w.FreezingIndex = math.NaN()
		}
		winters = append(winters, w)
	}
	return winters
}

// DesignFreezingIndex returns the index that frost design counts on, C-d, and the
// winters that it comes from: the mean of the three coldest in the last 30, or the
// coldest in the last 10 where there are fewer (US Army TM 5-818-2, from memory).
// It is NaN with less than 10 winters known.
func DesignFreezingIndex(winters []Winter) (index float64, from int) {
	var known []float64
	for _, w := range winters {
		if !math.IsNaN(w.FreezingIndex) {
			known = append(known, w.FreezingIndex)
		}
	}
	n := len(known)
	switch {
	case n >= 30:
		last := slices.Sorted(slices.Values(known[n-30:]))
		return (last[27] + last[28] + last[29]) / 3, 30
	case n >= 10:
		return slices.Max(known[n-10:]), 10
	}
	return math.NaN(), n
}
