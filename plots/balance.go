package plots

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim"
)

// fate is a way that water takes out of the field.
type fate struct {
	name string
	fill color.NRGBA
	h    hatch
	of   func(d *sim.Days, i int) float64 // mm
}

// fates in the order of the stack, from the ground up: what reaches the edge
// first, so that the twins compare from one line.
var fates = []fate{
	{"surface runoff", orange, falling, func(d *sim.Days, i int) float64 { return d.Runoff[i] }},
	{"drain", blue, plain, func(d *sim.Days, i int) float64 { return d.Drain[i] }},
	{"ditch", skyBlue, level, func(d *sim.Days, i int) float64 { return d.Ditch[i] }},
	{"seepage", purple, rising, func(d *sim.Days, i int) float64 { return d.SeepageOut[i] }},
	{"evapotranspiration", paleGreen, plain, func(d *sim.Days, i int) float64 { return d.Transpiration[i] + d.Evaporation[i] }},
	{"snow blown off", snowGrey, crossed, func(d *sim.Days, i int) float64 { return d.BlownOff[i] }},
}

// received is all water that reaches the field.
func received(d *sim.Days, i int) float64 { return d.Precipitation[i] + d.Runon[i] + d.LetIn[i] }

// yearSums adds up the days of each complete year, in the units of the axes; the
// last value is the mean of the years.
func (s subject) yearSums(r *sim.Record, of func(d *sim.Days, i int) float64) []float64 {
	sums := make([]float64, len(r.Years)+1)
	mean := 0.0
	for k, y := range r.Years {
		t := 0.0
		for i := y.First; i < y.End; i++ {
			t += of(r.Days, i)
		}
		sums[k] = s.value(t, "mm")
		mean += sums[k] / float64(len(r.Years))
	}
	sums[len(r.Years)] = mean
	return sums
}

// waterBalance draws where the water of each year went, a panel for each twin.
func (s subject) waterBalance() (Figure, error) {
	const title = "Where each year’s water went"
	edgeFlow, err := s.line("edge_flow")
	if err != nil {
		return Figure{}, err
	}
	records := []*sim.Record{s.r.Pair.AsItLies, s.r.Pair.WithTile}
	n := len(s.r.Years)
	parts := make([][][]float64, len(records)) // by twin, fate, year
	in := make([][]float64, len(records))
	most := 0.0
	for t, r := range records {
		in[t] = s.yearSums(r, received)
		tops := make([]float64, n+1)
		for _, f := range fates {
			part := s.yearSums(r, f.of)
			parts[t] = append(parts[t], part)
			for k, v := range part {
				tops[k] += v
			}
		}
		most = max(most, in[t][largest(in[t])], tops[largest(tops)])
	}
	return render("water-balance", title, 490, func(c draw.Canvas) {
		sh := newSheet(c)
		sh.heading(title, s.verdict("Runoff, drain and ditch, mean", edgeFlow), s.stamp())
		sh.notes("Black line: what the field received (precipitation, run-on, water let in through the base). Above the parts, the year ended wetter; below, drier.", s.source())
		const between = 8
		half := (sh.room() - between) / 2
		for t, twin := range []twin{lies, tiled} {
			if t > 0 {
				sh.top -= between
			}
			p := sh.panel(half, 164, tickRoom, years(s.r.Years[0], s.r.Years[n-1]), upFrom(most, 6))
			p.frame(true)
			p.name(bold(letters(textSize, twin.line.Color)), twin.name)
			p.FillText(letters(textSize, ink), vg.Point{X: p.Min.X + 48, Y: p.Max.Y + panelHead/2}, "yearly depth ("+s.unit("mm")+")")
			for k, y := range s.r.Years {
				p.stack(float64(y)-0.40, float64(y)+0.40, k, parts[t], in[t])
			}
			mean := p
			mean.Rectangle.Min.X, mean.Rectangle.Max.X = p.Max.X+16, p.Max.X+40
			mean.x = axis{0, 1, plot.LinearScale{}, nil}
			mean.stack(0, 1, n, parts[t], in[t])
			mean.FillText(centred(letters(textSize, soft)), vg.Point{X: mean.Center().X, Y: mean.Min.Y - 10}, "mean")
			bottom := 0.0
			var tags []tag
			for j, f := range fates {
				if v := parts[t][j][n]; v > 0 {
					tags = append(tags, tag{bottom + v/2, []string{f.name + " " + short(v)}, ink})
					bottom += v
				}
			}
			tags = append(tags, tag{in[t][n], []string{"received " + short(in[t][n])}, ink})
			mean.tags(mean.Max.X, tags...)
		}
	})
}

// stack draws the parts of one year as a column, with a line at what came in.
func (p panel) stack(x0, x1 float64, k int, parts [][]float64, in []float64) {
	bottom := 0.0
	for j, f := range fates {
		p.bar(f.fill, f.h, x0, x1, bottom, bottom+parts[j][k])
		bottom += parts[j][k]
		if parts[j][k] > 0 {
			y := p.at(x0, bottom).Y
			p.StrokeLine2(draw.LineStyle{Color: white, Width: 0.5}, p.at(x0, 0).X, y, p.at(x1, 0).X, y)
		}
	}
	y := p.at(x0, in[k]).Y
	p.StrokeLine2(draw.LineStyle{Color: ink, Width: 1.2}, p.at(x0, 0).X, y, p.at(x1, 0).X, y)
}
