package basin

import (
	"math"

	"mottle/sim/flood"
	"mottle/weather"
)

// Node is what passes a point of the network: a unit that others drain to, a reach, the
// outlet. Flows leave it, of the outlet they arrive.
type Node struct {
	Name string
	Area float64 // of the land above, m2

	Daily  [][parts]float64 // mean flow of each day of the record, m3/s by part
	Hourly [][parts]float64 // of each hour, of the outlet alone
	Peaks  Peaks

	Yearly  [][parts]float64   // mm over the land above, by complete year
	Monthly [12][parts]float64 // mm, mean of the complete years

	Flashiness float64   // Richards-Baker, of days
	BaseShare  float64   // of the flow that is base flow, filter of Lyne and Hollick; much of it is tile flow
	Lows       []float64 // least mean of 7 days, m3/s, by complete year
	Centre     float64   // mean day of the centre of volume, from 1 January
	Duration   []float64 // daily flow exceeded in the shares of Exceeded, m3/s

	Floods  []Flood
	Changes []flood.Change // of the yearly largest hour, against the first scenario; nil of the first
}

// Peaks are the largest hours of each complete year, m3/s.
type Peaks struct {
	Year, Spring, Rest []float64 // of the year, of March to May, of the other months
	On                 []weather.Date
	Split              [][parts]float64 // of the year's largest hour, by part
}

// Flood is the flow of a return period, m3/s: log-Pearson III with its 90 % limits,
// NaN where they cannot be had.
type Flood struct {
	Years           float64
	Flow, Low, High float64
}

// Exceeded are the shares of days of Node.Duration.
var Exceeded = []float64{0.01, 0.02, 0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 0.95, 0.99}

// confidence of all intervals.
const confidence = 0.90

// gauge gathers what passes a node, hour by hour.
type gauge struct {
	hours   bool // keep them
	daily   [][parts]float64
	hourly  [][parts]float64
	peaks   Peaks
	yearly  [][parts]float64 // m3
	monthly [12][parts]float64
	whole   []float64
	of      []int // year of each whole day
	centres []float64
}

// take reads a year's flows, m3/s.
func (g *gauge) take(flows [][parts]float64, from weather.Date, complete bool) {
	if g.hours {
		g.hourly = append(g.hourly, flows...)
	}
	days := len(flows) / 24
	var year [parts]float64
	var peak, spring, rest float64
	var on weather.Date
	var split [parts]float64
	var year365 []float64
	for d := range days {
		var mean [parts]float64
		_, month, _ := (from + weather.Date(d)).Civil()
		for _, q := range flows[24*d : 24*d+24] {
			total := 0.0
			for c, x := range q {
				mean[c] += x / 24
				total += x
			}
			if total > peak {
				peak, on, split = total, from+weather.Date(d), q
			}
			if month >= 3 && month <= 5 {
				spring = math.Max(spring, total)
			} else {
				rest = math.Max(rest, total)
			}
		}
		g.daily = append(g.daily, mean)
		total := 0.0
		for c, x := range mean {
			year[c] += x * 86400
			total += x
			if complete {
				g.monthly[month-1][c] += x * 86400
			}
		}
		if complete {
			g.whole, g.of = append(g.whole, total), append(g.of, from.Year())
			year365 = append(year365, total)
		}
	}
	if !complete {
		return
	}
	g.yearly = append(g.yearly, year)
	g.peaks.Year, g.peaks.Spring, g.peaks.Rest = append(g.peaks.Year, peak), append(g.peaks.Spring, spring), append(g.peaks.Rest, rest)
	g.peaks.On, g.peaks.Split = append(g.peaks.On, on), append(g.peaks.Split, split)
	if c, err := flood.Centre(year365); err == nil {
		g.centres = append(g.centres, c)
	}
}

// node closes the books.
func (g *gauge) node(name string, area float64, years []int) (*Node, error) {
	n := &Node{Name: name, Area: area, Daily: g.daily, Hourly: g.hourly, Peaks: g.peaks, Yearly: g.yearly, Centre: math.NaN()}
	perMM := 1000 / area
	for i := range n.Yearly {
		for c := range n.Yearly[i] {
			n.Yearly[i][c] *= perMM
		}
	}
	for m := range g.monthly {
		for c, x := range g.monthly[m] {
			n.Monthly[m][c] = x * perMM / float64(len(years))
		}
	}
	sum := 0.0
	for _, x := range g.whole {
		sum += x
	}
	if sum == 0 { // nothing ever passed
		n.Lows, n.Duration = make([]float64, len(years)), make([]float64, len(Exceeded))
		return n, nil
	}
	var err error
	if n.Flashiness, err = flood.Flashiness(g.whole[0], g.whole); err != nil {
		return nil, err
	}
	base, err := flood.NathanMcMahon.Base(g.whole)
	if err != nil {
		return nil, err
	}
	n.BaseShare = flood.Index(base, g.whole)
	lows, err := flood.Lows(g.whole, g.of, 7)
	if err != nil {
		return nil, err
	}
	n.Lows = flood.Flows(lows)
	if len(g.centres) > 0 {
		n.Centre = 0
		for _, c := range g.centres {
			n.Centre += c / float64(len(g.centres))
		}
	}
	curve, err := flood.NewDuration(g.whole)
	if err != nil {
		return nil, err
	}
	for _, share := range Exceeded {
		q, err := curve.Exceeded(share)
		if err != nil {
			return nil, err
		}
		n.Duration = append(n.Duration, q)
	}
	n.Floods = floods(n.Peaks.Year)
	return n, nil
}

// floods fits the yearly largest hours. A record too short for it has none.
func floods(peaks []float64) []Flood {
	fit, err := flood.FitLogPearson3(peaks)
	if err != nil {
		return nil
	}
	var out []Flood
	for _, years := range returnPeriods {
		f := Flood{Years: years, Flow: fit.Quantile(1 / years)}
		if f.Low, f.High, err = fit.Limits(1/years, confidence); err != nil {
			f.Low, f.High = math.NaN(), math.NaN()
		}
		out = append(out, f)
	}
	return out
}

// returnPeriods are those that a few decades of record can speak of.
var returnPeriods = []float64{2, 5, 10, 25}

// Draws of the bootstrap of changes.
const (
	changeDraws = 1000
	changeSeed  = 1967
)

// holdAgainstFirst sets the floods of every scenario's nodes against the first's.
func (r *Result) holdAgainstFirst() {
	against := func(was, is *Node) {
		changes, err := flood.Changes(was.Peaks.Year, is.Peaks.Year, returnPeriods, confidence, flood.Drawing{Draws: changeDraws, Block: 1, Seed: changeSeed})
		if err == nil { // too few years have none
			is.Changes = changes
		}
	}
	for k := 1; k < len(r.Scenarios); k++ {
		for i := range r.Scenarios[k].Nodes {
			against(&r.Scenarios[0].Nodes[i], &r.Scenarios[k].Nodes[i])
		}
	}
}
