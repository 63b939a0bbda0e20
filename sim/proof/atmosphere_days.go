package proof

import (
	"math"

	"mottle/weather"
)

// ra is the extraterrestrial radiation of the day and latitude given, MJ/m2/d.
func (in given) ra() float64 { return weather.ExtraterrestrialRadiation(in.lat(), in.day()) }

// workedDay is the state of a day with everything known, and the values on the way.
type workedDay struct {
	weather.Air
	es, ea, ra, daylight, rs, rso, rns, rnl float64
}

// bangkok is FAO-56 Example 17.
func bangkok(in given) workedDay {
	d := workedDay{ea: in["ea_kPa"], ra: in.ra(), daylight: weather.DaylightHours(in.lat(), in.day())}
	d.rs = weather.SolarFromSunshine(in["n_h"], d.daylight, d.ra)
	d.Wind = in["u2"]
	d.SoilHeat = weather.MonthlySoilHeatFluxSoFar(in["Tprev_C"], in["Tcur_C"])
	return d.finish(in)
}

// uccle is FAO-56 Example 18.
func uccle(in given) workedDay {
	d := workedDay{ra: in.ra(), daylight: weather.DaylightHours(in.lat(), in.day())}
	d.ea = weather.VapourFromHumidityRange(in["Tmin_C"], in["Tmax_C"], in["RHmin"], in["RHmax"])
	d.rs = weather.SolarFromSunshine(in["n_h"], d.daylight, d.ra)
	d.Wind = weather.WindAt2m(in["u10_kmh"]/3.6, 10)
	return d.finish(in)
}

func (d workedDay) finish(in given) workedDay {
	tmin, tmax := in["Tmin_C"], in["Tmax_C"]
	d.Temperature = (tmin + tmax) / 2
	d.es = weather.MeanSaturationVapourPressure(tmin, tmax)
	d.Deficit = d.es - d.ea
	d.Slope = weather.Slope(d.Temperature)
	d.Psychrometric = weather.Psychrometric(weather.AtmosphericPressure(in["z_m"]))
	d.rso = weather.ClearSky(d.ra, in["z_m"])
	d.rns = weather.NetShortwave(d.rs)
	d.rnl = weather.NetLongwave(tmin, tmax, d.ea, weather.RelativeShortwave(d.rs, d.rso))
	d.NetRadiation = d.rns - d.rnl
	return d
}

// standard brings a day to the constants of ASCE-EWRI (2005).
func (d workedDay) standard(tmin, tmax float64) workedDay {
	d.Slope = weather.SlopeASCE(d.Temperature)
	d.NetRadiation = d.rns - weather.NetLongwaveASCE(tmin, tmax, d.ea, weather.RelativeShortwave(d.rs, d.rso))
	return d
}

// fallon is the ASCE-EWRI day at Fallon NV, 1 July 2015.
func fallon(in given) workedDay {
	celsius := func(f float64) float64 { return (f - 32) / 1.8 }
	day := given{"Tmin_C": celsius(in["Tmin_F"]), "Tmax_C": celsius(in["Tmax_F"]), "z_m": in["z_m"]}
	const langley = 0.041868 // MJ/m2
	d := workedDay{ra: in.ra(), ea: weather.VapourFromDewPoint(celsius(in["Tdew_F"])), rs: in["Rs_Langley"] * langley}
	const mileAnHour = 0.44704 // m/s
	d.Wind = weather.WindAt2m(in["wind_mph"]*mileAnHour, in["zw_m"])
	return d.finish(day).standard(day["Tmin_C"], day["Tmax_C"])
}

// seriesDay runs the product's reference evapotranspiration on a series of the one
// day given, mm/d; NaN when it refuses.
func seriesDay(in given, c weather.ETChoice, s weather.Series) float64 {
	s.Start = weather.NewDate(2001, 1, 1) + weather.Date(in.day()-1)
	s.Tmin, s.Tmax, s.Precip, s.Marks = []float64{in["Tmin_C"]}, []float64{in["Tmax_C"]}, []float64{0}, []weather.Mark{0}
	eto, _, _, err := weather.ReferenceET(&s, in.lat(), in["z_m"], c)
	if err != nil {
		return math.NaN()
	}
	return eto[0]
}

// seaLevelRn is the net radiation of FAO-56 Examples 12 and 16, at sea level.
func seaLevelRn(in given, rs float64) float64 {
	relative := weather.RelativeShortwave(rs, weather.ClearSky(in["Ra"], 0))
	return weather.NetShortwave(rs) - weather.NetLongwave(in["Tmin_C"], in["Tmax_C"], in["ea_kPa"], relative)
}

// latitudeOfSunset is the latitude (rad) that the sunset hour angle belongs to.
func latitudeOfSunset(in given) float64 {
	const day = 172 // far from the equinoxes, when all latitudes have the same sunset
	ws := weather.SunsetHourAngle(in.lat(), day)
	return math.Atan(-math.Cos(ws) / math.Tan(weather.Declination(day)))
}
