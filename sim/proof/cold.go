package proof

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path"
	"strings"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/sim/storm"
	"mottle/weather"
)

// ColdReport holds soil temperature as simulated, with defaults and nothing
// fitted, against soil temperature measured under sod.
type ColdReport struct {
	Runs  []ColdRun // by station, then exposure
	Notes []string  // what was filled
}

// exposures of the study; the first is the default.
var exposures = []snow.Exposure{snow.Open, snow.Sheltered, snow.Swept}

// The parts of winter: where a record is a single year, its January began under
// a snow pack of the year before, which the simulation has to guess.
const (
	lateWinter  = iota // January to April
	earlyWinter        // November and December
	winterParts
)

var winterNames = [winterParts]string{"January-April", "November-December"}

func winterPart(month int) int {
	switch {
	case month <= 4:
		return lateWinter
	case month >= 11:
		return earlyWinter
	}
	return -1
}

// ColdRun is one station under one exposure.
type ColdRun struct {
	Station, Exposure string
	Errors            [winterParts][len(weather.SoilDepths)]ColdError
	Winters           []Frost
	Passes            int // the first year was repeated so often
	Forgotten         bool
}

// ColdError is simulated less measured temperature of daily means, C.
type ColdError struct {
	N          int
	Bias, RMSE float64
}

// Frost of a calendar year's part: deepest 0 C between probes, and for January-April
// the last day on which any probe was below 0 C.
type Frost struct {
	Year                int
	Part                int
	Measured, Simulated float64 // m
	Beyond              bool    // measured below the deepest probe: at least that deep
	Last, SimulatedLast weather.Date
}

// Cold simulates the stations of a folder of daily files.
func Cold(ctx context.Context, stations fs.FS) (*ColdReport, error) {
	names, err := fs.Glob(stations, "*.csv")
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, errors.New("no station files (*.csv) with soil temperatures in the folder")
	}
	report := &ColdReport{}
	for _, name := range names {
		file, err := stations.Open(name)
		if err != nil {
			return nil, err
		}
		s, below, reading, err := weather.ReadSoil(name, file)
		file.Close()
		if err != nil {
			return nil, err
		}
		label, _, _ := strings.Cut(strings.TrimSuffix(path.Base(name), ".csv"), "_daily")
		if n := dryUnread(s); n > 0 {
			report.Notes = append(report.Notes, fmt.Sprintf("%s: precipitation was not read on %d days and no other year can lend them: taken as dry", label, n))
		}
		for _, exposure := range exposures {
			run, err := coldRun(ctx, s, below, reading, exposure)
			if err != nil {
				return nil, fmt.Errorf("%s, %s: %w", label, exposure.Name, err)
			}
			run.Station = strings.ReplaceAll(label, "_", " ")
			report.Runs = append(report.Runs, *run)
		}
	}
	return report, nil
}

// dryUnread takes days without a reading of precipitation as dry in a record too
// short to fill them from another year, and counts them.
func dryUnread(s *weather.Series) (n int) {
	if s.Days() > 366 {
		return 0
	}
	for i, p := range s.Precip {
		if math.IsNaN(p) {
			s.Precip[i] = 0
			n++
		}
	}
	return n
}

// coldRun simulates a station and holds it against its probes.
func coldRun(ctx context.Context, s *weather.Series, below weather.SoilRecord, reading *weather.Report, exposure snow.Exposure) (*ColdRun, error) {
	text, err := fieldFiles.ReadFile("fields/sod.yaml")
	if err != nil {
		return nil, err
	}
	f, err := site.ReadField("sod.yaml", bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	f.Surface.Exposure = exposure
	met, series, err := compare.Meet(f, compare.Record{Series: s, Report: reading}, compare.Period{}, true)
	if err != nil {
		return nil, err
	}
	eto, _, _, err := weather.ReferenceET(series, met.Latitude, met.Elevation, met.ET)
	if err != nil {
		return nil, err
	}
	forcing, err := sim.NewForcing(series, eto, storm.Default())
	if err != nil {
		return nil, err
	}
	plot, err := sim.NewPlot(met, sim.DefaultResolution())
	if err != nil {
		return nil, err
	}
	e, err := sim.NewEngine(plot, forcing, nil, nil)
	if err != nil {
		return nil, err
	}
	spin, err := e.Spin(ctx)
	if err != nil {
		return nil, err
	}
	run := &ColdRun{Exposure: exposure.Name, Passes: spin.Passes, Forgotten: spin.Forgotten()}
	book := newColdBook()
	for i := range series.Days() {
		if err := e.Day(i, false); err != nil {
			return nil, err
		}
		d := series.Date(i)
		var measured, simulated [len(weather.SoilDepths)]float64
		for k, z := range weather.SoilDepths {
			measured[k] = below[k][d-s.Start]
			simulated[k] = temperatureAt(plot.Grid.Mid, e.Heat.Temperature, z)
		}
		book.day(d, measured, simulated)
	}
	book.close(run)
	return run, nil
}

// temperatureAt reads a profile of cell middles at a depth, on the straight line
// between the two that enclose it.
func temperatureAt(mid, temperature []float64, depth float64) float64 {
	i := 1
	for i < len(mid)-1 && mid[i] < depth {
		i++
	}
	x := (depth - mid[i-1]) / (mid[i] - mid[i-1])
	return temperature[i-1] + x*(temperature[i]-temperature[i-1])
}
