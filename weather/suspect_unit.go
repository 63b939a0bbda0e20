package weather

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Slip is an element, over the whole record or a part of it, that seems to be in
// another unit than it says.
type Slip struct {
	Element  string
	From, To Date
	Whole    bool     // nine tenths of the record or more
	Guesses  []string // what would explain it
	Evidence string
}

// oddMonths are the calendar months of a record at which an element looks wrong,
// each with the reason; "" is in order.
type oddMonths []string

// mark notes a reason for a month that has none yet.
func (o oddMonths) mark(k int, reason string, a ...any) {
	if o[k] == "" {
		o[k] = fmt.Sprintf(reason, a...)
	}
}

// UnitSlips looks for elements in another unit: against what farmed land with a
// growing season can have, against the physics that ties elements to each other,
// and year against year, so that a slip of a part shows too. Limits stand beside
// their tests; those without a source are common practice, wide enough for every
// one of 30 real records of cold-winter and humid climates, 612 years.
func UnitSlips(s *Series) []Slip {
	months := monthSpans(s)
	var slips []Slip
	temperatureOdd := false
	for k, e := range temperatureSlips(s, months) {
		kinds := temperatureKinds
		if k == 2 {
			kinds = nil // the range of the two does not tell which of them it is
		}
		found := e.slips(s, months, kinds)
		temperatureOdd = temperatureOdd || len(found) > 0
		slips = append(slips, found...)
	}
	slips = append(slips, oddElement{elementsPresent(s)[2], precipSlips(s, months)}.slips(s, months, precipKinds)...)
	for _, e := range optionalSlips(s, months, temperatureOdd) {
		slips = append(slips, e.slips(s, months, nil)...)
	}
	return slips
}

// oddElement is an element with its months that look wrong.
type oddElement struct {
	named
	odd oddMonths
}

// joined is how many months in order may lie between two that look wrong within
// one slip: temperature hardly shows it near the value that it leaves alone, and a
// year with gaps is not set against others.
const joined = 24

// slips turns months into stretches.
func (e oddElement) slips(s *Series, months []span, kinds []slipKind) []Slip {
	var slips []Slip
	for k := 0; k < len(months); k++ {
		if e.odd[k] == "" {
			continue
		}
		last, count := k, 0
		for j := k; j < len(months) && j <= last+joined; j++ {
			if e.odd[j] != "" {
				last = j
				count++
			}
		}
		slip := Slip{Element: e.name, From: s.Date(months[k].first), To: s.Date(months[last].end - 1)}
		slip.Whole = 10*(int(slip.To-slip.From)+1) >= 9*s.Days()
		slip.Evidence = e.odd[k]
		if count > 1 {
			slip.Evidence += fmt.Sprintf("; %d months look so", count)
		}
		if kinds != nil {
			slip.Guesses = e.guesses(s, months, k, last, kinds)
		}
		slips = append(slips, slip)
		k = last
	}
	return slips
}

// slipKind is a mistake of units and the way back.
type slipKind struct {
	name string
	undo func(v float64) float64
}

func scaled(name string, undo float64) slipKind {
	return slipKind{name, func(v float64) float64 { return v * undo }}
}

var temperatureKinds = []slipKind{
	{"F taken for C", func(v float64) float64 { return (v - 32) / 1.8 }},
	{"C turned from F to C once more", func(v float64) float64 { return 1.8*v + 32 }},
	scaled("tenths of C taken for C", 0.1),
	scaled("C divided by ten once more", 10),
}

var precipKinds = []slipKind{
	scaled("tenths of mm taken for mm", 0.1),
	scaled("cm taken for mm, or mm divided by ten once more", 10),
	scaled("mm turned from inches to mm once more", 1/25.4),
	scaled("inches taken for mm", 25.4),
	scaled("hundredths of an inch taken for mm", 0.254),
	scaled("hundredths of an inch taken for tenths of mm", 2.54),
}

// guesses are the mistakes whose undoing brings the months first to last in line
// with the same calendar months of the rest of the record, or, where the rest is
// too short, with what farmed land can have.
func (e oddElement) guesses(s *Series, months []span, first, last int, kinds []slipKind) []string {
	var names []string
	for _, kind := range kinds {
		if e.inLine(months, first, last, kind.undo) {
			names = append(names, kind.name)
		}
	}
	return names
}

// inLine tells whether values, once undone, fit. It goes by medians and quartiles:
// a slip that begins within a year carries along some values that are right.
func (e oddElement) inLine(months []span, first, last int, undo func(float64) float64) bool {
	precip := e.name == "precipitation"
	var here, there [13][]float64
	rest := 0
	for k, m := range months {
		within := k >= first && k <= last
		if !within && e.odd[k] == "" {
			rest++
		}
		for _, v := range e.values[m.first:m.end] {
			switch {
			case math.IsNaN(v) || precip && v <= 0:
			case within:
				here[m.month] = append(here[m.month], undo(v))
			case e.odd[k] == "":
				there[m.month] = append(there[m.month], v)
			}
		}
	}
	var steps, ratios, levels, spreads, all []float64
	for m := range here {
		all = append(all, here[m]...)
		if len(here[m]) < shortWet {
			continue
		}
		level, spread := middleAndQuartiles(here[m])
		levels, spreads = append(levels, level), append(spreads, spread)
		if rest >= 12 && len(there[m]) >= shortWet {
			usual, usualSpread := middleAndQuartiles(there[m])
			steps = append(steps, level-usual)
			if ratios = append(ratios, spread/usualSpread); precip {
				ratios[len(ratios)-1] = level / usual
			}
		}
	}
	switch {
	case len(ratios) > 0 && precip:
		return math.Abs(math.Log(median(ratios))) < math.Log(1.6)
	case len(ratios) > 0:
		return math.Abs(median(steps)) < 6 && math.Abs(math.Log(median(ratios))) < math.Log(1.4)
	case precip:
		return median(all) > leastWet/2 && median(all) < mostWet/2 // a median is about half the mean
	case len(levels) == 0:
		return false
	}
	high, spread := slices.Max(levels), median(spreads)
	return spread > 2 && spread < 9 && high > leastWarmest(e.name) && high < mostWarmest(e.name)
}

// middleAndQuartiles returns the median and, as a measure of scatter that equals
// the standard deviation of normal values, the range of the quartiles over 1.349.
func middleAndQuartiles(values []float64) (middle, scatter float64) {
	slices.Sort(values)
	n := len(values)
	return median(values), (values[3*n/4] - values[n/4]) / 1.349
}

// String says the slip in one sentence.
func (s Slip) String() string {
	part := "in all of the record"
	if !s.Whole {
		part = fmt.Sprintf("from %v to %v", s.From, s.To)
	}
	text := fmt.Sprintf("%s %s: %s", s.Element, part, s.Evidence)
	if len(s.Guesses) > 0 {
		text += "; perhaps " + strings.Join(s.Guesses, ", or ")
	}
	return text
}
