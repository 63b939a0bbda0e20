package weather

// curves carry the means and standard deviations of a climate from the middle of
// one month to the middle of the next along straight lines. The values at the
// middles are raised or lowered until the mean of each month is that of the
// climate (Killworth 1996, from memory): straight lines between the monthly means
// themselves would cut off the winter's cold and the summer's heat.
type curves struct {
	middle [12]ClimateMonth
}

// curveFields lists the parameters that follow a curve.
func curveFields(m *ClimateMonth) [8]*float64 {
	return [...]*float64{&m.TmaxDry, &m.TmaxWet, &m.TmaxSD, &m.Tmin, &m.TminSD, &m.SolarDry, &m.SolarWet, &m.SolarSD}
}

// newCurves finds the values at the middles. Each round adds what the monthly means
// lack. A mean is three quarters its own middle and one quarter its neighbours', so
// that what is lacking halves at least: 30 rounds leave 1e-9 of it.
func newCurves(c Climate) *curves {
	cv := &curves{middle: c.Months}
	const year = 2001 // a year of 365 days
	for range 30 {
		var sum [12]ClimateMonth
		for day := NewDate(year, 1, 1); day <= NewDate(year, 12, 31); day++ {
			_, m, _ := day.Civil()
			v := cv.on(day)
			for k, p := range curveFields(&sum[m-1]) {
				*p += *curveFields(&v)[k]
			}
		}
		for m := range sum {
			for k, p := range curveFields(&cv.middle[m]) {
				*p += *curveFields(&c.Months[m])[k] - *curveFields(&sum[m])[k]/float64(monthDays(year, m+1))
			}
		}
	}
	return cv
}

// on returns the parameters of a date.
func (cv *curves) on(d Date) ClimateMonth {
	year, month, day := d.Civil()
	// Place within the month, from 0 at its beginning to 1 at its end.
	place := (float64(day) - 0.5) / float64(monthDays(year, month))
	near, far := month-1, month%12 // this month and the next
	toward := place - 0.5          // share of the far month
	if toward < 0 {
		far, toward = (month+10)%12, -toward
	}
	a, b := cv.middle[near], cv.middle[far]
	// Halfway between two middles lies the end of the month.
	for k, p := range curveFields(&a) {
		*p += (*curveFields(&b)[k] - *p) * toward
	}
	return a
}
