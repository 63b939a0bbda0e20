package weather

import (
	"fmt"
	"math"
	"slices"
)

// Limits on precipitation.
const (
	leastWet, mostWet = 1.5, 25.0 // mm, mean of the wet days of the record
	yearRatio         = 2.2       // between the mean amounts of years, put in order of size
	shortRatio        = 5.0       // before and after, within less than three years
	shortMonths       = 3         // on either side
	shortWet          = 15        // wet days on either side
)

func sortByValue(years []yearValue) {
	slices.SortStableFunc(years, func(a, b yearValue) int {
		switch {
		case a.v < b.v:
			return -1
		case a.v > b.v:
			return 1
		}
		return 0
	})
}

// middleOf is the median of the values.
func middleOf(years []yearValue) float64 {
	v := make([]float64, len(years))
	for i, y := range years {
		v[i] = y.v
	}
	return median(v)
}

// wetMean is the mean amount of the wet days and their number.
func wetMean(precip []float64) (mean float64, wet int) {
	sum := 0.0
	for _, v := range precip {
		if v > 0 {
			sum += v
			wet++
		}
	}
	return sum / float64(wet), wet
}

// wetLogs are the logarithms of the amounts of wet days, sorted.
func wetLogs(precip []float64) []float64 {
	var logs []float64
	for _, v := range precip {
		if v > 0 {
			logs = append(logs, math.Log(v))
		}
	}
	slices.Sort(logs)
	return logs
}

// precipSlips judges the amounts of wet days, which a slip of units multiplies and
// which differ less from year to year than the sums.
func precipSlips(s *Series, months []span) oddMonths {
	o := oddElement{elementsPresent(s)[2], make(oddMonths, len(months))}
	var years []yearValue
	for _, y := range yearSpans(s) {
		days := s.Precip[y.first:y.end]
		if mean, wet := wetMean(days); knownDays(days) >= 300 && wet >= 20 {
			years = append(years, yearValue{y.year, math.Log(mean)})
		}
	}
	fits := func(years []yearValue) bool {
		v := math.Exp(middleOf(years))
		return v > leastWet && v < mostWet
	}
	o.apart(months, years, math.Log(yearRatio), fits, "the wet days of %d have %.2f mm in the mean, those of other years about %.2f mm", math.Exp)
	if len(years) < 3 {
		o.halves(s, months)
	}
	var rest []float64
	for k, m := range months {
		judged := len(years) < 3 || slices.ContainsFunc(years, func(y yearValue) bool { return y.year == m.year })
		if judged && o.odd[k] == "" {
			rest = append(rest, s.Precip[m.first:m.end]...)
		}
	}
	if mean, wet := wetMean(rest); wet >= shortWet && (mean < leastWet || mean > mostWet) {
		for k := range months {
			o.odd.mark(k, "wet days have %.2f mm in the mean, allowed %v to %v", mean, leastWet, mostWet)
		}
	}
	return o.odd
}

// halves looks for the month at which amounts jump in a record too short to set
// year against year. Small and typical amounts must jump alike: seasons move the
// typical ones, the gauge's resolution holds the small ones still. The largest jump
// of both within 612 real years was 4.6 fold.
func (o oddElement) halves(s *Series, months []span) {
	at, most, rises := 0, 0.0, false
	for k := shortMonths; k <= len(months)-shortMonths; k++ {
		cut := months[k].first
		a, b := wetLogs(s.Precip[:cut]), wetLogs(s.Precip[cut:])
		if len(a) < shortWet || len(b) < shortWet {
			continue
		}
		ma, _ := meanAndSpread(a)
		mb, _ := meanAndSpread(b)
		typical, small := mb-ma, b[len(b)/6]-a[len(a)/6]
		if jump := math.Min(math.Abs(typical), math.Abs(small)); typical*small > 0 && jump > most {
			at, most, rises = k, jump, typical > 0
		}
	}
	if most <= math.Log(shortRatio) {
		return
	}
	before, _ := meanAndSpread(wetLogs(s.Precip[:months[at].first]))
	after, _ := meanAndSpread(wetLogs(s.Precip[months[at].first:]))
	fits := func(v float64) bool { return math.Exp(v) > leastWet/2 && math.Exp(v) < mostWet/2 }
	late := fits(before) || !fits(after) // the part that is wrong
	word := map[bool]string{true: "rises", false: "falls"}[rises]
	reason := fmt.Sprintf("what a wet day typically has %s from %.2f to %.2f mm", word, math.Exp(before), math.Exp(after))
	for k := range months {
		if (k >= at) == late {
			o.odd.mark(k, "%s", reason)
		}
	}
}
