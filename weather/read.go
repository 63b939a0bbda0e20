package weather

import (
	"bufio"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Pick settles what a file alone may leave open. The zero value asks for nothing.
type Pick struct {
	Station string // id of one station where a file holds several, or its name
	Units   Units  // of a file that does not state them; the zero value tells them from the values
}

// layout is one way in which daily records are handed out.
type layout struct {
	name       string
	recognises func(head []byte) bool // by the beginning of the text
	read       func(*splitter, Pick, *faults) *record
}

// layouts are those that Read knows, in the order in which they are tried.
var layouts = []layout{
	{layoutLong, isLong, readLong},          // before the plain layout, whose header also begins with a date
	{layoutGridMET, isGridMET, readGridMET}, // likewise
	{layoutLocated, isLocated, readLocated}, // likewise
	{layoutPlain, isPlain, readPlain},
	{layoutGHCN, isGHCN, readGHCN},
	{layoutSummary, isSummary, readSummary},
	{layoutOldSummary, isOldSummary, readOldSummary},
	{layoutDly, isDly, readDly},
	{layoutDaymet, isDaymet, readDaymet},
	{layoutUSCRN, isUSCRN, readUSCRN},
	{layoutPower, isPower, readPower},
	{layoutOpenMeteo, isOpenMeteo, readOpenMeteo},
	{layoutECCC, isECCC, readECCC},
}

// record is what a layout's reader makes of a file; nil after a fault.
type record struct {
	layout  string
	station Station
	rows    []row
	totals  []multiDay // to be spread
	notes   []string
	tallies []tally // of what is counted over all files of a record

	stationChosen, unitsChosen bool // the reader has honoured that part of Pick

	finish func(s *Series) // lays on what only this layout has; may be nil
}

// Read reads one daily record, plain or gzip-compressed, in one of the layouts of
// Layouts. The layout, the compression and the encoding are told by content; the
// name serves in messages only.
//
// Rows out of order are sorted, absent days inserted, values that cannot be true
// or that failed the agency's own check set missing; the Report counts all of it.
// A maximum below its minimum is counted and left for ByCivilDay or Fill. Files of
// our own plain layout get no such grace: there each of these is an error.
//
// The text is streamed: memory follows the days of the record, not the size of
// the file. The error joins all faults found, one a line, the first 50 in full. It
// is also an error when the record as a whole looks like another unit.
func Read(name string, r io.Reader, pick Pick) (*Series, *Report, error) {
	content, err := unpack(r)
	if err != nil {
		return nil, nil, inFile(name, err)
	}
	f := &faults{name: name}
	if isArchive(content) {
		rec := readArchive(content, pick, f)
		pick.check(rec, f)
		return f.series(&splitter{}, rec)
	}
	text, err := decode(content)
	if err != nil {
		return nil, nil, inFile(name, err)
	}
	split := newSplitter(text)
	rec := detect(text).read(split, pick, f)
	pick.check(rec, f)
	return f.series(split, rec)
}

// check holds what was picked against a record whose layout leaves nothing open.
func (p Pick) check(rec *record, f *faults) {
	if rec == nil || f.any() {
		return
	}
	if want := p.Station; want != "" && !rec.stationChosen && !strings.EqualFold(want, rec.station.ID) && !strings.EqualFold(want, rec.station.Name) {
		only := cmp.Or(strings.TrimSpace(rec.station.ID+" "+rec.station.Name), "no station by name")
		f.add(Fault{Column: "station", Found: want, Allowed: "what the file holds, " + only, Mend: "leave --station out"})
	}
	if p.Units != UnitsFromValues && !rec.unitsChosen {
		rec.notes = append(rec.notes, fmt.Sprintf("the layout states its units; the choice of %s was not needed", p.Units))
	}
}

// series turns a record into a series with its report, or gives the faults found.
func (f *faults) series(split *splitter, rec *record) (*Series, *Report, error) {
	if split.failed != nil {
		f.list = append(f.list, inFile(f.name, split.failed))
	}
	if f.any() {
		return nil, nil, f.err()
	}
	s, rep := assemble(rec.rows, rec.station, rec.layout, f)
	if f.any() {
		return nil, nil, f.err()
	}
	rep.Notes = slices.Concat(spreadTotals(s, rec.totals), rec.notes, rec.tallied())
	if rec.finish != nil {
		rec.finish(s)
	}
	rep.count(s)
	if err := plausible(s, rep); err != nil {
		return nil, nil, err
	}
	return s, rep, nil
}

// Layouts lists the names of the layouts that Read knows.
func Layouts() []string {
	names := make([]string, len(layouts))
	for i, l := range layouts {
		names[i] = l.name
	}
	return names
}

// detect tells the layout from the beginning of the text. What no layout
// recognises is read by one that only says so.
func detect(text *bufio.Reader) layout {
	head, _ := text.Peek(longestLine)
	if len(head) == longestLine && bytes.IndexByte(head, '\n') < 0 {
		return refusal(tooLong(1))
	}
	for _, r := range refusals {
		if r.recognises(head) {
			return refusal(r.fault)
		}
	}
	if fault, wrong := wrongMark(head); wrong {
		return refusal(fault)
	}
	for _, l := range layouts {
		if l.recognises(head) {
			return l
		}
	}
	return layout{read: func(s *splitter, _ Pick, f *faults) *record {
		line, _ := s.nextLine()
		f.add(Fault{Line: s.line, Found: string(line), Allowed: strings.Join(Layouts(), ", "), Mend: unknownMend(line)})
		return nil
	}}
}

// firstLine returns the first line that is not blank, trimmed.
func firstLine(data []byte) []byte {
	line, _, _ := bytes.Cut(bytes.TrimSpace(data), []byte{'\n'})
	return bytes.TrimSpace(line)
}

// headerOf returns the names in the first line, and at least two.
func headerOf(head []byte) []string {
	var s splitter
	s.split(firstLine(head))
	return append(names(s.fields), "", "")
}

// mostRows is more than there are days from firstYear to lastYear.
const mostRows = 200_000

// add keeps a row. A file with more rows than a record can have days is stopped.
func (rec *record) add(r row, s *splitter, f *faults) {
	if len(rec.rows) == mostRows {
		f.add(tooManyRows(r.line))
		s.stop()
		return
	}
	rec.rows = append(rec.rows, r)
}

// tooManyRows is the fault of a file that goes on past mostRows.
func tooManyRows(line int) Fault {
	return Fault{Line: line, Found: fmt.Sprintf("more than %d rows", mostRows), Allowed: "one row a day of one station"}
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
		fail("found values that cannot be true, %d on %d days, %s; allowed at most 1 in 100: is the temperature in F, K or tenths, the precipitation in another unit, or a code for missing left in?",
			total.OutOfRange, s.Days(), rep.odd)
	}
	if total.MissingTmax+total.MissingTmin+total.MissingPrecip == 3*total.Days && total.OutOfRange == 0 {
		fail("found no temperature and no precipitation on any of %d days; allowed days with values: all of them are missing, or failed the agency's check; take another station or period", total.Days)
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
