package weather

import (
	"bytes"
	"slices"
)

// refusals are files that look like a daily record and cannot be read as one, each
// with the reason.
var refusals = []struct {
	recognises func(head []byte) bool
	fault      Fault
}{
	{isHourly, Fault{Found: "hourly precipitation, without temperature", Allowed: "a daily record with temperature",
		Mend: "name a daily record of the place as the weather, and this file with --hourly"}},
	{isMeanRate, Fault{Column: "percip", Found: "a mean rate of precipitation", Allowed: "the total of each day",
		Mend: "percip and percip_max are the mean and the maximum of hourly rates, a year of them adds up to less than half an inch; take the daily totals of the same station"}},
	{isDaysAlone, Fault{Found: "the table of days alone", Allowed: "both tables of the file",
		Mend: "keep the one above it, with latitude, longitude and utc_offset_seconds"}},
	{isNameless, Fault{Found: "numbers without a header", Allowed: "a header that names the columns and their units",
		Mend: "write them as our plain CSV with the header date,tmin_C,tmax_C,precip_mm, dates as 2006-01-02, tenths divided by 10 and -9999 left blank"}},
}

// isMeanRate recognises the weather columns of a transit data set (the Chicago
// table of the R package modeldata 1.1.0), whose precipitation is a mean rate.
func isMeanRate(head []byte) bool {
	header := headerOf(head)
	return slices.Contains(header, "percip") || slices.Contains(header, "percip_max")
}

// isNameless recognises rows of a date such as 20060102 and three numbers or more,
// parted by tabs or blanks, without a header. Some hand out maximum, minimum and
// precipitation in tenths in this form.
func isNameless(head []byte) bool {
	words := bytes.Fields(firstLine(head))
	if len(words) < 4 || isUSCRNLine(firstLine(head)) {
		return false
	}
	for _, word := range words {
		if _, ok := number(string(word)); !ok {
			return false
		}
	}
	n, ok := digits(words[0])
	_, ok = dayOf(n, ok)
	return ok
}

// refusal is a layout that only says why the file is none.
func refusal(fault Fault) layout {
	return layout{read: func(s *splitter, _ Pick, f *faults) *record {
		fault.Line = max(1, fault.Line)
		f.add(fault)
		return nil
	}}
}
