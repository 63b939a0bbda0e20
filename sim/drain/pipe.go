package drain

import "math"

// Roughness and self-cleaning velocities of drain pipe (ASAE EP480).
const (
	// ClayTileN is Manning's n of clay and concrete drain tile, s/m^(1/3).
	ClayTileN = 0.013
	// VelocityCleanWater is the least full-pipe velocity where no fine sand or
	// silt can enter, 0.5 ft/s in m/s.
	VelocityCleanWater = 0.1524
	// VelocityFineSand is the least full-pipe velocity that moves fine sand and
	// silt along, 1.4 ft/s in m/s.
	VelocityFineSand = 0.42672
)

// ManningN returns Manning's n of corrugated plastic drain tube, s/m^(1/3), by
// inside diameter, m (ASAE EP480): 0.015 up to 200 mm, 0.017 for 250 and
// 300 mm, 0.020 above. Trade sizes in inches count with their metric size, so
// the steps stand at 210 and 310 mm. Makers state 0.016-0.018 for 50-200 mm,
// 6 to 17 % less flow. NaN when the diameter is not positive.
func ManningN(diameter float64) float64 {
	switch {
	case !positive(diameter):
		return math.NaN()
	case diameter <= 0.21:
		return 0.015
	case diameter <= 0.31:
		return 0.017
	}
	return 0.020
}

// ManningFullPipe returns the discharge of corrugated tube running full, m3/s,
//
//	Q = (1/n) (pi D^2/4) (D/4)^(2/3) S^(1/2)
//
// (Manning) for inside diameter D, m, grade S, m/m, and n of [ManningN]. NaN
// when the diameter is not positive or the grade is negative.
func ManningFullPipe(diameter, grade float64) float64 {
	if !(grade >= 0) {
		return math.NaN()
	}
	area := math.Pi * diameter * diameter / 4
	return area / ManningN(diameter) * math.Pow(diameter/4, 2./3) * math.Sqrt(grade)
}

// MinimumGrade returns the grade, m/m, at which a full pipe of the inside
// diameter (m) and Manning's n reaches the velocity (m/s):
// S = [v n / (D/4)^(2/3)]^2. With [VelocityCleanWater] or [VelocityFineSand]
// it reproduces the minimum grades of ASAE EP480. NaN when an argument is not
// positive.
func MinimumGrade(diameter, n, velocity float64) float64 {
	if !positive(diameter, n, velocity) {
		return math.NaN()
	}
	root := velocity * n / math.Pow(diameter/4, 2./3)
	return root * root
}

// PipeAreaServed returns the area, m2, whose drainage coefficient (m/s over
// the area) fills a pipe of the given discharge (m3/s). NaN when the discharge
// is negative or the coefficient not positive.
func PipeAreaServed(discharge, coefficient float64) float64 {
	if !(discharge >= 0) || !positive(coefficient) {
		return math.NaN()
	}
	return discharge / coefficient
}
