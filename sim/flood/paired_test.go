package flood

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// Six years (invented) without and with drains.
var undrained, drained = []float64{42, 31, 55, 28, 60, 37}, []float64{36, 33, 41, 27, 45, 34}

func meanDifference(a, b []float64) float64 { return stat.Mean(a, nil) - stat.Mean(b, nil) }

// The pairs by textbook formulas (computed elsewhere): mean 6.1667, SE 2.8451 paired and
// 5.8732 not, t interval -1.1468 to 13.4802.
func TestCompare(t *testing.T) {
	p := must[Paired](t)(Compare(undrained, drained))
	near(t, "mean", p.Mean, 37./6, 1e-12)
	near(t, "SD", p.SD, 6.9690, 5.1e-5)
	near(t, "SE", p.SE, 2.8451, 5.1e-5)
	near(t, "unpaired", p.UnpairedSE, 5.8732, 5.1e-5)
	near(t, "correlation", p.Correlation, 0.96913, 5.1e-6)
	low, high := p.Interval(0.95)
	near(t, "low", low, -1.1468, 5.1e-5)
	near(t, "high", high, 13.4802, 5.1e-5)
	near(t, "of means", 100*ChangeOfMeans(undrained, drained), -14.62, 0.005)
	near(t, "mean of ratios", 100*MeanChange(undrained, drained), -11.66, 0.005)
	near(t, "geometric", 100*GeometricChange(undrained, drained), -12.40, 0.005)
}

// All 6^6 resamples (listed elsewhere): SE ((n-1)/n s^2/n)^0.5 = 2.59719, 95 % from
// 7/6 to 34/3, share at or below 0 0.0043724 = 204/46656.
func TestExactBootstrap(t *testing.T) {
	r := must[Resampled](t)(ExactBootstrap(undrained, drained, meanDifference))
	if len(r.Sorted) != 46656 {
		t.Fatalf("%d resamples", len(r.Sorted))
	}
	near(t, "SE", r.SE(), 2.59719, 5.1e-6)
	for p, want := range map[float64]float64{0.025: 7. / 6, 0.05: 2, 0.5: 37. / 6, 0.95: 10.5, 0.975: 34. / 3} {
		near(t, fmt.Sprintf("%g", p), r.Quantile(p), want, 1e-9)
	}
	near(t, "share", r.AtOrBelow(1e-12), 204./46656, 1e-9)
	if _, err := ExactBootstrap(fishkill, fishkill, meanDifference); err == nil {
		t.Error("24^24 resamples accepted")
	}
}

// 40 000 drawn resamples approach the exact ones: SE within five of its own errors
// (1/(2N)^0.5 = 0.35 %), and the same seed gives the same draws.
func TestBootstrap(t *testing.T) {
	draw := func(block int, seed uint64) Resampled {
		return must[Resampled](t)(Bootstrap(undrained, drained, meanDifference, Drawing{40000, block, seed}))
	}
	r := draw(1, 7)
	near(t, "SE", r.SE(), 2.59719, 0.018*2.59719)
	low, high := r.Interval(0.95)
	near(t, "low", low, 7./6, 1./6+1e-9) // the mean moves in sixths
	near(t, "high", high, 34./3, 1./6+1e-9)
	if again := draw(1, 7); again.SE() != r.SE() {
		t.Error("the same seed draws otherwise")
	}
	if other := draw(1, 8); other.SE() == r.SE() {
		t.Error("another seed draws the same")
	}
	// Blocks as long as the record are the record, turned: its mean has no error.
	near(t, "whole blocks", draw(6, 7).SE(), 0, 1e-10) // 40 000 sums rounded
	// Two differences d1+d2 in a row around the circle, three blocks: the variance of the
	// mean is that of the six pair sums over 36, three times.
	pairSums, n := 0.0, len(drained)
	d := make([]float64, n)
	for i := range d {
		d[i] = undrained[i] - drained[i]
	}
	for i := range d {
		s := d[i] + d[(i+1)%n] - 2*37./6
		pairSums += s * s / 6
	}
	want := math.Sqrt(3 * pairSums / 36)
	near(t, "blocks of two", draw(2, 7).SE(), want, 0.018*want)
}

// Peaks all lowered by a fifth are lowered by a fifth at every return period in every
// draw: what the pairs are for.
func TestChangesOfScale(t *testing.T) {
	lower := make([]float64, len(fishkill))
	for i, q := range fishkill {
		lower[i] = 0.8 * q
	}
	changes := must[[]Change](t)(Changes(fishkill, lower, ReturnPeriods, 0.90, Drawing{200, 1, 1}))
	for i, c := range changes {
		near(t, "return period", c.ReturnPeriod, []float64{2, 5, 10, 25, 50, 100}[i], 0)
		near(t, "change, %", c.Percent, -20, 1e-6)
		near(t, "low", c.Low, -20, 1e-6)
		near(t, "high", c.High, -20, 1e-6)
	}
	d := must[LogPearson3](t)(FitLogPearson3(fishkill))
	near(t, "100 years before", changes[5].Was, d.Quantile(0.01), 1e-9)
}

// An effect on small floods only: the interval holds the estimate, is wide at 100 years,
// and repeats.
func TestChangesWithScatter(t *testing.T) {
	is := make([]float64, len(fishkill))
	for i, q := range fishkill {
		is[i] = q
		if q < 2500 {
			is[i] = q * (0.7 + 0.02*float64(i%5))
		}
	}
	a := must[[]Change](t)(Changes(fishkill, is, []float64{2, 100}, 0.90, Drawing{500, 1, 3}))
	b := must[[]Change](t)(Changes(fishkill, is, []float64{2, 100}, 0.90, Drawing{500, 1, 3}))
	for i := range a {
		if a[i] != b[i] || !(a[i].Low < a[i].Percent && a[i].Percent < a[i].High) || a[i].Without != 0 {
			t.Errorf("%+v, again %+v", a[i], b[i])
		}
	}
	if !(a[0].Percent < 0) || !(a[1].High-a[1].Low > 5) {
		t.Errorf("%+v", a)
	}
}

func BenchmarkChanges(b *testing.B) {
	for b.Loop() {
		if _, err := Changes(fishkill, fishkill, ReturnPeriods, 0.90, Drawing{2000, 1, 1}); err != nil {
			b.Fatal(err)
		}
	}
}
