package plots

import (
	"math"
	"sort"
)

// nearestMedian is the index of the value nearest the median, the earlier one of
// two as near.
func nearestMedian(x []float64) int {
	s := append([]float64(nil), x...)
	sort.Float64s(s)
	n := len(s)
	median := (s[(n-1)/2] + s[n/2]) / 2
	best := 0
	for i, v := range x {
		if math.Abs(v-median) < math.Abs(x[best]-median) {
			best = i
		}
	}
	return best
}

// largest is the index of the largest value, the earlier one of two as large.
func largest(x []float64) int {
	best := 0
	for i, v := range x {
		if v > x[best] {
			best = i
		}
	}
	return best
}
