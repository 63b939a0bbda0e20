package weather

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
)

// isHourly recognises the header of our layout of hourly precipitation: time and
// precip_mm or precip_in. WithHourly reads it.
func isHourly(head []byte) bool {
	names := headerOf(head)
	return names[0] == "time" && (slices.Contains(names, "precip_mm") || slices.Contains(names, "precip_in"))
}

// hourLimit is what one hour can bring: the most that was ever measured in 60
// minutes on flat land is about 400 mm (world records of the WMO, from memory).
var hourLimit = limit{0, 400, "mm/h"}

// Bounds of the comparison with the daily gauge; common practice.
const (
	gaugeSlack    = 0.20 // share
	smallestGauge = 1.0  // mm, below which a share says nothing
)

// WithHourly returns a copy of the series with the hourly precipitation of a file
// in our layout of hours, and notes on what was done. The file has a header with
// time and precip_mm or precip_in, and rows in order, each with the beginning of
// its hour in local standard time. An hour that is blank or left out is missing;
// write 0 for a dry one.
//
// A day of 24 known hours, midnight to midnight, takes its Precip from them. Where
// the daily gauge is read at another hour (Station.ReadHour; set it first where
// the file does not give it), its total holds parts of two such days. So that rain
// is neither lost nor counted twice, a day without hours beside one with them
// loses what fell in those hours and gains what the next day's gauge holds from
// before midnight; it is marked PrecipFilled.
//
// The notes count the days, and those of at least 1 mm on which the hours of the
// gauge's own 24 h differ from it by more than 20 %. The error joins all faults of
// the file.
func (s *Series) WithHourly(name string, r io.Reader) (*Series, []string, error) {
	text, err := open(r)
	if err != nil {
		return nil, nil, inFile(name, err)
	}
	h := hourlyReader{f: &faults{name: name}, s: s, hours: allMissing(24 * s.Days())}
	h.read(newSplitter(text))
	if h.f.any() {
		return nil, nil, h.f.err()
	}
	c := s.clone()
	c.HourlyPrecip = h.hours
	notes := c.settleHours(s)
	if h.outside > 0 {
		notes = append(notes, fmt.Sprintf("%d hours lie outside the daily record and were not used", h.outside))
	}
	return c, notes, nil
}

// hourlyReader reads hours onto the days of a series.
type hourlyReader struct {
	f       *faults
	s       *Series
	hours   []float64
	outside int
}

// read reads the header and the rows.
func (h *hourlyReader) read(split *splitter) {
	header, _, _ := split.next()
	t := newSheet(split, h.f, header)
	at := t.column(anyUnit, "time")
	precip := t.column(rainUnits, "precip_mm")
	if inches := t.column(rainUnits, "precip_in"); inches.has() {
		if precip.has() {
			h.f.add(Fault{Line: t.line, Column: inches.name, Found: "precip_mm and precip_in", Allowed: "one of them"})
		}
		inches.scale = 25.4
		precip = inches
	}
	t.require("an hourly file has the columns time and precip_mm, or time and precip_in", at, precip)
	for i, used := range t.used {
		if !used {
			h.f.add(Fault{Line: t.line, Column: t.header[i], Found: t.header[i], Allowed: "time, precip_mm, precip_in"})
		}
	}
	if h.f.any() {
		return
	}
	last, began := 0, false
	for t.next() {
		hour, ok := hourOf(t.text(at))
		switch {
		case !ok:
			t.fault(at, "the beginning of an hour, written as 2006-01-02T15:00", "")
			continue
		case began && hour <= last:
			t.fault(at, "an hour after the one above", "put the hours in order, each once, in local standard time without summer time")
			continue
		}
		last, began = hour, true
		v := t.value(precip)
		if !math.IsNaN(v) && !hourLimit.within(v) {
			t.fault(precip, fmt.Sprintf("%v to %v %s, or blank when missing", hourLimit.lo, hourLimit.hi, hourLimit.unit), "")
		}
		if i := hour - 24*int(h.s.Start); i >= 0 && i < len(h.hours) {
			h.hours[i] = v
		} else {
			h.outside++
		}
	}
	if split.failed != nil {
		h.f.list = append(h.f.list, inFile(h.f.name, split.failed))
	}
}

