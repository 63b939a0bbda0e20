package weather

import (
	"errors"
	"fmt"
	"math"
)

// leastOverlap is the fewest days that both stations must know of a calendar month,
// all years together, before that month is filled: three months' worth. Common
// practice asks for some years; more is better.
const leastOverlap = 85

// FillFrom returns a copy of the series with gaps in Tmin, Tmax and precipitation
// filled from a neighbouring station, a note for each stretch filled or left, and
// the skill of the method on days that both stations know.
//
// Precipitation is the neighbour's times the ratio of the two stations' totals on
// their common days of that calendar month, the normal-ratio method of Paulhus &
// Kohler (1952, Mon. Weather Rev. 80:129) with one neighbour. Temperature is the
// neighbour's plus the mean difference of that calendar month, as is standard
// climatological practice (WMO-No. 100, Guide to Climatological Practices). Days
// filled before are neither used nor filled from, days filled here are marked.
// Calendar months with fewer than 85 common days are left, and so are other
// elements.
//
// Both series must have their temperatures by the same day: see ByCivilDay. It is
// an error when no calendar month of any element has common days enough.
func (s *Series) FillFrom(neighbour *Series) (*Series, []FillNote, NeighbourSkill, error) {
	skill := NeighbourSkill{Station: neighbour.Station}
	if s.CivilTemperature != neighbour.CivilTemperature {
		return nil, nil, skill, errors.New("fill from a neighbour: one record has its temperatures by civil day, the other by reading: call ByCivilDay on both")
	}
	c := s.clone()
	var notes []FillNote
	usable := false
	for _, p := range pairs(s, neighbour) {
		overlap := p.overlap()
		for m := 1; m <= 12; m++ {
			usable = usable || overlap[m].days >= leastOverlap
		}
		notes = append(notes, p.fill(c, overlap)...)
		skill.Elements = append(skill.Elements, p.skill(overlap))
	}
	if !usable {
		return nil, nil, skill, fmt.Errorf("fill from a neighbour: no calendar month has %d days that both records know: choose a station with a longer record in common", leastOverlap)
	}
	return c, append(notes, c.uncrossFilled(s)...), skill, nil
}

// pair is an element at two stations, day by day of the first.
type pair struct {
	named
	start     Date
	neighbour []float64 // NaN where the neighbour is not known, or filled
}

// pairs lines up the elements that are filled.
func pairs(s, neighbour *Series) []pair {
	here, there := observedValues(s), observedValues(neighbour)
	list := make([]pair, 3)
	for k := range list {
		list[k] = pair{here[k], s.Start, allMissing(s.Days())}
		for i := range list[k].neighbour {
			if j := int(s.Date(i) - neighbour.Start); j >= 0 && j < neighbour.Days() {
				list[k].neighbour[i] = there[k].values[j]
			}
		}
	}
	return list
}

// common are sums over the days that both stations know.
type common struct {
	days        int
	here, there float64
}

// less takes some of the days away.
func (c common) less(d common) common {
	return common{c.days - d.days, c.here - d.here, c.there - d.there}
}

// plus adds one day.
func (c *common) plus(here, there float64) {
	c.days++
	c.here += here
	c.there += there
}

// month is the calendar month of day i.
func (p pair) month(i int) int {
	_, m, _ := (p.start + Date(i)).Civil()
	return m
}

// known tells whether both stations know day i.
func (p pair) known(i int) bool { return !math.IsNaN(p.values[i]) && !math.IsNaN(p.neighbour[i]) }

// overlap sums up the common days by calendar month.
func (p pair) overlap() (o [13]common) {
	for i := range p.values {
		if p.known(i) {
			o[p.month(i)].plus(p.values[i], p.neighbour[i])
		}
	}
	return o
}

// estimate is the value at this station from the neighbour's, and false where the
// common days do not tell it.
func (p pair) estimate(there float64, c common) (v float64, ok bool) {
	if c.days < leastOverlap || math.IsNaN(there) {
		return math.NaN(), false
	}
	if p.name != "precipitation" {
		return there + (c.here-c.there)/float64(c.days), true
	}
	if c.there <= 0 { // a calendar month without rain at the neighbour
		return math.NaN(), false
	}
	return there * c.here / c.there, true
}

// fill fills the missing days of one element in c, stretch by stretch of a calendar
// month, and tells what is left.
func (p pair) fill(c *Series, overlap [13]common) (notes []FillNote) {
	values := map[string][]float64{"Tmin": c.Tmin, "Tmax": c.Tmax, "precipitation": c.Precip}[p.name]
	for i := 0; i < len(values); i++ {
		if !math.IsNaN(values[i]) {
			continue
		}
		m := p.month(i)
		first := i
		for i < len(values) && math.IsNaN(values[i]) && p.month(i) == m {
			v, ok := p.estimate(p.neighbour[i], overlap[m])
			if !ok {
				break
			}
			values[i] = v
			c.Marks[i] |= p.mark
			i++
		}
		if i > first {
			notes = append(notes, FillNote{p.name, c.Date(first), i - first, p.rule(overlap[m])})
			i--
			continue
		}
		for i+1 < len(values) && math.IsNaN(values[i+1]) && p.month(i+1) == m {
			if _, ok := p.estimate(p.neighbour[i+1], overlap[m]); ok {
				break
			}
			i++
		}
		why := "left missing, the neighbour has no value"
		if overlap[m].days < leastOverlap {
			why = fmt.Sprintf("left missing, %d common days of that calendar month, %d are needed", overlap[m].days, leastOverlap)
		}
		notes = append(notes, FillNote{p.name, c.Date(first), i - first + 1, why})
	}
	return notes
}

// rule says how a value was made.
func (p pair) rule(c common) string {
	if p.name == "precipitation" {
		return fmt.Sprintf("neighbour's times %.2f, ratio of %d common days", c.here/c.there, c.days)
	}
	return fmt.Sprintf("neighbour's %+.1f C, mean difference of %d common days", (c.here-c.there)/float64(c.days), c.days)
}

// uncrossFilled brings an extreme filled from the neighbour back to the other where it
// crossed it; before is the series as it was. A day that crossed before is left.
func (c *Series) uncrossFilled(before *Series) (notes []FillNote) {
	for i := range c.Tmin {
		if !(c.Tmax[i] < c.Tmin[i]) || before.Tmax[i] < before.Tmin[i] {
			continue
		}
		if math.IsNaN(before.Tmax[i]) {
			c.Tmax[i] = c.Tmin[i]
			notes = append(notes, FillNote{"Tmax", c.Date(i), 1, "raised to Tmin"})
		} else {
			c.Tmin[i] = c.Tmax[i]
			notes = append(notes, FillNote{"Tmin", c.Date(i), 1, "lowered to Tmax"})
		}
	}
	return notes
}
