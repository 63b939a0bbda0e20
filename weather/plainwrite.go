package weather

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// WritePlain writes the series in our own layout, from which Read returns the
// same series to the last bit. It writes nothing, and the error says why, when
// the series holds what Read would refuse, such as Tmax below Tmin before
// ByCivilDay or Fill have settled it.
func (s *Series) WritePlain(w io.Writer) error {
	if err := s.writable(); err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	s.writeHead(b)
	columns := s.plainElements()
	b.WriteString("date")
	for _, c := range columns {
		b.WriteString("," + c.name)
	}
	if s.HourlyPrecip != nil {
		b.WriteString(",hourly_precip_mm")
	}
	b.WriteString(",marks\n")
	var scratch []byte
	number := func(v float64) { // NaN is written as blank
		if !math.IsNaN(v) {
			scratch = strconv.AppendFloat(scratch[:0], v, 'g', -1, 64)
			b.Write(scratch)
		}
	}
	for i := range s.Days() {
		b.WriteString(s.Date(i).String())
		for _, c := range columns {
			b.WriteByte(',')
			number(c.values[i])
		}
		if s.HourlyPrecip != nil {
			b.WriteByte(',')
			for h, v := range s.hours(i) {
				if h > 0 && !math.IsNaN(v) {
					b.WriteByte(' ')
				}
				number(v)
			}
		}
		b.WriteString("," + s.Marks[i].String() + "\n")
	}
	return b.Flush()
}

// plainElement is a column of our layout with its values and their limit.
type plainElement struct {
	name   string
	values []float64
	limit  limit
}

// plainElements lists the elements present in the order of the columns.
func (s *Series) plainElements() []plainElement {
	all := []plainElement{
		{"tmin_C", s.Tmin, temperatureLimit}, {"tmax_C", s.Tmax, temperatureLimit}, {"precip_mm", s.Precip, precipLimit},
		{"solar_MJ_m2", s.Solar, solarLimit}, {"vapour_kPa", s.Vapour, vapourLimit},
		{"wind_m_s", s.Wind, windLimit}, {"snow_depth_m", s.SnowDepth, snowDepthLimit},
	}
	present := all[:plainRequired-1]
	for _, c := range all[plainRequired-1:] {
		if c.values != nil {
			present = append(present, c)
		}
	}
	return present
}

// writeHead writes the comment lines; what is unknown is left out.
func (s *Series) writeHead(b *bufio.Writer) {
	text := func(key, value string) {
		if value != "" {
			fmt.Fprintf(b, "# %s: %s\n", key, value)
		}
	}
	number := func(key string, v float64) {
		if !math.IsNaN(v) {
			text(key, strconv.FormatFloat(v, 'g', -1, 64))
		}
	}
	text("station", s.Station.ID)
	text("name", s.Station.Name)
	number("latitude", s.Station.Latitude)
	number("longitude", s.Station.Longitude)
	number("elevation_m", s.Station.Elevation)
	number("read_hour", s.Station.ReadHour)
	if s.CivilTemperature {
		text("temperature_day", "civil")
	}
	if s.Invented {
		text("invented", "yes")
	}
	if s.Layout != layoutPlain {
		text("origin", s.Layout)
	}
}

// writable joins what keeps the series from being read back.
func (s *Series) writable() error {
	var errs []error
	for _, t := range []string{s.Station.ID, s.Station.Name, s.Layout} {
		if strings.ContainsAny(t, "\r\n") || t != strings.TrimSpace(t) {
			errs = append(errs, fmt.Errorf("weather %q: allowed text of one line without outer blanks", t))
		}
	}
	if s.Days() == 0 || !yearAllowed(s.Start.Year()) || !yearAllowed(s.Last().Year()) {
		errs = append(errs, fmt.Errorf("weather from %v, %d days: allowed at least one day, from %d to %d", s.Start, s.Days(), firstYear, lastYear))
	}
	known := func(v float64) bool { return !math.IsNaN(v) }
	if !slices.ContainsFunc(s.Tmin, known) && !slices.ContainsFunc(s.Tmax, known) && !slices.ContainsFunc(s.Precip, known) {
		errs = append(errs, errors.New("weather without temperature and precipitation on any day: allowed a record with values"))
	}
	for _, c := range s.plainElements() {
		for i, v := range c.values {
			if !math.IsNaN(v) && !c.limit.within(v) {
				errs = append(errs, fmt.Errorf("weather of %v: %s %v; allowed %v to %v %s", s.Date(i), c.name, v, c.limit.lo, c.limit.hi, c.limit.unit))
				break
			}
		}
	}
	for i := range s.Days() {
		if s.HourlyPrecip != nil && !hoursFit(s.hours(i), s.Precip[i]) {
			errs = append(errs, fmt.Errorf("weather of %v: allowed 24 hourly values that add up to %v mm, or none", s.Date(i), s.Precip[i]))
			break
		}
	}
	for i := range s.Days() {
		if s.Tmax[i] < s.Tmin[i] {
			errs = append(errs, fmt.Errorf("weather of %v: Tmax %v is below Tmin %v: settle the extremes with ByCivilDay or Fill first", s.Date(i), s.Tmax[i], s.Tmin[i]))
			break
		}
	}
	return errors.Join(errs...)
}

// hours returns the hourly precipitation of day i.
func (s *Series) hours(i int) []float64 { return s.HourlyPrecip[24*i : 24*i+24] }

// hoursFit tells whether the hours are all missing or add up to the day.
func hoursFit(hours []float64, daily float64) bool {
	sum, missing := 0.0, 0
	for _, v := range hours {
		if math.IsNaN(v) {
			missing++
		}
		sum += v
	}
	return missing == len(hours) || math.Abs(sum-daily) <= hourlySlack
}
