package plots

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/basin"
	"mottle/sim/flood"
)

// shownConfidence is the share of intervals and limits that a page shows.
const shownConfidence = 0.90

// The words for which way something goes; each follows from an interval alone.
const (
	rises   = "rises"
	falls   = "falls"
	steady  = "no change" // the interval is nothing but 0
	depends = "depends"   // several intervals, not all the same way
	unclear = "can't say" // the interval holds rises and falls, or there is none
)

// direction is the word for one interval of a change.
func direction(low, high float64) string {
	switch {
	case math.IsNaN(low) || math.IsNaN(high):
		return unclear
	case low > 0:
		return rises
	case high < 0:
		return falls
	case low == 0 && high == 0:
		return steady
	}
	return unclear
}

// directions is the word for several: their own where all agree, "depends" where they
// do not.
func directions(words ...string) string {
	if len(words) == 0 {
		return unclear
	}
	for _, w := range words[1:] {
		if w != words[0] {
			return depends
		}
	}
	return words[0]
}

// effect is what a scenario does to one figure of the outlet.
type effect struct {
	name, unit string
	was, is    float64
	// percent is the change of was with its interval; NaN where was is 0 or no interval
	// can be had.
	percent, low, high float64
	word               string
}

// ofYears holds two series of the same years against each other: the difference of
// their means, its interval from the yearly differences by Student's t.
func ofYears(name, unit string, was, is []float64) effect {
	e := effect{name: name, unit: unit, was: mean(was), is: mean(is), percent: math.NaN(), low: math.NaN(), high: math.NaN(), word: unclear}
	low, high := math.NaN(), math.NaN()
	if p, err := flood.Compare(is, was); err == nil { // one year has no interval
		low, high = p.Interval(shownConfidence)
	}
	e.word = direction(low, high)
	if e.was > 0 {
		e.percent, e.low, e.high = 100*(e.is/e.was-1), 100*low/e.was, 100*high/e.was
	}
	return e
}

// floods are the changes of the floods of a scenario's outlet.
func (w watershed) floods(s *basin.Outcome) []effect {
	var list []effect
	for _, c := range outlet(s).Changes {
		list = append(list, effect{name: fmt.Sprintf("%.0f-year flood", c.ReturnPeriod), unit: w.flowUnit(), was: w.flow(c.Was), is: w.flow(c.Is),
			percent: c.Percent, low: c.Low, high: c.High, word: direction(c.Low, c.High)})
	}
	return list
}

// floodWord is the word for all floods of a scenario.
func (w watershed) floodWord(s *basin.Outcome) string {
	var words []string
	for _, e := range w.floods(s) {
		words = append(words, e.word)
	}
	return directions(words...)
}

// spring, yearly and low flow, and what drains carry, of a scenario's outlet.
func (w watershed) spring(s *basin.Outcome) effect {
	return ofYears("spring flood, largest hour of March to May", w.flowUnit(), w.flows(outlet(w.first()).Peaks.Spring), w.flows(outlet(s).Peaks.Spring))
}

func (w watershed) depths(q []float64) []float64 {
	out := make([]float64, len(q))
	for i := range q {
		out[i] = w.value(q[i], "mm")
	}
	return out
}

func (w watershed) yearly(s *basin.Outcome) effect {
	return ofYears("yearly flow", w.unit("mm"), w.depths(totals(outlet(w.first()).Yearly)), w.depths(totals(outlet(s).Yearly)))
}

func (w watershed) lowFlow(s *basin.Outcome) effect {
	return ofYears("low flow, least mean of 7 days", w.flowUnit(), w.flows(outlet(w.first()).Lows), w.flows(outlet(s).Lows))
}

// drained is the yearly flow of the drain part, mm.
func (w watershed) drained(s *basin.Outcome) effect {
	of := func(s *basin.Outcome) []float64 {
		var q []float64
		for _, y := range outlet(s).Yearly {
			q = append(q, y[drainPart])
		}
		return w.depths(q)
	}
	return ofYears("drain flow", w.unit("mm"), of(w.first()), of(s))
}

// salt is what leaves by drains over the basin.
func (w watershed) salt(s *basin.Outcome) effect {
	of := func(s *basin.Outcome) []float64 {
		q := make([]float64, len(s.Salt))
		for i, kg := range s.Salt {
			q[i] = w.value(kg, "kg/ha")
		}
		return q
	}
	return ofYears("salt by drains", w.unit("kg/ha"), of(w.first()), of(s))
}

// effects are all of a scenario, floods first.
func (w watershed) effects(s *basin.Outcome) []effect {
	return append(w.floods(s), w.spring(s), w.yearly(s), w.lowFlow(s), w.salt(s), w.drained(s))
}

// value writes before and after with their unit.
func (e effect) value() string {
	return shortFlow(e.was) + " to " + shortFlow(e.is) + " " + e.unit
}

// change writes the change, "–" where it cannot be told.
func (e effect) change() string {
	if math.IsNaN(e.percent) {
		return "–"
	}
	return signed(e.percent) + "\u00a0%"
}

// interval writes the interval of the change, "" where there is none.
func (e effect) interval() string {
	if math.IsNaN(e.low) || math.IsNaN(e.high) {
		return ""
	}
	return signed(e.low) + " to " + signed(e.high) + "\u00a0%"
}

// floodWords sets the floods of the pair side by side.
func (w watershed) floodWords() string {
	list := w.floods(w.other)
	if len(list) == 0 {
		return fmt.Sprintf("Too few years to tell how floods change from %s to %s.", quoted(w.first()), quoted(w.other))
	}
	var parts []string
	for _, e := range list {
		words := e.name + " " + e.change()
		if i := e.interval(); i != "" {
			words += " (" + i + ")"
		}
		parts = append(parts, words)
	}
	return fmt.Sprintf("From %s to %s: %s.", quoted(w.first()), quoted(w.other), strings.Join(parts, "; "))
}
