package flow

import "math"

// Flattest is the slope (m/m) below which the usual times of concentration become
// unreliable (KC et al. 2014). The formulas here refuse flatter land: a caller that
// takes Flattest in its place must say so.
const Flattest = 0.001

// LagShare is the lag of land over its time of concentration (NRCS, National
// Engineering Handbook 630, chapter 15; from memory).
const LagShare = 0.6

// SheetLimit is the longest way (m) on which water runs as a sheet, 100 ft (NRCS,
// TR-55 1986; from memory).
const SheetLimit = 30.48

// steepEnough is nil for a slope on which a time of concentration can be trusted.
func steepEnough(slope float64) error {
	return within("slope, m/m", slope, Flattest, 10, "on flatter land take flow.Flattest and say so")
}

// Lag is the time (s) from the middle of the excess rain to the peak, on land with
// the longest way of flow length (m), mean slope and curve number, by the NRCS lag
// equation L = l^0.8 (S + 25.4)^0.7 / (7069 Y^0.5) in h, m, mm and %
// (National Engineering Handbook 630, chapter 15; from memory, its US form agrees).
func Lag(length, slope, cn float64) (float64, error) {
	if err := firstOf(positive("length, m", length), steepEnough(slope), within("curve number", cn, 1, 100, "give a curve number")); err != nil {
		return 0, err
	}
	hours := math.Pow(length, 0.8) * math.Pow(1000*Retention(cn)+25.4, 0.7) / (7069 * math.Sqrt(100*slope))
	return 3600 * hours, nil
}

// Kirpich is the time of concentration (s) of a small field with a channel of the
// given length (m) and slope: 0.0195 L^0.77 S^-0.385 minutes (Kirpich 1940).
func Kirpich(length, slope float64) (float64, error) {
	if err := firstOf(positive("length, m", length), steepEnough(slope)); err != nil {
		return 0, err
	}
	return 60 * 0.0195 * math.Pow(length, 0.77) * math.Pow(slope, -0.385), nil
}

// SheetFlow is the travel time (s) of a thin sheet over length (m) with Manning's n
// of the cover, under the 24 h rain of 2 years (m): 0.007 (n L)^0.8 / (P^0.5 s^0.4)
// in h, ft and in (TR-55 1986, equation 3-3; from memory; 0.091 in m and mm).
func SheetFlow(length, n, rain, slope float64) (float64, error) {
	if err := firstOf(positive("sheet length, m", length), within("sheet length, m", length, 0, SheetLimit, "beyond it water runs as shallow flow"),
		positive("Manning's n", n), positive("rain, m", rain), steepEnough(slope)); err != nil {
		return 0, err
	}
	const foot, inch = 0.3048, 0.0254
	return 3600 * 0.007 * math.Pow(n*length/foot, 0.8) / (math.Sqrt(rain/inch) * math.Pow(slope, 0.4)), nil
}

// Paved and Unpaved are the speeds (m/s) of shallow concentrated flow at a slope of
// 1, 20.3282 and 16.1345 ft/s (TR-55 1986, figure 3-1; from memory).
const (
	Paved   = 20.3282 * 0.3048
	Unpaved = 16.1345 * 0.3048
)

// ShallowFlow is the travel time (s) of shallow concentrated flow over length (m):
// the speed is [Paved] or [Unpaved] times the root of the slope.
func ShallowFlow(length, speed, slope float64) (float64, error) {
	if err := firstOf(positive("length, m", length), positive("speed, m/s", speed), steepEnough(slope)); err != nil {
		return 0, err
	}
	return length / (speed * math.Sqrt(slope)), nil
}

// Manning is the mean speed (m/s) of a channel with hydraulic radius (m), slope and
// Manning's n: R^(2/3) s^(1/2) / n.
func Manning(radius, slope, n float64) (float64, error) {
	if err := firstOf(positive("hydraulic radius, m", radius), positive("slope, m/m", slope), positive("Manning's n", n)); err != nil {
		return 0, err
	}
	return math.Cbrt(radius*radius) * math.Sqrt(slope) / n, nil
}
