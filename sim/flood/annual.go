package flood

import (
	"fmt"
	"slices"
	"time"
)

// Annual is the extreme flow of a year.
type Annual struct {
	Year  int
	Flow  float64
	Index int // where in the record; of a mean over days, its last day
	N     int // values of the year in the record, to tell whether it is complete
}

// WaterYear is the year in which the water year of a day ends: it begins in October.
func WaterYear(day time.Time) int {
	if day.Month() >= time.October {
		return day.Year() + 1
	}
	return day.Year()
}

// ClimaticYear is the year in which the climatic year of a day begins: in April, so
// that the low flows of one summer or winter stay together.
func ClimaticYear(day time.Time) int {
	if day.Month() < time.April {
		return day.Year() - 1
	}
	return day.Year()
}

// Peaks are the greatest flows of the years of a record, in order; year[i] is that of
// flow[i] and must not fall.
func Peaks(flow []float64, year []int) ([]Annual, error) {
	return annual("annual peaks", flow, year, 1, func(candidate, best float64) bool { return candidate > best })
}

// Lows are the least means over so many days in a row, 7 as a rule, of the years of a
// record; the days lie within the year. Years with fewer days are a [RecordError].
func Lows(flow []float64, year []int, days int) ([]Annual, error) {
	return annual(fmt.Sprintf("annual %d-day minima", days), flow, year, days, func(candidate, best float64) bool { return candidate < best })
}

// annual takes from each year the best mean over days.
func annual(what string, flow []float64, year []int, days int, better func(candidate, best float64) bool) ([]Annual, error) {
	if err := check(what, flow, 1); err != nil {
		return nil, err
	}
	if days < 1 {
		return nil, &RecordError{what, fmt.Sprintf("%d days", days), "at least 1"}
	}
	if len(year) != len(flow) || !slices.IsSorted(year) {
		return nil, &RecordError{what, fmt.Sprintf("%d years for %d flows", len(year), len(flow)), "as many, in order"}
	}
	var out []Annual
	for from := 0; from < len(flow); {
		to := from
		for to < len(flow) && year[to] == year[from] {
			to++
		}
		if to-from < days {
			return nil, &RecordError{what, fmt.Sprintf("%d days of %d", to-from, year[from]), fmt.Sprintf("at least %d", days)}
		}
		a := Annual{Year: year[from], N: to - from}
		for i := from + days - 1; i < to; i++ {
			sum := 0.0
			for _, q := range flow[i-days+1 : i+1] {
				sum += q
			}
			if mean := sum / float64(days); i == from+days-1 || better(mean, a.Flow) {
				a.Flow, a.Index = mean, i
			}
		}
		out = append(out, a)
		from = to
	}
	return out, nil
}

// Flows are the extremes alone.
func Flows(extremes []Annual) []float64 {
	x := make([]float64, len(extremes))
	for i, a := range extremes {
		x[i] = a.Flow
	}
	return x
}
