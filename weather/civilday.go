package weather

import (
	"fmt"
	"math"
	"strings"
)

// ByCivilDay returns a copy whose maxima stand on the day they occurred, and a
// note of what was done. A reader who comes in the morning (Station.ReadHour at or
// before 12) reads the maximum of the afternoon before, so Tmax moves back by one
// day; the last day keeps its own reading, marked as filled. The minimum of the
// same morning, and all values of an evening or midnight reader, stand right.
// Precipitation is not moved: it belongs to the 24 h that end at ReadHour.
//
// A Tmax still below its Tmin is exchanged with it and marked. Set ReadHour first
// where the file does not give it, AssumedReadHour says what is usual; call Fill
// afterwards. A series already by civil day is returned as it is.
func (s *Series) ByCivilDay() (shifted *Series, note string) {
	shifted = s.clone()
	hour := s.Station.ReadHour
	var notes []string
	switch {
	case s.CivilTemperature:
		notes = append(notes, "temperatures are by civil day already")
	case math.IsNaN(hour):
		notes = append(notes, "the reading hour is not known, nothing was moved")
	case hour > 12:
		notes = append(notes, fmt.Sprintf("read at hour %.4g, temperatures stand on their own day", hour))
		shifted.CivilTemperature = true
	default:
		n := s.Days()
		if n > 0 {
			copy(shifted.Tmax, s.Tmax[1:])
			shifted.Marks[n-1] |= TemperatureFilled
		}
		notes = append(notes, fmt.Sprintf("read at hour %.4g: each maximum was moved to the day before, the last day keeps its own; precipitation was not moved", hour))
		shifted.CivilTemperature = true
	}
	if n := shifted.settleExtremes(); n > 0 {
		notes = append(notes, swapNote(n))
	}
	return shifted, strings.Join(notes, "; ")
}

// settleExtremes exchanges a Tmax below its Tmin, marks the day and returns the
// number of such days. Done once, it finds nothing more.
func (s *Series) settleExtremes() (swapped int) {
	for i := range s.Tmin {
		if s.Tmax[i] < s.Tmin[i] {
			s.Tmin[i], s.Tmax[i] = s.Tmax[i], s.Tmin[i]
			s.Marks[i] |= ExtremesSwapped
			swapped++
		}
	}
	return swapped
}

// swapNote says how many days were settled.
func swapNote(days int) string {
	return fmt.Sprintf("Tmax below Tmin on %d days, the two were exchanged", days)
}

// AssumedReadHour returns the local hour at which a station is usually read when
// its file does not say, and why: 7 at cooperative stations of GHCN-Daily (ids
// that start with USC), midnight elsewhere. Common practice; some cooperative
// observers read in the evening.
func AssumedReadHour(stationID string) (hour float64, why string) {
	switch {
	case strings.HasPrefix(stationID, "USC"):
		return 7, "cooperative observers usually read at 07:00"
	case strings.HasPrefix(stationID, "USW"):
		return 24, "airports report from midnight to midnight"
	}
	return 24, "gridded and other records are taken from midnight to midnight"
}
