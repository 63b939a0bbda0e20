package weather

import (
	"bytes"
	"fmt"
)

// layoutDly is the name of the fixed-width layout of GHCN-Daily (README of Daily
// GHCN 3.22, section III): one line a station, month and element.
const layoutDly = "GHCN-Daily fixed width"

// Places in a line, from 0.
const (
	dlyYear, dlyMonth, dlyElement, dlyValues = 11, 15, 17, 21
	dlyStep                                  = 8 // value of 5, flags of measurement, quality and source
	dlyWidth                                 = dlyValues + 31*dlyStep
	dlyLeast                                 = dlyWidth - 3 // blanks at the end of a line may be lost
)

// isDly recognises the first line.
func isDly(head []byte) bool {
	line := firstLine(head)
	return len(line) >= dlyValues && isStationID(line[:dlyYear]) && isElementName(line[dlyElement:dlyValues]) && bytes.IndexByte(line, ',') < 0
}

// isStationID tells whether a text can be an id of GHCN-Daily.
func isStationID(text []byte) bool {
	for i, c := range text {
		if letter := c >= 'A' && c <= 'Z'; !letter && (i < 2 || !(c >= '0' && c <= '9') && c != '_' && c != '-') {
			return false
		}
	}
	return len(text) == dlyYear
}

// isElementName tells whether a text can name an element.
func isElementName(text []byte) bool {
	for i, c := range text {
		if letter := c >= 'A' && c <= 'Z'; !letter && (i == 0 || !(c >= '0' && c <= '9')) {
			return false
		}
	}
	return len(text) == dlyValues-dlyElement
}

// readDly reads fixed-width lines. The observation time is not part of them.
func readDly(split *splitter, pick Pick, f *faults) *record {
	d := &dlyReader{ghcnBook: newBook(split, f), choice: newChooser(f, split, "id", "", pick)}
	for {
		text, ok := split.nextLine()
		if !ok {
			break
		}
		d.month(text)
	}
	if !d.choice.settled() || f.any() || !d.complete(0, "element") {
		return nil
	}
	return d.record(layoutDly, "element", &tenthsScale)
}

// dlyReader reads the lines of one file.
type dlyReader struct {
	*ghcnBook
	choice *chooser
}

// month reads one line.
func (d *dlyReader) month(line []byte) {
	fault := func(column, found, allowed string) {
		d.f.add(Fault{Line: d.split.line, Column: column, Found: found, Allowed: allowed})
	}
	if n := len(line); n < dlyLeast || len(bytes.TrimRight(line, " ")) > dlyWidth {
		d.f.add(Fault{Line: d.split.line, Found: fmt.Sprintf("%d characters", n), Allowed: fmt.Sprintf("%d: id, year, month, element and 31 days of %d", dlyWidth, dlyStep),
			Mend: "is the line cut off, or were its blanks lost?"})
		return
	}
	id, name := line[:dlyYear], line[dlyElement:dlyValues]
	kept := d.choice.take(id, nil)
	e, used := elementNamed(name)
	if !used {
		if kept {
			d.pass(name)
		}
		return
	}
	year, okY := digits(line[dlyYear:dlyMonth])
	month, okM := digits(line[dlyMonth:dlyElement])
	if !okY || !okM || !yearAllowed(year) || month < 1 || month > 12 {
		fault("year and month", string(line[dlyYear:dlyElement]), fmt.Sprintf("a month from %d to %d written as 200601", firstYear, lastYear))
		return
	}
	if kept {
		d.station.ID = d.choice.last.id
		d.seen[e] = true
	}
	for day := range 31 {
		text := line[dlyValues+day*dlyStep:]
		value, flags := text[:5], text[5:min(len(text), 8)]
		n, ok := whole(value)
		switch {
		case !ok:
			fault(ghcnNames[e], string(value), "a whole number in each of 31 fields, -9999 where missing")
			return
		case n == noCode:
			continue
		case day >= monthDays(year, month):
			fault(ghcnNames[e], fmt.Sprintf("%d on day %d of month %d", n, day+1, month), "-9999 on days that the month does not have")
			return
		}
		x := ghcnValue{v: float64(n)}
		if len(flags) > 0 {
			x.measurement = flagOf(flags[:1])
		}
		if len(flags) > 1 {
			x.quality = flagOf(flags[1:2])
		}
		if k := censusOf[e]; k >= 0 && x.quality == 0 {
			d.choice.saw(k)
		}
		if kept {
			d.put(NewDate(year, month, day+1), e, x)
		}
	}
}
