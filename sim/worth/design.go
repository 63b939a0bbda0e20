package worth

import (
	"context"
	"math"
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/crop"
	"mottle/sim/money"
	"mottle/sim/site"
)

// What machines install.
const (
	shallowest, deepest = 0.6, 1.5 // m
	closest, widest     = 6.0, 40.0
	mapSide             = 12
)

// steps are n values from a to b, even or in equal ratios.
func steps(a, b float64, n int, ratio bool) []float64 {
	out := make([]float64, n)
	for i := range out {
		u := float64(i) / float64(n-1)
		out[i] = a + u*(b-a)
		if ratio {
			out[i] = a * math.Pow(b/a, u)
		}
	}
	return out
}

// outcome of a design, by the middle prices.
type outcome struct {
	saturated, drain, peak, npv, income float64
	runoff                              float64
}

// judge, with what the tile is built of, reads a record against the seasons of the field as it lies.
func (r *Result) judge(p *prices, farm *site.Farm, rec *sim.Record, lies []Season, tile *site.Tile) (outcome, error) {
	seasons, err := Seasons(rec, r.Field.Rotation)
	if err != nil {
		return outcome{}, err
	}
	var o outcome
	n := float64(len(rec.Years))
	drained := make([]float64, len(rec.Years))
	for i, y := range rec.Years {
		largest := 0.0
		for d := y.First; d < y.End; d++ {
			drained[i] += rec.Days.Drain[d]
			o.runoff += rec.Days.Runoff[d] / n
			largest = math.Max(largest, rec.Days.PeakHour[d])
		}
		o.drain += drained[i] / n
		o.peak += largest / n
		o.saturated += float64(seasons[i].Saturated) / n
	}
	g := gains(lies, seasons, drained)
	for _, y := range g {
		o.income += p.income(y) / n
	}
	if tile == nil {
		return o, nil
	}
	system := systemOf(farm, tile)
	bill, err := system.FirstCost(p.terms)
	if err != nil {
		return o, err
	}
	running, err := system.RunningCost(p.terms, bill.Total(), o.drain/1000*system.Area)
	if err != nil {
		return o, err
	}
	area := system.Area / hectare
	level := money.Level(bill.Total()/area, o.income-running.Total()/area, p.terms.Years)
	o.npv = money.PresentValue(p.terms.Rate, level)
	return o, nil
}

// screened is the field ready for runs in screening precision, with its seasons as it
// lies in that same precision.
type screened struct {
	ready *compare.Designs
	lies  []Season
}

// screen prepares it, once for all that is held against it.
func (r *Result) screen(ctx context.Context) (*compare.Designs, []Season, error) {
	if r.screened != nil {
		return r.screened.ready, r.screened.lies, nil
	}
	ready, err := compare.Prepare(ctx, r.Field, r.Compare.Series, compare.Screening())
	if err != nil {
		return nil, nil, err
	}
	base, err := ready.AsItLies(ctx)
	if err != nil {
		return nil, nil, err
	}
	lies, err := Seasons(base, r.Field.Rotation)
	if err != nil {
		return nil, nil, err
	}
	r.screened = &screened{ready, lies}
	return ready, lies, nil
}

// drawMap runs designs over depth and spacing in screening precision.
func (r *Result) drawMap(ctx context.Context, names []string, tell func(done, total int)) error {
	ready, lies, err := r.screen(ctx)
	if err != nil {
		return err
	}
	p := middlePrices(&r.Field.Farm, names)
	m := &Map{Depths: steps(shallowest, deepest, mapSide, false), Spacings: steps(closest, widest, mapSide, true),
		Step: "screening precision: coarser grid and steps than the answer itself, one draw of storms, the soil as given; the price of a metre does not grow with depth, so that a best at the deep edge says only that deeper drains more"}
	for len(m.Depths) > 1 && m.Depths[len(m.Depths)-1] > r.Field.Restrictive-0.05 {
		m.Depths = m.Depths[:len(m.Depths)-1] // a drain lies above the dense layer
	}
	for range m.Depths {
		m.NPV = append(m.NPV, make([]float64, mapSide))
		m.Saturated = append(m.Saturated, make([]float64, mapSide))
	}
	var done atomic.Int64
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))
	total := len(m.Depths) * mapSide
	for i, depth := range m.Depths {
		for j, spacing := range m.Spacings {
			g.Go(func() error {
				tile := *r.Field.Tile
				tile.Depth, tile.Spacing = depth, spacing
				rec, err := ready.Run(ctx, &tile)
				if err != nil {
					return err
				}
				o, err := r.judge(&p, &r.Field.Farm, rec, lies, &tile)
				if err != nil {
					return err
				}
				m.NPV[i][j], m.Saturated[i][j] = o.npv, o.saturated
				if n := done.Add(1); tell != nil {
					tell(int(n), total)
				}
				return nil
			})
		}
	}
	if err := g.Wait(); err != nil {
		return err
	}
	m.rank(0.1 * r.Money.PerArea)
	r.Map = m
	return nil
}

// rank finds the best design and the flat region around it: those that come within
// some USD/ha of it.
func (m *Map) rank(within float64) {
	m.Best = Design{NPV: math.Inf(-1)}
	all := func(do func(Design)) {
		for i, depth := range m.Depths {
			for j, spacing := range m.Spacings {
				do(Design{depth, spacing, m.NPV[i][j], m.Saturated[i][j]})
			}
		}
	}
	all(func(d Design) {
		if d.NPV > m.Best.NPV {
			m.Best = d
		}
	})
	all(func(d Design) {
		if d.NPV >= m.Best.NPV-within {
			m.Flat = append(m.Flat, d)
		}
	})
}

// cropsOf lists the crops of a rotation once each, in its order.
func cropsOf(rotation []crop.Kind) []string {
	var names []string
	seen := map[string]bool{}
	for _, k := range rotation {
		if !seen[k.Name] {
			seen[k.Name] = true
			names = append(names, k.Name)
		}
	}
	return names
}
