package flood

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// fishkill are the annual peaks (ft3/s) of Fishkill Creek at Beacon NY, 1945-1968,
// public gauge data: Bulletin 17B's example 1 (from memory, recomputed).
var fishkill = []float64{2290, 1470, 2220, 2970, 3020, 1210, 2490, 3170, 3220, 1760, 8800, 8280,
	1310, 2500, 1960, 2140, 4340, 3060, 1780, 1380, 980, 1040, 1580, 3630}

// near fails when got lies further from want than the tolerance; NaN always fails.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.8g, want %.8g within %.2g", what, got, want, tolerance)
	}
}

// must fails the test on an error.
func must[T any](t interface {
	Helper()
	Fatal(...any)
}) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// Bulletin 17B, appendix 3 (from memory; 5 decimals): spot values over skew and
// probability.
func TestFrequencyFactor(t *testing.T) {
	for _, c := range []struct{ skew, p, k float64 }{
		{-2, 0.99, -3.60517}, {-2, 0.002, 0.99800}, {-1.4, 0.5, 0.22534}, {-1, 0.01, 1.58838}, {-0.6, 0.04, 1.52830},
		{-0.1, 0.01, 2.25258}, {0, 0.01, 2.32635}, {0, 0.5, 0}, {0.1, 0.002, 2.99978}, {0.4, 0.9, -1.23114},
		{0.7, 0.99, -1.80621}, {0.7, 0.01, 2.82359}, {1, 0.02, 2.54206}, {1.4, 0.005, 3.82798}, {2, 0.002, 5.21461},
	} {
		near(t, fmt.Sprintf("skew %g, p %g", c.skew, c.p), FrequencyFactor(c.p, c.skew), c.k, 5.1e-6)
	}
}

// A skew of 2 is the exponential distribution, K = -ln p - 1; turning the skew turns the
// tail; and the expansion about the normal meets the gamma quantile where they change
// over (the next term is 1/144 of the skew squared times z^3 - 7z, under 4e-9).
func TestFrequencyFactorForms(t *testing.T) {
	for _, p := range []float64{0.99, 0.9, 0.5, 0.1, 0.01, 0.001} {
		near(t, "exponential", FrequencyFactor(p, 2), -math.Log(p)-1, 1e-12)
		near(t, "turned", FrequencyFactor(p, -0.8), -FrequencyFactor(1-p, 0.8), 1e-11)
		for _, sign := range []float64{-1, 1} {
			exact, expansion := FrequencyFactor(p, sign*nearlyNormal), FrequencyFactor(p, sign*nearlyNormal*(1-1e-12))
			near(t, fmt.Sprintf("at the change, p %g", p), exact, expansion, 1e-8)
		}
	}
}

// Bulletin 17B example 1: mean 3.3684, SD 0.2456, skew 0.7300; weighted 0.66775 with a
// map skew of 0.6 (printed 0.7); with 0.7 floods of 841 and 11 500 (rounded hard), the
// limits by appendix 9 (computed elsewhere); outlier factor 2.467.
func TestFishkill(t *testing.T) {
	d := must[LogPearson3](t)(FitLogPearson3(fishkill))
	near(t, "mean", d.Mean, 3.3684, 1e-4)
	near(t, "SD", d.SD, 0.2456, 5e-5)
	near(t, "skew", d.Skew, 0.7300, 5e-5)
	near(t, "station error", SkewError(d.Skew, d.N), 0.27744, 5e-6)
	near(t, "weighted skew", d.Weighted(0.6, MapSkewError).Skew, 0.66775, 5e-6)
	near(t, "outlier factor", OutlierFactor(24), 2.467, 5e-4)
	low, high, err := d.OutlierLimits()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low outlier", low, 579, 0.5)
	near(t, "high outlier", high, 9427, 0.5)
	d.Skew = 0.7
	near(t, "99 %", d.Quantile(0.99), 841, 0.5)
	near(t, "1 %", d.Quantile(0.01), 11500, 50)
	for _, c := range []struct{ p, q, low, high float64 }{
		{0.99, 840.9, 568.3, 1095.1}, {0.5, 2187.3, 1789.9, 2651.3}, {0.1, 4962.9, 3948.6, 6854.2}, {0.01, 11530.9, 8078.2, 20095.1}, {0.002, 19247.9, 12323.9, 39129.8},
	} {
		low, high, err := d.Limits(c.p, 0.90)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "flood", d.Quantile(c.p), c.q, 0.06)
		near(t, "lower", low, c.low, 0.06)
		near(t, "upper", high, c.high, 0.3) // six digits of a factor 2 in the log
	}
}

