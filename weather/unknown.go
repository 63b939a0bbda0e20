package weather

import (
	"bytes"
	"slices"
	"strings"
)

// unknownMend guesses why a first line is that of no layout.
func unknownMend(line []byte) string {
	switch {
	case bytes.HasPrefix(line, []byte{'<'}):
		return "this is a web page or a service's answer, as a failed download leaves: download the record again"
	case bytes.HasPrefix(line, []byte{'{'}), bytes.HasPrefix(line, []byte{'['}):
		return "this is a service's answer in JSON: see what it says, and request the record as CSV"
	case bytes.Count(line, []byte{'"'})%2 == 1:
		return "a quote in the first line has no partner, close it or take it out"
	case isData(line):
		return "the header is missing: put the line that names the columns above the first day"
	}
	return "save the record in one of these layouts, with its header"
}

// isData recognises a row of values by a date in it, or by numbers alone.
func isData(line []byte) bool {
	var s splitter
	s.split(line)
	numbers := 0
	for _, field := range s.fields {
		field = bytes.TrimSpace(field)
		if _, dated := ghcnDate(field); dated {
			return true
		}
		if _, ok := number(string(field)); ok {
			numbers++
		}
	}
	return numbers == len(s.fields) && numbers > 2
}

// fewestMarks is how many marks part four fields, the fewest of a daily record.
const fewestMarks = 3

// wrongMark recognises fields that are parted by another mark than the comma, below
// a preamble too; false where commas or blanks part them.
func wrongMark(head []byte) (Fault, bool) {
	if isUSCRN(head) {
		return Fault{}, false
	}
	plain := bytes.HasPrefix(firstLine(head), []byte{'#'})
	for _, other := range []struct{ mark, name string }{{";", "semicolons"}, {"\t", "tabs"}, {"|", "bars"}} {
		mark := []byte(other.mark)
		marks, commas, first, line := 0, 0, 0, 0
		for text := range bytes.Lines(head) {
			line++
			if bytes.HasPrefix(text, []byte{'#'}) {
				continue // a remark
			}
			if plain && commas+marks > 0 {
				break // the header alone decides
			}
			n := bytes.Count(text, mark)
			marks, commas = marks+n, commas+bytes.Count(text, []byte{','})
			if n >= fewestMarks && first == 0 {
				first = line
			}
		}
		if first > 0 && marks > commas {
			return Fault{Line: first, Found: "fields parted by " + other.name, Allowed: "fields parted by commas",
				Mend: "save the file as CSV with commas, and points in decimal numbers"}, true
		}
	}
	return Fault{}, false
}

// isDaysAlone recognises the second block of Open-Meteo's daily file on top.
func isDaysAlone(head []byte) bool {
	names := headerOf(head)
	return (names[0] == "time" || names[0] == "location_id" && names[1] == "time") &&
		slices.ContainsFunc(names, func(name string) bool { return strings.HasPrefix(name, "temperature_2m") })
}
