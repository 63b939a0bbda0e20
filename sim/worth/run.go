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
}

// Run takes a field with its tile and farm, and a complete series, to a decision.
// Without the price of a crop in the rotation there is none: that is an error which
// names the keys.
func Run(ctx context.Context, f *site.Field, s *weather.Series, o Options) (*Result, error) {
	if f.Tile == nil {
		return nil, errors.New("tile: the field file judges none; give tile.depth and tile.spacing")
	}
	if missing := f.Unpriced(); len(missing) > 0 {
		return nil, fmt.Errorf("%s: nobody knows what the crop brings; give it in the field file", strings.Join(missing, ", "))
	}
	names := cropsOf(f.Rotation)
	tell := func(what string) func(done, total float64) {
		if o.Progress == nil {
			return nil
		}
		return func(done, total float64) { o.Progress(what, done, total) }
	}
	r := &Result{Field: f}
	var sharing sync.Mutex
	runs := map[int][]soilRun{} // by place in the order of runs, one for each line of wet loss
	each := func(place int, over string, p *compare.Pair) error {
		for _, line := range []wetLine{defaultLine, otherLine} {
			lies, err := seasonsBy(p.AsItLies, f.Rotation, line)
			if err != nil {
				return err
			}
			tiled, err := seasonsBy(p.WithTile, f.Rotation, line)
			if err != nil {
				return err
			}
			sharing.Lock()
			if place == 0 && line == defaultLine {
				r.AsItLies, r.WithTile = lies, tiled
			}
			runs[place] = append(runs[place], soilRun{over, gains(lies, tiled, drainedOf(p))})
			sharing.Unlock()
		}
		return nil
	}
	var err error
	r.Compare, err = compare.Run(ctx, f, s, compare.Options{Ranges: !o.Quick, Progress: tell("the pair and its ranges"), Each: each})
	if err != nil {
		return nil, err
	}
	ordered := make([]soilRun, 0, len(runs))
	for _, place := range slices.Sorted(maps.Keys(runs)) {
		ordered = append(ordered, runs[place]...)
	}
	r.Years = r.Compare.Years
	if len(r.Years) == 0 {
		return nil, errors.New("weather: the record holds no complete calendar year")
	}
	if err := r.settle(names, ordered[0].gains); err != nil {
		return nil, err
	}
	r.holdAgainstTrials(names, ordered[0].gains)
	counts := func(what string) func(done, total int) {
		t := tell(what)
		if t == nil {
			return nil
		}
		return func(done, total int) { t(float64(done), float64(total)) }
	}
	if err := r.drawMap(ctx, names, counts("designs")); err != nil {
		return nil, err
	}
	if err := r.ask(o.Units); err != nil {
		return nil, err
	}
	r.warn()
	r.Assumptions = append(append([]site.Assumption(nil), f.Assumed...), f.Farm.Assumed...)
	if o.Quick {
		return r, nil
	}
	if err := r.lookAround(ctx, names); err != nil {
		return nil, err
	}
	return r, r.drawFutures(ctx, names, ordered, counts("futures"))
}
