package weather

import (
	"math"
	"slices"
)

// Limits on temperature, C. A crop needs a warmest month well above 10 C, the
// limit of trees (Koppen); a mean maximum of 48 C over a month is reached only in the
// hottest deserts.
const (
	leastMonth, mostMonth = -50.0, 48.0
	narrowest, widest     = 1.5, 26.0 // mean of Tmax - Tmin over a month
	leastScatter          = 0.75      // standard deviation of the days of a month
	mostScatter           = 20.0
	mostStep              = 24.0 // between the means of months in a row
	partedScatter         = 12.0 // standard deviation of a month that a step may part
	yearStep              = 6.0  // between the means of years, put in order of size
	yearScatter           = 1.45 // the same for the ratio of standard deviations
	leastYearScatter      = 3.0  // standard deviation of the days of a year
	mostYearScatter       = 17.0
)

// leastWarmest is the lowest mean of the warmest month on farmed land.
func leastWarmest(element string) float64 {
	if element == "Tmin" {
		return 0
	}
	return 12
}

// mostWarmest is the highest.
func mostWarmest(element string) float64 {
	if element == "Tmin" {
		return 32
	}
	return mostMonth
}

// enough is the fewest days known for a month to be judged.
const enough = 20

// knownDays counts the values that are numbers.
func knownDays(values []float64) int {
	n := 0
	for _, v := range values {
		if !math.IsNaN(v) {
			n++
		}
	}
	return n
}

// temperatureSlips judges Tmin and Tmax, each by itself and the two together.
func temperatureSlips(s *Series, months []span) []oddElement {
	present := elementsPresent(s)
	list := make([]oddElement, 0, 3)
	for _, e := range present[:2] {
		o := oddElement{e, make(oddMonths, len(months))}
		o.byMonth(months)
		o.byYear(s, months)
		o.byWarmest(months)
		list = append(list, o)
	}
	both := oddElement{named{"Tmin, Tmax", "C", dailyRange(s), 0}, make(oddMonths, len(months))}
	for k, m := range months {
		days := both.values[m.first:m.end]
		if knownDays(days) < enough || list[0].odd[k] != "" || list[1].odd[k] != "" {
			continue
		}
		if r, _ := meanAndSpread(days); r < narrowest || r > widest {
			both.odd.mark(k, "in %d-%02d the days' range is %.1f C in the mean, allowed %v to %v", m.year, m.month, r, narrowest, widest)
		}
	}
	return append(list, both)
}

func dailyRange(s *Series) []float64 {
	r := make([]float64, s.Days())
	for i := range r {
		r[i] = s.Tmax[i] - s.Tmin[i]
	}
	return r
}

// byMonth judges each month by itself and against the month before, or the one
// before that where a step within the month between would part it in two.
func (o oddElement) byMonth(months []span) {
	last, lastScatter, lastButOne := math.NaN(), math.NaN(), math.NaN()
	for k, m := range months {
		days := o.values[m.first:m.end]
		mean, sd := meanAndSpread(days)
		if knownDays(days) < enough {
			mean, sd = math.NaN(), math.NaN()
		}
		before := last
		if lastScatter > partedScatter {
			before = lastButOne
		}
		switch {
		case mean < leastMonth || mean > mostMonth:
			o.odd.mark(k, "the mean of %d-%02d is %.1f C, allowed %v to %v", m.year, m.month, mean, leastMonth, mostMonth)
		case sd < leastScatter || sd > mostScatter:
			o.odd.mark(k, "the days of %d-%02d scatter by %.2f C, allowed %v to %v", m.year, m.month, sd, leastScatter, mostScatter)
		case math.Abs(mean-before) > mostStep:
			o.odd.mark(k, "the mean of %d-%02d is %.1f C and shortly before %.1f C, allowed a step of %v", m.year, m.month, mean, before, mostStep)
		}
		last, lastScatter, lastButOne = mean, sd, last
	}
}

// byWarmest judges the warmest calendar month of what the other tests left.
func (o oddElement) byWarmest(months []span) {
	if warmest, ok := o.warmest(months, nil); ok && !o.canBeWarmest(warmest) {
		for k := range months {
			o.odd.mark(k, "the warmest month has a mean of %.1f C, allowed %v to %v on farmed land", warmest, leastWarmest(o.name), mostWarmest(o.name))
		}
	}
}

func (o oddElement) canBeWarmest(mean float64) bool {
	return mean > leastWarmest(o.name) && mean < mostWarmest(o.name)
}

// warmest is the mean of the warmest calendar month of the years given, or, with
// nil, of the months that do not look wrong. It is not ok when a month is missing, which may be the warmest.
func (o oddElement) warmest(months []span, years []yearValue) (mean float64, ok bool) {
	var days [13][]float64
	for k, m := range months {
		if years == nil && o.odd[k] == "" || slices.ContainsFunc(years, func(y yearValue) bool { return y.year == m.year }) {
			days[m.month] = append(days[m.month], o.values[m.first:m.end]...)
		}
	}
	mean = math.Inf(-1)
	for m := 1; m <= 12; m++ {
		if knownDays(days[m]) < enough {
			return 0, false
		}
		v, _ := meanAndSpread(days[m])
		mean = math.Max(mean, v)
	}
	return mean, true
}

// byYear judges year against year: put in order of size, means and standard
// deviations of years lie close together unless some are in another unit.
func (o oddElement) byYear(s *Series, months []span) {
	var means, spreads []yearValue
	for _, y := range yearSpans(s) {
		if days := o.values[y.first:y.end]; knownDays(days) >= 300 {
			mean, sd := meanAndSpread(days)
			means, spreads = append(means, yearValue{y.year, mean}), append(spreads, yearValue{y.year, math.Log(sd)})
		}
	}
	fits := func(years []yearValue) bool {
		warmest, ok := o.warmest(months, years)
		var sds []float64
		for _, y := range years {
			for _, s := range spreads {
				if s.year == y.year {
					sds = append(sds, math.Exp(s.v))
				}
			}
		}
		sd := median(sds)
		return (!ok || o.canBeWarmest(warmest)) && sd > leastYearScatter && sd < mostYearScatter
	}
	o.apart(months, means, yearStep, fits, "the mean of %d is %.1f C, that of other years about %.1f C", func(v float64) float64 { return v })
	o.apart(months, spreads, math.Log(yearScatter), fits, "the days of %d scatter by %.1f C, those of other years by about %.1f C", math.Exp)
}

// yearValue is a statistic of one year.
type yearValue struct {
	year int
	v    float64
}

// apart parts the years at the widest gap between their values put in order. If it
// is wider than allowed, the years on the side that does not fit farmed land are
// marked, or those of the smaller side where both or neither fit.
func (o oddElement) apart(months []span, years []yearValue, most float64, fits func([]yearValue) bool, reason string, show func(float64) float64) {
	if len(years) < 2 {
		return
	}
	sorted := append([]yearValue(nil), years...)
	sortByValue(sorted)
	at, gap := 0, 0.0
	for i := 1; i < len(sorted); i++ {
		if d := sorted[i].v - sorted[i-1].v; d > gap {
			at, gap = i, d
		}
	}
	if gap <= most {
		return
	}
	low, high := sorted[:at], sorted[at:]
	odd, usual := low, high
	fitsLow, fitsHigh := fits(low), fits(high)
	if fitsLow && !fitsHigh || fitsLow == fitsHigh && len(low) >= len(high) {
		odd, usual = high, low
	}
	for _, y := range odd {
		for k, m := range months {
			if m.year == y.year {
				o.odd.mark(k, reason, y.year, show(y.v), show(middleOf(usual)))
			}
		}
	}
}
