package proof

import (
	"context"
	"fmt"
	"strings"

	"golang.org/x/sync/errgroup"
	"gonum.org/v1/gonum/stat"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// searched are the states among which a rise of the peak hour is sought.
var searched = struct {
	textures    []string
	levels      []float64 // depth of the outside water, m
	resistances []float64 // on the way to it, d
	storms      []float64 // factor on every wet day's rain
	years       int
	again       int // years, of what seemed to rise
}{[]string{"clay", "silty clay loam", "loam", "sandy loam", "sand"}, []float64{1, 2, 3}, []float64{200, 1500}, []float64{0.8, 1.4}, 4, 8}

// state is one of them with what came out.
type state struct {
	texture                   string
	level, resistance, storms float64
	was, is                   float64 // mean yearly peak hour, mm/h
}

func (s state) String() string {
	return fmt.Sprintf("%s, water at %g m and %g d, rain x %g: %.2f to %.2f mm/h", s.texture, s.level, s.resistance, s.storms, s.was, s.is)
}

// resolvedRise is the least rise that counts, mm/h: a twentieth of a millimetre in a
// year's greatest hour makes no flood.
const resolvedRise = 0.05

// risingPeaks seeks states in which tile raises the mean yearly peak hour, at screening
// precision, and runs those again in full and for longer.
// The level and the resistance of the outside water set how wet the ground stands.
func risingPeaks(ctx context.Context) ([]Check, error) {
	var states []state
	for _, texture := range searched.textures {
		for _, level := range searched.levels {
			for _, resistance := range searched.resistances {
				for _, storms := range searched.storms {
					states = append(states, state{texture: texture, level: level, resistance: resistance, storms: storms})
				}
			}
		}
	}
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(2)
	for i := range states {
		g.Go(func() error {
			s := &states[i]
			if err := s.run(ctx, searched.years, compare.Screening()); err != nil || s.is-s.was < resolvedRise/2 {
				return err
			}
			return s.run(ctx, searched.again, compare.Full())
		})
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	var rose []string
	fell := 0
	for _, s := range states {
		if s.is-s.was > resolvedRise {
			rose = append(rose, s.String())
		} else if s.was-s.is > resolvedRise {
			fell++
		}
	}
	found := "none was found"
	if len(rose) > 0 {
		found = "they are " + strings.Join(rose, "; ")
	}
	note := fmt.Sprintf("%d states: clay to sand, outside water at 1 to 3 m behind 200 and 1500 d, rain x 0.8 and 1.4 of the demo's climate, %d years, and %d at full precision where it seemed to rise; tile 1.1 m deep at 15 m; "+
		"changes up to %g mm/h count as none. It falls in %d; it rises in %d: %s", len(states), searched.years, searched.again, resolvedRise, fell, len(rose), found)
	c := evidence("peak, field", "Robinson 1990").report("search", "states in which the yearly peak hour rises with tile", "-", float64(len(rose)), 1, float64(len(states)-1), note)
	return []Check{c}, nil
}

// run simulates the state's pair.
func (s *state) run(ctx context.Context, years int, p compare.Precision) error {
	sand, clay, err := site.TextureMiddle(s.texture)
	if err != nil {
		return err
	}
	l := land{s.texture, s.texture, weather.DemoClimate().Wetter(s.storms), fmt.Sprintf(`
invented: true
soil:
  horizons:
    - {from: 0 cm,  to: 25 cm,  sand: %g %%, clay: %g %%, organic_matter: 3 %%}
    - {from: 25 cm, to: 300 cm, sand: %g %%, clay: %g %%}
groundwater: {outside_level: %g m, resistance: %g d}
tile: {depth: 1.1 m, spacing: 15 m}
crop: [corn, soybean]
`, sand, clay, sand, clay, s.level, s.resistance)}
	r, err := l.pair(ctx, years, p)
	if err != nil {
		return fmt.Errorf("%s, water at %g m: %w", s.texture, s.level, err)
	}
	was, is := r.peakHours()
	s.was, s.is = stat.Mean(was, nil), stat.Mean(is, nil)
	return nil
}
