package money

import (
	"fmt"
	"math"
)

// Payback is the time until an outlay has come back, or that it does not within
// the years looked at.
type Payback struct {
	Years  float64 // until it is back; +Inf for never
	Within int     // years looked at
}

// Never says whether the outlay does not come back within the years looked at.
func (p Payback) Never() bool { return math.IsInf(p.Years, 1) }

// String is "18.5 years" or "never within 30 years".
func (p Payback) String() string {
	if p.Never() {
		return fmt.Sprintf("never within %d years", p.Within)
	}
	return fmt.Sprintf("%.1f years", p.Years)
}

// PaybackTime is the first time at which the running sum of the discounted flows is
// no longer below 0, linear within a year. At rate 0 it is the simple payback,
// outlay over gain where gains are level. Flows that later fall below 0 again do
// not undo it. Years is NaN unless the rate is above -1 and there are flows.
func PaybackTime(rate float64, flows []float64) Payback {
	p := Payback{Years: math.Inf(1), Within: max(0, len(flows)-1)}
	if !(rate > -1) || len(flows) == 0 {
		p.Years = math.NaN()
		return p
	}
	factor, sum := 1.0, 0.0
	for t, f := range flows {
		gain := f * factor
		switch before := sum; {
		case before+gain < 0:
		case t == 0:
			return Payback{0, p.Within}
		default:
			p.Years = float64(t-1) - before/gain
			return p
		}
		sum += gain
		factor /= 1 + rate
	}
	return p
}