// Mean square errors of the station skew, three decimals: Bulletin 17B, table 1 (from
// memory) at 10 years and skews of 0, 1 and 2, the others by hand from its equation 6.
func TestSkewError(t *testing.T) {
	for _, c := range []struct {
		skew  float64
		n     int
		error float64
	}{{0, 10, 0.468}, {0, 100, 0.054}, {-1, 10, 0.603}, {2, 10, 1.202}, {2, 100, 0.339}, {0.9, 10, 0.552}} {
		near(t, fmt.Sprintf("skew %g, %d years", c.skew, c.n), SkewError(c.skew, c.n), c.error, 6e-4)
	}
}

// Low flows: 20 seven-day minima (invented), 7Q10 0.6764 by log-Pearson III (computed
// elsewhere); four dry years among 24 make it 0, since 4/24 > 0.10. With one dry year in
// 24 the conditional probability is (0.1 - 1/24)/(1 - 1/24).
func TestLowFlow(t *testing.T) {
	minima := []float64{1.2, .8, 1.5, 2.1, .6, 1.1, .9, 1.8, 1.3, .7, 1, 1.6, .5, 1.4, 1.9, 1.1, .85, 1.25, .95, 1.7}
	d := must[LogPearson3](t)(FitLogPearson3(minima))
	near(t, "mean log", d.Mean, 0.05363, 5e-6)
	near(t, "SD", d.SD, 0.17001, 5e-6)
	near(t, "skew", d.Skew, -0.3644, 5e-5)
	near(t, "7Q10", d.Quantile(0.9), 0.6764, 5e-5)
	dry := must[LogPearson3](t)(FitLogPearson3(append([]float64{0, 0, 0, 0}, minima...)))
	near(t, "7Q10 with four dry years", dry.Quantile(0.9), 0, 0)
	once := must[LogPearson3](t)(FitLogPearson3(append([]float64{0}, minima...)))
	p := (0.1 - 1./21) / (1 - 1./21)
	near(t, "7Q10 with one dry year", once.Quantile(0.9), d.Quantile(1-p), 1e-12)
}

// Ten thousand years at even steps of probability give their distribution back, within
// the 1 % that the steps lose of the tails.
func TestFitGivesBack(t *testing.T) {
	d := LogPearson3{Pearson3: Pearson3{2, 0.3, 0.4}, N: 1}
	x := make([]float64, 10000)
	for i := range x {
		x[i] = d.Quantile((float64(i) + 0.5) / float64(len(x)))
	}
	f := must[LogPearson3](t)(FitLogPearson3(x))
	for _, years := range ReturnPeriods {
		near(t, fmt.Sprintf("%g years", years), f.Quantile(1/years)/d.Quantile(1/years), 1, 0.01)
	}
}

// The quantile falls as the probability of exceedance rises, and scales with the unit.
func TestQuantileOrderAndScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flows := rapid.SliceOfN(rapid.Float64Range(0.1, 1000), 5, 40).Draw(t, "flows")
		d := must[LogPearson3](t)(FitLogPearson3(flows))
		scaled := make([]float64, len(flows))
		for i, q := range flows {
			scaled[i] = 35.3147 * q
		}
		other := must[LogPearson3](t)(FitLogPearson3(scaled))
		last := math.Inf(1)
		for _, p := range []float64{0.01, 0.02, 0.1, 0.5, 0.9, 0.99} {
			q := d.Quantile(p)
			if q > last*(1+1e-12) {
				t.Fatalf("%g at %g, above %g", q, p, last)
			}
			if ratio := other.Quantile(p) / q; math.Abs(ratio-35.3147) > 1e-4 && d.SD > 1e-6 {
				t.Fatalf("unit changed by %g", ratio)
			}
			last = q
		}
	})
}

// Records that hold no distribution are refused.
func TestRecordFaults(t *testing.T) {
	for name, flows := range map[string][]float64{
		"two years": {1, 2}, "negative": {1, 2, -3, 4}, "not a number": {1, math.NaN(), 2}, "dry": {0, 0, 0, 1, 2},
	} {
		_, err := FitLogPearson3(flows)
		var fault *RecordError
		if !errors.As(err, &fault) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
