package flood

import (
	"fmt"
	"math"
)

// LyneHollick is the digital filter of Lyne and Hollick (1979) in the form of Nathan and
// McMahon (1990; from memory). Quick flow starts at 0 in every pass; each pass filters
// the base flow of the one before, forward and backward in turn.
type LyneHollick struct {
	A      float64 // filter parameter, 0.925 as a rule
	Passes int     // 3 as a rule
	Free   bool    // the filter's state may go below 0 between days: another index by a tenth
}

// NathanMcMahon is the filter as it is mostly used: 0.925 and three passes.
var NathanMcMahon = LyneHollick{A: 0.925, Passes: 3}

// Base is the base flow of a daily record.
func (f LyneHollick) Base(flow []float64) ([]float64, error) {
	const what = "Lyne-Hollick filter"
	if err := check(what, flow, 1); err != nil {
		return nil, err
	}
	if !(f.A > 0 && f.A < 1) || f.Passes < 1 {
		return nil, &RecordError{what, fmt.Sprintf("parameter %g, %d passes", f.A, f.Passes), "above 0 and below 1, 1 or more"}
	}
	base := append([]float64(nil), flow...)
	for pass := range f.Passes {
		first, step := 0, 1
		if pass%2 == 1 {
			first, step = len(base)-1, -1
		}
		quick, before := 0.0, base[first]
		for i := first + step; i >= 0 && i < len(base); i += step {
			quick = f.A*quick + (1+f.A)/2*(base[i]-before)
			if !f.Free {
				quick = math.Max(quick, 0)
			}
			before = base[i]
			base[i] -= math.Max(quick, 0)
		}
	}
	return base, nil
}

// Eckhardt is the two-parameter filter of Eckhardt (2005). The greatest index is a
// judgement, and so is the start; both move the result.
type Eckhardt struct {
	A     float64 // recession constant of a day, about 0.98
	Most  float64 // greatest base-flow index: 0.80 perennial on porous ground, 0.50 ephemeral, 0.25 hard rock (from memory)
	Start float64 // base flow over flow on the first day, 1 or Most
}

// Base is the base flow of a daily record.
func (f Eckhardt) Base(flow []float64) ([]float64, error) {
	const what = "Eckhardt filter"
	if err := check(what, flow, 1); err != nil {
		return nil, err
	}
	if !(f.A > 0 && f.A < 1 && f.Most > 0 && f.Most < 1 && f.Start >= 0 && f.Start <= 1) {
		return nil, &RecordError{what, fmt.Sprintf("recession %g, greatest index %g, start %g", f.A, f.Most, f.Start), "shares between 0 and 1"}
	}
	base := make([]float64, len(flow))
	base[0] = f.Start * flow[0]
	for i := 1; i < len(flow); i++ {
		b := ((1-f.Most)*f.A*base[i-1] + (1-f.A)*f.Most*flow[i]) / (1 - f.A*f.Most)
		base[i] = math.Min(b, flow[i])
	}
	return base, nil
}

// Index is the base-flow index, the sum of base flow over that of flow. In tiled land
// much of it is tile flow.
func Index(base, flow []float64) float64 {
	slow, all := 0.0, 0.0
	for i := range flow {
		slow, all = slow+base[i], all+flow[i]
	}
	return slow / all
}
