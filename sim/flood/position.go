package flood

import (
	"cmp"
	"slices"
)

// Plotting is the constant a of a plotting position (i - a)/(n + 1 - 2a).
type Plotting float64

// Plotting positions: Weibull's for flow duration and the tables of the handbooks,
// Cunnane's for graphs of floods (Cunnane 1978).
const (
	Weibull    Plotting = 0
	Cunnane    Plotting = 0.40
	Gringorten Plotting = 0.44
	Hazen      Plotting = 0.50
)

// Exceedance is the probability that the rank-th largest of n values is exceeded in a
// year.
func (a Plotting) Exceedance(rank, n int) float64 {
	return (float64(rank) - float64(a)) / (float64(n) + 1 - 2*float64(a))
}

// Ranks are the places of the values from the largest down, 1 the largest; of equal
// values the earlier comes first.
func Ranks(x []float64) []int {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(x[j], x[i]) })
	ranks := make([]int, len(x))
	for rank, i := range order {
		ranks[i] = rank + 1
	}
	return ranks
}
