package flood

import (
	"fmt"
	"math"
	"slices"
)

// Duration is a flow-duration curve.
type Duration struct{ falling []float64 }

// NewDuration sorts a record into its curve.
func NewDuration(flow []float64) (Duration, error) {
	if err := check("flow duration", flow, 1); err != nil {
		return Duration{}, err
	}
	falling := slices.Clone(flow)
	slices.Sort(falling)
	slices.Reverse(falling)
	return Duration{falling}, nil
}

// Exceeded is the flow exceeded for a share of the time, straight between Weibull's
// positions i/(n+1). Shares outside of the first and last position are a [RecordError]:
// the record says nothing about them.
func (d Duration) Exceeded(share float64) (float64, error) {
	n := len(d.falling)
	at := share*float64(n+1) - 1
	if !(at > -1e-9 && at < float64(n-1)+1e-9) {
		return 0, &RecordError{"flow duration", fmt.Sprintf("share %g of %d days", share, n), fmt.Sprintf("%.4g to %.4g", 1/float64(n+1), float64(n)/float64(n+1))}
	}
	i := min(max(int(at), 0), n-1)
	next := min(i+1, n-1)
	return d.falling[i] + (at-float64(i))*(d.falling[next]-d.falling[i]), nil
}

// Flashiness is the Richards-Baker index: the sum of the changes from day to day over
// the sum of the flows, the first change counted from the flow of the day before the
// record (Baker et al. 2004). Where that is not known, give the first flow: no change.
// It falls as the area grows; hold equal areas against each other only.
func Flashiness(before float64, flow []float64) (float64, error) {
	if err := check("flashiness", append([]float64{before}, flow...), 2); err != nil {
		return 0, err
	}
	changes, sum := 0.0, 0.0
	for _, q := range flow {
		changes += math.Abs(q - before)
		sum += q
		before = q
	}
	if sum == 0 {
		return 0, &RecordError{"flashiness", "no flow", "some"}
	}
	return changes / sum, nil
}

// Centre is the day of the centre of volume, sum(t q)/sum(q), counted from 1.
func Centre(flow []float64) (float64, error) {
	if err := check("centre of volume", flow, 1); err != nil {
		return 0, err
	}
	moment, sum := 0.0, 0.0
	for i, q := range flow {
		moment += float64(i+1) * q
		sum += q
	}
	if sum == 0 {
		return 0, &RecordError{"centre of volume", "no flow", "some"}
	}
	return moment / sum, nil
}

// HalfVolume is the day, counted from 1, at whose end half of the volume has passed:
// another measure than [Centre].
func HalfVolume(flow []float64) (int, error) {
	if err := check("half of the volume", flow, 1); err != nil {
		return 0, err
	}
	total := 0.0
	for _, q := range flow {
		total += q
	}
	if total == 0 {
		return 0, &RecordError{"half of the volume", "no flow", "some"}
	}
	day, passed := 0, 0.0
	for passed < total/2 && day < len(flow) {
		passed += flow[day]
		day++
	}
	return day, nil
}

// MeanDay is the mean of days of the year around the circle, above 0 to the length of
// the year, and how closely they lie together: 1 all on one day, near 0 all over the
// year, where the mean says nothing (Burn 1997). The year has 365.25 days.
func MeanDay(days []float64) (day, closeness float64) {
	const year = 365.25
	x, y := 0.0, 0.0
	for _, d := range days {
		sin, cos := math.Sincos(2 * math.Pi * d / year)
		x, y = x+cos/float64(len(days)), y+sin/float64(len(days))
	}
	day = math.Atan2(y, x) / (2 * math.Pi) * year
	if day <= 0 {
		day += year
	}
	return day, math.Hypot(x, y)
}

// EitherOf is the probability that a year has a flood of one kind or the other, of two
// kinds that do not hang together (melt and rain): 1 - (1-p)(1-q).
func EitherOf(p, q float64) float64 { return 1 - (1-p)*(1-q) }
