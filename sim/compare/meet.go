package compare

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"mottle/sim/site"
	"mottle/weather"
)

// Period is the part of a record to run, both ends included; nil means the
// record's own end.
type Period struct{ From, To *weather.Date }

// GapError wraps the gaps of a record that are too long to fill unasked.
type GapError struct{ Err error }

func (e *GapError) Error() string { return e.Err.Error() }

// Unwrap gives the gaps.
func (e *GapError) Unwrap() error { return e.Err }

// Record is weather as it was read.
type Record struct {
	Series *weather.Series
	Report *weather.Report // nil where no file was read
	// Hourly lays hours of precipitation from another file on the series
	// (weather.Series.WithHourly), with its notes; nil for none.
	Hourly func(*weather.Series) (*weather.Series, []string, error)
}

// Meet brings a field and a weather record together: it settles latitude,
// elevation and the hour of reading from the file, the field or an assumption,
// lays on the hours, cuts the period, fills the gaps, and returns a field and a
// series ready for Run. Everything filled, mended, assumed or doubtful is added to
// the field's assumptions.
func Meet(f site.Field, r Record, p Period, allowLong bool) (*site.Field, *weather.Series, error) {
	s, report := r.Series, r.Report
	f.Assumed = append([]site.Assumption(nil), f.Assumed...)
	assume := func(key, value, reason string) {
		f.Assumed = append(f.Assumed, site.Assumption{Key: key, Value: value, Reason: reason})
	}
	from := func(own *float64, file float64, key, unit string) bool {
		if math.IsNaN(file) {
			return !math.IsNaN(*own)
		}
		if !math.IsNaN(*own) && math.Abs(*own-file) > 1e-9 {
			assume(key, fmt.Sprintf("%g %s", file, unit), fmt.Sprintf("the weather file's own; the field says %g", *own))
		}
		*own = file
		return true
	}
	if !from(&f.Latitude, s.Station.Latitude, "latitude", "deg") {
		return nil, nil, errors.New(`latitude: neither the weather file nor the field gives it; add "latitude: 43 deg" to the field file`)
	}
	if !from(&f.Elevation, s.Station.Elevation, "elevation", "m") {
		f.Elevation = assumedElevation
		assume("elevation", fmt.Sprintf("%g m", f.Elevation), "neither the weather file nor the field gives it; it enters by air pressure and clear-sky radiation")
	}
	if !from(&f.ReadHour, s.Station.ReadHour, "rain_read_at", "h") {
		hour, why := weather.AssumedReadHour(s.Station.ID)
		f.ReadHour = hour
		assume("rain_read_at", fmt.Sprintf("%g h", hour), why)
	}
	copied := *s
	copied.Station.ReadHour = f.ReadHour
	s = &copied
	if report != nil {
		for _, note := range mended(report) {
			assume("weather", note, "as the file's layout asks")
		}
	}
	if !s.Invented {
		for _, slip := range weather.UnitSlips(s) {
			assume("weather", slip.String(), "as the file has it; this looks like another unit: mottle weather shows why")
		}
	}
	if r.Hourly != nil {
		hours, notes, err := r.Hourly(s)
		if err != nil {
			return nil, nil, err
		}
		s = hours
		for _, note := range notes {
			assume("weather", note, "hours of rain from their own file")
		}
	}
	if !slices.ContainsFunc(s.Precip, func(x float64) bool { return !math.IsNaN(x) }) {
		return nil, nil, errors.New("precipitation: the record has none; fill it from a neighbour (mottle weather --fill) or give its hours (--hourly)")
	}
	s, shifted := s.ByCivilDay()
	if shifted != "" {
		assume("weather", shifted, "readings belong to the day on which they happened")
	}
	if p.From != nil || p.To != nil {
		first, last := s.Start, s.Last()
		if p.From != nil {
			first = *p.From
		}
		if p.To != nil {
			last = *p.To
		}
		var err error
		if s, err = s.Slice(first, last); err != nil {
			return nil, nil, err
		}
	}
	s, notes, err := s.Fill(weather.FillRule{AllowLong: allowLong})
	if err != nil {
		return nil, nil, &GapError{err}
	}
	for _, n := range grouped(notes) {
		assume("weather", n, "the simulation needs every day")
	}
	_, method, why, err := weather.ReferenceET(s, f.Latitude, f.Elevation, f.ET)
	if err != nil {
		return nil, nil, err
	}
	reason := "what the record allows"
	if len(why) > 0 {
		reason = why[0]
	}
	assume("evapotranspiration", method.String(), reason)
	if !coversYear(s) {
		return nil, nil, fmt.Errorf("weather: found %v to %v; a comparison needs a complete calendar year at least", s.Start, s.Last())
	}
	return &f, s, nil
}

// coversYear says whether a complete calendar year lies within the record.
func coversYear(s *weather.Series) bool {
	first := s.Start
	if first.DayOfYear() != 1 {
		first = weather.NewDate(first.Year()+1, 1, 1)
	}
	return s.Last() >= weather.NewDate(first.Year(), 12, 31)
}

// assumedElevation of a plain, m.
const assumedElevation = 300

// mended turns a reading report into sentences.
func mended(r *weather.Report) []string {
	t := r.Total()
	var out []string
	say := func(n int, what string) {
		if n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, what))
		}
	}
	say(t.Absent, "days absent from the file")
	say(t.Rejected, "values failed the agency's own check and count as missing")
	say(t.OutOfRange, "values that cannot be true count as missing")
	say(t.Contradictory, "days with the maximum below the minimum")
	say(t.OutOfOrder, "rows out of date order, sorted")
	say(t.Duplicates, "rows repeated exactly, dropped")
	say(t.Spread, "days given their share of a total of several days")
	say(t.CalendarFilled, "days that a 365-day calendar leaves out, filled")
	return append(out, r.Notes...)
}

// grouped adds up notes of filling by element and rule.
func grouped(notes []weather.FillNote) []string {
	type group struct{ gaps, days int }
	sums := map[string]group{}
	for _, n := range notes {
		rule := n.Rule
		if strings.HasPrefix(rule, "values from") {
			rule = "the same dates of the nearest year that has them"
		}
		key := n.Element + ": " + rule
		g := sums[key]
		sums[key] = group{g.gaps + 1, g.days + n.Days}
	}
	var out []string
	for key, g := range sums {
		if !strings.Contains(key, " days from") { // which counts its own days
			key += fmt.Sprintf(" (days %d, gaps %d)", g.days, g.gaps)
		}
		out = append(out, key)
	}
	sort.Strings(out)
	return out
}
