package proof

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"mottle/weather"
)

// coldBook gathers the days of a run.
type coldBook struct {
	sum, squares [winterParts][len(weather.SoilDepths)]float64
	n            [winterParts][len(weather.SoilDepths)]int
	frost        map[[2]int]*Frost
	order        [][2]int
}

func newColdBook() *coldBook { return &coldBook{frost: map[[2]int]*Frost{}} }

func (b *coldBook) day(d weather.Date, measured, simulated [len(weather.SoilDepths)]float64) {
	y, month, _ := d.Civil()
	part := winterPart(month)
	if part >= 0 {
		for k := range measured {
			if e := simulated[k] - measured[k]; !math.IsNaN(e) {
				b.n[part][k]++
				b.sum[part][k] += e
				b.squares[part][k] += e * e
			}
		}
	}
	found, beyond, read := frostBetween(measured, measured)
	if !read || month > 7 && part != earlyWinter {
		return
	}
	if part < 0 {
		part = lateWinter // May to July: frost that lingers
	}
	key := [2]int{y, part}
	if b.frost[key] == nil {
		b.frost[key] = &Frost{Year: y, Part: part}
		b.order = append(b.order, key)
	}
	f := b.frost[key]
	made, _, _ := frostBetween(simulated, measured)
	f.Measured, f.Simulated = math.Max(f.Measured, found), math.Max(f.Simulated, made)
	f.Beyond = f.Beyond || beyond
	if found > 0 {
		f.Last = d
	}
	if made > 0 {
		f.SimulatedLast = d
	}
}

// frostBetween is the depth of the deepest 0 C crossing between probes, m, 0 when
// none is below freezing; beyond says that the deepest was. Probes that read
// nothing that day are left out, for both sides of a comparison; read is false
// when fewer than three did.
func frostBetween(t, present [len(weather.SoilDepths)]float64) (depth float64, beyond, read bool) {
	var z, v []float64
	for k, x := range present {
		if !math.IsNaN(x) {
			z, v = append(z, weather.SoilDepths[k]), append(v, t[k])
		}
	}
	if len(z) < 3 {
		return 0, false, false
	}
	for k := len(z) - 1; k >= 0; k-- {
		if v[k] >= 0 {
			continue
		}
		if k == len(z)-1 {
			return z[k], true, true
		}
		return z[k] + (z[k+1]-z[k])*v[k]/(v[k]-v[k+1]), false, true
	}
	return 0, false, true
}

func (b *coldBook) close(run *ColdRun) {
	for p := range b.n {
		for k, n := range b.n[p] {
			run.Errors[p][k] = ColdError{n, b.sum[p][k] / float64(n), math.Sqrt(b.squares[p][k] / float64(n))}
		}
	}
	for _, key := range b.order {
		run.Winters = append(run.Winters, *b.frost[key])
	}
}

// RMSE is the median over stations of the error at depths from top to bottom, in a
// part of winter, C.
func (r *ColdReport) RMSE(exposure string, part int, top, bottom float64) float64 {
	var all []float64
	for _, run := range r.Runs {
		if run.Exposure != exposure {
			continue
		}
		for k, z := range weather.SoilDepths {
			if z >= top && z <= bottom && run.Errors[part][k].N >= 20 {
				all = append(all, run.Errors[part][k].RMSE)
			}
		}
	}
	return median(all)
}

// FrostError is the median over stations of their mean absolute error of the
// deepest frost, m, over winters with frost on either side, and of the last frozen
// day, d, where both froze. Where the deepest probe froze, deeper frost is no error.
func (r *ColdReport) FrostError(exposure string, part int) (depth, days float64) {
	var depths, dates []float64
	for _, run := range r.Runs {
		if run.Exposure != exposure {
			continue
		}
		var z, d []float64
		for _, f := range run.Winters {
			if f.Part != part || f.Measured == 0 && f.Simulated == 0 {
				continue
			}
			miss := math.Abs(f.Simulated - f.Measured)
			if f.Beyond && f.Simulated >= f.Measured {
				miss = 0
			}
			z = append(z, miss)
			if f.Last != 0 && f.SimulatedLast != 0 {
				d = append(d, math.Abs(float64(f.SimulatedLast-f.Last)))
			}
		}
		depths, dates = append(depths, stat.Mean(z, nil)), append(dates, stat.Mean(d, nil))
	}
	return median(depths), median(dates)
}

// Bias is the median over stations of the bias at a probe, C.
func (r *ColdReport) Bias(exposure string, part, probe int) float64 {
	var all []float64
	for _, run := range r.Runs {
		if run.Exposure == exposure {
			all = append(all, run.Errors[part][probe].Bias)
		}
	}
	return median(all)
}
