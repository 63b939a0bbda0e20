package flood

import "math"

// ReturnPeriods are the years between floods that a report gives.
var ReturnPeriods = []float64{2, 5, 10, 25, 50, 100}

// Change is what a change of the land did to the flood of a return period.
type Change struct {
	ReturnPeriod float64 // years
	Was, Is      float64 // the flood before and after, in the record's unit
	Percent      float64 // of Was; NaN where that is 0
	Low, High    float64 // interval of Percent over resampled years; NaN where no draw had a flood before
	Without      int     // draws left out, because the flood was 0 before or no distribution could be had
}

// Changes holds two records of annual peaks of the same years against each other: a
// log-Pearson III distribution with its station skew is fitted to each, and for the
// interval to each pair of resampled records, years in pairs, seeded.
func Changes(was, is, returnPeriods []float64, confidence float64, d Drawing) ([]Change, error) {
	if err := pairs("change of floods", was, is, 3); err != nil {
		return nil, err
	}
	if err := probability("confidence", confidence); err != nil {
		return nil, err
	}
	before, err := FitLogPearson3(was)
	if err != nil {
		return nil, err
	}
	after, err := FitLogPearson3(is)
	if err != nil {
		return nil, err
	}
	changes := make([]Change, len(returnPeriods))
	for i, years := range returnPeriods {
		if err := probability("return period", 1/years); err != nil {
			return nil, err
		}
		c := Change{ReturnPeriod: years, Was: before.Quantile(1 / years), Is: after.Quantile(1 / years)}
		c.Percent, c.Low, c.High = percent(c.Was, c.Is), math.NaN(), math.NaN()
		r, err := Bootstrap(was, is, func(a, b []float64) float64 { return quantileChange(a, b, 1/years) }, d)
		if err == nil {
			c.Low, c.High = r.Interval(confidence)
			c.Without = r.Without
		} else {
			c.Without = d.Draws
		}
		changes[i] = c
	}
	return changes, nil
}

// quantileChange is the change (%) of the flood of an exceedance between two records,
// NaN where a record has no distribution or no flood before.
func quantileChange(was, is []float64, exceedance float64) float64 {
	before, err := FitLogPearson3(was)
	if err != nil {
		return math.NaN()
	}
	after, err := FitLogPearson3(is)
	if err != nil {
		return math.NaN()
	}
	return percent(before.Quantile(exceedance), after.Quantile(exceedance))
}

// percent is the change from one flow to another in per cent, NaN from 0.
func percent(was, is float64) float64 {
	if was == 0 {
		return math.NaN()
	}
	return 100 * (is/was - 1)
}
