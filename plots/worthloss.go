package plots

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"mottle/sim/crop"
	"mottle/sim/worth"
)

// causes in the order of the figure.
var causes = []crop.Cause{crop.Late, crop.Wet, crop.Dry, crop.Salt}

// meanLost is the mean loss of yield by cause over the seasons, % of the best yield.
func meanLost(seasons []worth.Season) (lost []float64) {
	lost = make([]float64, len(causes))
	for _, s := range seasons {
		for i, c := range causes {
			lost[i] += 100 * s.Yield.Lost[c] / float64(len(seasons))
		}
	}
	return lost
}

// losses draws what each cause costs of the best yield, a bar for each twin.
func (d decision) losses() drawing {
	a, b := meanLost(d.w.AsItLies), meanLost(d.w.WithTile)
	total := func(x []float64) (t float64) {
		for _, v := range x {
			t += v
		}
		return t
	}
	return drawing{
		name: "yield-losses", title: "What costs yield, mean of the years", from: "seasons.csv",
		says:   fmt.Sprintf("All causes together: %s %% of the best yield as it lies, %s %% with tile.", round3(total(a)), round3(total(b))),
		notes:  "Share of the yield of well-drained ground that is lost, by published relations; causes multiply, and the loss is parted among them.",
		height: 108,
		ink: func(sh *sheet) {
			barKey(sh)
			most := 0.0
			for i := range causes {
				most = max(most, a[i], b[i])
			}
			x := upFrom(most*1.25, 5)
			sh.top += panelHead - 5
			p := sh.panel(sh.room(), 0, 2*tickRoom-6, x, axis{0, float64(len(causes)), inverted, nil})
			p.Min.X += 34
			p.frame(true)
			p.below("% of the best yield")
			for i, c := range causes {
				at := p.at(0, float64(i)+0.5)
				p.FillText(toTheLeft(letters(textSize, ink)), vg.Point{X: p.Min.X - 5, Y: at.Y}, c.String())
				top := float64(i)
				p.bar(rust, plain, 0, a[i], top+0.12, top+0.48)
				p.bar(slate, plain, 0, b[i], top+0.56, top+0.80)
				at = p.at(max(a[i], b[i]), float64(i)+0.46)
				p.FillText(letters(textSize, ink), vg.Point{X: at.X + 4, Y: at.Y}, round3(a[i])+" → "+round3(b[i]))
			}
			p.StrokeLine2(draw.LineStyle{Color: soft, Width: 0.7}, p.Min.X, p.Min.Y, p.Min.X, p.Max.Y)
		},
	}
}

// seasonSalt draws the salt of the root zone through the years against what the crops
// of the rotation bear.
func (d decision) seasonSalt() drawing {
	x := make([]float64, len(d.w.Years))
	a, b := make([]float64, len(x)), make([]float64, len(x))
	most, above := 0.0, [2]int{}
	crops := byThreshold(d.r.Field.Rotation)
	limit := map[string]float64{}
	for _, c := range crops {
		limit[c.Crop] = c.Threshold
	}
	for i, y := range d.w.Years {
		x[i] = float64(y)
		for twin, s := range []worth.Season{d.w.AsItLies[i], d.w.WithTile[i]} {
			v := math.NaN() // no crop stood
			if s.ECe > 0 {
				v = s.ECe
				most = max(most, v)
			}
			if t, ok := limit[s.Crop]; ok && v > t {
				above[twin]++
			}
			[][]float64{a, b}[twin][i] = v
		}
	}
	var drawn []float64
	notes := "ECe: electrical conductivity of the saturation extract, dS/m, mean of the root zone and season. Threshold at which yield begins to fall:"
	for i, c := range crops {
		if i > 0 {
			notes += ","
		}
		notes += fmt.Sprintf(" %s %s", c.Crop, short(c.Threshold))
		if i == 0 || c.Threshold < 2*most {
			drawn = append(drawn, c.Threshold)
			most = max(most, c.Threshold)
		}
	}
	return drawing{
		name: "root-zone-salt", title: "Salt in the root zone, year by year", from: "seasons.csv",
		says:   fmt.Sprintf("Above the crop’s threshold in %d of %s as it lies, in %d with tile.", above[0], count(len(x), "year"), above[1]),
		notes:  notes + ".",
		height: 108,
		ink: func(sh *sheet) {
			pointKey(sh, entry{"threshold", stroke(threshold, draw.GlyphStyle{})})
			p := sh.panel(sh.room(), 0, tickRoom, d.yearAxis(), upFrom(most*1.08, 4))
			p.frame(true)
			p.name(letters(textSize, ink), "ECe (dS/m)")
			for _, v := range drawn {
				p.level(threshold, v)
			}
			p.curve(thin(lies.line), x, a)
			p.curve(thin(tiled.line), x, b)
			p.points(small(lies.glyph), x, a)
			p.points(small(tiled.glyph), x, b)
		},
	}
}
