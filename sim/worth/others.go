package worth

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"mottle/sim/compare"
	"mottle/sim/drain"
	"mottle/sim/money"
	"mottle/sim/site"
	"mottle/sim/washoff"
	"mottle/soil"
)

// coefficients are those that outlets are sized for: 1/4, 3/8, 1/2 and 3/4 in/d.
var coefficients = []float64{0.25, 0.375, 0.5, 0.75}

const inchPerDay = 0.0254 / 86400 // m/s

// nitrate is the concentration of drain water under corn and soybean, mg N/L: typical
// 10 to 25 (from memory); the middle is their geometric mean.
var nitrate = money.Spread{Low: 10, Middle: 16, High: 25}

// Nitrate is the range of typical concentrations of nitrate in drain water, mg N/L.
func Nitrate() money.Spread { return nitrate }

// load of a flow (mm) at a concentration (mg/L), kg/ha.
func load(mm, concentration float64) float64 {
	return washoff.Load(mm/1000, concentration) * hectare
}

// lookAround runs the design with other outlets, behind a weir, and the ground with
// what may stand in place of tile, in screening precision: each is held against
// runs of that same precision.
func (r *Result) lookAround(ctx context.Context, names []string) error {
	ready, lies, err := r.screen(ctx)
	if err != nil {
		return err
	}
	p := middlePrices(&r.Field.Farm, names)
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))

	run := func(tile *site.Tile, farm *site.Farm, keep func(outcome)) {
		g.Go(func() error {
			rec, err := ready.Run(ctx, tile)
			if err != nil {
				return err
			}
			o, err := r.judge(&p, farm, rec, lies, tile)
			if err == nil {
				keep(o)
			}
			return err
		})
	}
	r.Outlets = make([]Outlet, len(coefficients))
	for i, inches := range coefficients {
		tile := *r.Field.Tile
		tile.Coefficient = inches * inchPerDay
		main := mainFor(&r.Field.Farm, tile.Coefficient)
		farm := withMain(r.Field.Farm, main)
		run(&tile, &farm, func(o outcome) {
			if math.IsNaN(main) {
				o.npv = math.NaN() // what it costs is not known
			}
			r.Outlets[i] = Outlet{Coefficient: tile.Coefficient, Saturated: o.saturated, Drain: o.drain, Peak: o.peak, NPV: o.npv, Main: main}
		})
	}
	var free, held outcome
	tile := *r.Field.Tile
	tile.Weir = nil
	run(&tile, &r.Field.Farm, func(o outcome) { free = o })
	weir := tile
	weir.Weir = drain.CommonCalendar()
	run(&weir, &r.Field.Farm, func(o outcome) { held = o })

	r.Others = make([]Alternative, 3)
	var lying outcome
	run(r.Field.Old, &r.Field.Farm, func(o outcome) { lying = o })
	for i, a := range []struct {
		name, how string
		storage   float64 // m that still stand before water runs off
	}{
		{"a surface inlet", "water stands 2 mm deep and then leaves by the inlet, as fast as it comes", 0.002},
		{"a shallow surface drain", "water stands 10 mm deep and then runs off by the furrow", 0.010},
	} {
		r.Others[i] = Alternative{Name: a.name, How: a.how}
		if r.Field.Surface.Storage <= a.storage {
			r.Others[i].How = "the ground holds no more than that already"
			continue
		}
		g.Go(func() error {
			f := *r.Field
			f.Surface.Storage = a.storage
			shallow, err := compare.Prepare(ctx, &f, r.Compare.Series, compare.Screening())
			if err != nil {
				return err
			}
			rec, err := shallow.AsItLies(ctx)
			if err != nil {
				return err
			}
			o, err := r.judge(&p, &r.Field.Farm, rec, lies, nil)
			if err != nil {
				return err
			}
			r.Others[i] = Alternative{a.name, a.how, o.saturated, o.income,
				max(0, o.income*money.AnnuityFactor(p.terms.Rate, p.terms.Years)), o.runoff, true}
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return err
	}
	r.Others[2] = Alternative{Name: "leaving it wet", How: "nothing is changed", Saturated: lying.saturated, Runoff: lying.runoff, Considered: true}
	less := free.drain - held.drain
	r.Controlled = Controlled{Calendar: calendarWords, Drain: less, Saturated: held.saturated - free.saturated,
		Income:  held.income - free.income,
		Nitrate: money.Spread{Low: load(less, nitrate.Low), Middle: load(less, nitrate.Middle), High: load(less, nitrate.High)}}
	r.LateralWay, err = lateralWay(r.Field)
	return err
}

const calendarWords = "crest at 0.30 m from 1 November to 15 March, at 0.60 m from 1 June to 1 September, open between (common practice)"

// mainFor is the trade size of a main that carries a coefficient off the area of one
// outlet at the grade of the first main listed; NaN where none is listed, its grade is
// not told, or no size fits.
func mainFor(farm *site.Farm, coefficient float64) float64 {
	if len(farm.Mains) == 0 || math.IsNaN(farm.Mains[0].Grade) || math.IsInf(coefficient, 1) {
		return math.NaN()
	}
	size, err := drain.SizePipe(drain.Duty{Area: farm.Drained / float64(max(1, farm.Outlets)), Coefficient: coefficient, Grade: farm.Mains[0].Grade,
		LeastVelocity: drain.VelocityCleanWater, MostVelocity: math.Inf(1)})
	if err != nil {
		return math.NaN()
	}
	return size.Diameter
}

// withMain is the farm with its mains no smaller than a size; submains stay.
func withMain(farm site.Farm, size float64) site.Farm {
	farm.Mains = slices.Clone(farm.Mains)
	for i := range farm.Mains {
		if m := &farm.Mains[i]; !m.Submain && m.Diameter < size {
			m.Diameter = size
		}
	}
	return farm
}

// Of the lateral way (common practice of wetland screening): a line is said to reach
// as far as half the spacing at which a pair of lines would lower the table from the
// surface to 0.30 m within 14 days.
const (
	reachDepth = 0.30 // m
	reachDays  = 14
)

// lateralWay is the distance to which a line of the tile lowers the table, m (van
// Schilfgaarde 1963, with the conductivity and drainable pore space of the ground
// between the surface and the dense layer).
func lateralWay(f *site.Field) (float64, error) {
	profile, err := soil.DeriveProfile(f.Horizons)
	if err != nil {
		return 0, err
	}
	k, thick := 0.0, 0.0
	for _, m := range profile {
		d := min(m.Bottom, f.Restrictive) - m.Top
		if d <= 0 {
			break
		}
		k += m.Curve.Ksat() * f.Conductance * d
		thick += d
	}
	radius, _, err := drain.EffectiveRadius(f.Tile.Diameter, f.Tile.Wrap)
	if err != nil {
		return 0, err
	}
	spacing := drain.VanSchilfgaardeSpacing(drain.Fall{K: k / thick, DepthToBarrierBelowDrain: f.Restrictive - f.Tile.Depth, Radius: radius,
		Porosity: soil.SpecificYield(profile, reachDepth), Start: f.Tile.Depth, End: f.Tile.Depth - reachDepth, Time: reachDays * 86400})
	if math.IsNaN(spacing) {
		return 0, fmt.Errorf("worth: no lateral distance for a drain at %.3g m over a layer at %.3g m", f.Tile.Depth, f.Restrictive)
	}
	return spacing / 2, nil
}
