package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
)

// ghcnReader reads the wide station CSV of GHCN-Daily (Menne et al. 2012; NOAA
// NCEI, README of Daily GHCN 3.22): one row per day, values as whole numbers
// padded with blanks, and beside each value its attributes "M,Q,S" or
// "M,Q,S,HHMM": measurement flag, quality flag, source flag, time of observation.
type ghcnReader struct {
	f       *faults
	split   *splitter
	fields  [][]byte // of the row being read
	columns []string

	id, date, name, latitude, longitude, elevation int // columns, -1 when absent
	prcp, tmax, tmin, snwd, awnd, mdpr, dapr       ghcnElement

	station  Station
	others   []string // further stations met
	times    [2401]int
	badTimes int
	totals   []multiDay
}

// ghcnElement is an element's value column and attribute column, -1 when absent.
type ghcnElement struct {
	name, unit        string
	value, attributes int
}

// ghcnFlags are the attributes of one value; a flag not set is 0 and an unknown
// time -1.
type ghcnFlags struct {
	measurement, quality byte
	time                 int // HHMM
}

// noCode is the code for a missing value in older copies.
const noCode = -9999

// layoutGHCN is the name of the layout.
const layoutGHCN = "GHCN-Daily station CSV"

// isGHCN recognises the header.
func isGHCN(head []byte) bool { return headerOf(head)[0] == "STATION" }

// readGHCN reads a GHCN-Daily station CSV.
func readGHCN(split *splitter, _ Pick, f *faults) *record {
	g := &ghcnReader{f: f, split: split}
	rec := &record{layout: layoutGHCN}
	unused := g.header()
	if f.any() {
		return nil
	}
	for g.next() {
		if r, ok := g.day(); ok {
			rec.add(r, split, f)
		}
	}
	if len(g.others) > 0 {
		f.add(Fault{Column: "STATION", Found: strings.Join(append([]string{g.station.ID}, g.others...), ", "),
			Allowed: "one station per file", Mend: "keep the rows of one of them"})
	}
	g.station.ReadHour = g.readHour()
	rec.station, rec.totals = g.station, g.totals
	if g.prcp.attributes < 0 || g.tmax.attributes < 0 || g.tmin.attributes < 0 {
		rec.notes = append(rec.notes, "attribute columns are missing: values that failed the agency's quality check cannot be told")
	}
	if g.badTimes > 0 {
		rec.notes = append(rec.notes, fmt.Sprintf("%d times of observation are no time of day and were not counted", g.badTimes))
	}
	if len(unused) > 0 {
		rec.notes = append(rec.notes, "columns not used: "+strings.Join(unused, ", "))
	}
	return rec
}

// header finds the columns by name and returns those without use here.
func (g *ghcnReader) header() (unused []string) {
	fields, sound, _ := g.split.next()
	if !sound {
		g.f.add(unpaired(g.split.line))
		return nil
	}
	g.columns = names(fields)
	if len(g.columns) > 1 && g.columns[1] == "NAME" {
		g.f.add(Fault{Line: g.split.line, Found: "STATION,NAME,...", Allowed: "STATION,DATE,...",
			Mend: "this export does not state its units; take the station's own daily file from the archive"})
		return nil
	}
	used := make([]bool, len(g.columns))
	find := func(name string) int {
		i := slices.Index(g.columns, name)
		if i < 0 {
			return i
		}
		used[i] = true
		if slices.Contains(g.columns[i+1:], name) {
			g.f.add(Fault{Line: g.split.line, Column: name, Found: "the column twice", Allowed: "each column once"})
		}
		return i
	}
	element := func(name, unit string) ghcnElement {
		return ghcnElement{name, unit, find(name), find(name + "_ATTRIBUTES")}
	}
	g.id, g.date, g.name = find("STATION"), find("DATE"), find("NAME")
	g.latitude, g.longitude, g.elevation = find("LATITUDE"), find("LONGITUDE"), find("ELEVATION")
	g.prcp, g.tmax, g.tmin = element("PRCP", "tenths of mm"), element("TMAX", "tenths of C"), element("TMIN", "tenths of C")
	g.snwd, g.awnd = element("SNWD", "mm"), element("AWND", "tenths of m/s")
	g.mdpr, g.dapr = element("MDPR", "tenths of mm"), element("DAPR", "days")
	for _, c := range []ghcnElement{{name: "DATE", value: g.date}, g.prcp, g.tmax, g.tmin} {
		if c.value < 0 {
			g.f.add(Fault{Line: g.split.line, Column: c.name, Found: "no such column", Allowed: "a file with DATE, PRCP, TMAX and TMIN",
				Mend: "choose a station that records precipitation and temperature"})
		}
	}
	for i, name := range g.columns {
		if !used[i] && !strings.HasSuffix(name, "_ATTRIBUTES") {
			unused = append(unused, name)
		}
	}
	return unused
}

// next moves to the next whole row, false at the end.
func (g *ghcnReader) next() bool {
	for {
		fields, sound, ok := g.split.next()
		switch {
		case !ok:
			return false
		case !sound:
			g.f.add(unpaired(g.split.line))
		case len(fields) != len(g.columns):
			g.f.add(fieldCount(g.split.line, len(fields), len(g.columns)))
		default:
			g.fields = fields
			return true
		}
	}
}

