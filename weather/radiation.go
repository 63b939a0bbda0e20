package weather

import "math"

// Stefan-Boltzmann constant in MJ/K4/m2 per day and per hour. FAO-56 (Eq. 39) and
// ASCE-EWRI (2005) round it differently.
const (
	sigmaFAO    = 4.903e-9
	sigmaASCE   = 4.901e-9
	sigmaHourly = 2.043e-10
)

// Adjustment coefficients kRs of SolarFromTemperature, FAO-56 Eq. 50.
const (
	InteriorKRs = 0.16 // land mass dominates
	CoastalKRs  = 0.19 // on or near the coast of a large water body
)

// SolarFromSunshine returns Rs in MJ/m2/d from hours of sunshine n, daylight
// hours N and Ra in MJ/m2/d: (0.25 + 0.50 n/N) Ra, FAO-56 Eq. 35.
func SolarFromSunshine(sunshine, daylight, ra float64) float64 {
	return (0.25 + 0.50*sunshine/daylight) * ra
}

// SolarFromTemperature returns Rs in MJ/m2/d from the extremes in C and Ra in
// MJ/m2/d: kRs sqrt(Tmax - Tmin) Ra, FAO-56 Eq. 50. Cap it at ClearSky.
func SolarFromTemperature(tmin, tmax, ra, kRs float64) float64 {
	return kRs * math.Sqrt(tmax-tmin) * ra
}

// SolarOnIsland returns Rs in MJ/m2/d on a small island, 0.7 Ra - 4, FAO-56 Eq. 51.
func SolarOnIsland(ra float64) float64 { return 0.7*ra - 4 }

// ClearSky returns Rso, the radiation under a clear sky in the units of ra, at an
// elevation in m: (0.75 + 2e-5 z) Ra, FAO-56 Eq. 37.
func ClearSky(ra, elevation float64) float64 { return (0.75 + 2e-5*elevation) * ra }

// RelativeShortwave returns Rs/Rso, the measure of cloud, kept within 0.3 and 1
// (ASCE-EWRI 2005; FAO-56 states only the upper bound, and below 0.26 Eq. 39
// would warm a dark day). Without any sun it is 0.5, inside FAO-56's night-time
// range of 0.4-0.6 for humid places (from memory).
func RelativeShortwave(rs, rso float64) float64 {
	if rso <= 0 {
		return 0.5
	}
	return max(0.3, min(1, rs/rso))
}

// NetShortwave returns Rns = 0.77 Rs, grass of albedo 0.23, FAO-56 Eq. 38.
func NetShortwave(rs float64) float64 { return 0.77 * rs }

// NetLongwave returns the net outgoing longwave radiation Rnl in MJ/m2/d from the
// extremes in C, ea in kPa and Rs/Rso, FAO-56 Eq. 39.
func NetLongwave(tmin, tmax, ea, relative float64) float64 {
	return sigmaFAO * meanFourthPower(tmin, tmax) * skyEmission(ea, relative)
}

// NetLongwaveASCE is NetLongwave with the constant of ASCE-EWRI (2005).
func NetLongwaveASCE(tmin, tmax, ea, relative float64) float64 {
	return sigmaASCE * meanFourthPower(tmin, tmax) * skyEmission(ea, relative)
}

// NetLongwaveHourly returns Rnl in MJ/m2/h from the hour's mean temperature in C,
// FAO-56 Eq. 39 in its hourly form. At night Rs/Rso is that of the late afternoon.
func NetLongwaveHourly(t, ea, relative float64) float64 {
	return sigmaHourly * meanFourthPower(t, t) * skyEmission(ea, relative)
}

// meanFourthPower is the mean of the fourth powers of two temperatures, K4.
func meanFourthPower(t1, t2 float64) float64 {
	square1, square2 := (t1+273.16)*(t1+273.16), (t2+273.16)*(t2+273.16)
	return (square1*square1 + square2*square2) / 2
}

// skyEmission is the share of the black-body loss left by vapour and cloud.
func skyEmission(ea, relative float64) float64 {
	return (0.34 - 0.14*math.Sqrt(ea)) * (1.35*relative - 0.35)
}

// MonthlySoilHeatFlux returns G in MJ/m2/d of a month from the mean temperatures
// in C of the months before and after, FAO-56 Eq. 43. Of a day G is about 0 (Eq. 42).
func MonthlySoilHeatFlux(before, after float64) float64 { return 0.07 * (after - before) }

// MonthlySoilHeatFluxSoFar is MonthlySoilHeatFlux while the next month is not
// known, from the month before and the month itself, FAO-56 Eq. 44.
func MonthlySoilHeatFluxSoFar(before, current float64) float64 { return 0.14 * (current - before) }

// HourlySoilHeatFlux returns G in MJ/m2/h under grass: 0.1 Rn while the sun is up
// and 0.5 Rn at night, FAO-56 Eq. 45-46.
func HourlySoilHeatFlux(rn float64, day bool) float64 {
	if day {
		return 0.1 * rn
	}
	return 0.5 * rn
}

// WindAt2m brings a wind speed measured at a height in m to 2 m over grass:
// uz 4.87/ln(67.8 z - 5.42), FAO-56 Eq. 47.
func WindAt2m(u, height float64) float64 { return u * 4.87 / math.Log(67.8*height-5.42) }
