package site

import (
	"fmt"
	"math"

	"mottle/sim/crop"
	"mottle/weather"
)

// record warns of what does not go with the weather. The record's own place is
// used in the end, so a field far from it is the wrong field or the wrong station.
func (a *adviser) record(s *weather.Series) {
	st := s.Station
	if d := math.Abs(a.Latitude - st.Latitude); d > 0.5 {
		a.warn("latitude", "found %.4g deg; the weather was read at %.4g deg, %.0f km away: is it the right station? (the weather's is used)", a.Latitude, st.Latitude, d*kmPerDegree)
	}
	if d := math.Abs(a.Elevation - st.Elevation); d > 300 {
		a.warn("elevation", "found %.4g m; the weather was read at %.4g m, which is some %.0f C apart (the weather's is used)", a.Elevation, st.Elevation, d*lapse)
	}
	if math.Abs(a.ReadHour-st.ReadHour) > 1e-9 { // false where one is unknown
		a.warn("rain_read_at", "found %g h; the weather says %g h, which is used", a.ReadHour, st.ReadHour)
	}
	if years := float64(s.Days()) / 365.25; years < 10 {
		a.warn("weather", "the record has %.1f years; an answer needs ten or more to tell wet years from dry ones", years)
	}
	a.frost(s)
	a.crops(s)
}

const (
	kmPerDegree = 111.2  // of a meridian
	lapse       = 0.0065 // C/m, the standard atmosphere
)

// earliest is the share of a kind's greatest need of heat that its earliest
// varieties ask for (common practice: corn of 75 days against corn of 110).
const earliest = 0.7

// crops warns of annual crops that would not ripen in the mean season of the
// record, 10 May to 25 September.
func (a *adviser) crops(s *weather.Series) {
	for i, k := range a.Rotation {
		if k.Perennial {
			continue
		}
		season, ok := seasonHeat(k, s)
		if need := earliest * k.Maturity; ok && season < need {
			a.add(a.cropKey(i), "%s: the mean season of the record gives %.0f C-d (over %g C); its earliest varieties need some %.0f: choose a crop that ripens here", k.Name, season, k.Base, need)
		}
	}
}

// cropKey is the key of a crop of the rotation, "crop" when nobody gave one.
func (a *adviser) cropKey(i int) string {
	if !a.Given("crop") {
		return "crop"
	}
	return fmt.Sprintf("crop[%d]", i)
}

// seasonHeat is a crop's heat units in the mean season of a record, C-d; days without
// temperatures count as the mean of the others.
func seasonHeat(k crop.Kind, s *weather.Series) (sum float64, ok bool) {
	const first, last = 130, 268
	days := 0
	for i := range s.Tmin {
		d := s.Date(i).DayOfYear()
		if u := k.HeatUnits(s.Tmin[i], s.Tmax[i]); d >= first && d <= last && !math.IsNaN(u) {
			sum += u
			days++
		}
	}
	return sum / float64(max(days, 1)) * (last - first + 1), days > 0
}
