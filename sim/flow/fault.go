package flow

import (
	"fmt"
	"math"
)

// RangeError is a quantity outside of the range in which a formula holds.
type RangeError struct {
	Quantity  string  // with its unit
	Found     float64 // in that unit
	Low, High float64 // allowed, both ends included
	Mend      string  // what to do
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s: found %.6g, allowed %.6g to %.6g: %s", e.Quantity, e.Found, e.Low, e.High, e.Mend)
}

// within is nil when the value lies in the range; NaN never does.
func within(quantity string, found, low, high float64, mend string) error {
	if found >= low && found <= high {
		return nil
	}
	return &RangeError{quantity, found, low, high, mend}
}

// positive is nil for a finite value above 0.
func positive(quantity string, found float64) error {
	if found > 0 && found <= math.MaxFloat64 {
		return nil
	}
	return &RangeError{quantity, found, 0, math.Inf(1), "give a finite number above 0"}
}

// firstOf returns the first error that is one.
func firstOf(faults ...error) error {
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	return nil
}
