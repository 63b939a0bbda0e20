package compare

import (
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"mottle/sim"
	"mottle/sim/column"
	"mottle/sim/site"
	"mottle/weather"
)

// Options of a comparison.
type Options struct {
	Ranges   bool                      // rerun over what nobody measured
	Workers  int                       // twins' pairs run at once; 0 for one per processor
	Progress func(done, total float64) // field-years; nil for none
	Steps    func(s *column.Settings)  // changes the time steps; nil for the default
	// Each is told of every pair as it is done, with what it was run over ("" for the
	// central one) and its place in the order of runs; pairs that only serve to see the
	// noise of time steps are not told. It is called by several goroutines at once; nil
	// for none.
	Each func(place int, over string, p *Pair) error
}

// Line is one measure of the comparison.
type Line struct {
	sim.Measure
	AsItLies, WithTile float64 // mean or, for dates, median over years
	Difference         float64 // NaN where there is none to take
	Low, High          float64 // 90 % interval of the difference, years resampled in pairs
	Noise              float64 // change of the difference under a perturbed time step
	Resolved           bool    // the difference is larger than the noise
	YearsAsItLies      []float64
	YearsWithTile      []float64
}

// Range is how far an answer moves over an input that nobody measured.
type Range struct {
	Measure   string
	Over      string  // the input and its range
	Low, High float64 // of the difference, or of a date with tile
}

// Result is a comparison.
type Result struct {
	Field      *site.Field
	Series     *weather.Series
	Pair       *Pair
	Years      []int
	Lines      []Line
	Ranges     []Range
	FieldYears float64
}

// perturbed shortens the steps enough to part what is chaotic from what is not.
const perturbed = 0.6

// Run compares the field as it lies with the same field under its tile. The
// series must be complete (weather.Series.Fill) and the field valid, with its
// latitude, elevation and reading hour known.
func Run(ctx context.Context, f *site.Field, s *weather.Series, o Options) (*Result, error) {
	central := variant{field: f, draw: f.Storms.Draw, steps: column.DefaultSettings()}
	if o.Steps != nil {
		o.Steps(&central.steps)
	}
	shaken := central
	shaken.steps.Target *= perturbed
	shaken.steps.Volume *= perturbed
	jobs := []variant{central, shaken}
	var inputs []unmeasured
	if o.Ranges {
		inputs = unmeasuredInputs(central, s, drawnHours(s))
		for _, u := range inputs {
			for _, v := range u.variants {
				v.over = u.over
				jobs = append(jobs, v)
			}
		}
	}
	pairs, err := runAll(ctx, jobs, s, o)
	if err != nil {
		return nil, err
	}
	r := &Result{Field: f, Series: s, Pair: pairs[0]}
	for _, p := range pairs {
		r.FieldYears += p.FieldYears
	}
	for _, y := range r.Pair.AsItLies.Years {
		r.Years = append(r.Years, y.Year)
	}
	for i, m := range sim.Measures() {
		r.Lines = append(r.Lines, line(m, pairs[0].yearly[i], pairs[1].yearly[i]))
	}
	at := 2
	for _, u := range inputs {
		group := append([]*Pair{pairs[0]}, pairs[at:at+len(u.variants)]...)
		at += len(u.variants)
		for i, m := range sim.Measures() {
			r.Ranges = append(r.Ranges, spread(m, i, u.over, group))
		}
	}
	return r, nil
}

// drawnHours says whether the hours of any wet day must be drawn.
func drawnHours(s *weather.Series) bool {
	for i, mm := range s.Precip {
		if mm > 0 && (s.HourlyPrecip == nil || math.IsNaN(s.HourlyPrecip[24*i])) {
			return true
		}
	}
	return false
}

// runAll runs the pairs side by side; the order of results is that of the jobs.
// Only the first keeps its daily record.
func runAll(ctx context.Context, jobs []variant, s *weather.Series, o Options) ([]*Pair, error) {
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(workers)
	pairs := make([]*Pair, len(jobs))
	perJob := 2 * float64(s.Days()) / 365.25
	if jobs[0].field.Runon != nil {
		perJob *= 1.5
	}
	var done atomic.Int64
	var telling sync.Mutex
	tell := func() {
		n := done.Add(1)
		if o.Progress != nil {
			telling.Lock()
			o.Progress(math.Min(float64(n), perJob*float64(len(jobs))), perJob*float64(len(jobs)))
			telling.Unlock()
		}
	}
	for i, job := range jobs {
		g.Go(func() error {
			p, err := run(ctx, job, s, tell)
			if err != nil {
				return err
			}
			if o.Each != nil && (i == 0 || job.over != "") {
				if err := o.Each(i, job.over, p); err != nil {
					return err
				}
			}
			for _, m := range sim.Measures() {
				p.yearly = append(p.yearly, [2][]float64{yearly(m, p.AsItLies), yearly(m, p.WithTile)})
			}
			if i > 0 {
				p.AsItLies, p.WithTile = nil, nil
			}
			pairs[i] = p
			return nil
		})
	}
	return pairs, g.Wait()
}

func line(m sim.Measure, central, shaken [2][]float64) Line {
	a, b := central[0], central[1]
	l := Line{Measure: m, YearsAsItLies: a, YearsWithTile: b,
		AsItLies: centre(m, a), WithTile: centre(m, b), Difference: gap(m, a, b)}
	l.Low, l.High = bootstrap(m, a, b)
	l.Noise = math.Abs(gap(m, shaken[0], shaken[1]) - l.Difference)
	l.Resolved = math.Abs(l.Difference) > l.Noise
	return l
}

// spread is the range of a measure's difference over a group of runs; of dates,
// the range of the date with tile.
func spread(m sim.Measure, i int, over string, group []*Pair) Range {
	r := Range{Measure: m.Name, Over: over, Low: math.Inf(1), High: math.Inf(-1)}
	for _, p := range group {
		x := gap(m, p.yearly[i][0], p.yearly[i][1])
		if m.ByMedian {
			x = centre(m, p.yearly[i][1])
		}
		r.Low, r.High = math.Min(r.Low, x), math.Max(r.High, x)
	}
	return r
}
