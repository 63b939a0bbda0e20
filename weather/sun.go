package weather

import "math"

// solarConstant is 0.0820 MJ/m2/min, FAO-56 Eq. 21.
const solarConstant = 0.0820

// evaporationOf turns MJ/m2 into mm of water, 1/2.45 rounded as in FAO-56 Eq. 20.
const evaporationOf = 0.408

// radians turns degrees into radians, FAO-56 Eq. 22.
func radians(deg float64) float64 { return deg * math.Pi / 180 }

// InverseRelativeDistance returns the inverse relative distance earth-sun on a
// day of the year, 1 + 0.033 cos(2 pi J/365), FAO-56 Eq. 23.
func InverseRelativeDistance(dayOfYear int) float64 {
	return 1 + 0.033*math.Cos(2*math.Pi*float64(dayOfYear)/365)
}

// Declination returns the sun's declination in rad on a day of the year,
// 0.409 sin(2 pi J/365 - 1.39), FAO-56 Eq. 24.
func Declination(dayOfYear int) float64 {
	return 0.409 * math.Sin(2*math.Pi*float64(dayOfYear)/365-1.39)
}

// SunsetHourAngle returns the sunset hour angle in rad,
// acos(-tan(latitude) tan(declination)), FAO-56 Eq. 25; 0 in the polar night and
// pi under the midnight sun.
func SunsetHourAngle(latitudeDeg float64, dayOfYear int) float64 {
	x := -math.Tan(radians(latitudeDeg)) * math.Tan(Declination(dayOfYear))
	return math.Acos(max(-1, min(1, x)))
}

// ExtraterrestrialRadiation returns Ra in MJ/m2/d, FAO-56 Eq. 21.
func ExtraterrestrialRadiation(latitudeDeg float64, dayOfYear int) float64 {
	phi, delta := radians(latitudeDeg), Declination(dayOfYear)
	ws := SunsetHourAngle(latitudeDeg, dayOfYear)
	return 24 * 60 / math.Pi * solarConstant * InverseRelativeDistance(dayOfYear) *
		(ws*math.Sin(phi)*math.Sin(delta) + math.Cos(phi)*math.Cos(delta)*math.Sin(ws))
}

// DaylightHours returns N in h, 24 ws/pi, FAO-56 Eq. 34.
func DaylightHours(latitudeDeg float64, dayOfYear int) float64 {
	return 24 / math.Pi * SunsetHourAngle(latitudeDeg, dayOfYear)
}

// Site places an hour's sun. Longitudes are deg east, unlike FAO-56, which
// counts them west.
type Site struct {
	Latitude      float64 // deg, north positive
	Longitude     float64 // deg, east positive
	ZoneLongitude float64 // deg east, centre of the time zone of the clock
}

// HourlyExtraterrestrialRadiation returns Ra in MJ/m2/h of the hour whose middle
// is at clock hours of standard time, FAO-56 Eq. 28-33.
func HourlyExtraterrestrialRadiation(site Site, dayOfYear int, clock float64) float64 {
	b := 2 * math.Pi * float64(dayOfYear-81) / 364
	seasonal := 0.1645*math.Sin(2*b) - 0.1255*math.Cos(b) - 0.025*math.Sin(b) // h, Eq. 32
	noon := clock + 0.06667*(site.Longitude-site.ZoneLongitude) + seasonal - 12
	w := math.Pi / 12 * noon // Eq. 31
	ws := SunsetHourAngle(site.Latitude, dayOfYear)
	w1 := max(-ws, min(ws, w-math.Pi/24)) // Eq. 29
	w2 := max(-ws, min(ws, w+math.Pi/24)) // Eq. 30
	phi, delta := radians(site.Latitude), Declination(dayOfYear)
	return 12 * 60 / math.Pi * solarConstant * InverseRelativeDistance(dayOfYear) *
		((w2-w1)*math.Sin(phi)*math.Sin(delta) + math.Cos(phi)*math.Cos(delta)*(math.Sin(w2)-math.Sin(w1)))
}
