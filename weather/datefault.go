package weather

import "strings"

// rowWithoutDay is what to do with a row that holds words where a day belongs.
const rowWithoutDay = "take the row out if it holds no day, such as one of units"

// dateMend guesses what a text was meant to be that is no date. It is the mend of
// every column of dates.
func dateMend(text []byte) string {
	day := shape(text)
	switch {
	case day == "":
		return "give the row its day, or take it out"
	case strings.HasPrefix(string(text), "\uFEFF"):
		return "take out the byte-order mark before it, which each of several files joined end to end brings along"
	case !strings.Contains(day, "0"):
		return rowWithoutDay
	case day == "0000-00":
		return "this is a monthly summary, take the station's daily file"
	case day == "0000-00-00", day == "00000000":
		return "the calendar has no such day, or the year is a slip"
	case strings.HasPrefix(day, "0000-00-00"):
		return "leave out what stands behind the day"
	case day == "00000":
		return "this may be the number that a spreadsheet gives a day: show the column as dates and save it again"
	}
	return "write the year first, in four digits, then month and day"
}

// shape puts 0 for each digit.
func shape(text []byte) string {
	var out [40]byte
	n := copy(out[:], text)
	for i, c := range out[:n] {
		if c >= '0' && c <= '9' {
			out[i] = '0'
		}
	}
	return string(out[:n])
}

// countMend is the mend of a column of whole numbers that make up a date.
func countMend(text []byte) string {
	if strings.Contains(shape(text), "0") {
		return ""
	}
	return rowWithoutDay
}
