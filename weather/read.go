package weather

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"strings"
)

// The names of the layouts Read knows.
const (
	layoutGHCN   = "GHCN-Daily station CSV"
	layoutDaymet = "Daymet pixel CSV"
	layoutPlain  = "Mottle plain CSV"
)

// Read reads one daily record, plain or gzip-compressed, in one of the layouts
// GHCN-Daily station CSV, Daymet single-pixel CSV, USCRN daily CSV or Mottle plain
// CSV. The layout and the compression are told by content; the name serves in messages only.
//
// Rows out of order are sorted, absent days inserted, values that cannot be true
// or that failed the agency's own check set missing; the Report counts all of it.
// A maximum below its minimum is counted and left for ByCivilDay or Fill. Files of
// our own plain layout get no such grace: there each of these is an error.
//
// The error joins all faults found, one a line, the first 50 in full. It is also
// an error when the record as a whole looks like another unit.
func Read(name string, r io.Reader) (*Series, *Report, error) {
	data, err := content(r)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	f := &faults{name: name}
	var s *Series
	var rep *Report
	switch detect(data) {
	case layoutPlain:
		s, rep = readPlain(data, f)
	case layoutGHCN:
		s, rep = readGHCN(data, f)
	case layoutDaymet:
		s, rep = readDaymet(data, f)
	case layoutUSCRN:
		s, _, rep = readUSCRN(data, f)
	default:
		f.add(Fault{Line: 1, Found: firstLine(data),
			Allowed: strings.Join([]string{layoutGHCN, layoutDaymet, layoutUSCRN, layoutPlain}, ", "),
			Mend:    "save the record in one of these layouts"})
	}
	if f.any() {
		return nil, nil, f.err()
	}
	rep.count(s)
	if err := plausible(s, rep); err != nil {
		return nil, nil, err
	}
	return s, rep, nil
}

// content reads all of r, unpacking gzip, without a byte-order mark.
func content(r io.Reader) ([]byte, error) {
	b := bufio.NewReader(r)
	r = b
	if magic, _ := b.Peek(2); len(magic) == 2 && magic[0] == 0x1f && magic[1] == 0x8b {
		z, err := gzip.NewReader(b)
		if err != nil {
			return nil, err
		}
		r = z
	}
	data, err := io.ReadAll(r)
	return bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), err
}

// detect tells the layout from the first line, "" when it is none of ours.
func detect(data []byte) string {
	line := firstLine(data)
	split := splitter{rest: []byte(line)}
	fields, _, _ := split.next()
	head := append(names(fields), "", "")
	switch {
	case strings.HasPrefix(line, "#"), strings.EqualFold(head[0], "date"):
		return layoutPlain
	case head[0] == "STATION":
		return layoutGHCN
	case strings.HasPrefix(line, "Latitude:"), head[0] == "year" && head[1] == "yday":
		return layoutDaymet
	case head[0] == uscrnColumns[uscrnStation]:
		return layoutUSCRN
	}
	return ""
}

// firstLine returns the first line that is not blank, trimmed.
func firstLine(data []byte) string {
	data = bytes.TrimSpace(data)
	line, _, _ := bytes.Cut(data, []byte{'\n'})
	return string(bytes.TrimSpace(line))
}

// Bounds of plausible; common practice for farmed land.
const (
	driestYear, wettestYear = 150.0, 2500.0 // mm, mean of the complete years
	mostSlips               = 0.01          // share of days
)

// plausible refuses a record that as a whole looks like another unit or like
// exchanged columns.
func plausible(s *Series, rep *Report) error {
	var errs []error
	fail := func(format string, a ...any) { errs = append(errs, fmt.Errorf(rep.Name+": "+format, a...)) }
	if mean := rep.MeanAnnualPrecip; mean < driestYear || mean > wettestYear {
		fail("column precipitation: found a mean of %.3g mm a year over %d complete years; allowed %v to %v%s",
			mean, rep.CompleteYears, driestYear, wettestYear, suspectedUnit(mean))
	}
	total, days := rep.Total(), float64(s.Days())
	if share := float64(total.OutOfRange) / days; share > mostSlips {
		fail("found %d values that cannot be true on %d days; allowed at most 1 in 100: is the temperature in F, or the precipitation in another unit?",
			total.OutOfRange, s.Days())
	}
	if share := float64(total.Contradictory) / days; share > mostSlips {
		fail("found Tmax below Tmin on %d of %d days; allowed at most 1 in 100: are the columns exchanged?",
			total.Contradictory, s.Days())
	}
	return errors.Join(errs...)
}

// suspectedUnit names the units that would make a mean annual precipitation
// plausible.
func suspectedUnit(mean float64) string {
	var units []string
	for _, u := range []struct {
		name string
		mm   float64
	}{{"inches", 25.4}, {"cm", 10}, {"tenths of mm", 0.1}, {"hundredths of an inch", 0.254}, {"m", 1000}} {
		if v := mean * u.mm; v >= driestYear && v <= wettestYear {
			units = append(units, fmt.Sprintf("%s (%.0f mm a year)", u.name, v))
		}
	}
	if len(units) == 0 {
		return ": check the unit"
	}
	return ": the values may be in " + strings.Join(units, " or ")
}
