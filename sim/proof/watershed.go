package proof

import (
	"context"
	"fmt"
	"math"
	"strings"

	"golang.org/x/sync/errgroup"
	"gonum.org/v1/gonum/stat"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/flood"
)

// watershedEvidence holds what was measured of drained land, lower peaks here and
// higher ones there, against invented fields of the same kinds. A field is no
// watershed and none of them is the measured one: what was measured reports and never
// fails. What can fail is what holds on any field: water is kept.
func watershedEvidence(ctx context.Context) ([]Check, error) {
	all := lands()
	done := make([]*landRun, len(all))
	g, within := errgroup.WithContext(ctx)
	g.SetLimit(2)
	for i, l := range all {
		g.Go(func() (err error) {
			if done[i], err = l.pair(within, landYears, compare.Full()); err != nil {
				return fmt.Errorf("%s: %w", l.name, err)
			}
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	runs := map[string]*landRun{}
	var checks []Check
	for _, r := range done {
		runs[r.key] = r
		checks = append(checks, r.kept()...)
	}
	return inTurn(ctx,
		func() ([]Check, error) { return checks, nil },
		func() ([]Check, error) {
			return soilEvidence(runs)
		},
		func() ([]Check, error) { return frozenEvidence(runs["frozen"]), nil },
		func() ([]Check, error) { return stormEvidence(runs["storms"]) },
		func() ([]Check, error) { return risingPeaks(ctx) })
}

// finding is a row of the evidence.
type finding row

// evidence finds a row, read in its source, by its topic and the beginning of its
// citation; none is a fault of the build.
func evidence(topic, citation string) finding {
	for _, r := range table("watershed-drainage-evidence.csv") {
		if r["topic"] == topic && strings.HasPrefix(r["citation"], citation) && strings.HasPrefix(r["status"], "READ") {
			return finding(r)
		}
	}
	panic("no evidence on " + topic + " by " + citation)
}

// report holds a simulated number against the finding's range.
func (f finding) report(id, what, unit string, got, low, high float64, note string) Check {
	c := report("watershed-drainage-evidence.csv:"+id, what, unit, got, low, high, "measured: "+f["finding"]+" ("+f["place_scale"]+", "+f["kind"]+"). Simulated: "+note)
	c.Source, c.Status, c.Report = f["citation"], Published, true
	return c
}

// kept are what holds on any field: no water is lost over the whole record, from the
// daily sums alone.
func (r *landRun) kept() []Check {
	worst := 0.0
	for _, rec := range []*sim.Record{r.asItLies, r.withTile} {
		d := rec.Days
		left := rec.Begun - d.Storage[len(d.Storage)-1]
		for i := range d.Storage {
			left += d.Precipitation[i] + d.Runon[i] + d.LetIn[i] - d.BlownOff[i] - d.Transpiration[i] -
				d.Evaporation[i] - d.Drain[i] - d.Ditch[i] - d.Runoff[i] - d.SeepageOut[i]
		}
		worst = math.Max(worst, math.Abs(left))
	}
	day := 0.0
	for i, q := range r.withTile.Days.Drain {
		hours := 0.0
		for _, h := range r.withTile.HourlyDrain[24*i : 24*i+24] {
			hours += h
		}
		day = math.Max(day, math.Abs(hours-q))
	}
	return []Check{
		{ID: r.key + "/water kept", What: fmt.Sprintf("%s: water lost or made in %d years, the worse twin", r.name, landYears), Source: "conservation of mass",
			Status: Computed, Unit: "mm", Got: worst, Tolerance: 1e-6 * landYears, Why: "1e-6 mm a year: daily sums of some hundred millimetres rounded to 16 digits, with room; a lost drop of drain flow is a thousand times that"},
		{ID: r.key + "/hours make the day", What: r.name + ": hours of drain flow less the day's, largest", Source: "conservation of mass",
			Status: Computed, Unit: "mm", Got: day, Tolerance: 1e-9, Why: "24 sums of the same volumes, in another order"},
	}
}

// yearly are the values of a measure with and without tile.
func (r *landRun) yearly(name string) (was, is []float64) {
	for _, m := range sim.Measures() {
		if m.Name != name {
			continue
		}
		for _, y := range r.asItLies.Years {
			was, is = append(was, m.Of(r.asItLies, y)), append(is, m.Of(r.withTile, y))
		}
		return was, is
	}
	panic("no measure " + name)
}

// peakHours are the yearly peaks, mm/h.
func (r *landRun) peakHours() (was, is []float64) { return r.yearly("peak_hour") }

// change is that of the mean, %, with its words.
func (r *landRun) change(measure, unit string) (percent float64, words string, err error) {
	was, is := r.yearly(measure)
	p, err := flood.Compare(is, was)
	if err != nil {
		return 0, "", err
	}
	low, high := p.Interval(0.95)
	return 100 * flood.ChangeOfMeans(was, is), fmt.Sprintf("%s, mean of %d yearly values %.3g to %.3g %s, 95 %% interval of the difference %.2g to %.2g", r.name, len(was), stat.Mean(was, nil), stat.Mean(is, nil), unit, low, high), nil
}

// edge is the daily flow over and under the field's edge, mm/d.
func edge(rec *sim.Record) []float64 {
	q := make([]float64, len(rec.Days.Drain))
	for i := range q {
		q[i] = rec.Days.Drain[i] + rec.Days.Runoff[i]
	}
	return q
}
