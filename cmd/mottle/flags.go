package main

import (
	"errors"
	"fmt"
	"strconv"

	"mottle/sim/compare"
	"mottle/sim/unit"
	"mottle/weather"
)

// system reads --units.
func system(name string) (unit.System, error) {
	switch name {
	case "si":
		return unit.SI, nil
	case "us":
		return unit.US, nil
	}
	return unit.SI, badInput(fmt.Errorf("--units: found %q; allowed si or us", name))
}

// format checks --format.
func format(name string) error {
	if name != "text" && name != "json" {
		return badInput(fmt.Errorf("--format: found %q; allowed text or json", name))
	}
	return nil
}

// period reads --from and --to: a year or a date.
func period(from, to string) (compare.Period, error) {
	var p compare.Period
	var faults []error
	read := func(flag, text string, month, day int) *weather.Date {
		if text == "" {
			return nil
		}
		if d, err := weather.ParseDate(text); err == nil {
			return &d
		}
		year, err := strconv.ParseUint(text, 10, 16)
		if err != nil || len(text) != 4 {
			faults = append(faults, fmt.Errorf("%s: found %q; allowed a year (1991) or a date (1991-04-01)", flag, text))
			return nil
		}
		d := weather.NewDate(int(year), month, day)
		return &d
	}
	p.From, p.To = read("--from", from, 1, 1), read("--to", to, 12, 31)
	if p.From != nil && p.To != nil && *p.To < *p.From {
		faults = append(faults, fmt.Errorf("--to: found %v, before --from %v", *p.To, *p.From))
	}
	return p, badInput(errors.Join(faults...))
}

// within checks that the ends of the period lie in the record.
func within(s *weather.Series, p compare.Period) error {
	var faults []error
	outside := func(flag string, d *weather.Date) {
		if d != nil && (*d < s.Start || *d > s.Last()) {
			faults = append(faults, fmt.Errorf("%s: found %v; allowed %v to %v, the days of the weather record", flag, *d, s.Start, s.Last()))
		}
	}
	outside("--from", p.From)
	outside("--to", p.To)
	return badInput(errors.Join(faults...))
}
