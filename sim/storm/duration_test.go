package storm

import (
	"math"
	"testing"
)

// The mean asked for comes out of the lengths themselves: the midpoint rule on
// 100,000 ranks (error about the width over the number of ranks, 2e-4 h).
func TestDurationMean(t *testing.T) {
	for _, want := range []float64{1.1, 3.5, 5.5, 12.4999, 12.5, 14, 20, 23.9} {
		d := durationOfMean(want)
		const ranks = 100000
		sum := 0.0
		for i := range ranks {
			l := d.length((float64(i) + 0.5) / ranks)
			if l < shortest || l > longest {
				t.Fatalf("mean %g: length %g h outside the limits", want, l)
			}
			sum += l
		}
		if got := sum / ranks; math.Abs(got-want) > 5e-4 {
			t.Errorf("mean length %g h, want %g", got, want)
		}
	}
}

// An exponential of mean 1/rate cut to a width w has its median at
// -ln[(1+e^(-rate w))/2]/rate above the lower limit (closed form).
func TestDurationMedian(t *testing.T) {
	for _, mean := range []float64{5.5, 14} {
		d := durationOfMean(mean)
		want := shortest - math.Log((1+math.Exp(-d.rate*(longest-shortest)))/2)/d.rate
		if got := d.length(0.5); math.Abs(got-want) > 1e-9 {
			t.Errorf("mean %g: median %g h, want %g", mean, got, want)
		}
	}
}
