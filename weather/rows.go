package weather

import (
	"fmt"
	"math"
	"slices"
)

// row is one day as a file gives it.
type row struct {
	date Date
	line int

	tmin, tmax, precip, solar, vapour, wind, snowDepth float64 // NaN missing

	marks                Mark
	rejected, outOfRange int // values set missing
	odd                  *oddity
}

// missingRow returns a row without any value.
func missingRow(line int) row {
	nan := math.NaN()
	return row{line: line, tmin: nan, tmax: nan, precip: nan, solar: nan, vapour: nan, wind: nan, snowDepth: nan}
}

// oddity is a value that cannot be true.
type oddity struct {
	v float64
	limit
}

// values lists the row's numbers in a fixed order.
func (r *row) values() [7]float64 {
	return [...]float64{r.tmin, r.tmax, r.precip, r.solar, r.vapour, r.wind, r.snowDepth}
}

// keep returns a value within the limit; one outside is counted and set missing.
func (r *row) keep(v float64, l limit) float64 {
	if !math.IsNaN(v) && !l.within(v) {
		r.outOfRange++
		if r.odd == nil {
			r.odd = &oddity{v, l}
		}
		return math.NaN()
	}
	return v
}

// same tells whether two rows hold the same values, missing equal to missing.
func (r *row) same(o *row) bool {
	a, b := r.values(), o.values()
	for i := range a {
		if a[i] != b[i] && !(math.IsNaN(a[i]) && math.IsNaN(b[i])) {
			return false
		}
	}
	return r.marks == o.marks
}

// assemble sorts the rows, drops exact repeats and lays them on the full calendar
// between the first and the last date. A date with two different rows is a fault.
// The result is nil when a fault keeps it from being built.
func assemble(rows []row, station Station, layout string, f *faults) (*Series, *Report) {
	if len(rows) == 0 {
		f.add(Fault{Found: "no row of data", Allowed: "at least one day", Mend: "download it again, or a longer period"})
		return nil, nil
	}
	first, last := rows[0].date, rows[0].date
	for i := range rows {
		first, last = min(first, rows[i].date), max(last, rows[i].date)
	}
	rep := &Report{Name: f.name, Layout: layout, Station: station, First: first, Last: last}
	for y := first.Year(); y <= last.Year(); y++ {
		rep.Years = append(rep.Years, YearReport{Year: y})
	}
	rows = sorted(rows, rep)

	n := int(last-first) + 1
	s := &Series{Station: station, Layout: layout, Start: first, Marks: make([]Mark, n)}
	element := func(get func(*row) float64, required bool) []float64 {
		if !required && !slices.ContainsFunc(rows, func(r row) bool { return !math.IsNaN(get(&r)) }) {
			return nil
		}
		values := make([]float64, n)
		for i := range values {
			values[i] = math.NaN()
		}
		for i := range rows {
			values[rows[i].date-first] = get(&rows[i])
		}
		return values
	}
	s.Tmin = element(func(r *row) float64 { return r.tmin }, true)
	s.Tmax = element(func(r *row) float64 { return r.tmax }, true)
	s.Precip = element(func(r *row) float64 { return r.precip }, true)
	s.Solar = element(func(r *row) float64 { return r.solar }, false)
	s.Vapour = element(func(r *row) float64 { return r.vapour }, false)
	s.Wind = element(func(r *row) float64 { return r.wind }, false)
	s.SnowDepth = element(func(r *row) float64 { return r.snowDepth }, false)

	for i := range s.Marks {
		s.Marks[i] = DayAbsent
	}
	for i := range rows {
		r := &rows[i]
		y := rep.year(r.date)
		if i > 0 && rows[i-1].date == r.date {
			if !rows[i-1].same(r) {
				f.add(Fault{Line: r.line, Found: r.date.String(), Allowed: "each day once",
					Mend: fmt.Sprintf("line %d gives the same day other values, keep one", rows[i-1].line)})
			}
			y.Duplicates++
			continue
		}
		y.Rejected += r.rejected
		y.OutOfRange += r.outOfRange
		if r.odd != nil && rep.odd == "" {
			rep.odd = fmt.Sprintf("the first on %v: %.5g %s, where %v to %v can be", r.date, r.odd.v, r.odd.unit, r.odd.lo, r.odd.hi)
		}
		if !r.marks.Has(DayAbsent) {
			y.Rows++
		}
		s.Marks[r.date-first] = r.marks
	}
	return s, rep
}

// sorted returns the rows by date and counts those found after a later date.
func sorted(rows []row, rep *Report) []row {
	latest, jumps := rows[0].date, 0
	for i := range rows {
		if rows[i].date < latest {
			rep.year(rows[i].date).OutOfOrder++
			jumps++
		}
		latest = max(latest, rows[i].date)
	}
	if jumps > 0 {
		slices.SortStableFunc(rows, func(a, b row) int { return int(a.date - b.date) })
	}
	return rows
}

// count fills in the report from the finished series.
func (rep *Report) count(s *Series) {
	for i := range s.Marks {
		y, m := rep.year(s.Date(i)), s.Marks[i]
		y.Days++
		if m.Has(DayAbsent) {
			y.Absent++
		}
		if math.IsNaN(s.Tmin[i]) {
			y.MissingTmin++
		}
		if math.IsNaN(s.Tmax[i]) {
			y.MissingTmax++
		}
		if s.Tmax[i] < s.Tmin[i] {
			y.Contradictory++
		}
		if math.IsNaN(s.Precip[i]) {
			y.MissingPrecip++
		} else {
			y.Precip += s.Precip[i]
		}
		if m.Has(TraceRain) {
			y.Trace++
		}
		if m.Has(SpreadTotal) {
			y.Spread++
		}
		if m.Has(CalendarFilled) {
			y.CalendarFilled++
		}
	}
	sum := 0.0
	for _, y := range rep.Years {
		if y.Days-y.MissingPrecip >= 350 {
			rep.CompleteYears++
			sum += y.Precip
		}
	}
	rep.MeanAnnualPrecip = sum / float64(rep.CompleteYears) // NaN without one
}
