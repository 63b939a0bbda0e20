package proof

import "mottle/weather"

// evapotranspirationRows compute the rows of FAO-56 (E) and ASCE-EWRI (A).
var evapotranspirationRows = map[string]func(given) float64{
	"E02a": func(in given) float64 { return weather.AtmosphericPressure(in["z_m"]) },
	"E02b": func(in given) float64 { return weather.Psychrometric(in["P_kPa"]) },
	"E03a": func(in given) float64 { return weather.SaturationVapourPressure(in["T_C"]) },
	"E03b": func(in given) float64 { return weather.SaturationVapourPressure(in["T_C"]) },
	"E03c": func(in given) float64 { return weather.MeanSaturationVapourPressure(in["Tmin_C"], in["Tmax_C"]) },
	"E03d": func(in given) float64 { return weather.SaturationVapourPressure(in["T_C"]) },
	"E04": func(in given) float64 {
		return weather.VapourFromPsychrometer(in["Twet_C"], in["Tdry_C"], in["P_kPa"], weather.VentilatedPsychrometer)
	},
	"E05a": func(in given) float64 {
		return weather.VapourFromHumidityRange(in["Tmin_C"], in["Tmax_C"], in["RHmin"], in["RHmax"])
	},
	"E05b": func(in given) float64 { return weather.VapourFromHighestHumidity(in["Tmin_C"], in["RHmax"]) },
	"E05c": func(in given) float64 {
		return weather.VapourFromMeanHumidity(in["Tmin_C"], in["Tmax_C"], in["RHmean"])
	},
	"E06": func(in given) float64 {
		return weather.MeanSaturationVapourPressure(in["Tmin_C"], in["Tmax_C"]) - weather.VapourFromHumidityRange(in["Tmin_C"], in["Tmax_C"], in["RHmin"], in["RHmax"])
	},
	"E07a": func(in given) float64 { return latitudeOfSunset(in) },
	"E07b": func(in given) float64 { return latitudeOfSunset(in) },
	"E08a": func(in given) float64 { return weather.InverseRelativeDistance(in.day()) },
	"E08b": func(in given) float64 { return weather.Declination(in.day()) },
	"E08c": func(in given) float64 { return weather.SunsetHourAngle(in.lat(), in.day()) },
	"E08d": given.ra,
	"E08e": func(in given) float64 { return weather.PriestleyTaylor(1, 1, 0, in.ra(), 0) },
	"E09":  func(in given) float64 { return weather.DaylightHours(in.lat(), in.day()) },
	"E10a": given.ra,
	"E10b": func(in given) float64 { return weather.DaylightHours(in.lat(), in.day()) },
	"E10c": func(in given) float64 { return weather.SolarFromSunshine(in["n_h"], in["N_h"], in["Ra"]) },
	"E11a": func(in given) float64 { return weather.ClearSky(in["Ra"], 0) },
	"E11b": func(in given) float64 {
		return weather.NetLongwave(in["Tmin_C"], in["Tmax_C"], in["ea_kPa"], weather.RelativeShortwave(in["Rs"], in["Rso"]))
	},
	"E12a": func(in given) float64 { return weather.NetShortwave(in["Rs"]) },
	"E12b": func(in given) float64 {
		return seaLevelRn(in, weather.SolarFromSunshine(in["n_h"], in["N_h"], in["Ra"]))
	},
	"E13a": func(in given) float64 { return weather.MonthlySoilHeatFlux(in["Tprev_C"], in["Tnext_C"]) },
	"E13b": func(in given) float64 { return weather.MonthlySoilHeatFluxSoFar(in["Tprev_C"], in["Tcur_C"]) },
	"E14":  func(in given) float64 { return weather.WindAt2m(in["uz"], in["z_m"]) },
	"E15": func(in given) float64 {
		return weather.SolarFromTemperature(in["Tmin_C"], in["Tmax_C"], in["Ra"], weather.InteriorKRs)
	},
	"E16a": func(in given) float64 {
		return weather.SolarFromTemperature(in["Tmin_C"], in["Tmax_C"], in["Ra"], weather.CoastalKRs)
	},
	"E16b": func(in given) float64 {
		return seaLevelRn(in, weather.SolarFromTemperature(in["Tmin_C"], in["Tmax_C"], in["Ra"], weather.CoastalKRs))
	},
	"E17a": func(in given) float64 { return bangkok(in).Slope },
	"E17b": func(in given) float64 { return bangkok(in).Psychrometric },
	"E17c": func(in given) float64 { return bangkok(in).es },
	"E17d": func(in given) float64 { return bangkok(in).Deficit },
	"E17e": func(in given) float64 { return bangkok(in).ra },
	"E17f": func(in given) float64 { return bangkok(in).daylight },
	"E17g": func(in given) float64 { return bangkok(in).rs },
	"E17h": func(in given) float64 { return bangkok(in).rso },
	"E17i": func(in given) float64 { return bangkok(in).rns },
	"E17j": func(in given) float64 { return bangkok(in).rnl },
	"E17k": func(in given) float64 { return bangkok(in).NetRadiation },
	"E17l": func(in given) float64 { return bangkok(in).SoilHeat },
	"E17m": func(in given) float64 { // the radiation term is what is left without a deficit
		d := bangkok(in)
		d.Deficit = 0
		return weather.PenmanMonteithDaily(d.Air)
	},
	"E17n": func(in given) float64 { // the aerodynamic term is what is left without radiation
		d := bangkok(in)
		d.NetRadiation, d.SoilHeat = 0, 0
		return weather.PenmanMonteithDaily(d.Air)
	},
	"E17o": func(in given) float64 { return weather.PenmanMonteithDaily(bangkok(in).Air) },
	"E18a": func(in given) float64 { return uccle(in).Wind },
	"E18b": func(in given) float64 { return weather.AtmosphericPressure(in["z_m"]) },
	"E18c": func(in given) float64 { return uccle(in).Slope },
	"E18d": func(in given) float64 { return uccle(in).Psychrometric },
	"E18e": func(in given) float64 { return uccle(in).es },
	"E18f": func(in given) float64 { return uccle(in).ea },
	"E18g": func(in given) float64 { return uccle(in).Deficit },
	"E18h": func(in given) float64 { return uccle(in).ra },
	"E18i": func(in given) float64 { return uccle(in).daylight },
	"E18j": func(in given) float64 { return uccle(in).rs },
	"E18k": func(in given) float64 { return uccle(in).rso },
	"E18l": func(in given) float64 { return uccle(in).rns },
	"E18m": func(in given) float64 { return uccle(in).rnl },
	"E18n": func(in given) float64 { return uccle(in).NetRadiation },
	"E18o": func(in given) float64 { // the whole chain as a series runs it
		d := uccle(in)
		return seriesDay(in, weather.ETChoice{}, weather.Series{Solar: []float64{d.rs}, Vapour: []float64{d.ea}, Wind: []float64{d.Wind}})
	},
	"E18p": func(in given) float64 {
		return weather.Standardized(weather.Tall, uccle(in).standard(in["Tmin_C"], in["Tmax_C"]).Air)
	},
	"E18q": func(in given) float64 {
		d := uccle(in)
		return weather.PriestleyTaylor(1.26, d.Slope, d.Psychrometric, d.NetRadiation, 0)
	},
	"E18r": func(in given) float64 { return weather.HargreavesSamani(in["Tmin_C"], in["Tmax_C"], in["Ra"]) },
	"E19a": senegal,
	"E19b": senegal,
	"E19c": senegal,
	"E19d": senegal,
	"E20a": func(in given) float64 { return weather.VapourFromDewPoint(in["Tmin_C"]) },
	"E20b": func(in given) float64 {
		return seriesDay(in, weather.ETChoice{Method: weather.PenmanMonteith}, weather.Series{})
	},
	"E20c": func(in given) float64 { return weather.HargreavesSamani(in["Tmin_C"], in["Tmax_C"], in["Ra"]) },
	"E21":  func(in given) float64 { return weather.SolarOnIsland(in["Ra"]) },

	"A01a": func(in given) float64 { return weather.AtmosphericPressure(in["z_m"]) },
	"A01b": func(in given) float64 { return fallon(in).Slope },
	"A01c": func(in given) float64 { return fallon(in).es },
	"A01d": func(in given) float64 { return fallon(in).ea },
	"A01e": func(in given) float64 { return fallon(in).Wind },
	"A01f": func(in given) float64 { return fallon(in).ra },
	"A01g": func(in given) float64 { return weather.Standardized(weather.Tall, fallon(in).Air) },
	"A01h": func(in given) float64 { return weather.Standardized(weather.Short, fallon(in).Air) },
	"A01i": func(in given) float64 { return fallon(in).NetRadiation },
	"A02a": given.ra,
	"A02b": func(in given) float64 { return weather.SunsetHourAngle(in.lat(), in.day()) },
}
