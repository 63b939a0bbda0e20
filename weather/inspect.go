package weather

import (
	"math"
	"slices"
)

// Inspection is what a careful person checks of a record first.
type Inspection struct {
	Station  Station
	Layout   string
	Invented bool
	First    Date
	Last     Date

	ReadHour       float64 // local hour, the station's or the usual one
	ReadHourReason string  // "" when the record gives it

	Years    []int          // calendar years of the record
	Complete []Completeness // of each element present
	Extremes []Extreme
	Gaps     []Gap // of Tmin, Tmax and precipitation, longest first

	AnnualPrecip []float64 // mm, by year; NaN below 350 days
	MeanPrecip   float64   // mm a year, mean of those; NaN without one
	PrecipTrend  Trend     // of those, mm a year per year

	Winters     []Winter
	Design      float64 // C-d, see DesignFreezingIndex
	DesignYears int     // winters that Design comes from

	Slips    []Slip    // elements that seem to be in another unit
	Suspects []Suspect // single values, by date
	Untested []string  // checks that the record is too short or too bare for
	WetDays  *Shift    // a jump in how often it rains, or nil

	Counts YearReport // of the reader's report, added up
	Notes  []string   // of the reader's report

	Demand Demand
}

// fullYear is the fewest days of precipitation of a year that its sum is used
// with, as in Report.CompleteYears.
const fullYear = 350

// Inspect looks over a record as read, with the report of reading it; the report
// may be nil. It changes nothing.
func Inspect(s *Series, rep *Report) *Inspection {
	r := &Inspection{Station: s.Station, Layout: s.Layout, Invented: s.Invented, First: s.Start, Last: s.Last(), ReadHour: s.Station.ReadHour}
	if math.IsNaN(r.ReadHour) {
		r.ReadHour, r.ReadHourReason = AssumedReadHour(s.Station.ID)
	}
	for y := s.Start.Year(); y <= s.Last().Year(); y++ {
		r.Years = append(r.Years, y)
	}
	r.Complete = completeness(s)
	r.Extremes = extremes(s)
	r.Gaps = longestFirst(s)
	r.annual(s)
	r.Winters = FreezingIndex(s)
	r.Design, r.DesignYears = DesignFreezingIndex(r.Winters)
	r.Slips = UnitSlips(s)
	r.Suspects, r.Untested = Suspects(s)
	r.WetDays = WetDayShift(s)
	if rep != nil {
		r.Counts, r.Notes = rep.Total(), rep.Notes
	}
	r.Demand = demandOf(s)
	return r
}

// annual sums up the precipitation of each year.
func (r *Inspection) annual(s *Series) {
	r.AnnualPrecip = make([]float64, len(r.Years))
	var t, full []float64
	for k, span := range yearSpans(s) {
		t = append(t, float64(span.year))
		sum, known := 0.0, 0
		for _, v := range s.Precip[span.first:span.end] {
			if !math.IsNaN(v) {
				sum += v
				known++
			}
		}
		if r.AnnualPrecip[k] = sum; known < fullYear {
			r.AnnualPrecip[k] = math.NaN()
			continue
		}
		full = append(full, sum)
	}
	r.MeanPrecip, _ = meanAndSpread(full)
	r.PrecipTrend = TrendOf(t, r.AnnualPrecip)
}

// span is a calendar year or month of a series: days first up to end.
type span struct{ year, month, first, end int }

// yearSpans cuts a series into calendar years, the first and last perhaps short.
func yearSpans(s *Series) []span {
	var spans []span
	for i := 0; i < s.Days(); {
		y := s.Date(i).Year()
		end := min(s.Days(), int(NewDate(y+1, 1, 1)-s.Start))
		spans = append(spans, span{y, 0, i, end})
		i = end
	}
	return spans
}

// monthSpans cuts a series into calendar months, the first and last perhaps short.
func monthSpans(s *Series) []span {
	var spans []span
	for i := 0; i < s.Days(); {
		y, m, d := s.Date(i).Civil()
		end := min(s.Days(), i+monthDays(y, m)-d+1)
		spans = append(spans, span{y, m, i, end})
		i = end
	}
	return spans
}

// meanAndSpread returns mean and standard deviation of the values that are
// numbers, NaN without one.
func meanAndSpread(values []float64) (mean, sd float64) {
	n, sum := 0.0, 0.0
	for _, v := range values {
		if !math.IsNaN(v) {
			sum += v
			n++
		}
	}
	mean = sum / n
	squares := 0.0
	for _, v := range values {
		if !math.IsNaN(v) {
			squares += (v - mean) * (v - mean)
		}
	}
	return mean, math.Sqrt(squares / n)
}

// named is an element with its name and unit.
type named struct {
	name, unit string
	values     []float64
	mark       Mark // on days filled
}

// elementsPresent lists the elements of a series that are present.
func elementsPresent(s *Series) []named {
	return slices.DeleteFunc([]named{
		{"Tmin", "C", s.Tmin, TemperatureFilled}, {"Tmax", "C", s.Tmax, TemperatureFilled}, {"precipitation", "mm", s.Precip, PrecipFilled},
		{"solar", "MJ/m2", s.Solar, OptionalFilled}, {"vapour pressure", "kPa", s.Vapour, OptionalFilled},
		{"wind", "m/s", s.Wind, OptionalFilled}, {"snow depth", "m", s.SnowDepth, 0},
	}, func(e named) bool { return e.values == nil })
}

// Demand is the reference evapotranspiration that the record allows.
type Demand struct {
	Method  ETMethod
	PerYear float64  // mm a year, mean of the record; NaN when it cannot be computed
	Assumed []string // what was assumed, or why it cannot be computed
}

// demandOf fills the record as the simulation would and asks ReferenceET.
func demandOf(s *Series) Demand {
	d := Demand{PerYear: math.NaN()}
	c := s.clone()
	if math.IsNaN(c.Station.ReadHour) {
		c.Station.ReadHour, _ = AssumedReadHour(s.Station.ID)
	}
	c, _ = c.ByCivilDay()
	filled, _, err := c.Fill(FillRule{AllowLong: true})
	if err != nil {
		d.Assumed = []string{err.Error()}
		return d
	}
	latitude, elevation := s.Station.Latitude, s.Station.Elevation
	if math.IsNaN(latitude) {
		d.Assumed = []string{"the latitude is not known: the field's is needed"}
		return d
	}
	if math.IsNaN(elevation) {
		elevation = 0
		d.Assumed = append(d.Assumed, "elevation 0 m here, the field's in a comparison")
	}
	eto, used, notes, err := ReferenceET(filled, latitude, elevation, ETChoice{})
	d.Method = used
	if err != nil {
		d.Assumed = append(d.Assumed, err.Error())
		return d
	}
	if used == Hargreaves { // which does not ask for the elevation
		d.Assumed = nil
		for _, e := range []struct {
			name           string
			before, filled []float64
		}{{"solar radiation", s.Solar, filled.Solar}, {"vapour pressure", s.Vapour, filled.Vapour}} {
			switch {
			case e.before == nil:
				d.Assumed = append(d.Assumed, e.name+" is not in the record")
			case e.filled == nil:
				d.Assumed = append(d.Assumed, e.name+" has too many gaps for Penman-Monteith")
			}
		}
	}
	d.Assumed = append(d.Assumed, notes...)
	sum := 0.0
	for _, v := range eto {
		sum += v
	}
	d.PerYear = sum / float64(len(eto)) * 365.25
	return d
}
