package plots

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
)

// axis is a range, the way across it and its marks. A tick without a label is a
// small one.
type axis struct {
	min, max float64
	scale    plot.Normalizer
	ticks    []plot.Tick
}

// norm is the share of the way from min to max.
func (a axis) norm(v float64) float64 { return a.scale.Normalize(a.min, a.max, v) }

// upFrom is a linear axis from zero to max or a little more, with about n marks;
// it ends on a mark where one is near.
func upFrom(max float64, n int) axis {
	if !(max > 0) {
		max = 1
	}
	step := round(max / float64(n))
	top := math.Ceil(max/step-1e-9) * step
	if top > 1.1*max {
		top = 1.04 * max
	}
	return axis{0, top, plot.LinearScale{}, marks(0, top, step)}
}

// downTo is a linear axis with depths growing downward from -above to below;
// heights above the ground are labelled without their sign.
func downTo(above, below float64, n int) axis {
	step := round((above + below) / float64(n))
	ticks := marks(-math.Floor(above/step+1e-9)*step, below, step)
	for i := range ticks {
		ticks[i].Label = strings.TrimPrefix(ticks[i].Label, "−")
	}
	return axis{-above, below, plot.InvertedScale{Normalizer: plot.LinearScale{}}, ticks}
}

// years is an axis of calendar years with room for a bar at each and labels at
// round years; few years stand in the middle.
func years(first, last int) axis {
	const least = 12 // years that would fill the axis
	side := 0.6 + math.Max(0, float64(least-(last-first+1))/2)
	a := axis{float64(first) - side, float64(last) + side, plot.LinearScale{}, nil}
	step := int(math.Max(1, round(float64(last-first+1)/10)))
	for y := first; y <= last; y++ {
		switch {
		case y%step == 0:
			a.ticks = append(a.ticks, plot.Tick{Value: float64(y), Label: strconv.Itoa(y)})
		case step <= 10:
			a.ticks = append(a.ticks, plot.Tick{Value: float64(y)})
		}
	}
	return a
}

// round is the next of 1, 2 or 5 times a power of ten at or above x.
func round(x float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*ten >= x*(1-1e-9) {
			return m * ten
		}
	}
	return 10 * ten
}

// marks are labelled ticks from a to b, with the decimals that the step needs.
func marks(a, b, step float64) []plot.Tick {
	decimals := int(math.Max(0, -math.Floor(math.Log10(step)+1e-9)))
	var ticks []plot.Tick
	for i := 0; a+float64(i)*step <= b+1e-9*step; i++ {
		v := a + float64(i)*step
		if math.Abs(v) < 1e-9*step {
			v = 0
		}
		label := strconv.FormatFloat(v, 'f', decimals, 64)
		ticks = append(ticks, plot.Tick{Value: v, Label: strings.Replace(label, "-", "−", 1)})
	}
	return ticks
}
