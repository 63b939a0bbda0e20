package plots

import (
	"fmt"
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var (
	paleSlate = rgb(0xC9D3DE)
	midSlate  = rgb(0x93A8BF)
	costLine  = draw.LineStyle{Color: ink, Width: 1, Dashes: []vg.Length{1.5, 2}}
)

// extraIncome draws the extra income of each year of the record, the least first.
func (d decision) extraIncome() drawing {
	y := d.values(sorted(d.w.Income), "USD/ha")
	u := d.unit("USD/ha")
	cost := d.value(d.w.Money.YearlyCost, "USD/ha")
	covers := 0
	for _, v := range y {
		if v >= cost {
			covers++
		}
	}
	return drawing{
		name: "extra-income", title: "Extra income of each year, the least first", from: "income.csv",
		says: fmt.Sprintf("Mean %s %s a year. The tile and its upkeep cost %s %s a year, spread evenly; %d of %s bring that or more.",
			round3(d.value(d.w.Money.Income, "USD/ha")), u, round3(cost), u, covers, count(len(y), "year")),
		notes:  "Income with tile less income as it lies, at middle prices, before the tile’s cost. Hatched: years in which tile loses.",
		height: 108,
		ink: func(sh *sheet) {
			sh.key(entry{"a year", swatch(slate, plain)}, entry{"a loss", swatch(rust, rising)}, entry{"yearly cost of tile", stroke(costLine, draw.GlyphStyle{})})
			low, high := 0.0, 0.0
			for _, v := range append([]float64{cost}, y...) {
				if !math.IsNaN(v) {
					low, high = min(low, v), max(high, v)
				}
			}
			n := max(len(y), 8)
			x := axis{0, float64(n), plot.LinearScale{}, nil}
			p := sh.panel(sh.room(), 0, 6, x, throughZero(low, high, 4))
			p.frame(false)
			p.name(letters(textSize, ink), u)
			side := float64(n-len(y)) / 2
			for i, v := range y {
				at := side + float64(i)
				if v < 0 {
					p.bar(rust, rising, at+0.1, at+0.9, v, 0)
				} else {
					p.bar(slate, plain, at+0.1, at+0.9, 0, v)
				}
			}
			p.level(draw.LineStyle{Color: soft, Width: 0.7}, 0)
			if !math.IsNaN(cost) {
				p.level(draw.LineStyle{Color: white, Width: 2.6}, cost)
				p.level(costLine, cost)
			}
		},
	}
}

// payback draws how the running sum of money spreads over the futures.
func (d decision) payback() drawing {
	f := d.w.Futures
	u := d.unit("USD/ha")
	x := make([]float64, len(f.Fan))
	q := make([][]float64, 5)
	low, high := 0.0, 0.0
	for i, y := range f.Fan {
		x[i] = float64(y.Year)
		for k, v := range []float64{y.Q05, y.Q25, y.Median, y.Q75, y.Q95} {
			v = d.value(v, "USD/ha")
			q[k] = append(q[k], v)
			low, high = min(low, v), max(high, v)
		}
	}
	says := fmt.Sprintf("Of %s futures", round3(float64(f.Draws)))
	for i, c := range f.Pays {
		join := ", "
		switch {
		case i == 0:
			join = " "
		case i == len(f.Pays)-1:
			join = " and "
		}
		says += fmt.Sprintf("%s%s in 100 have paid back within %d", join, ofHundred(c.Share), c.Within)
	}
	return drawing{
		name: "payback", title: "Money back over the years", from: "futures.csv", says: says + " years.",
		notes:  "Running sum of discounted income less outlay and upkeep. Years of the record drawn in blocks, prices, costs and soils from their ranges. Above zero the tile has paid back. Figures along the top: of 100 futures, those paid back by then.",
		height: 114,
		ink: func(sh *sheet) {
			sh.key(entry{"median", stroke(draw.LineStyle{Color: slate, Width: 1.6}, draw.GlyphStyle{})},
				entry{"half", swatch(midSlate, plain)}, entry{"nine of ten", swatch(paleSlate, plain)})
			horizontal := axis{x[0], x[len(x)-1], plot.LinearScale{}, marks(0, x[len(x)-1], round(x[len(x)-1]/8))}
			p := sh.panel(sh.room(), 4, 2*tickRoom-6, horizontal, throughZero(low, high+0.25*(high-low), 4))
			p.frame(true)
			p.name(letters(textSize, ink), u)
			p.below("years after the tile went in")
			p.between(paleSlate, x, q[0], q[4])
			p.between(midSlate, x, q[1], q[3])
			p.curve(draw.LineStyle{Color: slate, Width: 1.6}, x, q[2])
			p.level(draw.LineStyle{Color: ink, Width: 1}, 0)
			for _, c := range f.Pays {
				at := p.at(float64(c.Within), 0).X
				p.StrokeLine2(costLine, at, p.Min.Y, at, p.Max.Y-11)
				word := letters(textSize, ink)
				word.XAlign = -0.5
				if c.Within >= f.Fan[len(f.Fan)-1].Year {
					word.XAlign = -1
				}
				p.FillText(bold(word), vg.Point{X: at, Y: p.Max.Y - 4}, strconv.Itoa(int(math.Round(100*c.Share))))
			}
		},
	}
}

// between fills from one series to another.
func (p panel) between(fill color.Color, x, low, high []float64) {
	var outline []vg.Point
	for i := range x {
		outline = append(outline, p.at(x[i], low[i]))
	}
	for i := len(x) - 1; i >= 0; i-- {
		outline = append(outline, p.at(x[i], high[i]))
	}
	p.FillPolygon(fill, outline)
}
