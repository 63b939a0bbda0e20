package drain

import (
	"errors"
	"fmt"
	"math"
)

// Capacity is what is known of the greatest outflow of a drainage system. Zero
// stands for "not known" in each field; the main needs all three of its own.
type Capacity struct {
	Coefficient  float64 // drainage coefficient, m/s over the area
	MainDiameter float64 // inside diameter of the main, m
	MainGrade    float64 // grade of the main, m/m
	MainArea     float64 // area the main drains, m2
}

// Rate returns the greatest outflow per area, m/s: the drainage coefficient or
// what the main carries over its area, whichever is less; +Inf when neither is
// known.
func (c Capacity) Rate() float64 {
	rate := math.Inf(1)
	if c.Coefficient > 0 {
		rate = c.Coefficient
	}
	if c.MainArea > 0 {
		rate = math.Min(rate, ManningFullPipe(c.MainDiameter, c.MainGrade)/c.MainArea)
	}
	return rate
}

// Validate returns every fault of the capacity, joined, or nil: negative or
// non-finite values, and a main that is only partly stated.
func (c Capacity) Validate() error {
	var faults []error
	main := 0
	for i, q := range []struct {
		name  string
		value float64
		unit  string
	}{
		{"drainage coefficient", c.Coefficient, "m/s"},
		{"main diameter", c.MainDiameter, "m"},
		{"main grade", c.MainGrade, "m/m"},
		{"area of the main", c.MainArea, "m2"},
	} {
		if !(q.value >= 0) || math.IsInf(q.value, 1) {
			faults = append(faults, fmt.Errorf("drain: %s: found %g %s, allowed above 0, or 0 if not known", q.name, q.value, q.unit))
		}
		if i > 0 && q.value != 0 {
			main++
		}
	}
	if main == 1 || main == 2 {
		faults = append(faults, fmt.Errorf("drain: main: found diameter %g m, grade %g, area %g m2: give all three, or none",
			c.MainDiameter, c.MainGrade, c.MainArea))
	}
	return errors.Join(faults...)
}
