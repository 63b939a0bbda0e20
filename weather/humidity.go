package weather

import "math"

// SaturationVapourPressure returns e0 in kPa over water at t C:
// 0.6108 exp(17.27 t/(t+237.3)), FAO-56 Eq. 11.
func SaturationVapourPressure(t float64) float64 {
	return 0.6108 * math.Exp(17.27*t/(t+237.3))
}

// MeanSaturationVapourPressure returns es in kPa, the mean of e0 at the two
// extremes in C, FAO-56 Eq. 12. e0 of the mean temperature would be too low.
func MeanSaturationVapourPressure(tmin, tmax float64) float64 {
	return (SaturationVapourPressure(tmin) + SaturationVapourPressure(tmax)) / 2
}

// Slope returns the slope of the saturation vapour pressure curve at t C, kPa/C:
// 4098 e0(t)/(t+237.3)^2, FAO-56 Eq. 13.
func Slope(t float64) float64 {
	return 4098 * SaturationVapourPressure(t) / ((t + 237.3) * (t + 237.3))
}

// AtmosphericPressure returns the mean air pressure in kPa at an elevation in m:
// 101.3 ((293 - 0.0065 z)/293)^5.26, FAO-56 Eq. 7.
func AtmosphericPressure(elevation float64) float64 {
	return 101.3 * math.Pow((293-0.0065*elevation)/293, 5.26)
}

// Psychrometric returns the psychrometric constant in kPa/C at a pressure in
// kPa: 0.665e-3 P, FAO-56 Eq. 8.
func Psychrometric(pressure float64) float64 { return 0.665e-3 * pressure }

// Coefficients a of VapourFromPsychrometer, 1/C, FAO-56 Eq. 16.
const (
	VentilatedPsychrometer = 0.000662 // air drawn past at about 5 m/s
	NaturalPsychrometer    = 0.000800 // about 1 m/s
	IndoorPsychrometer     = 0.001200 // not ventilated
)

// VapourFromPsychrometer returns ea in kPa from wet and dry bulb in C, the
// pressure in kPa and the instrument's coefficient a in 1/C, FAO-56 Eq. 15.
func VapourFromPsychrometer(wet, dry, pressure, a float64) float64 {
	return SaturationVapourPressure(wet) - a*pressure*(dry-wet)
}

// VapourFromDewPoint returns ea in kPa at a dew point in C, FAO-56 Eq. 14.
func VapourFromDewPoint(dew float64) float64 { return SaturationVapourPressure(dew) }

// VapourFromHumidityRange returns ea in kPa from the extremes of temperature in
// C and of relative humidity in percent, FAO-56 Eq. 17.
func VapourFromHumidityRange(tmin, tmax, rhMin, rhMax float64) float64 {
	return (SaturationVapourPressure(tmin)*rhMax + SaturationVapourPressure(tmax)*rhMin) / 200
}

// VapourFromHighestHumidity returns ea in kPa from Tmin in C and the highest
// relative humidity in percent, FAO-56 Eq. 18; for when the lowest is doubtful.
func VapourFromHighestHumidity(tmin, rhMax float64) float64 {
	return SaturationVapourPressure(tmin) * rhMax / 100
}

// VapourFromMeanHumidity returns ea in kPa from the extremes of temperature in C
// and the mean relative humidity in percent, FAO-56 Eq. 19.
func VapourFromMeanHumidity(tmin, tmax, rhMean float64) float64 {
	return MeanSaturationVapourPressure(tmin, tmax) * rhMean / 100
}