// hourOf reads 2006-01-02T15:00 or with a blank for the T, with seconds of 00 or
// without, as hours since the beginning of Date 0.
func hourOf(text []byte) (hour int, ok bool) {
	text = bytes.TrimSuffix(text, []byte(":00"))
	if len(text) == 16 {
		text = bytes.TrimSuffix(text, []byte(":00"))
	}
	if len(text) != 13 || text[10] != 'T' && text[10] != ' ' {
		return 0, false
	}
	day, okDay := parseDate(text[:10])
	h, okHour := digits(text[11:])
	return 24*int(day) + h, okDay && okHour && h < 24 && yearAllowed(day.Year())
}

// settleHours makes days and hours agree; before is the series without hours.
func (s *Series) settleHours(before *Series) (notes []string) {
	w := hourWindow{s.HourlyPrecip, 24}
	if at := s.Station.ReadHour; !math.IsNaN(at) {
		w.readHour = max(1, int(math.Round(at)))
	} else {
		notes = append(notes, "the hour at which the daily gauge was read is not known and was taken as midnight")
	}
	differ, compared := w.compare(before.Precip)
	complete, partial := s.wholeDays()
	mended := 0
	for i, gauge := range before.Precip {
		if sum := w.sum(24*i, 24*i+24); !math.IsNaN(sum) {
			s.Precip[i] = sum
			s.Marks[i] &^= PrecipFilled | TraceRain | SpreadTotal
		} else if beside := w.besideHours(before.Precip, i); beside != gauge && !math.IsNaN(gauge) {
			s.Precip[i] = beside
			s.Marks[i] |= PrecipFilled
			mended++
		}
	}
	notes = append(notes, fmt.Sprintf("hourly precipitation on %d of %d days; %d days with some hours only keep their daily total", complete, s.Days(), partial),
		fmt.Sprintf("the hours differ from the daily gauge by more than 20 %% on %d of %d days with 1 mm or more", differ, compared))
	if mended > 0 {
		notes = append(notes, fmt.Sprintf("%d days beside hourly ones give or take the part of the gauge's 24 h that lies across midnight", mended))
	}
	return notes
}

// wholeDays counts the days with all their hours and those with some, whose hours
// are set missing.
func (s *Series) wholeDays() (complete, partial int) {
	for i := range s.Days() {
		hours, known := s.hours(i), 0
		for _, v := range hours {
			if !math.IsNaN(v) {
				known++
			}
		}
		switch known {
		case 0:
		case len(hours):
			complete++
		default:
			partial++
			copy(hours, allMissing(len(hours)))
		}
	}
	return complete, partial
}

// hourWindow adds up hours over the 24 h of a gauge.
type hourWindow struct {
	hours    []float64
	readHour int // 1 to 24
}

// sum adds the hours from one hour of the record up to another; NaN when one is
// missing or outside.
func (w hourWindow) sum(from, to int) float64 {
	if from < 0 || to > len(w.hours) {
		return math.NaN()
	}
	total := 0.0
	for _, v := range w.hours[from:to] {
		total += v
	}
	return total
}

// compare counts the days of at least smallestGauge whose gauge can be compared
// with the hours of its own 24 h, and those that differ.
func (w hourWindow) compare(gauge []float64) (differ, compared int) {
	for i, mm := range gauge {
		end := 24*i + w.readHour
		own := w.sum(end-24, end)
		if !(math.Max(own, mm) >= smallestGauge) { // also when one is missing
			continue
		}
		compared++
		if math.Abs(own-mm) > gaugeSlack*mm {
			differ++
		}
	}
	return differ, compared
}

// besideHours is the gauge's total of day i, which has no hours, without what fell
// in the hours of the day before and with what the next day's gauge caught before
// its midnight where that day has hours.
func (w hourWindow) besideHours(gauge []float64, i int) float64 {
	mm, day := gauge[i], 24*i
	if w.readHour == 24 {
		return mm
	}
	if caught := w.sum(day+w.readHour-24, day); !math.IsNaN(caught) {
		mm = math.Max(0, mm-caught)
	}
	if i+1 < len(gauge) {
		if after := w.sum(day+24, day+24+w.readHour); !math.IsNaN(after) && !math.IsNaN(gauge[i+1]) {
			mm += math.Max(0, gauge[i+1]-after)
		}
	}
	return mm
}
