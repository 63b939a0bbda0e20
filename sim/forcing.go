package sim

import (
	"fmt"
	"math"

	"mottle/sim/crop"
	"mottle/sim/storm"
	"mottle/weather"
)

// Forcing is the weather as the field meets it: complete, hour by hour in rain,
// and the same for every twin that is compared.
type Forcing struct {
	Start      weather.Date
	Tmin, Tmax []float64 // C
	ETo        []float64 // mm/d
	Dryness    []float64 // of the month around the day, see crop.Dryness
	Rain       []float64 // mm, 24 per day: precipitation of each hour, snow or rain
	Month      []uint8
	YearDay    []uint16 // day of a common year
	Year       []int32
}

// NewForcing spreads a complete series (no gaps) over the hours. eto is its
// reference evapotranspiration.
func NewForcing(s *weather.Series, eto []float64, o storm.Options) (*Forcing, error) {
	n := s.Days()
	if len(eto) != n {
		return nil, fmt.Errorf("sim: %d days of reference evapotranspiration for %d days of weather", len(eto), n)
	}
	f := &Forcing{Start: s.Start, Tmin: s.Tmin, Tmax: s.Tmax, ETo: eto, Dryness: dryness(s),
		Month: make([]uint8, n), YearDay: make([]uint16, n), Year: make([]int32, n)}
	for i := range n {
		d := s.Date(i)
		y, m, _ := d.Civil()
		f.Year[i], f.Month[i], f.YearDay[i] = int32(y), uint8(m), commonDay(d)
	}
	f.Rain = make([]float64, 24*n)
	daily := append([]float64(nil), s.Precip...)
	for i := range n {
		if hoursKnown(s, i) {
			daily[i] = 0
		}
	}
	if err := storm.Hourly(f.Rain, daily, func(i int) int { return int(f.Month[i]) }, o); err != nil {
		return nil, err
	}
	for i := range n {
		if hoursKnown(s, i) {
			for h := 24 * i; h < 24*i+24; h++ {
				f.Rain[h] += s.HourlyPrecip[h]
			}
		}
	}
	return f, nil
}

// dryness is that of the climate around each day: the mean of the 31 days about it
// (FAO-56 asks for the mean of a growth stage, not for single days). Where humidity
// is not known the dew point is the night's least temperature, and where wind is
// not known it is 2 m/s (FAO-56 chapter 3 and eq. 64).
func dryness(s *weather.Series) []float64 {
	n := s.Days()
	sum := make([]float64, n+1)
	for i := range n {
		vapour, wind := weather.SaturationVapourPressure(s.Tmin[i]), 2.0
		if s.Vapour != nil && !math.IsNaN(s.Vapour[i]) {
			vapour = s.Vapour[i]
		}
		if s.Wind != nil && !math.IsNaN(s.Wind[i]) {
			wind = s.Wind[i]
		}
		humidity := 100 * vapour / weather.SaturationVapourPressure(s.Tmax[i])
		sum[i+1] = sum[i] + crop.Dryness(wind, humidity)
	}
	const half = 15
	out := make([]float64, n)
	for i := range out {
		from, to := max(0, i-half), min(n, i+half+1)
		out[i] = (sum[to] - sum[from]) / float64(to-from)
	}
	return out
}

// hoursKnown says whether the record has the hours of day i.
func hoursKnown(s *weather.Series, i int) bool {
	if s.HourlyPrecip == nil {
		return false
	}
	for _, r := range s.HourlyPrecip[24*i : 24*i+24] {
		if math.IsNaN(r) {
			return false
		}
	}
	return true
}

// commonDay is the day of a common year: 29 February shares the 59th, so that a
// date keeps its number in leap years.
func commonDay(d weather.Date) uint16 {
	day, leap := d.DayOfYear(), weather.NewDate(d.Year(), 12, 31).DayOfYear() == 366
	if leap && day > 59 {
		day--
	}
	return uint16(day)
}

// Days is the length of the record.
func (f *Forcing) Days() int { return len(f.Tmin) }
