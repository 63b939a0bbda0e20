package washoff

import "math"

// Land is the part of a soil loss that hangs on the field.
type Land struct {
	K  float64 // erodibility, handbook unit (ton acre h per 100 acre ft tonf in), 0 to 0.7
	LS float64 // length and steepness, as Steepness gives it
	C  float64 // cover and management, 0 to 1 (bare fallow)
	P  float64 // practice, 0 to 1 (up and down the slope)
}

// check is nil for factors that a handbook could have.
func (l Land) check() error {
	for _, f := range []struct {
		name        string
		found, high float64
	}{{"erodibility K", l.K, 0.7}, {"length and steepness LS", l.LS, 100}, {"cover C", l.C, 1}, {"practice P", l.P, 1}} {
		if err := within(f.name, f.found, 0, f.high); err != nil {
			return err
		}
	}
	return nil
}

// Steepness is the factor LS of a slope (m/m) and its length (m): (l/22.13)^m (65.41
// sin^2 + 4.56 sin + 0.065), m by slope (Wischmeier and Smith 1978, USDA Handbook 537).
// The handbook leaves m open between 3 and 3.5 % and between 4.5 and 5 %; here the
// flatter class goes up to the steeper. The revised equation has another steepness
// factor: do not mix them.
func Steepness(length, slope float64) (float64, error) {
	if err := within("slope length, m", length, 1, 1000); err != nil {
		return 0, err
	}
	if err := within("slope, m/m", slope, 0, 1); err != nil {
		return 0, err
	}
	m := 0.5
	switch {
	case slope < 0.01:
		m = 0.2
	case slope < 0.035:
		m = 0.3
	case slope < 0.05:
		m = 0.4
	}
	sin := math.Sin(math.Atan(slope))
	return math.Pow(length/22.13, m) * (65.41*sin*sin + 4.56*sin + 0.065), nil
}

const (
	tonPerAcre = 907.18474 / 4046.8564224 // kg/m2
	tonne      = 1000.                    // kg
)

// Yearly is the mean yearly soil loss (kg/m2) of land under an erosivity R (100 acre ft
// tonf in per acre h year, as mapped): R K LS C P (Wischmeier and Smith 1978). It does
// not hold for one storm.
func Yearly(r float64, l Land) (float64, error) {
	if err := within("erosivity R", r, 0, 1000); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	return r * l.K * l.LS * l.C * l.P * tonPerAcre, nil
}

// Storm is the sediment (kg) that a storm carries to the outlet: 11.8 (Q qp)^0.56 K LS C
// P in t, with the surface runoff Q (m3) and its peak qp (m3/s) (Williams 1975; from
// memory, confirmed by its US form). Surface runoff only, never drain flow.
func Storm(runoff, peak float64, l Land) (float64, error) {
	if err := within("surface runoff, m3", runoff, 0, math.MaxFloat64); err != nil {
		return 0, err
	}
	if err := within("peak of the runoff, m3/s", peak, 0, math.MaxFloat64); err != nil {
		return 0, err
	}
	if err := l.check(); err != nil {
		return 0, err
	}
	return 11.8 * tonne * math.Pow(runoff*peak, 0.56) * l.K * l.LS * l.C * l.P, nil
}

// Delivered is the range of the share of the yearly soil loss that leaves a watershed of
// area (m2): 0.4724 A^-0.125 in km2 and 0.51 A^-0.11 in mi2, two published curves that
// lie a fifth apart (from memory).
func Delivered(area float64) (low, high float64, err error) {
	if err := within("area, m2", area, 1e4, 1e12); err != nil {
		return 0, 0, err
	}
	a, b := 0.4724*math.Pow(area/1e6, -0.125), 0.51*math.Pow(area/(1609.344*1609.344), -0.11)
	return math.Min(a, b), math.Max(a, b), nil
}
