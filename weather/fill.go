package weather

import (
	"errors"
	"fmt"
	"math"
)

// FillRule says how far Fill may go.
type FillRule struct {
	ShortGap  int  // longest gap filled without asking, days; 0 means 7
	AllowLong bool // also fill longer gaps, from the nearest year
}

// defaultShortGap is ShortGap when the rule gives none, days; common practice.
const defaultShortGap = 7

// mostOptionalMissing is the share of days above which an optional element is
// dropped rather than filled; common practice.
const mostOptionalMissing = 0.20

// FillNote is one thing Fill did.
type FillNote struct {
	Element string // "Tmin", "Tmax", "precipitation", "solar", ...
	First   Date
	Days    int
	Rule    string // what was done
}

// String writes the note as one sentence.
func (n FillNote) String() string {
	return fmt.Sprintf("%s from %v, %d days: %s", n.Element, n.First, n.Days, n.Rule)
}

// Fill returns a copy without missing Tmin, Tmax or Precip and a note for each
// thing done. Filled days are marked.
//
// Days missing at either end are cut off. A Tmax below its Tmin is exchanged with
// it, which ByCivilDay has done already where it was called. A gap in temperature
// of up to ShortGap days is filled by a straight line between its neighbours. A gap
// in precipitation takes the amounts of the same calendar days of the nearest year
// that has them: zero would dry the record by the share of days missing, and the
// mean would rain a little every day and never run off. A longer gap is an error
// that lists the first and the longest gaps, unless AllowLong, when temperature too
// takes the nearest year's, calendar month by calendar month. Where only one of the
// extremes is missing, the other is kept, and the value filled never crosses it.
//
// Solar, Vapour and Wind are filled from the nearest year, or dropped where more
// than a fifth of the days is missing or no year has the day. SnowDepth stays as
// observed. Filled days have no hourly precipitation.
func (s *Series) Fill(rule FillRule) (*Series, []FillNote, error) {
	if rule.ShortGap == 0 {
		rule.ShortGap = defaultShortGap
	}
	if rule.ShortGap < 0 {
		return nil, nil, fmt.Errorf("fill weather: short gap %d days; allowed 0 or more", rule.ShortGap)
	}
	c, notes, err := s.trim()
	if err != nil {
		return nil, nil, err
	}
	if n := c.settleExtremes(); n > 0 {
		notes = append(notes, FillNote{"Tmax, Tmin", c.Start, c.Days(), swapNote(n)})
	}
	f := &filler{s: c, measured: c.clone(), rule: rule, notes: notes}
	f.temperature()
	f.precip()
	if more := f.lost - len(f.errs); more > 0 {
		f.errs = append(f.errs, fmt.Errorf("fill weather: and %d more", more))
	}
	if err := errors.Join(f.tooLong(), errors.Join(f.errs...)); err != nil {
		return nil, nil, err
	}
	f.optional("solar", &c.Solar)
	f.optional("vapour pressure", &c.Vapour)
	f.optional("wind", &c.Wind)
	return c, f.notes, nil
}

// complete tells whether day i has both extremes and precipitation.
func (s *Series) complete(i int) bool {
	return !math.IsNaN(s.Tmin[i]) && !math.IsNaN(s.Tmax[i]) && !math.IsNaN(s.Precip[i])
}

// trim returns a copy that begins and ends with a complete day.
func (s *Series) trim() (*Series, []FillNote, error) {
	i, j := 0, s.Days()-1
	for i <= j && !s.complete(i) {
		i++
	}
	for j >= i && !s.complete(j) {
		j--
	}
	if i > j {
		return nil, nil, errors.New("fill weather: no day has Tmin, Tmax and precipitation together; allowed a record with such days")
	}
	var notes []FillNote
	if i > 0 {
		notes = append(notes, FillNote{"all elements", s.Start, i, "cut off, the record begins with days that are not complete"})
	}
	if n := s.Days() - 1 - j; n > 0 {
		notes = append(notes, FillNote{"all elements", s.Date(j + 1), n, "cut off, the record ends with days that are not complete"})
	}
	c, err := s.Slice(s.Date(i), s.Date(j))
	return c, notes, err
}

