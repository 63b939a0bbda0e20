package worth

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
	"sort"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"mottle/sim/money"
)

// Of the resampling.
const (
	futureDraws = 2000
	futureSeed  = 1962
	block       = 5 // years that follow one another in the record, so that wet spells stay together
)

// soilRun is the record's yearly gains under one choice of what nobody measured.
type soilRun struct {
	over  string
	gains []gain
}

// drawFutures resamples the decision over the years of service in the middle: blocks of
// years from the record, the central ground or, as often, one of those tried at the
// ends of their ranges, and prices and costs from theirs. Every draw has a source of its own, so that the result does not hang on
// the number of workers.
func (r *Result) drawFutures(ctx context.Context, names []string, runs []soilRun, tell func(done, total int)) error {
	system := systemOf(&r.Field.Farm, r.Field.Tile)
	middle := middlePrices(&r.Field.Farm, names).terms
	const central = 2 // the first runs are the central ground's, one for each line of wet loss
	type future struct {
		flows []float64
		rate  float64
		npv   float64
		at    money.Payback
		draws map[string]float64
	}
	futures := make([]future, futureDraws)
	var done atomic.Int64
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))
	const batch = 50
	for from := 0; from < futureDraws; from += batch {
		g.Go(func() error {
			for k := from; k < from+batch; k++ {
				if err := ctx.Err(); err != nil {
					return err
				}
				rng := rand.New(rand.NewPCG(futureSeed, uint64(k)))
				f := future{draws: map[string]float64{}}
				run := runs[rng.IntN(central)]
				if rng.IntN(2) > 0 {
					run = runs[rng.IntN(len(runs))]
				}
				p := pricesFrom(&r.Field.Farm, names, func(what string, s money.Spread) float64 {
					x := s.Draw(money.Triangular, rng)
					f.draws[what] = x
					return x
				})
				n := len(run.gains)
				p.terms.Years = middle.Years
				years := make([]gain, 0, p.terms.Years)
				sum := 0.0
				for _, i := range money.Blocks(n, min(block, max(1, n/3)), p.terms.Years, rng) {
					years = append(years, run.gains[i])
					sum += run.gains[i].share
				}
				f.draws["how wet the years and the ground are"] = sum / float64(len(years))
				var err error
				if f.flows, _, err = p.flows(system, years); err != nil {
					return err
				}
				f.rate = p.terms.Rate
				f.npv = money.PresentValue(p.terms.Rate, f.flows)
				f.at = money.PaybackTime(p.terms.Rate, f.flows)
				futures[k] = f
			}
			if n := done.Add(batch); tell != nil {
				tell(int(n), futureDraws)
			}
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return err
	}

	out := &Futures{Draws: futureDraws, Seed: futureSeed}
	life := middle.Years
	running := make([][]float64, life+1)
	for _, f := range futures {
		out.NPV = append(out.NPV, f.npv)
	}
	for _, within := range []int{5, 10, 15, 20, life} {
		n := 0
		for _, f := range futures {
			if f.at.Years <= float64(within) {
				n++
			}
		}
		out.Pays = append(out.Pays, Chance{within, float64(n) / futureDraws})
	}
	for _, f := range futures {
		sum, factor := 0.0, 1.0
		for t := 0; t <= life && t < len(f.flows); t++ {
			sum += f.flows[t] * factor
			factor /= 1 + f.rate
			running[t] = append(running[t], sum)
		}
	}
	for t, sums := range running {
		if len(sums) == 0 {
			continue
		}
		slices.Sort(sums)
		at := func(p float64) float64 { return quantile(sums, p) }
		out.Fan = append(out.Fan, FanYear{t, at(0.05), at(0.25), at(0.5), at(0.75), at(0.95)})
	}
	inputs := make([]string, 0, len(futures[0].draws))
	for what := range futures[0].draws {
		inputs = append(inputs, what)
	}
	sort.Strings(inputs)
	for _, what := range inputs {
		order := make([]int, futureDraws)
		for k := range order {
			order[k] = k
		}
		sort.SliceStable(order, func(i, j int) bool { return futures[order[i]].draws[what] < futures[order[j]].draws[what] })
		if futures[order[0]].draws[what] == futures[order[futureDraws-1]].draws[what] {
			continue // not a range
		}
		third := futureDraws / 3
		mid := func(part []int) float64 {
			x := make([]float64, len(part))
			for i, k := range part {
				x[i] = futures[k].npv
			}
			slices.Sort(x)
			return quantile(x, 0.5)
		}
		out.Inputs = append(out.Inputs, Swing{what, mid(order[:third]), mid(order[futureDraws-third:])})
	}
	sort.SliceStable(out.Inputs, func(i, j int) bool { return out.Inputs[i].width() > out.Inputs[j].width() })
	const telling = 0.1 // of the largest: what moves less is lost in the draws
	out.Inputs = slices.DeleteFunc(out.Inputs, func(s Swing) bool { return s.width() < telling*out.Inputs[0].width() })
	slices.Sort(out.NPV)
	r.Futures = out
	return nil
}

func (s Swing) width() float64 { return max(s.High-s.Low, s.Low-s.High) }

// quantile of sorted values, linear between order statistics (type 7 of Hyndman and
// Fan 1996).
func quantile(s []float64, p float64) float64 {
	h := p * float64(len(s)-1)
	i := int(h)
	if i+1 >= len(s) {
		return s[len(s)-1]
	}
	return s[i] + (h-float64(i))*(s[i+1]-s[i])
}

// Quantile of the futures' NPV, USD/ha.
func (f *Futures) Quantile(p float64) float64 { return quantile(f.NPV, p) }

// Chance that the tile has paid back within some years, one of those of Pays.
func (f *Futures) Chance(within int) (float64, bool) {
	for _, c := range f.Pays {
		if c.Within == within {
			return c.Share, true
		}
	}
	return 0, false
}
