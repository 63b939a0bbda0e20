package proof

import (
	"errors"
	"fmt"
	"maps"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"mottle/weather"
)

const (
	inventedYears = 1000
	inventedSeed  = 11
	// lift puts Tmax out of the reach of the guard that keeps Tmin below it, C.
	lift = 200
)

// invented is a long run of the generator.
func invented(c weather.Climate) *weather.Series {
	return weather.Invent(c, weather.NewDate(1001, 1, 1), inventedYears, inventedSeed)
}

// generatorChecks hold what comes out of the weather generator in 1000 years
// against its published matrices and the statistics that follow from them.
func generatorChecks() ([]Check, error) {
	got, err := residualChecks()
	if err != nil {
		return nil, err
	}
	maps.Copy(got, wetChecks())
	maps.Copy(got, demoChecks())
	var checks []Check
	for _, r := range table("atmosphere-checks.csv") {
		if s, ok := got[r["id"]]; ok {
			c := listed(r, s.got)
			if s.tolerance > 0 {
				c.Tolerance, c.Why = s.tolerance, s.why
				c.What += ", out of 1000 generated years"
			}
			checks = append(checks, c)
		}
	}
	return checks, nil
}

// sampled is a statistic of a generated series, with three standard errors as
// tolerance; 0 leaves that of the row.
type sampled struct {
	got, tolerance float64
	why            string
}

// residualChecks recover the residuals' matrices and correlations from a climate of
// zero means and unit deviations.
func residualChecks() (map[string]sampled, error) {
	c := weather.Climate{Latitude: 0}
	for m := range c.Months {
		c.Months[m] = weather.ClimateMonth{Shape: 1, Scale: 1, TmaxDry: lift, TmaxSD: 1, TminSD: 1, SolarDry: 20, SolarSD: 1}
	}
	s := invented(c)
	n := s.Days()
	now, before := mat.NewDense(n-1, 3, nil), mat.NewDense(n-1, 3, nil)
	for j, x := range [][]float64{s.Tmax, s.Tmin, s.Solar} {
		now.SetCol(j, x[1:])
		before.SetCol(j, x[:n-1])
	}
	var m0 mat.SymDense
	stat.CovarianceMatrix(&m0, before, nil)
	m1 := mat.NewDense(3, 3, nil)
	for i := range 3 {
		for j := range 3 {
			m1.Set(i, j, stat.Covariance(mat.Col(nil, i, now), mat.Col(nil, j, before), nil))
		}
	}
	// x(t) = A x(t-1) + B e(t): A = M1 M0^-1, B B' = M0 - A M1'.
	var inverse, a, explained mat.Dense
	if err := inverse.Inverse(&m0); err != nil {
		return nil, fmt.Errorf("covariance of the generated residuals: %w", err)
	}
	a.Mul(m1, &inverse)
	explained.Mul(&a, m1.T())
	rest := mat.NewSymDense(3, nil)
	for i := range 3 {
		for j := range i + 1 {
			rest.SetSym(i, j, m0.At(i, j)-explained.At(i, j))
		}
	}
	var factor mat.Cholesky
	var b mat.TriDense
	if !factor.Factorize(rest) {
		return nil, errors.New("what the generated residuals do not explain is no covariance")
	}
	factor.LTo(&b)
	correlation := func(i, j int) float64 { return m0.At(i, j) / math.Sqrt(m0.At(i, i)*m0.At(j, j)) }
	const (
		three    = "three standard errors of 365,000 days (0.005 to 0.008, as the days hang together), and the row's rounding"
		variance = "three standard errors of a variance over 365,000 days that hang together, 0.011, and the row's rounding"
	)
	return map[string]sampled{
		"W01a": {a.At(0, 0), 0.01, three},
		"W01b": {a.At(2, 0), 0.01, three},
		"W01c": {b.At(2, 1), 0.01, three},
		"W02a": {m0.At(0, 0), 0.012, variance},
		"W02b": {correlation(0, 1), 0.01, three},
		"W02c": {correlation(0, 2), 0.01, three},
		"W02d": {correlation(1, 2), 0.01, three},
		"W02e": {m1.At(0, 0) / m0.At(0, 0), 0.01, three},
	}, nil
}

// wetChecks run the chain of wet days in a climate that is always June.
func wetChecks() map[string]sampled {
	const window = 30 // days of a month
	june := weather.ClimateMonth{WetAfterDry: 0.30, WetAfterWet: 0.46, Shape: 0.72, Scale: 10.2 / 0.72, TmaxDry: lift, TmaxWet: lift}
	c := weather.Climate{}
	for m := range c.Months {
		c.Months[m] = june
	}
	s := invented(c)
	var totals []float64
	for i := 0; i+window <= s.Days(); i += window {
		sum := 0.0
		for _, mm := range s.Precip[i : i+window] {
			sum += mm
		}
		totals = append(totals, sum)
	}
	return map[string]sampled{
		"W03a": {got: june.WetFraction()},
		"W03b": {stat.StdDev(totals, nil), 1.5,
			"3 %: three standard errors over 12,000 months are 2.5 %, and 30 days fall 0.5 % short of the asymptotic variance"},
	}
}

// demoChecks add up the demo climate, with Tmax out of the guard's reach.
func demoChecks() map[string]sampled {
	c := weather.DemoClimate()
	for m := range c.Months {
		c.Months[m].TmaxDry += lift
		c.Months[m].TmaxWet += lift
	}
	s := invented(c)
	rain, wet, temperature, crossed := 0.0, 0.0, 0.0, 0.0
	for i, mm := range s.Precip {
		rain += mm
		if mm > 0 {
			wet++
		}
		tmax := s.Tmax[i] - lift
		temperature += (tmax + s.Tmin[i]) / 2
		if s.Tmin[i] > tmax {
			crossed++
		}
	}
	n := float64(s.Days())
	return map[string]sampled{
		"W04a": {rain / inventedYears, 11, "three standard errors: a year's total has a standard deviation of 112 mm, and 32 is the root of 1000"},
		"W04b": {wet / inventedYears, 1, "three standard errors: a year's wet days have a standard deviation of 10"},
		"W04c": {temperature / n, 0.07, "three standard errors: a year's mean has a standard deviation of 0.7 C"},
		"W04d": {got: crossed / n},
	}
}
