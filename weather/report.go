package weather

// Report says what reading found and what it mended, so that nothing is changed
// behind the user's back.
type Report struct {
	Name, Layout string
	Station      Station
	First, Last  Date
	Years        []YearReport // one per calendar year, in order
	Notes        []string     // findings that belong to no single year

	CompleteYears    int     // years with at least 350 days of precipitation
	MeanAnnualPrecip float64 // mm, mean of the complete years; NaN without one

	odd string // the first value that cannot be true, "" without one
}

// YearReport counts the findings of one calendar year.
type YearReport struct {
	Year           int
	Days           int     // calendar days of the series in this year
	Rows           int     // distinct dates that the file has a row for
	Absent         int     // calendar days without a row
	MissingTmin    int     // days without a usable minimum, absent days included
	MissingTmax    int     // days without a usable maximum, absent days included
	MissingPrecip  int     // days without usable precipitation, absent days included
	Rejected       int     // values set missing because the agency's check failed them
	OutOfRange     int     // values set missing because they cannot be true
	Contradictory  int     // days whose maximum is below the minimum, left as they are
	OutOfOrder     int     // rows found after a later date, sorted
	Duplicates     int     // rows that repeat another row exactly, dropped
	Trace          int     // days with a trace of precipitation
	Spread         int     // days given a share of a total of several days
	CalendarFilled int     // 31 December filled in a 365-day calendar
	Precip         float64 // mm, sum of the days known
}

// Total adds up the years; its Year is zero.
func (r *Report) Total() YearReport {
	var t YearReport
	for _, y := range r.Years {
		t.Days += y.Days
		t.Rows += y.Rows
		t.Absent += y.Absent
		t.MissingTmin += y.MissingTmin
		t.MissingTmax += y.MissingTmax
		t.MissingPrecip += y.MissingPrecip
		t.Rejected += y.Rejected
		t.OutOfRange += y.OutOfRange
		t.Contradictory += y.Contradictory
		t.OutOfOrder += y.OutOfOrder
		t.Duplicates += y.Duplicates
		t.Trace += y.Trace
		t.Spread += y.Spread
		t.CalendarFilled += y.CalendarFilled
		t.Precip += y.Precip
	}
	return t
}

// year returns the counters of a calendar year within First and Last.
func (r *Report) year(d Date) *YearReport { return &r.Years[d.Year()-r.First.Year()] }
