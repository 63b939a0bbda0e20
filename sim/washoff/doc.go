// Package washoff holds indices of what water carries off the land: soil in surface
// runoff, nitrate in drain water.
//
// They rank fields, seasons and designs; they predict no single load, so a report gives
// a low, a middle and a high. It stands apart from the rates and routes of water in
// sim/flow because its factors are those of soil and cover. SI: m, m3, m3/s, kg; the
// erodibility K and the erosivity R are those of the handbook's tables, in US units.
package washoff

import (
	"fmt"
	"math"
)

// RangeError is a quantity outside of the range in which an index holds.
type RangeError struct {
	Quantity  string  // with its unit
	Found     float64 // in that unit
	Low, High float64 // allowed, both ends included
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s: found %.6g, allowed %.6g to %.6g", e.Quantity, e.Found, e.Low, e.High)
}

// within is nil when the value lies in the range; NaN never does.
func within(quantity string, found, low, high float64) error {
	if found >= low && found <= high && !math.IsInf(found, 0) {
		return nil
	}
	return &RangeError{quantity, found, low, high}
}
