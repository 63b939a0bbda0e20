package crop

import "math"

// Dryness is what the climate adds to the coefficient of a crop 3 m tall against
// FAO-56's standard climate (wind 2 m/s, least humidity 45 %): wind u2 in m/s at 2 m
// and the least relative humidity in percent, each held to the range the equation
// is given for (Allen et al. 1998, eq. 62).
func Dryness(wind, humidity float64) float64 {
	return 0.04*(min(max(wind, 1), 6)-2) - 0.004*(min(max(humidity, 20), 80)-45)
}

// ClimateAdjustment brings Dryness to a crop of another height, m (eq. 62). The
// sum is added to the coefficient of a full crop and to the upper limit of
// evaporation (eq. 72).
func ClimateAdjustment(dryness, height float64) float64 {
	return dryness * math.Pow(height/3, 0.3)
}
