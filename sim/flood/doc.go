// Package flood says what a record of flow amounts to: its floods and how often
// they return, its low flows, its base flow and flashiness, when its water passes,
// what a change of the land did to it, and how well a simulated record follows a
// measured one.
//
// Flows may be in any unit that is kept; a day is a step. Records without numbers in
// them are the caller's business to cut: a NaN or a negative flow is a [RecordError].
package flood

import (
	"fmt"
	"math"
)

// RecordError is a record from which a statistic cannot be had.
type RecordError struct {
	What  string // the statistic
	Found string
	Want  string
}

func (e *RecordError) Error() string {
	return fmt.Sprintf("%s: found %s, wanted %s", e.What, e.Found, e.Want)
}

// check is nil for a record of at least so many flows, finite and 0 or more.
func check(what string, flow []float64, atLeast int) error {
	if len(flow) < atLeast {
		return &RecordError{what, fmt.Sprintf("%d values", len(flow)), fmt.Sprintf("at least %d", atLeast)}
	}
	for i, q := range flow {
		if !(q >= 0) || math.IsInf(q, 0) {
			return &RecordError{what, fmt.Sprintf("%g at place %d", q, i+1), "flows of 0 or more"}
		}
	}
	return nil
}

// probability is nil between 0 and 1, both ends left out.
func probability(what string, p float64) error {
	if p > 0 && p < 1 {
		return nil
	}
	return &RecordError{what, fmt.Sprintf("probability %g", p), "above 0 and below 1"}
}
