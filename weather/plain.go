package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
)

// plainColumns are the columns of our layout in the order WritePlain uses; the
// first four are required.
var plainColumns = []string{"date", "tmin_C", "tmax_C", "precip_mm",
	"solar_MJ_m2", "vapour_kPa", "wind_m_s", "snow_depth_m", "hourly_precip_mm", "marks"}

const plainRequired = 4

// readPlain reads our own layout: comment lines "# key: value", a header with
// units in its column names, one row per day in order.
func readPlain(split *splitter, _ Pick, f *faults) *record {
	head, first := readPlainHead(split, f)
	header := checkPlainHeader(first, split.line, f)
	if f.any() {
		return nil
	}
	p := plainReader{f: f, split: split, header: header}
	rec := &record{layout: head.Layout, station: head.Station}
	var hourly []float64
	for p.next() {
		r, hours := p.day()
		rec.add(r, split, f)
		hourly = append(hourly, hours...)
	}
	rec.finish = func(s *Series) { head.onto(s, header, rec.rows, hourly) }
	return rec
}

// onto lays on a series what the head and the header say and the hours of its rows.
func (head *Series) onto(s *Series, header []string, rows []row, hourly []float64) {
	s.Invented, s.CivilTemperature = head.Invented, head.CivilTemperature
	has := func(column string) bool { return slices.Contains(header, column) }
	keep := func(element *[]float64, column string) { // a blank column is still a column
		if *element == nil && has(column) {
			*element = allMissing(s.Days())
		}
	}
	keep(&s.Solar, "solar_MJ_m2")
	keep(&s.Vapour, "vapour_kPa")
	keep(&s.Wind, "wind_m_s")
	keep(&s.SnowDepth, "snow_depth_m")
	if has("hourly_precip_mm") {
		s.HourlyPrecip = allMissing(24 * s.Days())
		for i := range rows {
			copy(s.HourlyPrecip[24*int(rows[i].date-s.Start):], hourly[24*i:24*i+24])
		}
	}
}

// layoutPlain is the name of our own layout.
const layoutPlain = "Mottle plain CSV"

// isPlain recognises the head or the header, with one name missing too.
func isPlain(head []byte) bool {
	header, known := headerOf(head), 0
	for _, name := range plainColumns[:plainRequired] {
		if slices.Contains(header, name) {
			known++
		}
	}
	return bytes.HasPrefix(firstLine(head), []byte{'#'}) || strings.EqualFold(header[0], "date") || known >= plainRequired-1
}

// allMissing returns n values, all NaN.
func allMissing(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = math.NaN()
	}
	return v
}

// checkPlainHeader checks the header row before any value is read by its name:
// a column misspelt would otherwise be read as absent.
func checkPlainHeader(header []string, line int, f *faults) []string {
	if len(header) == 0 {
		f.add(Fault{Found: "no header", Allowed: "a header with " + strings.Join(plainColumns[:plainRequired], ", "), Mend: "put it above the first day"})
		return nil
	}
	for i, name := range header {
		header[i] = strings.TrimSpace(name)
		switch {
		case slices.Contains(header[:i], header[i]):
			f.add(Fault{Line: line, Column: header[i], Found: "the column twice", Allowed: "each column once"})
		case !slices.Contains(plainColumns, header[i]):
			fault := Fault{Line: line, Column: header[i], Found: header[i], Allowed: strings.Join(plainColumns, ", ")}
			if like := nearest(header[i], plainColumns); like != "" {
				fault.Mend = "did you mean " + like + "?"
			} else {
				fault.Mend = "give it the name of what it holds, or take the column out"
			}
			f.add(fault)
		}
	}
	for _, name := range plainColumns[:plainRequired] {
		if !slices.Contains(header, name) {
			f.add(Fault{Line: line, Column: name, Found: "no such column", Allowed: "a file with " + strings.Join(plainColumns[:plainRequired], ", ")})
		}
	}
	return header
}

// plainReader turns the cells of our layout into values. What cannot be true is
// a fault here: the file is the user's own and is mended at its source.
type plainReader struct {
	f        *faults
	split    *splitter
	header   []string
	fields   [][]byte
	previous Date
	began    bool
}

