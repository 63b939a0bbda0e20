package weather

import (
	"fmt"
	"math"
	"slices"
)

// Suspect is a value, or a run of them, that is probably no observation. Nothing
// is done about it: the person who knows the station decides.
type Suspect struct {
	Element string
	First   Date
	Days    int // 1, or the length of the run
	Value   float64
	Unit    string // SI, as the series has it
	Reason  string
}

// Thresholds of the checks on single values, those of the quality control of
// GHCN-Daily (Durre et al. 2010, J. Appl. Meteor. Climatol. 49:1615) from memory.
const (
	spikeStep     = 25.0 // C away from the days before and after, to the same side
	laggedRange   = 40.0 // C between an extreme and the other one of three days
	outlierSpread = 6.0  // biweight standard deviations from the biweight mean
	outlierWindow = 7    // days to either side of the calendar day, all years
	outlierLeast  = 100  // values in the window
	rainWindow    = 14   // days to either side
	rainLeast     = 20   // wet days in the window
	rainWarm      = 9.0  // times the 95th percentile of wet days, mean above 0 C
	rainCold      = 5.0  // the same at or below 0 C
)

// longestRun is the longest run of one value that is not told: GHCN-Daily rejects
// runs from 20 days on; nothing is rejected here, so that half of it is told.
const longestRun = 9

// Suspects lists values that are probably wrong, by date: an extreme above the
// other, spikes, outliers of the calendar day, runs of one value, radiation above
// that outside the atmosphere. It also names the checks that the record is too
// short or too bare for. Days already marked as filled are not looked at.
func Suspects(s *Series) (list []Suspect, untested []string) {
	add := func(e named, i, days int, reason string, a ...any) {
		list = append(list, Suspect{e.name, s.Date(i), days, e.values[i], e.unit, fmt.Sprintf(reason, a...)})
	}
	observed := observedValues(s)
	tmin, tmax, precip := observed[0], observed[1], observed[2]
	for i := range s.Days() {
		if tmax.values[i] < tmin.values[i] {
			add(tmax, i, 1, "below Tmin, %.1f C", tmin.values[i])
		}
	}
	for _, e := range observed[:2] {
		spikes(e, add)
		if !outliers(s, e, add) {
			untested = append(untested, fmt.Sprintf("outliers of %s: less than %d values about any calendar day", e.name, outlierLeast))
		}
	}
	lagged(tmin, tmax, add)
	if !rainOutliers(s, precip, add) {
		untested = append(untested, fmt.Sprintf("outliers of precipitation: less than %d wet days about any calendar day", rainLeast))
	}
	for _, e := range observed {
		if e.name != "snow depth" { // which may lie still
			runs(s, e, add)
		}
	}
	for _, e := range observed {
		if e.name == "solar" {
			if math.IsNaN(s.Station.Latitude) {
				untested = append(untested, "solar radiation: the latitude is not known")
				continue
			}
			for i, v := range e.values {
				if ra := ExtraterrestrialRadiation(s.Station.Latitude, s.Date(i).DayOfYear()); v > ra {
					add(e, i, 1, "above %.1f MJ/m2, the radiation outside the atmosphere", ra)
				}
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Suspect) int { return int(a.First - b.First) })
	return joinReasons(list), untested
}

// joinReasons makes one of the suspects that are one value; the list is by date.
func joinReasons(list []Suspect) []Suspect {
	var out []Suspect
	for _, v := range list {
		i := len(out) - 1
		for i >= 0 && out[i].First == v.First && (out[i].Element != v.Element || out[i].Days != v.Days) {
			i--
		}
		if i >= 0 && out[i].First == v.First {
			out[i].Reason += "; " + v.Reason
			continue
		}
		out = append(out, v)
	}
	return out
}

// report is how a check tells of a value: element, day, length and reason.
type report func(e named, i, days int, reason string, a ...any)

// observedValues is elementsPresent without the values that were filled.
func observedValues(s *Series) []named {
	list := elementsPresent(s)
	for k, e := range list {
		list[k].values = slices.Clone(e.values)
		for i, m := range s.Marks {
			if m&(e.mark|CalendarFilled) != 0 {
				list[k].values[i] = math.NaN()
			}
		}
	}
	return list
}

// spikes tells of days that stand far above or far below both their neighbours.
func spikes(e named, add report) {
	for i := 1; i+1 < len(e.values); i++ {
		before, after := e.values[i]-e.values[i-1], e.values[i]-e.values[i+1]
		if math.Min(before, after) >= spikeStep || math.Max(before, after) <= -spikeStep {
			add(e, i, 1, "%+.1f C from the day before, %+.1f C from the day after", before, after)
		}
	}
}

// lagged tells of a maximum far above all minima about it, and of a minimum far
// below all maxima.
func lagged(tmin, tmax named, add report) {
	about := func(v []float64, i int, pick func(a, b float64) float64) float64 {
		return pick(v[i], pick(v[i-1], v[i+1])) // NaN where one is missing
	}
	for i := 1; i+1 < len(tmin.values); i++ {
		if high := about(tmin.values, i, math.Max); tmax.values[i]-high >= laggedRange {
			add(tmax, i, 1, "%.1f C above the warmest minimum of three days", tmax.values[i]-high)
		}
		if low := about(tmax.values, i, math.Min); low-tmin.values[i] >= laggedRange {
			add(tmin, i, 1, "%.1f C below the coldest maximum of three days", low-tmin.values[i])
		}
	}
}

// runs tells of values that do not move. Zero is no value in this, and dry days
// do not part a run of one amount.
func runs(s *Series, e named, add report) {
	first, length := 0, 0
	flush := func() {
		if length > longestRun {
			add(e, first, length, "the same on %d days running", length)
		}
		length = 0
	}
	for i, v := range e.values {
		switch {
		case v == 0 && e.name == "precipitation", s.Marks[i].Has(SpreadTotal) && e.name == "precipitation":
		case math.IsNaN(v) || v == 0:
			flush()
		case length > 0 && v == e.values[first]:
			length++
		default:
			flush()
			first, length = i, 1
		}
	}
	flush()
}