// filler fills one series; measured is the series before, so that no value is
// ever filled from a filled one.
type filler struct {
	s, measured *Series
	rule        FillRule
	notes       []FillNote
	long        []gap
	errs        []error // gaps no year can fill, the first few
	lost        int     // all of them
}

// note records one thing done.
func (f *filler) note(g gap, rule string) {
	f.notes = append(f.notes, FillNote{g.element, f.s.Date(g.first), g.days, rule})
}

// temperature fills Tmin and Tmax.
func (f *filler) temperature() {
	for _, e := range []struct {
		name   string
		values []float64
	}{{"Tmin", f.s.Tmin}, {"Tmax", f.s.Tmax}} {
		for _, g := range gaps(e.name, e.values) {
			switch {
			case g.days <= f.rule.ShortGap:
				before, after := e.values[g.first-1], e.values[g.first+g.days]
				step := (after - before) / float64(g.days+1)
				for k := range g.days {
					e.values[g.first+k] = before + step*float64(k+1)
				}
				f.note(g, "straight line between the days before and after")
			case !f.rule.AllowLong:
				f.long = append(f.long, g)
				continue
			default:
				f.borrow(g, func(i, from int) {
					if e.name == "Tmin" {
						f.s.Tmin[i] = f.measured.Tmin[from]
					} else {
						f.s.Tmax[i] = f.measured.Tmax[from]
					}
				}, f.measured.Tmin, f.measured.Tmax)
			}
			for i := g.first; i < g.first+g.days; i++ {
				f.s.Marks[i] |= TemperatureFilled
			}
		}
	}
	f.uncross()
}

// uncross brings a filled extreme back to the other one where it crossed it.
func (f *filler) uncross() {
	s := f.s
	for i := range s.Tmin {
		if !(s.Tmax[i] < s.Tmin[i]) {
			continue
		}
		if math.IsNaN(f.measured.Tmax[i]) && !math.IsNaN(f.measured.Tmin[i]) {
			s.Tmax[i] = s.Tmin[i]
			f.note(gap{"Tmax", i, 1}, "raised to the measured Tmin")
		} else {
			s.Tmin[i] = s.Tmax[i]
			f.note(gap{"Tmin", i, 1}, "lowered to Tmax")
		}
	}
}

// precip fills the precipitation; a filled day has no hours.
func (f *filler) precip() {
	for _, g := range gaps("precipitation", f.s.Precip) {
		if g.days > f.rule.ShortGap && !f.rule.AllowLong {
			f.long = append(f.long, g)
			continue
		}
		f.borrow(g, func(i, from int) {
			f.s.Precip[i] = f.measured.Precip[from]
			f.s.Marks[i] |= PrecipFilled
		}, f.measured.Precip)
	}
}

// optional fills an element that the simulation can do without, or drops it.
func (f *filler) optional(name string, element *[]float64) {
	if *element == nil {
		return
	}
	missing := 0
	for _, v := range *element {
		if math.IsNaN(v) {
			missing++
		}
	}
	all := gap{name, 0, f.s.Days()}
	if float64(missing) > mostOptionalMissing*float64(f.s.Days()) {
		f.note(all, fmt.Sprintf("dropped, missing on %d days", missing))
		*element = nil
		return
	}
	source := append([]float64(nil), *element...)
	for i, v := range *element {
		if !math.IsNaN(v) {
			continue
		}
		from, ok := f.donor(gap{name, i, 1}, source)
		if !ok {
			f.note(all, fmt.Sprintf("dropped, no year has a value for %v", f.s.Date(i)))
			*element = nil
			return
		}
		(*element)[i] = source[from]
		f.s.Marks[i] |= OptionalFilled
	}
	if missing > 0 {
		f.note(all, fmt.Sprintf("%d days from the same calendar day of the nearest year", missing))
	}
}
