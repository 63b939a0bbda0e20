package drain

import (
	"errors"
	"fmt"
)

// MonthDay is a day of any year.
type MonthDay struct {
	Month int // 1-12
	Day   int // 1-31
}

// order ranks days within the year.
func (d MonthDay) order() int { return 32*d.Month + d.Day }

var daysIn = [13]int{0, 31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

func (d MonthDay) valid() bool {
	return d.Month >= 1 && d.Month <= 12 && d.Day >= 1 && d.Day <= daysIn[d.Month]
}

// WeirPeriod is a part of each year, both ends included, in which the crest of
// a control weir holds the outlet. A period whose FromDay lies after its ToDay
// runs over the year's end.
type WeirPeriod struct {
	FromDay, ToDay MonthDay
	CrestDepth     float64 // depth of the crest below the surface, m
}

// holds reports whether the day lies in the period.
func (p WeirPeriod) holds(day MonthDay) bool {
	from, to, at := p.FromDay.order(), p.ToDay.order(), day.order()
	if from <= to {
		return from <= at && at <= to
	}
	return at >= from || at <= to
}

// WeirSchedule is the calendar of controlled drainage; outside its periods the
// outlet is free.
type WeirSchedule []WeirPeriod

// CrestDepth returns the depth of the water level that the outlet holds on the
// day, m below the surface: the crest of the period that covers the day, or
// the drain's own depth when none does (free outlet).
func (w WeirSchedule) CrestDepth(month, day int, drainDepth float64) float64 {
	at := MonthDay{month, day}
	for _, p := range w {
		if p.holds(at) {
			return p.CrestDepth
		}
	}
	return drainDepth
}

// Validate returns every fault of the schedule, joined, or nil: days that do
// not exist, crests above the surface or below the drain (depth in m), and
// periods that overlap. Periods are counted from 1.
func (w WeirSchedule) Validate(drainDepth float64) error {
	var faults []error
	for i, p := range w {
		for _, d := range []MonthDay{p.FromDay, p.ToDay} {
			if !d.valid() {
				faults = append(faults, fmt.Errorf("drain: weir period %d: found month %d day %d, allowed a day of the year", i+1, d.Month, d.Day))
			}
		}
		if !(p.CrestDepth >= 0 && p.CrestDepth <= drainDepth) {
			faults = append(faults, fmt.Errorf("drain: weir period %d: crest %g m below the surface, allowed 0 to the drain's depth, %g m", i+1, p.CrestDepth, drainDepth))
		}
		for j, earlier := range w[:i] {
			// Of two overlapping spans, one holds the first day of the other.
			if earlier.holds(p.FromDay) || p.holds(earlier.FromDay) {
				faults = append(faults, fmt.Errorf("drain: weir periods %d and %d overlap: let one end on the day before the other begins", j+1, i+1))
			}
		}
	}
	return errors.Join(faults...)
}

// CommonCalendar of a control weir: held high in winter, let down for spring work and
// harvest, held half way while the crop stands (common practice).
func CommonCalendar() WeirSchedule {
	return WeirSchedule{
		{FromDay: MonthDay{Month: 11, Day: 1}, ToDay: MonthDay{Month: 3, Day: 15}, CrestDepth: 0.30},
		{FromDay: MonthDay{Month: 6, Day: 1}, ToDay: MonthDay{Month: 9, Day: 1}, CrestDepth: 0.60},
	}
}
