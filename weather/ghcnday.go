package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
)

// ghcnElement numbers the elements of GHCN-Daily that are read (Menne et al. 2012;
// NOAA NCEI, README of Daily GHCN 3.22). Every layout of that record shares them,
// their flags and their totals of several days.
type ghcnElement int

const (
	elementPrecip ghcnElement = iota
	elementTmax
	elementTmin
	elementSnowDepth
	elementWind      // at 10 m, mean of the day
	elementTotal     // precipitation read once for several days
	elementTotalDays // number of those days
	ghcnElements     = 7
)

var ghcnNames = [ghcnElements]string{"PRCP", "TMAX", "TMIN", "SNWD", "AWND", "MDPR", "DAPR"}

// ghcnRequired are the elements without which there is no record.
var ghcnRequired = [...]ghcnElement{elementPrecip, elementTmax, elementTmin}

// ghcnOptional are those whose absence is noted.
var ghcnOptional = [...]struct {
	ghcnElement
	what string
}{{elementSnowDepth, "snow depth"}, {elementWind, "wind"}}

// elementNamed finds an element by its name.
func elementNamed(name []byte) (ghcnElement, bool) {
	for e := range ghcnNames {
		if string(name) == ghcnNames[e] {
			return ghcnElement(e), true
		}
	}
	return 0, false
}

// censusOf is the counter of an element in a census, -1 without one.
var censusOf = [ghcnElements]int{censusPrecip, censusTmax, censusTmin, -1, -1, -1, -1}

// Codes for a missing value; the second stands in older exports only.
const noCode, oldNoCode = -9999, 9999

// ghcnValue is one value with its flags; a flag not set is 0.
type ghcnValue struct {
	v                    float64 // as the file gives it, NaN missing
	measurement, quality byte
}

// ghcnDay holds the elements of one day as the file gives them.
type ghcnDay struct {
	date   Date
	line   int // first one of the day
	values [ghcnElements]ghcnValue
}

// ghcnScale brings a number of a file to mm, C, m of snow or m/s:
// (v - zero)*times/per.
type ghcnScale struct{ zero, times, per float64 }

// Scales of the elements. An inch is 25.4 mm and a mile an hour 0.44704 m/s by
// definition.
var (
	tenthsScale   = [ghcnElements]ghcnScale{{0, 1, 10}, {0, 1, 10}, {0, 1, 10}, {0, 1, 1000}, {0, 1, 10}, {0, 1, 10}, {0, 1, 1}}
	metricScale   = [ghcnElements]ghcnScale{{0, 1, 1}, {0, 1, 1}, {0, 1, 1}, {0, 1, 1000}, {0, 1, 1}, {0, 1, 1}, {0, 1, 1}}
	standardScale = [ghcnElements]ghcnScale{{0, 254, 10}, {32, 5, 9}, {32, 5, 9}, {0, 254, 10_000}, {0, 44_704, 100_000}, {0, 254, 10}, {0, 1, 1}}
)

// of converts a value.
func (c ghcnScale) of(v float64) float64 { return (v - c.zero) * c.times / c.per }

// row turns a day into a row, and the total of several days that it ends; the
// amount of that is NaN when there is none. What failed the agency's check is
// counted and missing. A trace is 0 mm.
func (d *ghcnDay) row(scales *[ghcnElements]ghcnScale) (row, multiDay) {
	r := missingRow(d.line)
	r.date = d.date
	value := func(e ghcnElement) float64 { return scales[e].of(r.accept(d.values[e])) }
	r.precip = r.keep(value(elementPrecip), precipLimit)
	if d.values[elementPrecip].measurement == 'T' && !math.IsNaN(r.precip) {
		r.precip = 0
		r.marks |= TraceRain
	}
	r.tmax = r.keep(value(elementTmax), temperatureLimit)
	r.tmin = r.keep(value(elementTmin), temperatureLimit)
	r.snowDepth = r.keep(value(elementSnowDepth), snowDepthLimit)
	r.wind = r.keep(WindAt2m(value(elementWind), 10), windLimit)

	total := d.values[elementTotal]
	if total.quality == 'L' { // the flag says only that the spans do not agree
		total.quality = 0
	}
	return r, multiDay{end: d.date, days: d.values[elementTotalDays].v, mm: scales[elementTotal].of(r.accept(total))}
}

// accept returns a value that passed the agency's check; one that failed is
// counted and missing.
func (r *row) accept(x ghcnValue) float64 {
	if x.quality != 0 && !math.IsNaN(x.v) {
		r.rejected++
		return math.NaN()
	}
	return x.v
}

// ghcnBook gathers the days of one station, whatever the layout.
type ghcnBook struct {
	f       *faults
	split   *splitter
	station Station
	days    []ghcnDay
	index   map[Date]int // of days, where a layout scatters a day over lines
	seen    [ghcnElements]bool
	unused  []string // names of elements or columns without use here
	repeats int      // values given twice alike

	times    [2401]int // of observation of precipitation, HHMM
	badTimes int
}

