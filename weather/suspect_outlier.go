package weather

import (
	"math"
	"slices"
)

// window collects the values of all years about a calendar day.
type window struct {
	byDay [367][]float64 // by day of a leap year, 1 to 366
	width int            // days to either side
}

func newWindow(width int) *window { return &window{width: width} }

// calendarDay is the day of a leap year on which a date falls, so that 1 March is
// the same day each year.
func calendarDay(d Date) int {
	_, m, day := d.Civil()
	return int(NewDate(2000, m, day)-NewDate(2000, 1, 1)) + 1
}

func (w *window) add(d Date, v float64) {
	day := calendarDay(d)
	w.byDay[day] = append(w.byDay[day], v)
}

// about returns the values about a calendar day, sorted, in the memory of into.
func (w *window) about(day int, into []float64) []float64 {
	into = into[:0]
	for k := -w.width; k <= w.width; k++ {
		into = append(into, w.byDay[(day-1+k+366)%366+1]...)
	}
	slices.Sort(into)
	return into
}

// outliers tells of temperatures far from those of the calendar day. It is false
// when no calendar day has values enough.
func outliers(s *Series, e named, add report) (tested bool) {
	w := newWindow(outlierWindow)
	for i, v := range e.values {
		if !math.IsNaN(v) {
			w.add(s.Date(i), v)
		}
	}
	var centre, spread [367]float64
	var scratch []float64
	for day := 1; day <= 366; day++ {
		scratch = w.about(day, scratch)
		centre[day], spread[day] = math.NaN(), math.NaN()
		if len(scratch) >= outlierLeast {
			centre[day], spread[day] = biweight(scratch)
			tested = true
		}
	}
	for i, v := range e.values {
		day := calendarDay(s.Date(i))
		if z := (v - centre[day]) / spread[day]; math.Abs(z) > outlierSpread {
			add(e, i, 1, "%.1f standard deviations from the %.1f C usual at that time of year", z, centre[day])
		}
	}
	return tested
}

// biweight returns the mean and the standard deviation of sorted values with
// weights that vanish 7.5 median deviations from the median (Lanzante 1996, Int.
// J. Climatol. 16:1197, from memory).
func biweight(sorted []float64) (mean, sd float64) {
	n := len(sorted)
	middle := (sorted[(n-1)/2] + sorted[n/2]) / 2
	away := make([]float64, n)
	for i, v := range sorted {
		away[i] = math.Abs(v - middle)
	}
	mad := median(away)
	if mad == 0 {
		return middle, math.NaN()
	}
	var shift, weight, top, bottom float64
	for _, v := range sorted {
		u := (v - middle) / (7.5 * mad)
		if math.Abs(u) >= 1 {
			continue
		}
		k := 1 - u*u
		shift += (v - middle) * k * k
		weight += k * k
		top += (v - middle) * (v - middle) * k * k * k * k
		bottom += k * (1 - 5*u*u)
	}
	return middle + shift/weight, math.Sqrt(float64(n)*top) / math.Abs(bottom)
}

// rainOutliers tells of amounts far above the wet days of the season. It is false
// when no calendar day has wet days enough.
func rainOutliers(s *Series, e named, add report) (tested bool) {
	w := newWindow(rainWindow)
	for i, v := range e.values {
		if v > 0 {
			w.add(s.Date(i), v)
		}
	}
	var p95 [367]float64
	var scratch []float64
	for day := 1; day <= 366; day++ {
		scratch = w.about(day, scratch)
		p95[day] = math.NaN()
		if n := len(scratch); n >= rainLeast {
			p95[day] = scratch[int(math.Ceil(0.95*float64(n)))-1]
			tested = true
		}
	}
	for i, v := range e.values {
		times := rainWarm
		if (s.Tmin[i]+s.Tmax[i])/2 <= 0 {
			times = rainCold
		}
		if usual := p95[calendarDay(s.Date(i))]; v > times*usual {
			add(e, i, 1, "%.1f times the 95th percentile of wet days at that time of year, %.1f mm", v/usual, usual)
		}
	}
	return tested
}
