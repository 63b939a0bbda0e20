package weather

import (
	"math"
	"slices"
)

// Trend is a straight change over the years, without any assumption on how the
// values scatter.
type Trend struct {
	Years int     // values it rests on
	Slope float64 // a year, median of the slopes between all pairs (Theil 1950; Sen 1968)
	At    float64 // year and value that the line goes through, the medians of both
	Level float64
	P     float64 // two-sided chance of a rank sum as large without a trend (Mann 1945; Kendall 1975)
}

// leastTrendYears is the fewest values for which the normal form of the
// Mann-Kendall test holds (Gilbert 1987, section 16.4).
const leastTrendYears = 10

// TrendOf returns the trend of values y observed at the years t. Values that are
// NaN are left out. Slope is NaN with fewer than two values, P with fewer than ten.
func TrendOf(t, y []float64) Trend {
	var years, values []float64
	for i := range y {
		if !math.IsNaN(y[i]) {
			years, values = append(years, t[i]), append(values, y[i])
		}
	}
	trend := Trend{Years: len(values), Slope: theilSen(years, values), At: median(years), Level: median(values), P: math.NaN()}
	if trend.Years >= leastTrendYears {
		trend.P = mannKendall(values)
	}
	return trend
}

// theilSen is the median slope over all pairs of different years.
func theilSen(t, y []float64) float64 {
	var slopes []float64
	for i := range y {
		for j := i + 1; j < len(y); j++ {
			if t[j] != t[i] {
				slopes = append(slopes, (y[j]-y[i])/(t[j]-t[i]))
			}
		}
	}
	return median(slopes)
}

// mannKendall is the two-sided p of the test on values in order of time:
// S = sum sign(yj - yi), var S = (n(n-1)(2n+5) - sum u(u-1)(2u+5))/18 over ties of
// size u, with a correction of 1 for continuity (Kendall 1975; Gilbert 1987,
// Eqs. 16.2-16.5).
func mannKendall(y []float64) float64 {
	s := 0.0
	for i := range y {
		for _, v := range y[i+1:] {
			switch {
			case v > y[i]:
				s++
			case v < y[i]:
				s--
			}
		}
	}
	spread := func(n float64) float64 { return n * (n - 1) * (2*n + 5) }
	variance := spread(float64(len(y)))
	sorted := slices.Sorted(slices.Values(y))
	for i := 0; i < len(sorted); {
		j := i
		for j < len(sorted) && sorted[j] == sorted[i] {
			j++
		}
		variance -= spread(float64(j - i))
		i = j
	}
	if variance <= 0 || s == 0 {
		return 1
	}
	z := (math.Abs(s) - 1) / math.Sqrt(variance/18)
	return math.Erfc(z / math.Sqrt2)
}

// median of the values that are numbers, NaN without one.
func median(values []float64) float64 {
	sorted := make([]float64, 0, len(values))
	for _, v := range values {
		if !math.IsNaN(v) {
			sorted = append(sorted, v)
		}
	}
	slices.Sort(sorted)
	n := len(sorted)
	if n == 0 {
		return math.NaN()
	}
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
