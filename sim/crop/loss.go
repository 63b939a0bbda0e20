package crop

import (
	"fmt"
	"math"
)

// Cause of a loss of yield.
type Cause int

// The causes.
const (
	Late Cause = iota // planting
	Wet               // excess water
	Dry               // drought
	Salt
	causes
)

// String names the cause.
func (c Cause) String() string {
	return [...]string{"late planting", "excess water", "drought", "salt"}[c]
}

// Shares is a share of the best yield by cause.
type Shares [causes]float64

// Attribute multiplies what each cause leaves of the yield (common practice) and
// shares out the loss: lost adds up to 1 - yield, to rounding. A cause without a
// relation leaves 1, and has to be named beside the answer. Shares outside 0 to 1 are
// an error.
//
// Each cause is given the part of the loss that its logarithm has in that of the
// product, lost_i = (1 - Y) ln f_i / ln Y. Factors multiply, so their logarithms add:
// the rule follows from the form, needs no order, and gives equal factors equal
// parts. An order in time would not do, since wet, dry and salt days mingle through
// the season, and what comes first would be charged more. As a factor goes to
// nothing its part goes to all of the loss; where several leave nothing, they bear it
// alike.
func Attribute(kept Shares) (yield float64, lost Shares, err error) {
	yield, logs, nothing := 1.0, 0.0, 0.0
	for c, f := range kept {
		if !(f >= 0 && f <= 1) {
			return 0, lost, fmt.Errorf("%s leaves: found %g of the yield, allowed 0 to 1", Cause(c), f)
		}
		yield *= f
		logs += math.Log(f)
		if f == 0 {
			nothing++
		}
	}
	for c, f := range kept {
		switch {
		case nothing > 0:
			if f == 0 {
				lost[c] = 1 / nothing
			}
		case f < 1:
			lost[c] = (1 - yield) * math.Log(f) / logs
		}
	}
	return yield, lost, nil
}
