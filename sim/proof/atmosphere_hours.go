package proof

import (
	"fmt"
	"math"

	"mottle/weather"
)

// site is where a row of an hour lies; rows count longitudes west, the product east.
func (in given) site() weather.Site {
	return weather.Site{Latitude: in.lat(), Longitude: -in["lon_W"], ZoneLongitude: -in["zone_lon_W"]}
}

// hour is the air of an hour of FAO-56 Example 19, over grass.
func (in given) hour() weather.Air {
	t := in["T_C"]
	es := weather.SaturationVapourPressure(t)
	ea := es * in["RH"] / 100
	rs, relative := in["Rs"], in["Rs/Rso"]
	day := rs > 0
	if day {
		ra := weather.HourlyExtraterrestrialRadiation(in.site(), in.day(), in["t_mid_h"])
		relative = weather.RelativeShortwave(rs, weather.ClearSky(ra, in["z_m"]))
	}
	rn := weather.NetShortwave(rs) - weather.NetLongwaveHourly(t, ea, relative)
	return weather.Air{Temperature: t, NetRadiation: rn, SoilHeat: weather.HourlySoilHeatFlux(rn, day), Wind: in["u2"],
		Deficit: es - ea, Slope: weather.Slope(t), Psychrometric: weather.Psychrometric(weather.AtmosphericPressure(in["z_m"]))}
}

// senegal is FAO-56 Example 19, an hour by day or by night, mm/h.
func senegal(in given) float64 { return weather.PenmanMonteithHourly(in.hour()) }

// standardHours hold the standardized equation on the two hours of FAO-56 Example 19,
// for both surfaces.
func standardHours() ([]Check, error) {
	const source = "ASCE-EWRI 2005, Table 1 (%s), on the hour of FAO-56 Example 19"
	var checks []Check
	for _, h := range []struct {
		id          string
		short, tall float64 // mm/h, computed apart
		soil        float64 // soil heat under the tall surface, share of net radiation
	}{
		{"E19c", 0.656005, 0.821768, 0.04},
		{"E19d", 0.00350405, 0.00671875, 0.2},
	} {
		in, err := parseGiven(listedRow(h.id)["inputs"], nil)
		if err != nil {
			return nil, fmt.Errorf("row %s: %w", h.id, err)
		}
		air := in.hour()
		tall := air
		tall.SoilHeat = h.soil * air.NetRadiation
		what := listedRow(h.id)["quantity"]
		const (
			unit = "mm/h"
			why  = "six digits are kept of the same equation computed apart; a constant off by a hundredth moves more"
		)
		checks = append(checks,
			Check{ID: h.id + ", short", What: what + ", standardized, short", Source: fmt.Sprintf(source, "37; 0.24 by day, 0.96 by night"),
				Status: Computed, Unit: unit, Expected: h.short, Got: weather.StandardizedHourly(weather.Short, air), Tolerance: 1e-5 * math.Max(h.short, 0.1), Why: why},
			Check{ID: h.id + ", tall", What: what + ", standardized, tall", Source: fmt.Sprintf(source, "66; 0.25 by day, 1.7 by night; from memory"),
				Status: Computed, Unit: unit, Expected: h.tall, Got: weather.StandardizedHourly(weather.Tall, tall), Tolerance: 1e-5 * math.Max(h.tall, 0.1), Why: why})
	}
	return checks, nil
}

// noon is the clock time (h) of solar noon: the sun is as high two hours before as
// two hours after.
func noon(s weather.Site, day int) float64 {
	early, late := 10.0, 14.0
	for range 50 {
		mid := (early + late) / 2
		if weather.HourlyExtraterrestrialRadiation(s, day, mid+2) > weather.HourlyExtraterrestrialRadiation(s, day, mid-2) {
			early = mid
		} else {
			late = mid
		}
	}
	return (early + late) / 2
}

// hourlySun holds the sun of an hour: the seasonal correction of its clock, the
// longitude's, the radiation of an hour and the sum of a day.
func hourlySun() ([]Check, error) {
	const fao = "FAO-56 (Allen et al. 1998) "
	in, err := parseGiven(listedRow("E19c")["inputs"], nil)
	if err != nil {
		return nil, fmt.Errorf("row E19c: %w", err)
	}
	onZone := weather.Site{Latitude: 40}
	west := weather.Site{Latitude: 40, Longitude: -7.5}
	checks := []Check{
		{ID: "E19, seasonal", What: "seasonal correction of solar time, 1 October", Source: fao + "Ex.19, eq. 32", Status: Memory, Unit: "h",
			Expected: 0.1889, Got: 12 - noon(onZone, in.day()), Tolerance: 1e-4, Why: "four decimals are printed, and computed apart it is 0.18894"},
		{ID: "E19, longitude", What: "noon's delay 7.5 degrees west of the zone's centre", Source: "definition: the sun crosses 15 degrees in an hour", Status: Computed, Unit: "h",
			Expected: 0.5, Got: noon(west, in.day()) - noon(onZone, in.day()), Tolerance: 1e-4, Why: fao + "rounds 1/15 to 0.06667"},
		{ID: "E19, Ra", What: "extraterrestrial radiation 14-15 h, 1 October", Source: fao + "Ex.19, eq. 28", Status: Computed, Unit: "MJ/m2/h",
			Expected: 3.54342, Got: weather.HourlyExtraterrestrialRadiation(in.site(), in.day(), in["t_mid_h"]), Tolerance: 1e-5, Why: "the digits kept of the same equations computed apart"},
	}
	// Days of the extremes of the equation of time, and three between.
	for _, e := range []struct {
		day     int
		minutes float64 // sun ahead of the clock
	}{{42, -14.27}, {105, -0.04}, {134, 3.66}, {166, -0.50}, {207, -6.53}, {307, 16.40}} {
		checks = append(checks, Check{ID: fmt.Sprintf("eq. 32, day %d", e.day), What: fmt.Sprintf("equation of time, day %d", e.day),
			Source: "the earth's orbit (Kepler's equation; eccentricity 0.0167, obliquity 23.44 degrees, perihelion 282.9 degrees)", Status: Computed, Unit: "min",
			Expected: e.minutes, Got: 60 * (12 - noon(onZone, e.day)), Tolerance: 0.5,
			Why: "eq. 32 keeps two harmonics and the same year always: on these days up to 0.35 min from the orbit, to which a hundredth is kept"})
	}
	for _, day := range []int{42, 182, 307} {
		sum := 0.0
		for h := range 24 {
			sum += weather.HourlyExtraterrestrialRadiation(onZone, day, float64(h)+0.5)
		}
		checks = append(checks, Check{ID: fmt.Sprintf("eq. 28, day %d", day), What: fmt.Sprintf("hours of radiation added up, latitude 40, day %d", day),
			Source: fao + "eq. 21 and 28: the same integral cut in pieces", Status: Computed, Unit: "MJ/m2/d",
			Expected: weather.ExtraterrestrialRadiation(onZone.Latitude, day), Got: sum, Tolerance: 1e-9, Why: "rounding"})
	}
	return checks, nil
}
