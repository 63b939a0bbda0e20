package plots

import (
	"math"
	"sort"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
)

// returnPeriods are the plotting positions of n values from the largest down,
// years: (n+1)/rank (Weibull 1939; Chow, Maidment and Mays 1988, section 12.4).
func returnPeriods(n int) []float64 {
	t := make([]float64, n)
	for i := range t {
		t[i] = float64(n+1) / float64(i+1)
	}
	return t
}

// gumbel is the reduced variate of a return period, on which a Gumbel
// distribution is a straight line: -ln(-ln(1 - 1/T)) (Gumbel 1958).
func gumbel(returnPeriod float64) float64 { return -math.Log(-math.Log(1 - 1/returnPeriod)) }

// returnAxis is an axis of reduced variates for n years, marked in return periods.
func returnAxis(n int) axis {
	t := returnPeriods(n)
	a := axis{gumbel(t[n-1]) - 0.15, gumbel(t[0]) + 0.15, plot.LinearScale{}, nil}
	for _, years := range []float64{1.1, 1.25, 1.5, 2, 3, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if x := gumbel(years); x >= a.min && x <= a.max {
			a.ticks = append(a.ticks, plot.Tick{Value: x, Label: strconv.FormatFloat(years, 'f', -1, 64)})
		}
	}
	return a
}

// peakFlow draws the largest hourly flow of each year against how often such a
// one comes, each twin ranked by itself.
func (s subject) peakFlow() (Figure, error) {
	l, err := s.line("peak_hour")
	if err != nil {
		return Figure{}, err
	}
	const title = "Yearly peak flow at the field’s edge: hourly, surface + drain"
	fromLargest := func(x []float64) []float64 {
		y := s.values(x, l.Unit)
		sort.Sort(sort.Reverse(sort.Float64Slice(y)))
		return y
	}
	a, b := fromLargest(l.YearsAsItLies), fromLargest(l.YearsWithTile)
	n := len(a)
	x := returnPeriods(n)
	for i, t := range x {
		x[i] = gumbel(t)
	}
	return render("peak-flow", title, 350, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, s.verdict("Mean", l), s.stamp())
		sh.notes("Return period by Weibull’s plotting position, ("+strconv.Itoa(n)+" + 1) / rank, each twin ranked by itself, on an axis of Gumbel’s reduced variate. No curve is fitted.", s.source())
		sh.key(
			entry{lies.name, stroke(thin(lies.line), lies.glyph)},
			entry{tiled.name, stroke(thin(tiled.line), tiled.glyph)})
		p := sh.panel(sh.room(), 0, 2*tickRoom-4, returnAxis(n), upFrom(math.Max(a[0], b[0]), 7))
		p.frame(true)
		p.name(letters(textSize, ink), "largest hour of the year ("+s.unit(l.Unit)+")")
		p.below("return period (years)")
		p.curve(thin(lies.line), x, a)
		p.curve(thin(tiled.line), x, b)
		p.points(lies.glyph, x, a)
		p.points(tiled.glyph, x, b)
	})
}

// thin is a line that joins points.
func thin(l draw.LineStyle) draw.LineStyle {
	l.Width = 0.8
	return l
}
