package flood

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// LogPearson3 is the log-Pearson type III distribution of a record of annual extremes:
// Pearson III of their decimal logarithms (Bulletin 17B, 1982; for a complete record
// without low outliers Bulletin 17C has nearly the same moments), with a chance of its
// own for years without flow.
type LogPearson3 struct {
	Pearson3         // of the logarithms of the years with flow
	N        int     // years with flow
	Dry      float64 // share of years without flow
}

// FitLogPearson3 takes mean, standard deviation and station skew of the logarithms,
// each with the factor for few years. Years of 0 are counted and left out of the
// moments. Fewer than three years with flow are a [RecordError]. A record that does
// not vary has no skew.
func FitLogPearson3(flows []float64) (LogPearson3, error) {
	const what = "log-Pearson III"
	if err := check(what, flows, 3); err != nil {
		return LogPearson3{}, err
	}
	logs := make([]float64, 0, len(flows))
	for _, q := range flows {
		if q > 0 {
			logs = append(logs, math.Log10(q))
		}
	}
	if len(logs) < 3 {
		return LogPearson3{}, &RecordError{what, fmt.Sprintf("%d years with flow", len(logs)), "at least 3"}
	}
	d := LogPearson3{N: len(logs), Dry: float64(len(flows)-len(logs)) / float64(len(flows))}
	d.Mean, d.SD = stat.MeanStdDev(logs, nil)
	if d.SD > 0 {
		d.Skew = stat.Skew(logs, nil)
	}
	return d, nil
}

// Quantile is the flow that a year exceeds with the given probability. Years without
// flow enter by total probability: of the years with flow p/(1 - Dry) exceed it, and
// 0 is the quantile of what they do not reach (Bulletin 17B, appendix 5).
func (d LogPearson3) Quantile(exceedance float64) float64 {
	p := exceedance / (1 - d.Dry)
	if p >= 1 {
		return 0
	}
	return math.Pow(10, d.Pearson3.Quantile(p))
}

// Limits are the flows between which the quantile lies with the confidence, 0.90 for
// one-sided 5 and 95 %, by the non-central t's approximation (Bulletin 17B, appendix
// 9). They take the skew for known, so they are too narrow. Years without flow are a
// [RecordError]: the approximation does not cover them.
func (d LogPearson3) Limits(exceedance, confidence float64) (low, high float64, err error) {
	const what = "limits of log-Pearson III"
	if d.Dry > 0 {
		return 0, 0, &RecordError{what, "years without flow", "flow in every year; resample the years instead"}
	}
	for _, p := range []float64{exceedance, confidence} {
		if err := probability(what, p); err != nil {
			return 0, 0, err
		}
	}
	z, n := distuv.UnitNormal.Quantile((1+confidence)/2), float64(d.N)
	k := FrequencyFactor(exceedance, d.Skew)
	a, b := 1-z*z/(2*(n-1)), k*k-z*z/n
	if !(a > 0) {
		return 0, 0, &RecordError{what, fmt.Sprintf("%d years", d.N), fmt.Sprintf("more than %.0f", 1+z*z/2)}
	}
	root := math.Sqrt(k*k - a*b)
	at := func(k float64) float64 { return math.Pow(10, d.Mean+k*d.SD) }
	return at((k - root) / a), at((k + root) / a), nil
}

// MapSkewError is the mean square error of the generalised skew read from Bulletin
// 17B's map (from memory).
const MapSkewError = 0.302

// SkewError is the mean square error of a station skew from n years: 10^(A - B
// log10(n/10)), A and B by the size of the skew (Bulletin 17B, equation 6; from memory).
func SkewError(skew float64, n int) float64 {
	g := math.Abs(skew)
	a, b := -0.33+0.08*g, 0.94-0.26*g
	if g > 0.9 {
		a = -0.52 + 0.30*g
	}
	if g > 1.5 {
		b = 0.55
	}
	return math.Pow(10, a-b*math.Log10(float64(n)/10))
}

// Weighted is the distribution with its station skew weighted with a regional one, each
// by the other's mean square error (Bulletin 17B, equation 5).
func (d LogPearson3) Weighted(regional, regionalError float64) LogPearson3 {
	station := SkewError(d.Skew, d.N)
	d.Skew = (regionalError*d.Skew + station*regional) / (regionalError + station)
	return d
}

// OutlierFactor is the deviate beyond which the largest or least of n values lies with
// 10 % chance: the fit that Bulletin 17B's appendix 4 is tabled from (10 to 149 years;
// from memory).
func OutlierFactor(n int) float64 {
	r := math.Sqrt(math.Sqrt(float64(n)))
	return -3.62201 + r*(6.28446+r*(-2.49835+r*(0.491436-r*0.037911)))
}

// OutlierLimits are the flows below and above which a peak is an outlier; outside of
// 10 to 149 years they are a [RecordError].
func (d LogPearson3) OutlierLimits() (low, high float64, err error) {
	if d.N < 10 || d.N > 149 {
		return 0, 0, &RecordError{"outlier limits", fmt.Sprintf("%d years", d.N), "10 to 149"}
	}
	k := OutlierFactor(d.N) * d.SD
	return math.Pow(10, d.Mean-k), math.Pow(10, d.Mean+k), nil
}
