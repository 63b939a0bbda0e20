package proof

import (
	"context"
	"fmt"
	"io/fs"
	"math"

	"mottle/sim"
	"mottle/sim/site"
	"mottle/sim/storm"
	"mottle/weather"
)

// FieldReport holds drain flow as simulated, with defaults and nothing fitted,
// against drain flow as measured on real plots.
type FieldReport struct {
	Plots    []PlotScore
	Ceilings []Ceiling
	Yields   []YieldYear
	Notes    []string // what was screened, filled, assumed
}

// Field simulates the measured plots of a collection: records holds its daily
// files, stations a folder of station series.
func Field(ctx context.Context, records, stations fs.FS) (*FieldReport, error) {
	measured, err := readFieldRecords(records)
	if err != nil {
		return nil, err
	}
	report := &FieldReport{Notes: append([]string(nil), screeningRules...)}
	for _, m := range measuredSites() {
		series, reading, restored, err := m.weather(stations, measured.rain[m.code])
		if err != nil {
			return nil, err
		}
		report.Notes = append(report.Notes, fmt.Sprintf("%s: temperature of station %s; rain measured at the site, taken as read at %g h, the station's before %v", m.code, m.station, m.readHour, m.from))
		if restored > 0 {
			report.Notes = append(report.Notes, fmt.Sprintf("%s: %d winter days, in months whose gauge caught under a fifth of the station's, take the station's rain", m.code, restored))
		}
		if m.code == yieldSite {
			if report.Yields, err = yields(ctx, records, &m, series, reading); err != nil {
				return nil, err
			}
		}
		for _, d := range m.systems {
			f, err := m.field(d)
			if err != nil {
				return nil, err
			}
			met, s, err := m.meet(f, series, reading)
			if err != nil {
				return nil, err
			}
			run, spin, err := runDrained(ctx, met, s)
			if err != nil {
				return nil, fmt.Errorf("%s, %s drainage: %w", m.code, d.kind, err)
			}
			first := len(report.Plots)
			for _, plot := range d.plots {
				p := PlotScore{Site: m.code, Plot: plot, System: d.kind, WorstWater: run.Ledger.WorstWater(), Forgotten: spin.Forgotten()}
				p.hold(run, measured.flow[plotKey(m.code, plot)], m)
				p.holdTable(run, measured.table[plotKey(m.code, plot)])
				report.Plots = append(report.Plots, p)
			}
			report.Ceilings = append(report.Ceilings, ceilings(report.Plots[first:])...)
		}
	}
	return report, nil
}

// runDrained simulates the field with its tile, as a comparison does.
func runDrained(ctx context.Context, f *site.Field, s *weather.Series) (*sim.Record, sim.Spinup, error) {
	var spin sim.Spinup
	eto, _, _, err := weather.ReferenceET(s, f.Latitude, f.Elevation, f.ET)
	if err != nil {
		return nil, spin, err
	}
	o := storm.Default()
	o.Seed, o.Draw, o.ReadHour = f.Storms.Seed, f.Storms.Draw, f.ReadHour
	forcing, err := sim.NewForcing(s, eto, o)
	if err != nil {
		return nil, spin, err
	}
	plot, err := sim.NewPlot(f, sim.DefaultResolution())
	if err != nil {
		return nil, spin, err
	}
	e, err := sim.NewEngine(plot, forcing, f.Tile, nil)
	if err != nil {
		return nil, spin, err
	}
	if spin, err = e.Spin(ctx); err != nil {
		return nil, spin, err
	}
	r, err := e.Run(ctx, false, nil)
	return r, spin, err
}

// screeningRules say what is left out, and why.
var screeningRules = []string{
	"screened out: SERF_IA July and October 2014 (more water left the drains than fell)",
	"screened out: STORY plots 8 and 11, January and February (frost, or meters off: nobody can tell)",
	"a year's sum counts in the bias with 240 sound days; a month's in the monthly marks with 25; flow that was not measured counts nowhere",
}

// sound says whether a day passes the screening rules.
func sound(site, plot string, d weather.Date) bool {
	y, m, _ := d.Civil()
	switch site {
	case "SERF_IA":
		return !(y == 2014 && (m == 7 || m == 10))
	case "STORY":
		return !(m <= 2 && (plot == "8" || plot == "11"))
	}
	return true
}

// Medians of the freely drained plots, screened: daily and monthly Nash-Sutcliffe
// of a season and the bias of whole years, percent.
func (r *FieldReport) Medians(s Season) (daily, monthly, bias float64) {
	var d, m, b []float64
	for _, p := range r.Plots {
		if p.System != "free" {
			continue
		}
		d, m = append(d, p.Daily[s].NSE), append(m, p.Monthly[s].NSE)
		b = append(b, p.Daily[s].Bias())
	}
	return median(d), median(m), median(b)
}

// YearlyBias is the median of the bias of whole years of freely drained plots,
// percent.
func (r *FieldReport) YearlyBias() float64 {
	var b []float64
	for _, p := range r.Plots {
		for _, y := range p.Years {
			if p.System == "free" && y.Whole && y.Measured > 0 {
				b = append(b, 100*(y.Simulated/y.Measured-1))
			}
		}
	}
	return median(b)
}

// WorstWater is the largest closing error of a simulated year, mm.
func (r *FieldReport) WorstWater() float64 {
	w := 0.0
	for _, p := range r.Plots {
		w = math.Max(w, p.WorstWater)
	}
	return w
}

// SiteBias is the bias of all plots of a site together, of every system, screened,
// percent: where plot edges leak, what one plot gains its neighbour loses.
func (r *FieldReport) SiteBias(site string, s Season) float64 {
	var sum Scores
	for _, p := range r.Plots {
		if p.Site == site {
			sum.Measured += p.Daily[s].Measured
			sum.Simulated += p.Daily[s].Simulated
		}
	}
	return sum.Bias()
}
