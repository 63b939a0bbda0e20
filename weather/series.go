package weather

import (
	"fmt"
	"math"
	"slices"
)

// Station is where a series was observed. An unknown number is NaN.
type Station struct {
	ID, Name  string
	Latitude  float64 // deg, north positive
	Longitude float64 // deg, east positive
	Elevation float64 // m above sea level
	ReadHour  float64 // local hour at which the day's values were read, 24 = midnight
}

// unknownStation is a station of which nothing is known.
func unknownStation() Station {
	nan := math.NaN()
	return Station{Latitude: nan, Longitude: nan, Elevation: nan, ReadHour: nan}
}

// Series is one daily record on an unbroken calendar. Element slices that are
// not nil have one value per day; NaN is missing. Fill leaves no NaN in Tmin,
// Tmax and Precip.
type Series struct {
	Station  Station
	Layout   string // layout or origin, such as "GHCN-Daily station CSV"
	Invented bool   // true when no such weather was ever observed
	Start    Date

	Tmin, Tmax []float64 // C
	Precip     []float64 // mm/d, over the 24 h that end at Station.ReadHour

	Solar     []float64 // MJ/m2/d; nil when absent
	Vapour    []float64 // kPa; nil when absent
	Wind      []float64 // m/s at 2 m; nil when absent
	SnowDepth []float64 // m; nil when absent

	// HourlyPrecip is nil or holds 24 values per day, mm. The 24 values of a day
	// are all NaN where only the daily total is known.
	HourlyPrecip []float64

	// CivilTemperature says that Tmin and Tmax have been moved to their own civil
	// days, so that ByCivilDay leaves them alone. Precip is never moved.
	CivilTemperature bool

	Marks []Mark
}

// Days returns the number of days.
func (s *Series) Days() int { return len(s.Precip) }

// Date returns the date of day i.
func (s *Series) Date(i int) Date { return s.Start + Date(i) }

// Last returns the date of the last day, the day before Start when empty.
func (s *Series) Last() Date { return s.Date(s.Days() - 1) }

// Slice returns a copy of the days from and to, both included. It is an error
// to ask for days outside the series or for none.
func (s *Series) Slice(from, to Date) (*Series, error) {
	if from > to || from < s.Start || to > s.Last() {
		return nil, fmt.Errorf("weather from %v to %v: allowed a range within %v to %v", from, to, s.Start, s.Last())
	}
	c := s.clone()
	i, j := int(from-s.Start), int(to-s.Start)+1
	c.Start = from
	for _, e := range c.elements() {
		if *e != nil {
			*e = (*e)[i:j:j]
		}
	}
	if c.HourlyPrecip != nil {
		c.HourlyPrecip = c.HourlyPrecip[24*i : 24*j : 24*j]
	}
	c.Marks = c.Marks[i:j:j]
	return c, nil
}

// elements lists the daily slices of the series.
func (s *Series) elements() []*[]float64 {
	return []*[]float64{&s.Tmin, &s.Tmax, &s.Precip, &s.Solar, &s.Vapour, &s.Wind, &s.SnowDepth}
}

// clone returns a copy that shares no memory; a nil element stays nil.
func (s *Series) clone() *Series {
	c := *s
	for _, e := range c.elements() {
		*e = slices.Clone(*e)
	}
	c.HourlyPrecip = slices.Clone(s.HourlyPrecip)
	c.Marks = slices.Clone(s.Marks)
	return &c
}
