package site

import (
	"math"
	"strconv"
	"strings"

	"mottle/sim/drain"
	"mottle/sim/unit"
)

// tile reads a system of laterals.
func (s *Section) tile() *Tile {
	t := &Tile{
		Depth:    s.quantity("depth", unit.Length, "1.1 m", "a usual depth; nobody gave one"),
		Spacing:  s.quantity("spacing", unit.Length, "15 m", "a usual spacing; nobody gave one"),
		Diameter: s.quantity("diameter", unit.Length, "4 in", "the usual lateral"),
	}
	if s.Choice("envelope", []string{"none", "sock"}, "none", "the usual lateral") == "sock" {
		t.Wrap = drain.Sock
	}
	if s.None("drainage_coefficient") {
		t.Coefficient = math.Inf(1)
	} else {
		t.Coefficient = s.quantity("drainage_coefficient", unit.Conductivity, "0.5 in/d", "what mains are commonly sized for")
	}
	t.OutletWater = s.unlimited("outlet_water", unit.Length, "the outlet is taken to fall freely")
	if !s.None("weir") {
		t.Weir = s.weir()
	}
	s.End()
	return t
}

// weir reads the calendar of a control structure; none is no assumption, for a
// weir is a thing that one knows of.
func (s *Section) weir() drain.WeirSchedule {
	var schedule drain.WeirSchedule
	for _, p := range s.Sections("weir") {
		schedule = append(schedule, drain.WeirPeriod{
			FromDay: p.day("from"), ToDay: p.day("to"), CrestDepth: p.Required("crest", unit.Length),
		})
		p.End()
	}
	return schedule
}

// day reads a day of any year, month-day.
func (s *Section) day(key string) drain.MonthDay {
	form := s.form(key)
	form.kind, form.needed = day, true
	if s.take(key) == nil && !s.faulty {
		s.faults.add(s.at(key), "missing; give a day as month-day (for example 10-15)")
		return drain.MonthDay{}
	}
	text := s.Text(key)
	m, d, _ := strings.Cut(text, "-")
	month, errMonth := strconv.Atoi(m)
	date, errDay := strconv.Atoi(d)
	if text != "" && (errMonth != nil || errDay != nil) {
		s.faults.add(s.at(key), "found %.80q; allowed a day as month-day (for example 10-15)", text)
	}
	return drain.MonthDay{Month: month, Day: date}
}
