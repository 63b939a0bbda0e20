package storm

import "math"

// Limits of a storm that is to lie within one reading of the gauge, h.
const (
	shortest = 1.0
	longest  = 24.0
)

// duration is the exponential distribution of storm lengths cut to the limits
// above, with the rate chosen so that the mean of the cut distribution is the
// one asked for. A mean above the middle of the limits takes a negative rate:
// long storms are then the more frequent. Among distributions within the
// limits it is the one that assumes least beside the mean.
type duration struct{ rate float64 } // 1/h

// durationOfMean solves for the rate by bisection; the mean falls steadily with it.
func durationOfMean(mean float64) duration {
	low, high := -20.0, 20.0
	for range 200 {
		mid := (low + high) / 2
		if (duration{mid}).mean() > mean {
			low = mid
		} else {
			high = mid
		}
	}
	return duration{(low + high) / 2}
}

// mean is shortest + 1/rate - w/(e^(rate w) - 1) with w the width of the limits.
func (d duration) mean() float64 {
	const w = longest - shortest
	if math.Abs(d.rate*w) < 1e-4 {
		return shortest + w/2 - d.rate*w*w/12
	}
	return shortest + 1/d.rate - w/math.Expm1(d.rate*w)
}

// length returns the duration, h, below which the share rank of all storms lies.
func (d duration) length(rank float64) float64 {
	const w = longest - shortest
	if math.Abs(d.rate*w) < 1e-9 {
		return shortest + rank*w
	}
	return shortest - math.Log1p(rank*math.Expm1(-d.rate*w))/d.rate
}