// newBook begins a book of a station not known yet.
func newBook(split *splitter, f *faults) *ghcnBook {
	return &ghcnBook{f: f, split: split, station: unknownStation(), index: map[Date]int{}}
}

// add begins a day at the current line and returns it, nil when there are too many.
func (b *ghcnBook) add(date Date) *ghcnDay {
	if len(b.days) == mostRows {
		b.f.add(tooManyRows(b.split.line))
		b.split.stop()
		return nil
	}
	b.days = append(b.days, ghcnDay{date: date, line: b.split.line})
	d := &b.days[len(b.days)-1]
	for e := range d.values {
		d.values[e].v = math.NaN()
	}
	return d
}

// put enters one value of a layout that scatters a day over lines.
func (b *ghcnBook) put(date Date, e ghcnElement, x ghcnValue) {
	i, known := b.index[date]
	if !known {
		if b.add(date) == nil {
			return
		}
		i = len(b.days) - 1
		b.index[date] = i
	}
	switch old := b.days[i].values[e]; {
	case math.IsNaN(old.v):
		b.days[i].values[e] = x
	case old == x:
		b.repeats++
	default:
		b.f.add(Fault{Line: b.split.line, Column: ghcnNames[e], Found: fmt.Sprintf("%g on %v", x.v, date),
			Allowed: "each element once a day", Mend: fmt.Sprintf("an earlier line gives %g, keep one", old.v)})
	}
}

// mostUnused bounds the list of unused elements; GHCN-Daily has fewer.
const mostUnused = 300

// pass notes an element without use here.
func (b *ghcnBook) pass(name []byte) {
	for _, known := range b.unused {
		if known == string(name) {
			return
		}
	}
	if len(b.unused) < mostUnused {
		b.unused = append(b.unused, string(name))
	}
}

// record turns the book into a record. kind is what the layout calls its elements.
func (b *ghcnBook) record(layout, kind string, scales *[ghcnElements]ghcnScale) *record {
	b.station.ReadHour = b.readHour()
	rec := &record{layout: layout, station: b.station, stationChosen: true, rows: make([]row, len(b.days))}
	for i := range b.days {
		var total multiDay
		if rec.rows[i], total = b.days[i].row(scales); !math.IsNaN(total.mm) {
			rec.totals = append(rec.totals, total)
		}
	}
	for _, o := range ghcnOptional {
		if !b.seen[o.ghcnElement] {
			rec.notes = append(rec.notes, fmt.Sprintf("no %s: the file has no %s %s", o.what, kind, ghcnNames[o.ghcnElement]))
		}
	}
	if b.badTimes > 0 {
		rec.notes = append(rec.notes, fmt.Sprintf("%d times of observation are no time of day and were not counted", b.badTimes))
	}
	if b.repeats > 0 {
		rec.notes = append(rec.notes, fmt.Sprintf("%d values given twice alike", b.repeats))
	}
	if len(b.unused) > 0 {
		rec.notes = append(rec.notes, kind+"s not used: "+strings.Join(b.unused, ", "))
	}
	return rec
}

// complete tells whether the required elements are there; a fault names each that
// is not.
func (b *ghcnBook) complete(line int, kind string) bool {
	all := true
	for _, e := range ghcnRequired {
		if !b.seen[e] {
			all = false
			b.f.add(Fault{Line: line, Column: ghcnNames[e], Found: "no such " + kind, Allowed: "a file with PRCP, TMAX and TMIN",
				Mend: "choose a station that records precipitation and temperature"})
		}
	}
	return all
}

// observedAt counts a time of observation of precipitation, HHMM or blank.
func (b *ghcnBook) observedAt(text []byte) {
	if text = bytes.TrimSpace(text); len(text) == 0 {
		return
	}
	n, ok := digits(text)
	if !ok || n > 2400 || n%100 > 59 {
		b.badTimes++
		return
	}
	b.times[n]++
}

// readHour returns the most frequent time of observation in h, NaN without one.
// Midnight is 24, whether written 2400 or 0000.
func (b *ghcnBook) readHour() float64 {
	b.times[2400] += b.times[0]
	b.times[0] = 0
	most := slices.Max(b.times[:])
	if most == 0 {
		return math.NaN()
	}
	at := slices.Index(b.times[:], most)
	return float64(at/100) + float64(at%100)/60
}

// flagOf is a flag, 0 when blank.
func flagOf(text []byte) byte {
	if text = bytes.TrimSpace(text); len(text) == 0 {
		return 0
	}
	return text[0]
}

// ghcnDate reads a day written as 2006-01-02 or 20060102.
func ghcnDate(text []byte) (Date, bool) {
	if len(text) == 8 {
		n, ok := digits(text)
		return dayOf(n, ok)
	}
	d, ok := parseDate(text)
	return d, ok && yearAllowed(d.Year())
}

// dayOf is the day that a number such as 20060102 names.
func dayOf(n int, ok bool) (Date, bool) {
	y, m, d := n/10000, n/100%100, n%100
	if !ok || !yearAllowed(y) || m < 1 || m > 12 || d < 1 || d > monthDays(y, m) {
		return 0, false
	}
	return NewDate(y, m, d), true
}
