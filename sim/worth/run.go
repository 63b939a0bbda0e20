package worth

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/weather"
)

// Options of a decision.
type Options struct {
	Units    unit.System // of the sentences
	Quick    bool        // the central answer and the design map alone: no ranges, no futures
	Progress func(what string, done, total float64)
	// First is told of the central answer and its map as soon as they stand, before the
	// ranges and futures; nil for none. The result goes on being filled when it returns.
	First func(*Result) error
}

// Run takes a field with its tile and farm, and a complete series, to a decision: first
// the central answer with the map of designs, then its ranges, what stands beside
// tile, and the futures. Without the price of a crop in the rotation there is none:
// that is an error which names the keys.
func Run(ctx context.Context, f *site.Field, s *weather.Series, o Options) (*Result, error) {
	if f.Tile == nil {
		return nil, errors.New("tile: the field file judges none; give tile.depth and tile.spacing")
	}
	if missing := f.Unpriced(); len(missing) > 0 {
		return nil, fmt.Errorf("%s: nobody knows what the crop brings; give it in the field file", strings.Join(missing, ", "))
	}
	r := &Result{Field: f}
	if err := r.answer(ctx, s, &o); err != nil {
		return nil, err
	}
	if o.First != nil && !o.Quick {
		if err := o.First(r); err != nil {
			return nil, err
		}
	}
	if o.Quick {
		return r, nil
	}
	return r, r.widen(ctx, s, &o)
}

// tell is the progress of one part.
func (o *Options) tell(what string) func(done, total float64) {
	if o.Progress == nil {
		return nil
	}
	return func(done, total float64) { o.Progress(what, done, total) }
}

// counts is tell for parts that are counted.
func (o *Options) counts(what string) func(done, total int) {
	t := o.tell(what)
	if t == nil {
		return nil
	}
	return func(done, total int) { t(float64(done), float64(total)) }
}

// answer runs the central pair and the map.
func (r *Result) answer(ctx context.Context, s *weather.Series, o *Options) error {
	names := cropsOf(r.Field.Rotation)
	var run soilRun
	var err error
	r.Compare, err = compare.Run(ctx, r.Field, s, compare.Options{Progress: o.tell("the pair"), Each: func(_ int, over string, p *compare.Pair) error {
		var err error
		if r.AsItLies, r.WithTile, err = r.pair(p, defaultLine); err == nil {
			run = soilRun{over, gains(r.AsItLies, r.WithTile, drainedOf(p))}
		}
		return err
	}})
	if err != nil {
		return err
	}
	if r.Years = r.Compare.Years; len(r.Years) == 0 {
		return errors.New("weather: the record holds no complete calendar year")
	}
	if err := r.settle(names, run.gains); err != nil {
		return err
	}
	r.holdAgainstTrials(names, run.gains)
	if err := r.drawMap(ctx, names, o.counts("designs")); err != nil {
		return err
	}
	if err := r.ask(o.Units); err != nil {
		return err
	}
	r.warn()
	r.Assumptions = append(append([]site.Assumption(nil), r.Field.Assumed...), r.Field.Farm.Assumed...)
	return nil
}

// pair reads the seasons of both twins.
func (r *Result) pair(p *compare.Pair, line wetLine) (lies, tiled []Season, err error) {
	if lies, err = seasonsBy(p.AsItLies, r.Field.Rotation, line); err != nil {
		return nil, nil, err
	}
	tiled, err = seasonsBy(p.WithTile, r.Field.Rotation, line)
	return lies, tiled, err
}

// widen runs the pair over what nobody measured, asks the questions again with that
// range, looks at what else may be done, and draws the futures.
func (r *Result) widen(ctx context.Context, s *weather.Series, o *Options) error {
	names := cropsOf(r.Field.Rotation)
	var sharing sync.Mutex
	runs := map[int][]soilRun{} // by place in the order of runs, one for each line of wet loss
	var err error
	r.Compare, err = compare.Run(ctx, r.Field, s, compare.Options{Ranges: true, Progress: o.tell("ranges"), Each: func(place int, over string, p *compare.Pair) error {
		for _, line := range []wetLine{defaultLine, otherLine} {
			lies, tiled, err := r.pair(p, line)
			if err != nil {
				return err
			}
			sharing.Lock()
			runs[place] = append(runs[place], soilRun{over, gains(lies, tiled, drainedOf(p))})
			sharing.Unlock()
		}
		return nil
	}})
	if err != nil {
		return err
	}
	r.Questions = nil
	if err := r.ask(o.Units); err != nil {
		return err
	}
	if err := r.lookAround(ctx, names); err != nil {
		return err
	}
	ordered := make([]soilRun, 0, len(runs))
	for _, place := range slices.Sorted(maps.Keys(runs)) {
		ordered = append(ordered, runs[place]...)
	}
	return r.drawFutures(ctx, names, ordered, o.counts("futures"))
}
