package proof

import (
	"context"
	"fmt"
	"math"
	"slices"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/drain"
	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/sim/worth"
	"mottle/soil"
	"mottle/weather"
)

const thumb = "common practice"

// thumbGroup holds the demo against rules of thumb of the drainage trade. A rule
// is no law and the demo is one field: the rows report and never fail.
func thumbGroup(ctx context.Context) ([]Check, error) {
	usual, err := demoPair(ctx, func(*site.Field) {})
	if err != nil {
		return nil, err
	}
	shallow, err := demoPair(ctx, func(f *site.Field) {
		f.Tile.Depth = 0.9
		f.Surface.Exposure = snow.Swept
	})
	if err != nil {
		return nil, err
	}
	layout, err := layoutThumbs(usual.Field)
	if err != nil {
		return nil, err
	}
	topsoil, err := topsoilThumbs(usual.Field)
	if err != nil {
		return nil, err
	}
	checks := append(layout, topsoil...)
	checks = append(checks, airThumb(usual))
	checks = append(checks, frostThumbs(shallow, usual)...)
	checks = append(checks, flowThumbs(usual)...)
	yields, err := yieldThumb(usual)
	if err != nil {
		return nil, err
	}
	checks = append(append(checks, yields), notComputed()...)
	for i := range checks {
		c := &checks[i]
		c.ID, c.Source, c.Status, c.Report = "thumb/"+c.ID, thumb, Practice, true
	}
	return checks, nil
}

// thumbYears of invented weather are run.
const thumbYears = 20

// demoPair compares the demo, changed as asked, under the invented climate.
func demoPair(ctx context.Context, change func(*site.Field)) (*compare.Result, error) {
	s := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), thumbYears, 1)
	f, met, err := compare.Meet(site.Demo(), compare.Record{Series: s}, compare.Period{}, false)
	if err != nil {
		return nil, err
	}
	change(f)
	return compare.Run(ctx, f, met, compare.Options{})
}

// report is a row: what was found, and the range of the rule.
func report(id, what, unit string, got, low, high float64, note string) Check {
	return Check{ID: id, What: what, Unit: unit, Got: got, Low: low, High: high, Note: note}
}

// layoutThumbs are depth, spacing and size of the pipes.
func layoutThumbs(f *site.Field) ([]Check, error) {
	const coefficient = 9.525e-3 / 86400 // 3/8 in/d, m/s
	const held = 0.30                    // depth at which the table is held, m
	materials, err := soil.DeriveProfile(f.Horizons)
	if err != nil {
		return nil, err
	}
	radius, _, err := drain.EffectiveRadius(f.Tile.Diameter, f.Tile.Wrap)
	if err != nil {
		return nil, err
	}
	depth := f.Tile.Depth
	spacing := drain.HooghoudtSpacing(meanConductivity(materials, held, depth), meanConductivity(materials, depth, f.Restrictive),
		f.Restrictive-depth, radius, depth-held, coefficient)
	size := func(id, what string, low, high float64) Check {
		return report(id, what, "mm", 1000*f.Tile.Diameter, low, high, "the demo's laterals, as stated in its field file")
	}
	return []Check{
		report("depth", "depth of tile", "m", depth, 0.9, 1.2, "the demo's, as stated in its field file"),
		report("spacing", "spacing on flat wet ground", "m", spacing, 12, 21,
			fmt.Sprintf("Hooghoudt for 9.5 mm/d with the table held at 0.30 m, the demo's soil and depth; its field file states %.1f m", f.Tile.Spacing)),
		size("tubing", "tubing, all sizes", 75, 250),
		size("tubing, mostly", "tubing, the usual two sizes", 100, 150),
	}, nil
}

// meanConductivity is the horizontal mean over a range of depths, m/s.
func meanConductivity(materials []soil.Material, from, to float64) float64 {
	sum := 0.0
	for _, m := range materials {
		sum += m.Curve.Ksat() * math.Max(0, math.Min(m.Bottom, to)-math.Max(m.Top, from))
	}
	return sum / (to - from)
}

// topsoilThumbs are the parts of a drained topsoil: half solids, a quarter
// water, a quarter air. A quarter is taken as 0.20 to 0.30.
func topsoilThumbs(f *site.Field) ([]Check, error) {
	loam, err := soil.Derive(f.Runon.Horizons[0])
	if err != nil {
		return nil, err
	}
	const note = "topsoil of the demo's loam upland at 1 m suction, two days after rain above tile"
	water := loam.FieldCapacity
	return []Check{
		report("topsoil, solids", "solids of a good topsoil", "m3/m3", 1-loam.Curve.ThetaS, 0.45, 0.55, note),
		report("topsoil, water", "water of a good topsoil, drained", "m3/m3", water, 0.20, 0.30,
			note+fmt.Sprintf("; %.2f at 33 kPa. Where above: structure empties by half a metre of suction, the finer pores of a loam hold on", loam.Theta33)),
		report("topsoil, air", "air of a good topsoil, drained", "m3/m3", loam.Curve.ThetaS-water, 0.20, 0.30,
			note+fmt.Sprintf("; %.2f at 33 kPa. Where below: what is not air is water", loam.Curve.ThetaS-loam.Theta33)),
	}, nil
}

