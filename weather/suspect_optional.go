package weather

import "math"

// Limits on the means of months of what the simulation can do without.
const (
	leastSun, mostSun       = 0.12, 1.1 // of the clear sky's radiation, FAO-56 Eq. 37
	leastHumid, mostHumid   = 0.3, 2.5  // of the saturation vapour pressure at Tmin, which FAO-56 sets equal
	leastWindMean, mostWind = 0.5, 12.0 // m/s at 2 m
	mostSnow                = 4.0       // m, largest of a month
)

// optionalSlips judges radiation against the clear sky, vapour pressure against
// saturation at Tmin, wind and snow depth against what farmed land has.
func optionalSlips(s *Series, months []span, temperatureOdd bool) []oddElement {
	var list []oddElement
	for _, e := range elementsPresent(s)[3:] {
		o := oddElement{e, make(oddMonths, len(months))}
		for k, m := range months {
			days := e.values[m.first:m.end]
			if knownDays(days) < enough {
				continue
			}
			mean, _ := meanAndSpread(days)
			switch e.name {
			case "solar":
				if clear := clearSkyMean(s, m); clear > 1 && (mean/clear < leastSun || mean/clear > mostSun) {
					o.odd.mark(k, "the mean of %d-%02d is %.3g MJ/m2, %.2f of a clear sky's, allowed %v to %v", m.year, m.month, mean, mean/clear, leastSun, mostSun)
				}
			case "vapour pressure":
				tmin, _ := meanAndSpread(s.Tmin[m.first:m.end])
				if r := mean / SaturationVapourPressure(tmin); !temperatureOdd && (r < leastHumid || r > mostHumid) {
					o.odd.mark(k, "the mean of %d-%02d is %.3g kPa, %.2f of saturation at Tmin, allowed %v to %v", m.year, m.month, mean, r, leastHumid, mostHumid)
				}
			case "wind":
				if mean < leastWindMean || mean > mostWind {
					o.odd.mark(k, "the mean of %d-%02d is %.3g m/s, allowed %v to %v", m.year, m.month, mean, leastWindMean, mostWind)
				}
			case "snow depth":
				if top := largestOf(days); top > mostSnow {
					o.odd.mark(k, "the deepest snow of %d-%02d is %.1f m, allowed %v", m.year, m.month, top, mostSnow)
				}
			}
		}
		list = append(list, o)
	}
	return list
}

// clearSkyMean is the clear sky's radiation of a month, MJ/m2/d; NaN without a
// latitude. The elevation, where unknown, is taken as 300 m: it moves it by 1 %.
func clearSkyMean(s *Series, m span) float64 {
	z := s.Station.Elevation
	if math.IsNaN(z) {
		z = 300
	}
	sum := 0.0
	for i := m.first; i < m.end; i++ {
		sum += ClearSky(ExtraterrestrialRadiation(s.Station.Latitude, s.Date(i).DayOfYear()), z)
	}
	return sum / float64(m.end-m.first)
}

func largestOf(values []float64) float64 {
	top := math.Inf(-1)
	for _, v := range values {
		if v > top {
			top = v
		}
	}
	return top
}
