package weather

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/gocarina/gocsv"
)

// plainRow is one row of our own layout. A column the file does not have, and a
// blank field, leave a cell without text.
type plainRow struct {
	Date      cell `csv:"date"`
	Tmin      cell `csv:"tmin_C"`
	Tmax      cell `csv:"tmax_C"`
	Precip    cell `csv:"precip_mm"`
	Solar     cell `csv:"solar_MJ_m2"`
	Vapour    cell `csv:"vapour_kPa"`
	Wind      cell `csv:"wind_m_s"`
	SnowDepth cell `csv:"snow_depth_m"`
	Hourly    cell `csv:"hourly_precip_mm"`
	Marks     cell `csv:"marks"`
}

// plainColumns are the columns of our layout in the order WritePlain uses; the
// first four are required.
var plainColumns = []string{"date", "tmin_C", "tmax_C", "precip_mm",
	"solar_MJ_m2", "vapour_kPa", "wind_m_s", "snow_depth_m", "hourly_precip_mm", "marks"}

const plainRequired = 4

// cell keeps the text of a field, so that a blank is not read as zero.
type cell struct{ text string }

// UnmarshalCSV keeps the text without its outer blanks.
func (c *cell) UnmarshalCSV(text string) error {
	c.text = strings.TrimSpace(text)
	return nil
}

// readPlain reads our own layout: comment lines "# key: value", a header with
// units in its column names, one row per day in order.
func readPlain(data []byte, f *faults) (*Series, *Report) {
	head := readPlainHead(data, f)
	input := &countedReader{csv: csv.NewReader(bytes.NewReader(data)), f: f}
	input.csv.Comment = '#'
	header := checkPlainHeader(input.csv, f)
	if f.any() {
		return nil, nil
	}
	input.header = header
	var cells []plainRow
	if err := gocsv.UnmarshalCSV(input, &cells); err != nil {
		f.add(Fault{Found: err.Error(), Allowed: "comma-separated text"})
	}
	p := plainReader{f: f}
	rows := make([]row, 0, len(cells))
	var hourly []float64
	for i := range cells {
		r, hours := p.day(&cells[i], input.lines[i])
		rows = append(rows, r)
		hourly = append(hourly, hours...)
	}
	if f.any() {
		return nil, nil
	}
	s, rep := assemble(rows, head.Station, head.Layout, f)
	if s == nil {
		return nil, nil
	}
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
	return s, rep
}

// allMissing returns n values, all NaN.
func allMissing(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = math.NaN()
	}
	return v
}

