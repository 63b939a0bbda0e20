package basin

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// Options of a run.
type Options struct {
	Shelf    Shelf          // where finished kinds are kept
	Record   compare.Record // of stations whose record is the caller's, and where none is named
	LongGaps bool           // fill gaps of any length, from the nearest year
	Shares   []float64      // drained shares of the curve, wettest land first; nil for no curve
	Factors  []float64      // on every conductivity, for the curve's bands; nil for none
	Progress func(what string, done, total int)
}

// Result is a basin under its scenarios.
type Result struct {
	Basin     *Basin
	Years     []int // the complete calendar years, the same everywhere
	First     weather.Date
	Scenarios []Outcome // the first is what the others are held against
	Curve     []Point
	Bands     []Band // the curve on other ground
	Notes     []string
	Kinds     int // simulated or found on the shelf
}

// Outcome is one scenario.
type Outcome struct {
	Name  string
	Share float64 // of the drainable land that has tile
	Units []UnitOutcome
	Nodes []Node    // ways through units, reaches, and last the outlet
	Salt  []float64 // leaving by the drains, kg/ha over the basin, by complete year
	// Error is the water that went in, less what came out and what is on its way, mm
	// over the basin: rounding.
	Error float64
}

// UnitOutcome is a unit under a scenario, means of years.
type UnitOutcome struct {
	Drained   bool
	Saturated float64 // days a year
	Runoff    float64 // mm a year
	Drain     float64 // mm a year
	Outflow   float64 // all, less water let in, mm a year
	Salt      float64 // leaving by the drain, kg/ha a year
	PeakHour  float64 // mm/h, mean of yearly largest
}

// Point of the drained-share curve.
type Point struct {
	Share     float64 // asked
	Drained   float64 // reached with whole units
	Saturated float64 // days a year, mean over the land
	Node              // of the outlet
}

// Band is the curve with every conductivity changed by a factor: what nobody measured
// of the soil.
type Band struct {
	Factor float64
	Curve  []Point
}

// bandStep: bands are run at every so many of the curve's shares.
const bandStep = 5

// land is a basin with its weather met.
type land struct {
	b       *Basin
	station map[string]met
	factor  float64 // on every conductivity
	notes   []string
}

// meetStations brings every station's record to a common period and settles place and
// reading hour as for a field.
func meetStations(b *Basin, o *Options) (*land, error) {
	l := &land{b: b, station: map[string]met{}, factor: 1}
	records := map[string]compare.Record{}
	if len(b.Stations) == 0 {
		records[""] = o.Record
	}
	for name, s := range b.Stations {
		records[name] = s.Record
		if s.Demo {
			records[name] = o.Record
		}
	}
	var from, to *weather.Date
	for _, r := range records {
		if r.Series == nil {
			return nil, errors.New("weather: no record; name one with --weather or under stations")
		}
		first, last := r.Series.Start, r.Series.Last()
		if from == nil || first > *from {
			from = &first
		}
		if to == nil || last < *to {
			to = &last
		}
	}
	if *from > *to {
		return nil, errNoYears
	}
	names := slices.Sorted(func(yield func(string) bool) {
		for name := range records {
			if !yield(name) {
				return
			}
		}
	})
	for _, name := range names {
		i := slices.IndexFunc(b.Units, func(u Unit) bool { return u.Station == name })
		if i < 0 {
			continue
		}
		f, err := b.Field(&b.Units[i])
		if err != nil {
			return nil, err
		}
		field, series, err := compare.Meet(f, records[name], compare.Period{From: from, To: to}, o.LongGaps)
		if err != nil {
			if name != "" {
				err = fmt.Errorf("station %s: %w", name, err)
			}
			return nil, err
		}
		l.station[name] = met{field, series}
		for _, a := range field.Assumed[len(f.Assumed):] {
			l.notes = append(l.notes, fmt.Sprintf("%s %s (%s)", a.Key, a.Value, a.Reason))
		}
	}
	return l, nil
}

// kind is the run that a unit belongs to, and its key. Names, prices and assumptions
// play no part in it.
func (l *land) kind(u *Unit) (string, met, error) {
	f, err := l.b.Field(u)
	if err != nil {
		return "", met{}, err
	}
	at := l.station[u.Station]
	f.Latitude, f.Elevation, f.ReadHour = at.field.Latitude, at.field.Elevation, at.field.ReadHour
	f.Conductance *= l.factor
	f.Name, f.Place, f.Farm, f.Assumed = u.Soil, "", site.Farm{}, nil
	return keyOf(&f, u.Station, at.series), met{&f, at.series}, nil
}

