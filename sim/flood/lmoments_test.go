package flood

import (
	"testing"

	"pgregory.net/rapid"
)

// The test set of a general statistics library built on Hosking's routines (seen):
// sample L-moments to 8 digits, GEV, Gumbel and Pearson III with quantiles at 0.2, 0.5
// and 0.8 not exceeded.
func TestLMoments(t *testing.T) {
	l := must[LMoments](t)(FitLMoments([]float64{2.0, 3.0, 4.0, 2.4, 5.5, 1.2, 5.4, 2.2, 7.1, 1.3, 1.5}))
	near(t, "l1", l.L1, 3.23636364, 6e-9)
	near(t, "l2", l.L2, 1.14181818, 6e-9)
	near(t, "t3", l.T3, 0.27388535, 6e-9)
	near(t, "t4", l.T4, 0.02335456, 6e-9)

	gev := must[GEV](t)(FitGEV(l))
	near(t, "GEV location", gev.Location, 2.1792884, 6e-8)
	near(t, "GEV scale", gev.Scale, 1.3956404, 1e-7) // the library stops its root there
	near(t, "GEV shape", gev.Shape, -0.1555609, 6e-8)
	gumbel := FitGumbel(l)
	near(t, "Gumbel location", gumbel.Location, 2.285519, 6e-7)
	near(t, "Gumbel scale", gumbel.Scale, 1.647295, 6e-7)
	pearson := must[Pearson3](t)(FitPearson3(l))
	near(t, "Pearson SD", pearson.SD, 2.199490, 6e-7)     // exact fit, solved elsewhere
	near(t, "Pearson skew", pearson.Skew, 1.646189, 6e-7) // exact fit, solved elsewhere
	for i, p := range []float64{0.8, 0.5, 0.2} {
		near(t, "GEV quantile", gev.Quantile(p), []float64{1.539112, 2.705672, 4.537048}[i], 6e-7)
		near(t, "Gumbel quantile", gumbel.Quantile(p), []float64{1.501596, 2.889274, 4.756363}[i], 6e-7)
		near(t, "Pearson quantile", pearson.Quantile(p), []float64{1.447672, 2.663015, 4.705896}[i], 1e-5) // the library's rational fit
	}
}

// Fishkill Creek by other fits (computed elsewhere).
func TestFishkillOtherwise(t *testing.T) {
	l := must[LMoments](t)(FitLMoments(fishkill))
	gev := must[GEV](t)(FitGEV(l))
	near(t, "shape", gev.Shape, -0.33908, 6e-6)
	for years, want := range map[float64]float64{2: 2170, 10: 4809, 100: 11622} {
		near(t, "GEV", gev.Quantile(1/years), want, 0.6)
	}
	near(t, "Gumbel, L-moments", FitGumbel(l).Quantile(0.01), 8245, 0.6)
	near(t, "Gumbel, moments", must[GEV](t)(FitGumbelMoments(fishkill)).Quantile(0.01), 8980, 0.6)
}

// L-moments of known distributions (Hosking 1990): uniform 0 and 0, exponential 1/3 and
// 1/6, Gumbel 0.1699; of quantiles at even steps, so within the step. A GEV's own
// quantiles give the GEV back.
func TestLMomentsOfDistributions(t *testing.T) {
	const n = 20001
	at := func(quantile func(p float64) float64) LMoments {
		x := make([]float64, n)
		for i := range x {
			x[i] = quantile((float64(i) + 0.5) / n)
		}
		return must[LMoments](t)(FitLMoments(x))
	}
	uniform := at(func(p float64) float64 { return p })
	near(t, "uniform l2", uniform.L2, 1./6, 1e-4)
	near(t, "uniform t3", uniform.T3, 0, 1e-9)
	exponential := at(func(p float64) float64 { return Pearson3{1, 1, 2}.Quantile(p) })
	near(t, "exponential t3", exponential.T3, 1./3, 1e-3)
	near(t, "exponential t4", exponential.T4, 1./6, 1e-3)
	p3 := must[Pearson3](t)(FitPearson3(exponential))
	near(t, "exponential skew", p3.Skew, 2, 0.01)
	for _, shape := range []float64{-0.2, 0, 0.3} {
		g := GEV{10, 2, shape}
		back := must[GEV](t)(FitGEV(at(func(p float64) float64 { return g.Quantile(p) })))
		near(t, "location", back.Location, 10, 0.01)
		near(t, "scale", back.Scale, 2, 0.01)
		near(t, "shape", back.Shape, shape, 0.005)
	}
}

// Location and scale pass through every fit, and small skews meet the normal one.
func TestFitsAreScaled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := LMoments{L1: 10, L2: 2, T3: rapid.Float64Range(-0.6, 0.6).Draw(t, "t3")}
		twice := LMoments{L1: 25, L2: 4, T3: l.T3}
		a, b := must[GEV](t)(FitGEV(l)), must[GEV](t)(FitGEV(twice))
		p, q := must[Pearson3](t)(FitPearson3(l)), must[Pearson3](t)(FitPearson3(twice))
		for _, x := range []float64{0.9, 0.5, 0.1} {
			if gap := b.Quantile(x) - (2*a.Quantile(x) + 5); gap > 1e-8 || gap < -1e-8 {
				t.Fatalf("GEV: %g", gap)
			}
			if gap := q.Quantile(x) - (2*p.Quantile(x) + 5); gap > 1e-8 || gap < -1e-8 {
				t.Fatalf("Pearson III: %g", gap)
			}
		}
	})
	for _, t3 := range []float64{1.99e-3, 2.01e-3} {
		d := must[Pearson3](t)(FitPearson3(LMoments{L1: 0, L2: 1, T3: t3}))
		near(t, "SD", d.SD, 1.7724539, 1e-5)
		near(t, "skew", d.Skew/t3, 6.1399603, 2e-5) // 2 (3 pi)^0.5
	}
	if _, err := FitGEV(LMoments{L1: 1, L2: 1, T3: 1.2}); err == nil {
		t.Error("L-skewness 1.2 accepted")
	}
}
