package weather

import "fmt"

// Date counts civil days since 1970-01-01 in the proleptic Gregorian calendar.
// It has no time zone and no hour.
type Date int32

// epochShift is the number of days from 0000-03-01 to 1970-01-01.
const epochShift = 719468

// NewDate returns the date of a civil year, month (1-12) and day. It does not
// check them: a day past the end of the month runs on into the next one.
func NewDate(year, month, day int) Date {
	// Years are counted from 1 March, so that the leap day ends the year.
	if month <= 2 {
		year, month = year-1, month+12
	}
	leaps := floorDiv(year, 4) - floorDiv(year, 100) + floorDiv(year, 400)
	return Date(365*year + leaps + (153*(month-3)+2)/5 + day - 1 - epochShift)
}

// Civil returns the year, month (1-12) and day of the month. It allocates nothing.
func (d Date) Civil() (year, month, day int) {
	const cycle = 146097 // days in 400 years
	z := int(d) + epochShift
	c := floorDiv(z, cycle)
	n := z - c*cycle                                // day of the 400-year cycle
	y := (n - n/1460 + n/36524 - n/(cycle-1)) / 365 // year of the cycle
	n -= 365*y + y/4 - y/100                        // day of the year from 1 March
	m := (5*n + 2) / 153                            // month from March
	day = n - (153*m+2)/5 + 1
	year, month = y+400*c, m+3
	if month > 12 {
		year, month = year+1, month-12
	}
	return year, month, day
}

// Year returns the civil year.
func (d Date) Year() int {
	y, _, _ := d.Civil()
	return y
}

// DayOfYear returns 1 on 1 January and 365 or 366 on 31 December.
func (d Date) DayOfYear() int { return int(d-NewDate(d.Year(), 1, 1)) + 1 }

// String writes the date as 2006-01-02.
func (d Date) String() string {
	y, m, day := d.Civil()
	return fmt.Sprintf("%04d-%02d-%02d", y, m, day)
}

// ParseDate reads a date written as 2006-01-02. The error says what was found.
func ParseDate(s string) (Date, error) {
	d, ok := parseDate([]byte(s))
	if !ok {
		return 0, fmt.Errorf("date %q: allowed a day of the calendar written as 2006-01-02", s)
	}
	return d, nil
}

// parseDate reads YYYY-MM-DD without allocating.
func parseDate(b []byte) (Date, bool) {
	if len(b) != 10 || b[4] != '-' || b[7] != '-' {
		return 0, false
	}
	y, okY := digits(b[:4])
	m, okM := digits(b[5:7])
	day, okD := digits(b[8:])
	if !okY || !okM || !okD || m < 1 || m > 12 || day < 1 || day > monthDays(y, m) {
		return 0, false
	}
	return NewDate(y, m, day), true
}

// digits reads a run of decimal digits.
func digits(b []byte) (int, bool) {
	n := 0
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return n, len(b) > 0
}

// leapYear tells whether the civil year has a 29 February.
func leapYear(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// monthDays returns the days in a month (1-12) of a civil year.
func monthDays(year, month int) int {
	switch month {
	case 2:
		if leapYear(year) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// floorDiv divides rounding towards minus infinity, b > 0.
func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
