package flood

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// The measures below hold a simulated against a measured series of equal length; they
// are NaN where the measured one does not vary or, for the Kling-Gupta measures, the
// simulated one does not.

// NSE is the efficiency of Nash and Sutcliffe (1970): 1 perfect, 0 no better than the
// mean.
func NSE(measured, simulated []float64) float64 {
	total := scatter(measured, stat.Mean(measured, nil))
	if total == 0 {
		return math.NaN()
	}
	return 1 - squares(measured, simulated)/total
}

// RSR is the root mean square error over the standard deviation of what was measured
// (Moriasi et al. 2007): the root of 1 - NSE.
func RSR(measured, simulated []float64) float64 { return math.Sqrt(1 - NSE(measured, simulated)) }

// PercentBias is 100 times what the simulation lacks over what was measured: positive
// is too little (Moriasi et al. 2007; some turn the sign).
func PercentBias(measured, simulated []float64) float64 {
	return 100 * (1 - stat.Mean(simulated, nil)/stat.Mean(measured, nil))
}

// KGE is the efficiency of Gupta et al. (2009) from correlation, ratio of standard
// deviations and ratio of means: 1 perfect, 1 - 2^0.5 no better than the mean.
func KGE(measured, simulated []float64) float64 {
	mean, spread := stat.MeanStdDev(measured, nil)
	simMean, simSpread := stat.MeanStdDev(simulated, nil)
	return kge(stat.Correlation(measured, simulated, nil), simSpread/spread, simMean/mean)
}

// KGE2012 is the changed form of Kling et al. (2012): the ratio of the coefficients of
// variation in place of that of the standard deviations.
func KGE2012(measured, simulated []float64) float64 {
	mean, spread := stat.MeanStdDev(measured, nil)
	simMean, simSpread := stat.MeanStdDev(simulated, nil)
	return kge(stat.Correlation(measured, simulated, nil), simSpread/simMean/(spread/mean), simMean/mean)
}

// kge is the distance of three ratios from 1, taken from 1.
func kge(r, spread, mean float64) float64 {
	return 1 - math.Sqrt((r-1)*(r-1)+(spread-1)*(spread-1)+(mean-1)*(mean-1))
}

// Agreement is Willmott's index d (1981): 1 perfect, 0 none.
func Agreement(measured, simulated []float64) float64 {
	mean := stat.Mean(measured, nil)
	potential := 0.0
	for i := range measured {
		p := math.Abs(simulated[i]-mean) + math.Abs(measured[i]-mean)
		potential += p * p
	}
	return 1 - squares(measured, simulated)/potential
}

// squares is the sum of the squared differences.
func squares(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += (a[i] - b[i]) * (a[i] - b[i])
	}
	return sum
}

// scatter is the sum of the squared distances from a value.
func scatter(x []float64, from float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += (v - from) * (v - from)
	}
	return sum
}