// keys names the kinds of units and adds those that are new.
func (l *land) keys(units []Unit, kinds map[string]met) ([]string, error) {
	out := make([]string, len(units))
	for i := range units {
		key, m, err := l.kind(&units[i])
		if err != nil {
			return nil, err
		}
		out[i] = key
		if _, has := kinds[key]; !has {
			kinds[key] = m
		}
	}
	return out, nil
}

// Run simulates the kinds of land that the scenarios need, each once, routes every
// scenario hour by hour, and holds them against the first.
func Run(ctx context.Context, b *Basin, o Options) (*Result, error) {
	l, err := meetStations(b, &o)
	if err != nil {
		return nil, err
	}
	tell := func(what string) func(done, total int) {
		if o.Progress == nil {
			return nil
		}
		return func(done, total int) { o.Progress(what, done, total) }
	}
	kinds := map[string]met{}
	r := &Result{Basin: b, Notes: l.notes}

	// The land without tile says how wet it lies.
	bare, err := b.Under(&Scenario{Name: "none", Drained: Undrained}, nil)
	if err != nil {
		return nil, err
	}
	bareKeys, err := l.keys(bare, kinds)
	if err != nil {
		return nil, err
	}
	if err := runKinds(ctx, o.Shelf, kinds, tell("kinds of land without tile")); err != nil {
		return nil, err
	}
	wetness := make([]float64, len(bare))
	for i, key := range bareKeys {
		if wetness[i], err = meanOf(o.Shelf, key, "days_saturated"); err != nil {
			return nil, err
		}
	}

	type job struct {
		scenario Scenario
		factor   float64
		units    []Unit
		keys     []string
	}
	var jobs []job
	add := func(s Scenario, factor float64) error {
		units, err := b.Under(&s, wetness)
		if err != nil {
			return err
		}
		l.factor = factor
		keys, err := l.keys(units, kinds)
		jobs = append(jobs, job{s, factor, units, keys})
		return err
	}
	for _, s := range b.Scenarios {
		if err := add(s, 1); err != nil {
			return nil, err
		}
	}
	for _, factor := range append([]float64{1}, o.Factors...) {
		for i, share := range o.Shares {
			if factor != 1 && i%bandStep != 0 {
				continue
			}
			if err := add(Scenario{Name: fmt.Sprintf("%.0f %% drained", 100*share), Drained: WettestFirst, Share: share}, factor); err != nil {
				return nil, err
			}
		}
		if factor != 1 {
			r.Bands = append(r.Bands, Band{Factor: factor})
		}
	}
	r.Kinds = len(kinds)
	if err := runKinds(ctx, o.Shelf, kinds, tell("kinds of land")); err != nil {
		return nil, err
	}
	for k, j := range jobs {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		out, years, first, notes, err := l.route(j.units, j.keys, o.Shelf)
		if err != nil {
			return nil, fmt.Errorf("scenario %s: %w", j.scenario.Name, err)
		}
		out.Name, out.Share = j.scenario.Name, DrainedShare(j.units)
		r.Years, r.First = years, first
		if k == 0 {
			r.Notes = append(r.Notes, notes...)
		}
		if k < len(b.Scenarios) {
			r.Scenarios = append(r.Scenarios, *out)
		} else {
			p := Point{Share: j.scenario.Share, Drained: out.Share, Node: out.Nodes[len(out.Nodes)-1]}
			area := 0.0
			for i := range out.Units {
				area += b.Units[i].Area
				p.Saturated += out.Units[i].Saturated * b.Units[i].Area
			}
			p.Saturated /= area
			p.Daily, p.Hourly = nil, nil
			curve := &r.Curve
			if i := slices.Index(o.Factors, j.factor); i >= 0 {
				curve = &r.Bands[i].Curve
			}
			*curve = append(*curve, p)
		}
		if t := tell("scenarios"); t != nil {
			t(k+1, len(jobs))
		}
	}
	r.holdAgainstFirst()
	return r, nil
}