// day reads the current row, false when its date cannot be read.
func (g *ghcnReader) day() (row, bool) {
	g.place()
	r := missingRow(g.split.line)
	text := bytes.TrimSpace(g.fields[g.date])
	var ok bool
	if r.date, ok = parseDate(text); !ok || !yearAllowed(r.date.Year()) {
		fault := Fault{Line: r.line, Column: "DATE", Found: string(text), Allowed: dateAllowed}
		if len(text) == 7 && text[4] == '-' {
			fault.Mend = "this is a monthly summary, take the station's daily file"
			g.split.stop() // every row would say the same
		}
		g.f.add(fault)
		return r, false
	}

	rain, flags := g.cell(&g.prcp)
	g.observedAt(flags.time)
	r.precip = r.keep(r.accept(rain, flags)/10, precipLimit)
	if flags.measurement == 'T' && !math.IsNaN(r.precip) {
		r.precip = 0
		r.marks |= TraceRain
	}
	r.tmax = r.keep(r.accept(g.cell(&g.tmax))/10, temperatureLimit)
	r.tmin = r.keep(r.accept(g.cell(&g.tmin))/10, temperatureLimit)
	r.snowDepth = r.keep(r.accept(g.cell(&g.snwd))/1000, snowDepthLimit)
	r.wind = r.keep(WindAt2m(r.accept(g.cell(&g.awnd))/10, 10), windLimit)

	total, flags := g.cell(&g.mdpr)
	days, _ := g.cell(&g.dapr)
	if flags.quality == 'L' { // the flag says only that the spans do not agree
		flags.quality = 0
	}
	if total = r.accept(total, flags); !math.IsNaN(total) {
		g.totals = append(g.totals, multiDay{end: r.date, days: days, mm: total / 10})
	}
	return r, true
}

// cell reads the value of an element and its flags, NaN where there is none.
func (g *ghcnReader) cell(e *ghcnElement) (float64, ghcnFlags) {
	if e.value < 0 {
		return math.NaN(), ghcnFlags{time: -1}
	}
	text := bytes.TrimSpace(g.fields[e.value])
	if len(text) == 0 {
		return math.NaN(), ghcnFlags{time: -1}
	}
	n, ok := whole(text)
	if !ok {
		fault := Fault{Line: g.split.line, Column: e.name, Found: string(text), Allowed: "a whole number, " + e.unit}
		if bytes.IndexByte(text, '.') >= 0 {
			fault.Mend = "a decimal point means an export in other units; take the station's own daily file from the archive"
		}
		g.f.add(fault)
	}
	if !ok || n == noCode {
		return math.NaN(), ghcnFlags{time: -1}
	}
	if e.attributes < 0 {
		return float64(n), ghcnFlags{time: -1}
	}
	return float64(n), g.attributes(g.fields[e.attributes])
}

// attributes reads "M,Q,S" or "M,Q,S,HHMM".
func (g *ghcnReader) attributes(text []byte) ghcnFlags {
	flags := ghcnFlags{time: -1}
	for i := 0; len(text) > 0 && i < 4; i++ {
		part, rest, _ := bytes.Cut(text, []byte{','})
		part, text = bytes.TrimSpace(part), rest
		if len(part) == 0 {
			continue
		}
		switch i {
		case 0:
			flags.measurement = part[0]
		case 1:
			flags.quality = part[0]
		case 3:
			n, ok := digits(part)
			if !ok || n > 2400 || n%100 > 59 {
				g.badTimes++
				continue
			}
			flags.time = n
		}
	}
	return flags
}

// accept returns a value that passed the agency's check; one that failed is
// counted and missing.
func (r *row) accept(v float64, flags ghcnFlags) float64 {
	if flags.quality != 0 && !math.IsNaN(v) {
		r.rejected++
		return math.NaN()
	}
	return v
}

// place takes the station from the first row and notes other stations.
func (g *ghcnReader) place() {
	id := bytes.TrimSpace(g.column(g.id))
	if g.station.ID == "" {
		g.station = Station{ID: string(id), Name: string(bytes.TrimSpace(g.column(g.name))),
			Latitude:  g.coordinate("LATITUDE", g.latitude, 90),
			Longitude: g.coordinate("LONGITUDE", g.longitude, 180),
			Elevation: g.coordinate("ELEVATION", g.elevation, 9000)}
		return
	}
	if string(id) != g.station.ID && len(g.others) < 20 && !slices.Contains(g.others, string(id)) {
		g.others = append(g.others, string(id))
	}
}

// column returns a field of the row, nil when the file has no such column.
func (g *ghcnReader) column(i int) []byte {
	if i < 0 {
		return nil
	}
	return g.fields[i]
}

// coordinate reads a position of the station, NaN when blank.
func (g *ghcnReader) coordinate(name string, i int, largest float64) float64 {
	return coordinate(g.f, g.split.line, name, string(bytes.TrimSpace(g.column(i))), largest)
}

// observedAt counts a time of observation of precipitation.
func (g *ghcnReader) observedAt(hhmm int) {
	if hhmm >= 0 {
		g.times[hhmm]++
	}
}

// readHour returns the most frequent time of observation in h, NaN without one.
// Midnight is 24, whether written 2400 or 0000.
func (g *ghcnReader) readHour() float64 {
	g.times[2400] += g.times[0]
	g.times[0] = 0
	most := slices.Max(g.times[:])
	if most == 0 {
		return math.NaN()
	}
	at := slices.Index(g.times[:], most)
	return float64(at/100) + float64(at%100)/60
}