// next moves to the next whole row, false at the end. Comment lines are passed.
func (p *plainReader) next() bool {
	for {
		fields, sound, ok := p.split.next()
		switch {
		case !ok:
			return false
		case len(fields) > 0 && bytes.HasPrefix(fields[0], []byte{'#'}):
		case !sound:
			p.f.add(unpaired(p.split.line))
		case len(fields) != len(p.header):
			p.f.add(fieldCount(p.split.line, len(fields), len(p.header)))
		default:
			p.fields = fields
			return true
		}
	}
}

// text returns a field, nil when the file has no such column.
func (p *plainReader) text(column string) []byte {
	i := slices.Index(p.header, column)
	if i < 0 {
		return nil
	}
	return bytes.TrimSpace(p.fields[i])
}

// fault notes what is wrong with a field of the row.
func (p *plainReader) fault(column, allowed, mend string) {
	p.f.add(Fault{Line: p.split.line, Column: column, Found: string(p.text(column)), Allowed: allowed, Mend: mend})
}

// day reads the current row and its 24 hourly values, nil when the file has none.
func (p *plainReader) day() (row, []float64) {
	r := missingRow(p.split.line)
	date, ok := parseDate(p.text("date"))
	switch {
	case !ok || !yearAllowed(date.Year()):
		p.fault("date", dateAllowed, dateMend(p.text("date")))
	case p.began && date <= p.previous:
		p.fault("date", "a day after "+p.previous.String(), "put the rows in order of date, each day once")
	default:
		p.previous, p.began = date, true
	}
	r.date = date
	r.tmin = p.value("tmin_C", temperatureLimit)
	r.tmax = p.value("tmax_C", temperatureLimit)
	r.precip = p.value("precip_mm", precipLimit)
	r.solar = p.value("solar_MJ_m2", solarLimit)
	r.vapour = p.value("vapour_kPa", vapourLimit)
	r.wind = p.value("wind_m_s", windLimit)
	r.snowDepth = p.value("snow_depth_m", snowDepthLimit)
	if r.tmax < r.tmin {
		p.fault("tmax_C", "not below tmin_C, "+string(p.text("tmin_C")), "exchange the two, or leave the wrong one blank")
	}
	marks, err := ParseMark(string(p.text("marks")))
	if err != nil {
		p.fault("marks", strings.Join(markNames[:], ", ")+", joined by +", "")
	}
	r.marks = marks
	if !slices.Contains(p.header, "hourly_precip_mm") {
		return r, nil
	}
	return r, p.hours(r.precip)
}

// value reads a number within the limit, NaN when blank.
func (p *plainReader) value(column string, l limit) float64 {
	text := string(p.text(column))
	if text == "" {
		return math.NaN()
	}
	v, ok := number(text)
	if !ok || !l.within(v) {
		p.fault(column, fmt.Sprintf("a number from %v to %v %s, or blank when missing", l.lo, l.hi, l.unit), numberMend(text, v, ok))
	}
	return v
}

// numberMend guesses what is wrong with a text that is no number, or with a number
// that cannot be true.
func numberMend(text string, v float64, ok bool) string {
	switch {
	case ok && v <= -99:
		return "leave it blank where the value is missing"
	case ok:
		return "is it a slip, or in another unit?"
	case strings.Contains(text, ","):
		return "write a point in decimal numbers, and no mark between thousands"
	}
	return ""
}

// hourlySlack is how far the hours may add up beside the day, mm; common practice
// for values rounded to 0.1 mm or finer.
const hourlySlack = 0.05

// hours reads 24 values separated by blanks.
func (p *plainReader) hours(daily float64) []float64 {
	hours := allMissing(24)
	fault := func(allowed string) { p.fault("hourly_precip_mm", allowed, "") }
	words := strings.Fields(string(p.text("hourly_precip_mm")))
	if len(words) == 0 {
		return hours
	}
	if len(words) != len(hours) {
		fault(fmt.Sprintf("24 values separated by blanks, not %d", len(words)))
		return hours
	}
	sum := 0.0
	for i, word := range words {
		v, ok := number(word)
		if !ok || !precipLimit.within(v) {
			fault(fmt.Sprintf("numbers from 0 to 500, not %.20q", word))
			return hours
		}
		hours[i] = v
		sum += v
	}
	if !(math.Abs(sum-daily) <= hourlySlack) {
		fault(fmt.Sprintf("24 values that add up to precip_mm within %v mm; they add up to %.4g", hourlySlack, sum))
	}
	return hours
}