// checkPlainHeader reads the header row before any value is read by its name:
// a column misspelt would otherwise be read as absent.
func checkPlainHeader(r *csv.Reader, f *faults) []string {
	header, err := r.Read()
	if err != nil {
		f.add(Fault{Found: "no header", Allowed: "a header with " + strings.Join(plainColumns[:plainRequired], ", ")})
		return nil
	}
	line, _ := r.FieldPos(0)
	for i, name := range header {
		header[i] = strings.TrimSpace(name)
		switch {
		case slices.Contains(header[:i], header[i]):
			f.add(Fault{Line: line, Column: header[i], Found: "the column twice", Allowed: "each column once"})
		case !slices.Contains(plainColumns, header[i]):
			fault := Fault{Line: line, Column: header[i], Found: header[i], Allowed: strings.Join(plainColumns, ", ")}
			if like := nearest(header[i], plainColumns); like != "" {
				fault.Mend = "did you mean " + like + "?"
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

// countedReader hands gocsv the header already checked and then the whole rows,
// and remembers the line each stands on.
type countedReader struct {
	csv    *csv.Reader
	f      *faults
	header []string
	lines  []int
}

// Read returns the header, then row after row; broken rows become faults.
func (c *countedReader) Read() ([]string, error) {
	if c.header != nil {
		header := c.header
		c.header = nil
		return header, nil
	}
	for {
		fields, err := c.csv.Read()
		var bad *csv.ParseError
		switch {
		case errors.As(err, &bad) && errors.Is(err, csv.ErrFieldCount):
			c.f.add(fieldCount(bad.Line, len(fields), c.csv.FieldsPerRecord))
		case errors.As(err, &bad):
			c.f.add(Fault{Line: bad.Line, Found: bad.Err.Error(), Allowed: "quotes in pairs"})
		case err != nil:
			return nil, err
		default:
			line, _ := c.csv.FieldPos(0)
			c.lines = append(c.lines, line)
			return fields, nil
		}
	}
}

// ReadAll returns all that Read returns.
func (c *countedReader) ReadAll() ([][]string, error) {
	var all [][]string
	for {
		fields, err := c.Read()
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		all = append(all, fields)
	}
}

// plainReader turns the cells of our layout into values. What cannot be true is
// a fault here: the file is the user's own and is mended at its source.
type plainReader struct {
	f        *faults
	previous Date
	began    bool
}

// day reads one row and its 24 hourly values, all NaN when none are given.
func (p *plainReader) day(c *plainRow, line int) (row, []float64) {
	r := missingRow(line)
	date, ok := parseDate([]byte(c.Date.text))
	switch {
	case !ok || !yearAllowed(date.Year()):
		p.f.add(Fault{Line: line, Column: "date", Found: c.Date.text, Allowed: dateAllowed})
	case p.began && date <= p.previous:
		p.f.add(Fault{Line: line, Column: "date", Found: c.Date.text, Allowed: "a day after " + p.previous.String(), Mend: "put the rows in order of date, each day once"})
	default:
		p.previous, p.began = date, true
	}
	r.date = date
	r.tmin = p.value("tmin_C", c.Tmin, line, temperatureLimit)
	r.tmax = p.value("tmax_C", c.Tmax, line, temperatureLimit)
	r.precip = p.value("precip_mm", c.Precip, line, precipLimit)
	r.solar = p.value("solar_MJ_m2", c.Solar, line, solarLimit)
	r.vapour = p.value("vapour_kPa", c.Vapour, line, vapourLimit)
	r.wind = p.value("wind_m_s", c.Wind, line, windLimit)
	r.snowDepth = p.value("snow_depth_m", c.SnowDepth, line, snowDepthLimit)
	if r.tmax < r.tmin {
		p.f.add(Fault{Line: line, Column: "tmax_C", Found: c.Tmax.text, Allowed: "not below tmin_C, " + c.Tmin.text})
	}
	marks, err := ParseMark(c.Marks.text)
	if err != nil {
		p.f.add(Fault{Line: line, Column: "marks", Found: c.Marks.text, Allowed: strings.Join(markNames[:], ", ") + ", joined by +"})
	}
	r.marks = marks
	return r, p.hours(c.Hourly, r.precip, line)
}

// value reads a number within the limit, NaN when blank.
func (p *plainReader) value(column string, c cell, line int, l limit) float64 {
	if c.text == "" {
		return math.NaN()
	}
	v, ok := number(c.text)
	if !ok || !l.within(v) {
		p.f.add(Fault{Line: line, Column: column, Found: c.text, Allowed: fmt.Sprintf("a number from %v to %v %s, or blank when missing", l.lo, l.hi, l.unit)})
	}
	return v
}

// hourlySlack is how far the hours may add up beside the day, mm; common practice
// for values rounded to 0.1 mm or finer.
const hourlySlack = 0.05

// hours reads 24 values separated by blanks.
func (p *plainReader) hours(c cell, daily float64, line int) []float64 {
	hours := allMissing(24)
	if c.text == "" {
		return hours
	}
	fault := func(allowed string) {
		p.f.add(Fault{Line: line, Column: "hourly_precip_mm", Found: c.text, Allowed: allowed})
	}
	words := strings.Fields(c.text)
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
