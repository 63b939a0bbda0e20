package weather

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Delta is a change laid on a record, the same on every day (the delta-change or
// perturbation method).
type Delta struct {
	Temperature  float64 // C added to Tmin and Tmax
	PrecipFactor float64 // on every amount; 1 leaves it
}

// Bounds of Delta; common practice, wider than what is projected for this century.
const (
	mostWarming             = 15.0
	leastFactor, mostFactor = 0.2, 3.0
)

// String says what is changed: "+2 C, precipitation x 1.1".
func (d Delta) String() string {
	var parts []string
	if d.Temperature != 0 {
		parts = append(parts, fmt.Sprintf("%+.3g C", d.Temperature))
	}
	if d.PrecipFactor != 1 {
		parts = append(parts, fmt.Sprintf("precipitation x %.3g", d.PrecipFactor))
	}
	return strings.Join(parts, ", ")
}

// changedBy stands in the layout of a changed record, which our plain CSV keeps as
// its origin.
const changedBy = ", changed by "

// Change returns a copy of the series with a change on every day. Vapour pressure
// follows the temperature at the same relative humidity: it is multiplied by the
// ratio of the saturation pressures (FAO-56 Eq. 12) after and before, and is
// missing where the temperature is. Radiation and wind stay, the order of wet and
// dry days too; snow depth, which the change would undo, is left out. The layout
// and the name say what was changed, so that neither is taken for a record. It is
// an error to change a changed record again, to change by nothing, or by more than
// 15 C or outside 0.2 to 3 times.
func (s *Series) Change(d Delta) (*Series, error) {
	var errs []error
	fail := func(format string, a ...any) { errs = append(errs, fmt.Errorf("change weather: "+format, a...)) }
	if !(math.Abs(d.Temperature) <= mostWarming) {
		fail("temperature by %v C; allowed -%v to %v", d.Temperature, mostWarming, mostWarming)
	}
	if !(d.PrecipFactor >= leastFactor && d.PrecipFactor <= mostFactor) {
		fail("precipitation by a factor of %v; allowed %v to %v", d.PrecipFactor, leastFactor, mostFactor)
	}
	if d == (Delta{0, 1}) {
		fail("nothing to change; allowed a change of temperature, of precipitation or of both")
	}
	if strings.Contains(s.Layout, changedBy) {
		fail("the record is %s; allowed one that was not changed: start from the original", s.Layout)
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	c := s.clone()
	c.Layout += changedBy + d.String()
	c.Station.Name = strings.TrimSpace(c.Station.Name + " (changed by " + d.String() + ")")
	for i := range c.Tmin {
		c.Tmin[i] += d.Temperature
		c.Tmax[i] += d.Temperature
		c.Precip[i] *= d.PrecipFactor
		if c.Vapour != nil {
			c.Vapour[i] *= MeanSaturationVapourPressure(c.Tmin[i], c.Tmax[i]) / MeanSaturationVapourPressure(s.Tmin[i], s.Tmax[i])
		}
	}
	if c.HourlyPrecip != nil {
		for i, total := range c.Precip {
			share(c.hours(i), total)
		}
	}
	c.SnowDepth = nil
	return c, nil
}

// share scales the hours of a day to add up to a total; a day without amounts stays.
func share(hours []float64, total float64) {
	sum := 0.0
	for _, v := range hours {
		sum += v
	}
	if sum > 0 {
		for h := range hours {
			hours[h] *= total / sum
		}
	}
}
