package sim

import (
	"fmt"

	"mottle/sim/storm"
	"mottle/weather"
)

// Forcing is the weather as the field meets it: complete, hour by hour in rain,
// and the same for every twin that is compared.
type Forcing struct {
	Start      weather.Date
	Tmin, Tmax []float64 // C
	ETo        []float64 // mm/d
	Rain       []float64 // mm, 24 per day: precipitation of each hour, snow or rain
	Month      []uint8
	YearDay    []uint16
	Year       []int32
}

// NewForcing spreads a complete series (no gaps) over the hours. eto is its
// reference evapotranspiration.
func NewForcing(s *weather.Series, eto []float64, o storm.Options) (*Forcing, error) {
	n := s.Days()
	if len(eto) != n {
		return nil, fmt.Errorf("sim: %d days of reference evapotranspiration for %d days of weather", len(eto), n)
	}
	f := &Forcing{Start: s.Start, Tmin: s.Tmin, Tmax: s.Tmax, ETo: eto,
		Month: make([]uint8, n), YearDay: make([]uint16, n), Year: make([]int32, n)}
	for i := range n {
		d := s.Date(i)
		y, m, _ := d.Civil()
		f.Year[i], f.Month[i], f.YearDay[i] = int32(y), uint8(m), uint16(d.DayOfYear())
	}
	if s.HourlyPrecip != nil {
		f.Rain = s.HourlyPrecip
		return f, nil
	}
	f.Rain = make([]float64, 24*n)
	if err := storm.Hourly(f.Rain, s.Precip, func(i int) int { return int(f.Month[i]) }, o); err != nil {
		return nil, err
	}
	return f, nil
}

// Days is the length of the record.
func (f *Forcing) Days() int { return len(f.Tmin) }
