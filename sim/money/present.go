package money

import "math"

// PresentValue is the worth today, USD, of flows at the ends of years 0, 1, 2, ...
//
//	sum of flows[t]/(1+rate)^t
//
// which with the outlay as a negative flow at time 0 is the net present value.
// NaN unless the rate is above -1.
func PresentValue(rate float64, flows []float64) float64 {
	if !(rate > -1) {
		return math.NaN()
	}
	factor, sum := 1/(1+rate), 0.0
	for t := len(flows) - 1; t >= 0; t-- {
		sum = sum*factor + flows[t]
	}
	return sum
}

// Level is the series of an outlay at time 0, USD, and the same gain at the end of
// each of the years after it, USD. Years are 0 or more.
func Level(outlay, yearly float64, years int) []float64 {
	flows := make([]float64, years+1)
	flows[0] = -outlay
	for t := 1; t <= years; t++ {
		flows[t] = yearly
	}
	return flows
}

// AnnuityFactor is the worth today of 1 USD at the end of each of some years:
// [1 - (1+rate)^-years]/rate, and the years themselves at rate 0. NaN unless the
// rate is above -1 and there is a year.
func AnnuityFactor(rate float64, years int) float64 {
	switch {
	case !(rate > -1) || years < 1:
		return math.NaN()
	case rate == 0:
		return float64(years)
	}
	return -math.Expm1(-float64(years)*math.Log1p(rate)) / rate
}

// CapitalRecovery is the share of an outlay that, paid at the end of each of some
// years, is worth the outlay: r (1+r)^n/[(1+r)^n - 1]. It is also the level yearly
// payment on a loan of 1 USD. Bounds as for [AnnuityFactor].
func CapitalRecovery(rate float64, years int) float64 {
	return 1 / AnnuityFactor(rate, years)
}

// YearlyCost is what an outlay (USD) amounts to a year when it is spread evenly over
// the years, plus the upkeep (USD a year).
func YearlyCost(outlay, upkeep, rate float64, years int) float64 {
	return outlay*CapitalRecovery(rate, years) + upkeep
}

// LevelYearly is the amount, the same at the end of every year, that is worth as
// much as gains that differ from year to year. Gains begin at the end of year 1.
func LevelYearly(rate float64, gains []float64) float64 {
	return PresentValue(rate, gains) / (1 + rate) * CapitalRecovery(rate, len(gains))
}

// BenefitCostRatio is the worth today of the flows after time 0 for each dollar of
// outlay. NaN unless there is an outlay.
func BenefitCostRatio(rate float64, flows []float64) float64 {
	if len(flows) == 0 || !(flows[0] < 0) {
		return math.NaN()
	}
	return 1 - PresentValue(rate, flows)/flows[0]
}

// RealRate is the rate in money of one purchasing power that goes with a nominal
// rate and a rate of inflation: (1+nominal)/(1+inflation) - 1. NaN unless both are
// above -1.
func RealRate(nominal, inflation float64) float64 {
	if !(nominal > -1) || !(inflation > -1) {
		return math.NaN()
	}
	return (nominal - inflation) / (1 + inflation)
}