// meanOf is the mean over years of a measure of a kind.
func meanOf(s Shelf, key, measure string) (float64, error) {
	k, err := openKind(s, key)
	if err != nil {
		return 0, err
	}
	defer k.closer.Close()
	return k.head.mean(measure), nil
}

// mean of a measure over the complete years; NaN without one.
func (k *kindRun) mean(measure string) float64 {
	i := slices.Index(k.Measures, measure)
	if i < 0 || len(k.Years) == 0 {
		return math.NaN()
	}
	sum := 0.0
	for _, x := range k.Yearly[i] {
		sum += x
	}
	return sum / float64(len(k.Years))
}

// route carries a scenario's water through the record, year by year.
func (l *land) route(units []Unit, keys []string, shelf Shelf) (*Outcome, []int, weather.Date, []string, error) {
	fail := func(err error) (*Outcome, []int, weather.Date, []string, error) { return nil, nil, 0, nil, err }
	n, err := newNetwork(l.b, units, keys)
	if err != nil {
		return fail(err)
	}
	readers := make([]*kindReader, len(n.kinds))
	defer func() {
		for _, r := range readers {
			if r != nil {
				r.closer.Close()
			}
		}
	}()
	for k, key := range n.kinds {
		if readers[k], err = openKind(shelf, key); err != nil {
			return fail(err)
		}
	}
	out := &Outcome{}
	complete := readers[0].head.Years
	if len(complete) == 0 {
		return fail(errNoYears)
	}
	for i := range units {
		h := &readers[n.kindOf[i]].head
		out.Units = append(out.Units, UnitOutcome{Drained: units[i].Tile != nil, Saturated: h.mean("days_saturated"), Runoff: h.mean("surface_runoff"),
			Drain: h.mean("drain_outflow"), Outflow: h.mean("all_outflow"), Salt: h.mean("salt_drained"), PeakHour: h.mean("peak_hour")})
	}
	const longest = 24 * 366
	in := make([][][parts]float64, len(n.kinds))
	for k := range in {
		in[k] = make([][parts]float64, longest)
	}
	flows := make([][][parts]float64, n.nodes())
	for k := range flows {
		flows[k] = make([][parts]float64, longest)
	}
	gauges := make([]gauge, n.nodes())
	gauges[n.nodes()-1].hours = true
	out.Salt = make([]float64, len(complete))
	land := 0.0
	for i := range units {
		h := &readers[n.kindOf[i]].head
		if salt := slices.Index(h.Measures, "salt_drained"); salt >= 0 {
			for y, kg := range h.Yearly[salt] {
				out.Salt[y] += kg * units[i].Area
			}
		}
		land += units[i].Area
	}
	for y := range out.Salt {
		out.Salt[y] /= land
	}
	entered, left := 0.0, 0.0
	first := weather.Date(0)
	for _, m := range l.station {
		first = m.series.Start
	}
	day := first
	for {
		hours, year := 0, 0
		done := false
		for k, r := range readers {
			block, err := r.next()
			if errors.Is(err, io.EOF) {
				done = true
				break
			}
			if err != nil {
				return fail(fmt.Errorf("kind %s: %w", n.kinds[k], err))
			}
			hours, year = len(block.Runoff), block.Year
			for h := range hours {
				in[k][h] = [parts]float64{block.Runoff[h], block.Drain[h], block.Seepage[h/24] / 24}
			}
		}
		if done {
			break
		}
		for k := range n.groups {
			g := &n.groups[k]
			for h := range hours {
				for _, x := range in[g.kind][h] {
					entered += x / 1000 * g.area
				}
			}
		}
		n.carry(in, flows, hours)
		for _, q := range flows[n.nodes()-1][:hours] {
			for _, x := range q {
				left += x * hour
			}
		}
		whole := slices.Contains(complete, year)
		for k := range gauges {
			gauges[k].take(flows[k][:hours], day, whole)
		}
		day += weather.Date(hours / 24)
	}
	out.Error = (entered - left - n.stored()) / n.area[n.nodes()-1] * 1000
	for k := range gauges {
		node, err := gauges[k].node(n.names[k], n.area[k], complete)
		if err != nil {
			return fail(err)
		}
		out.Nodes = append(out.Nodes, *node)
	}
	return out, complete, first, n.notes, nil
}
