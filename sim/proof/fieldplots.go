package proof

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"math"

	"mottle/sim/compare"
	"mottle/sim/drain"
	"mottle/sim/site"
	"mottle/weather"
)

// fieldFiles are the plots as a user would describe them.
//
//go:embed fields
var fieldFiles embed.FS

// measuredSite is a place whose drain flow was measured.
type measuredSite struct {
	code    string // the collection's
	file    string // field file
	station string // temperature, and rain where the site has none
	from    weather.Date
	to      weather.Date // the stations end with 2014
	// readHour of the rain. Where flow is never seen to rise before the rain is
	// dated, it is midnight's; at SERF_IA it does (correlation of a day's rise in
	// April-June with the next day's rain 0.2, elsewhere 0.0), as with a gauge read
	// in the morning, and cooperative observers usually read at seven.
	readHour float64
	systems  []drainSystem
}

// drainSystem is one set-up of a site; plots that share it are its replicates.
type drainSystem struct {
	kind    string // "free", "controlled", "shallow"
	plots   []string
	depth   float64 // m
	spacing float64 // m
}

// winterRainLost marks the site whose gauge wrote zero in frost.
const winterRainLost = "SERF_IA"

func measuredSites() []measuredSite {
	day := weather.NewDate
	return []measuredSite{
		{"DPAC", "dpac.yaml", "USC00129557", day(2006, 1, 1), day(2014, 12, 31), 24, []drainSystem{
			{"free", []string{"NE", "SW"}, 0.91, 15.2}, {"controlled", []string{"NW", "SE"}, 0.91, 15.2}}},
		{"STORY", "story.yaml", "USC00134142", day(2006, 1, 1), day(2009, 12, 31), 24, []drainSystem{
			{"free", []string{"5", "8", "11"}, 1.22, 27.4}, {"controlled", []string{"2", "3"}, 1.22, 36.6}}},
		{"SERF_IA", "serf_ia.yaml", "USC00130600", day(2007, 1, 1), day(2014, 12, 31), 7, []drainSystem{
			{"free", []string{"S2", "S5"}, 1.22, 18.3}, {"controlled", []string{"S3", "S4"}, 1.22, 18.3},
			{"shallow", []string{"S1", "S6"}, 0.76, 12.2}}},
	}
}

// field reads the site's field file and sets the system.
func (m *measuredSite) field(d drainSystem) (site.Field, error) {
	text, err := fieldFiles.ReadFile("fields/" + m.file)
	if err != nil {
		return site.Field{}, err
	}
	f, err := site.ReadField(m.file, bytes.NewReader(text))
	if err != nil {
		return f, err
	}
	tile := *f.Tile
	tile.Depth, tile.Spacing = d.depth, d.spacing
	if d.kind == "controlled" {
		tile.Weir = drain.CommonCalendar() // the plots' own is not known
	}
	f.Tile = &tile
	return f, nil
}

// spinYears of station weather go before the first measured year.
const spinYears = 2

// mostLost: a winter month in which the site's gauge caught less than this share
// of the station's counts as not recorded.
const mostLost = 0.2

// weather splices the site's rain onto the station's record, a calendar
// complete from spinYears before. restored counts the winter days that took the
// station's rain.
func (m *measuredSite) weather(dir fs.FS, rain map[weather.Date]float64) (s *weather.Series, report *weather.Report, restored int, err error) {
	name := "ghcnd-access/" + m.station + ".csv.gz"
	file, err := dir.Open(name)
	if err != nil {
		return nil, nil, 0, err
	}
	defer file.Close()
	if s, report, err = weather.Read(name, file, weather.Pick{}); err != nil {
		return nil, nil, 0, err
	}
	s.Station.ReadHour, _ = weather.AssumedReadHour(s.Station.ID)
	s, _ = s.ByCivilDay()
	if s, err = s.Slice(weather.NewDate(m.from.Year()-spinYears, 1, 1), m.to); err != nil {
		return nil, nil, 0, err
	}
	if m.readHour > 12 {
		// Of the 24 h that end at seven most fell on the day before.
		copy(s.Precip, s.Precip[1:])
	}
	s.Station.ReadHour = m.readHour

	lost := map[int]bool{}
	if m.code == winterRainLost {
		lost = lostMonths(s, rain)
	}
	first, last := span(rain)
	for i := range s.Precip {
		d := s.Date(i)
		if d < first || d > last {
			continue
		}
		if lost[monthOf(d)] {
			restored++
			continue
		}
		x, ok := rain[d]
		if !ok && m.code == "STORY" {
			x, ok = 0, true // its file lists wet days only
		}
		if ok {
			s.Precip[i] = x
		}
	}
	return s, report, restored, nil
}

// monthOf numbers the months of all years.
func monthOf(d weather.Date) int {
	y, m, _ := d.Civil()
	return 12*y + m - 1
}

// lostMonths are the months of November-March in which the gauge at the site
// caught less than mostLost of what the station did.
func lostMonths(s *weather.Series, rain map[weather.Date]float64) map[int]bool {
	here, there := map[int]float64{}, map[int]float64{}
	for i, p := range s.Precip {
		d := s.Date(i)
		if _, m, _ := d.Civil(); m >= 4 && m <= 10 || math.IsNaN(p) {
			continue
		}
		there[monthOf(d)] += p
		here[monthOf(d)] += rain[d]
	}
	lost := map[int]bool{}
	for k := range there {
		lost[k] = here[k] < mostLost*there[k]
	}
	return lost
}

// span is the first and the last day of a record.
func span(record map[weather.Date]float64) (first, last weather.Date) {
	begun := false
	for d := range record {
		if !begun {
			first, last, begun = d, d, true
		}
		first, last = min(first, d), max(last, d)
	}
	return first, last
}

// meet brings the site's field and weather together as the command does.
func (m *measuredSite) meet(f site.Field, s *weather.Series, report *weather.Report) (*site.Field, *weather.Series, error) {
	met, series, err := compare.Meet(f, compare.Record{Series: s, Report: report}, compare.Period{}, true)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", m.code, err)
	}
	return met, series, nil
}
