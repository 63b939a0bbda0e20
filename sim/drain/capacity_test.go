package drain

import (
	"math"
	"strings"
	"testing"
)

func TestCapacityRate(t *testing.T) {
	if r := (Capacity{}).Rate(); !math.IsInf(r, 1) {
		t.Errorf("nothing known: %g, want +Inf", r)
	}
	// ASAE EP480: a 6 in main at 0.1 % carries 4.354 L/s, 3/8 in/d over 3.95 ha.
	main := Capacity{MainDiameter: 0.1524, MainGrade: 0.001, MainArea: 3.95e4}
	near(t, "main", main.Rate(), 9.525*mmPerDay, 2e-3) // both figures printed to three or four digits
	main.Coefficient = 5 * mmPerDay
	near(t, "coefficient governs", main.Rate(), 5*mmPerDay, 1e-15)
	main.Coefficient = 50 * mmPerDay
	near(t, "main governs", main.Rate(), 9.525*mmPerDay, 2e-3)
}

func TestCapacityValidate(t *testing.T) {
	if err := (Capacity{MainDiameter: 0.1524, MainGrade: 0.001, MainArea: 1e4}).Validate(); err != nil {
		t.Error(err)
	}
	err := Capacity{Coefficient: -1, MainDiameter: math.NaN(), MainArea: 1e4}.Validate()
	if err == nil {
		t.Fatal("want faults")
	}
	for _, want := range []string{"drainage coefficient", "main diameter", "all three"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not name %q", err, want)
		}
	}
}