// airThumb asks of the days on which the topsoil stood full for hours whether
// the roots ran out of air.
func airThumb(r *compare.Result) Check {
	const hours = 6.0
	d := r.Pair.AsItLies.Days
	air, n := 0.0, 0
	for i := range d.Air {
		if d.Season[i] && d.WetHours[i] > hours && d.IceTop[i] == 0 {
			air += d.Air[i]
			n++
		}
	}
	return report("saturation harms", "air in the top 0.30 m on days with more than 6 h of water table there", "m3/m3", air/math.Max(float64(n), 1), 0, 0.10,
		fmt.Sprintf("%d crop days of %d years of the demo as it lies; below 0.10 roots go short of air", n, thumbYears))
}

// frostThumbs are what winter does to a tile at 0.9 m under swept snow.
func frostThumbs(r, usual *compare.Result) []Check {
	const note = "the demo with tile at 0.9 m and snow swept by wind, %d invented years"
	days := r.Pair.WithTile.Days
	shut, n := 0.0, 0.0
	for i, m := range r.Pair.WithTile.Forcing.Month {
		if m <= 2 {
			n++
			if days.Drain[i] < 0.1 {
				shut++
			}
		}
	}
	flow, frost := line(r, "first_drain_flow").YearsWithTile, line(r, "deepest_frost").YearsWithTile
	var hard []float64
	for i, z := range frost {
		if z > r.Field.Tile.Depth && !math.IsInf(flow[i], 0) {
			hard = append(hard, flow[i])
		}
	}
	slices.Sort(hard)
	opens := 0.0
	if len(hard) > 0 {
		opens = hard[len(hard)/2]
	}
	return []Check{
		report("frozen in winter", "days of January and February without drain flow", "%", 100*shut/n, 75, 100, fmt.Sprintf(note, thumbYears)+"; less than 0.1 mm/d"),
		report("hard winter", "first drain flow after a hard winter", "day of year", opens, 121, 135,
			fmt.Sprintf(note, thumbYears)+fmt.Sprintf("; median of the %d years whose frost passed the tile; 1 to 15 May stands for early May. Where later: thaw is not enough, "+
				"water must arrive too, and swept ground freezes deepest; the demo's own tile and snow give day %.0f", len(hard), line(usual, "first_drain_flow").WithTile)),
	}
}

// line is a measure of a comparison.
func line(r *compare.Result, measure string) compare.Line {
	for _, l := range r.Lines {
		if l.Name == measure {
			return l
		}
	}
	panic("no measure " + measure)
}

// flowThumbs are peaks and yearly flow.
func flowThumbs(r *compare.Result) []Check {
	const note = "mean of the demo's %d yearly values, with run-on from the land above; "
	const unrouted = "a wet depression at its own edge, unrouted: tile leaves it more room for the great hour than for the great day, and a whole watershed falls less, or rises"
	lower := func(name string) float64 {
		l := line(r, name)
		return 100 * (l.AsItLies - l.WithTile) / l.AsItLies
	}
	all := line(r, "all_outflow")
	return []Check{
		report("peaks, hour", "peak flow of the year, hour: lower with tile by", "%", lower("peak_hour"), 15, 30,
			fmt.Sprintf(note, thumbYears)+unrouted),
		report("peaks, day", "peak flow of the year, day: lower with tile by", "%", lower("peak_day"), 15, 30,
			fmt.Sprintf(note, thumbYears)+unrouted),
		report("yearly flow", "yearly flow from the land, seepage and water let in counted: change with tile", "%", -lower("all_outflow"), -10, 5,
			fmt.Sprintf(note, thumbYears)+fmt.Sprintf("%.0f mm become %.0f mm under %.0f mm of rain: where above, few millimetres on a small flow, since wet ground evaporates them and drained ground does not",
				all.AsItLies, all.WithTile, line(r, "precipitation").AsItLies)),
	}
}

// yieldThumb is the gain in yield of the demo's pair, by the relations of the decision.
func yieldThumb(r *compare.Result) (Check, error) {
	total := func(rec *sim.Record) (sum float64, err error) {
		seasons, err := worth.Seasons(rec, r.Field.Rotation)
		for _, s := range seasons {
			sum += s.Yield.Share
		}
		return sum, err
	}
	lies, err := total(r.Pair.AsItLies)
	if err != nil {
		return Check{}, err
	}
	tiled, err := total(r.Pair.WithTile)
	if err != nil {
		return Check{}, err
	}
	return report("yields", "yields on the wet ground, gain with tile", "%", 100*(tiled/lies-1), 10, 25,
		fmt.Sprintf("sum of the demo's %d years; ", thumbYears)+"the published lines of yield over excess water take far more from a hollow than trials on flat land weighed (6 to 45 %); on the one field where they could be held against measured yields they took five to ten times too much"), nil
}

// notComputed are the rules that nothing here answers; the zero found stands for no
// answer.
func notComputed() []Check {
	return []Check{
		report("share of farms", "share of land that needs tile: NOT COMPUTED", "%", 0, 1, 25, "not computed: one field says nothing of a county; the 0 stands for no answer"),
	}
}
