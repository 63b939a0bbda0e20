package salt

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// front is c/c0 at depth x (m) and time t (d) behind a step in the inflow, for
// pore water of velocity v (m/d) and dispersion d (m2/d): Ogata and Banks (1961,
// USGS Professional Paper 411-A, from memory; that it meets the equation and the
// inlet is checked below). Where salt enters with the water, as here, it is the
// concentration of the water that passes x, not of that which lies there (Parker
// and van Genuchten 1984, from memory).
func front(x, t, v, d float64) float64 {
	w := 2 * math.Sqrt(d*t)
	return (math.Erfc((x-v*t)/w) + math.Exp(v*x/d)*math.Erfc((x+v*t)/w)) / 2
}

// The solution was recalled, so it is put into dc/dt + v dc/dx = d d2c/dx2 by
// central differences, and to c = 1 at the inlet.
func TestOgataBanksMeetsTheEquation(t *testing.T) {
	const v, d = 0.01, 0.002
	for _, p := range []struct{ x, t float64 }{{0.3, 40}, {1, 100}, {1.5, 120}} {
		const hx, ht = 1e-3, 1e-2
		dt := (front(p.x, p.t+ht, v, d) - front(p.x, p.t-ht, v, d)) / (2 * ht)
		dx := (front(p.x+hx, p.t, v, d) - front(p.x-hx, p.t, v, d)) / (2 * hx)
		dxx := (front(p.x+hx, p.t, v, d) - 2*front(p.x, p.t, v, d) + front(p.x-hx, p.t, v, d)) / (hx * hx)
		// Central differences err by h^2/6 and h^2/12 of the next even derivative,
		// here 1e-5 of the terms.
		if left := dt + v*dx - d*dxx; math.Abs(left) > 1e-4*math.Abs(v*dx) {
			t.Errorf("%g m, %g d: %g of %g left over", p.x, p.t, left, v*dx)
		}
		if c := front(0, p.t, v, d); math.Abs(c-1) > 1e-12 {
			t.Errorf("inlet at %g d: %g", p.t, c)
		}
	}
}

// passing runs a step of salt in the inflow (1 kg/m3 in 2 mm/d) down 5 m of soil
// with 0.4 m3/m3 of water, in cells of 1 cm and days, or both divided by fine. It
// returns the concentration of the water that passed 0.5 m and 1 m on each day,
// kg/m3.
func passing(fine, days int) [2][]float64 {
	n := 500 * fine
	w := water(n, 0.01/float64(fine), 0.4, 0.002/float64(fine))
	w.Arrived = w.Through[0]
	s := New(n)
	above := func(cells int) float64 {
		sum := 0.0
		for _, m := range s.Mass[:cells] {
			sum += m
		}
		return sum
	}
	var c [2][]float64
	for range days {
		before := [2]float64{above(50 * fine), above(100 * fine)}
		for range fine {
			s.Day(w)
		}
		for i, b := range before {
			c[i] = append(c[i], 1-(above((i+1)*50*fine)-b)/0.002)
		}
	}
	return c
}

// A step of salt in the inflow against Ogata and Banks, at the dispersivity of
// field soils at the metre scale, 0.2 m (from memory). The error of implicit upwind
// steps is of first order in cell and step, v (dz + v dt)/2 of dispersion and the
// like; two runs, one in half the cells and half the steps, cancel it: twice the
// second less the first.
func TestFrontAgainstOgataBanks(t *testing.T) {
	const v, alpha, days = 0.005, 0.2, 300 // m/d, m
	coarse, fine := passing(1, days), passing(2, days)
	for i, x := range []float64{0.5, 1} {
		first := 0.0 // the greatest error of first order
		for day := 9; day < days; day += 10 {
			got, want := 2*fine[i][day]-coarse[i][day], front(x, float64(day)+0.5, v, alpha*v)
			// Of second order: (dz + v dt)/2 over 0.2 m, squared, is 0.0014.
			if math.Abs(got-want) > 0.0014 {
				t.Errorf("%g m, day %d: c/c0 %.4f, exact %.4f", x, day+1, got, want)
			}
			first = max(first, math.Abs(coarse[i][day]-want))
		}
		// (dz + v dt)/2 is 4 % of the dispersivity, and moves the curve by less.
		if first > 0.04 {
			t.Errorf("%g m: days and cells of 1 cm are %.3f off", x, first)
		}
	}
}

// The mean time at which salt leaves is one pore volume, whatever the dispersion:
// piston displacement (first moment of the outflow).
func TestPoreVolumeDisplaces(t *testing.T) {
	const n, dz, theta, q, c0 = 20, 0.05, 0.4, 0.005, 3.0
	w := water(n, dz, theta, q)
	s := New(n)
	for i := range n {
		s.Mass[i] = c0 * dz * theta
	}
	pores, carried := n*dz*theta, 0.0 // m
	for ran := 0.0; ran < 20*pores; ran += q {
		carried += s.Day(w).BaseOut / c0
	}
	// The slowest share decays by e^-1 or faster to each pore volume: e^-20 = 2e-9.
	if math.Abs(carried/pores-1) > 1e-8 {
		t.Errorf("%.10g pore volumes at the first concentration carried all salt out", carried/pores)
	}
}

// closing draws a day of water that closes in every cell, from contents `was` to
// the day's Content: fluxes both ways, two laterals, ponding, and (with uptake)
// roots that take water and leave salt.
func closing(rt *rapid.T, was []float64, dz float64, uptake bool) Water {
	n := len(was)
	w := Water{Dz: make([]float64, n), Content: make([]float64, n), Through: make([]float64, n+1), Out: [][]float64{make([]float64, n), make([]float64, n)}}
	draw := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
	w.Through[0] = draw(-0.01, 0.03, "infiltration")
	for i := range n {
		w.Dz[i] = dz
		w.Content[i] = draw(0.1, 0.5, "content")
		w.Out[0][i], w.Out[1][i] = draw(0, 0.002, "drain"), draw(0, 0.001, "ditch")
		taken := w.Out[0][i] + w.Out[1][i]
		if uptake {
			taken += draw(0, 0.003, "uptake")
		}
		w.Through[i+1] = w.Through[i] - taken - (w.Content[i]-was[i])*dz
	}
	return w
}

// Where no water evaporates, every water keeps the concentration that all waters
// share, whichever way they go; where water does, concentrations never fall below
// the least of what was there and what came (the maximum principle).
func TestOneConcentrationStays(t *testing.T) {
	const n, dz, c0 = 10, 0.1, 3.0 // kg/m3
	for _, uptake := range []bool{false, true} {
		t.Run(fmt.Sprintf("uptake %v", uptake), func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				was := make([]float64, n)
				s := New(n)
				for i := range n {
					was[i] = 0.3
					s.Mass[i] = c0 * was[i] * dz
				}
				pond := 0.0 // m
				for range 10 {
					w := closing(rt, was, dz, uptake)
					// Enough water comes for infiltration, and the rest stands or runs off.
					rain := max(w.Through[0]-pond, 0) + rapid.Float64Range(0, 0.02).Draw(rt, "rain")
					rest := pond + rain - w.Through[0]
					w.Runoff = rest * rapid.Float64Range(0, 1).Draw(rt, "share that runs off")
					w.Pond = rest - w.Runoff
					pond = w.Pond
					w.Arrived, w.BaseEC = rain*c0, c0/PerEC
					f := s.Day(w)
					drained := 0.0
					for _, out := range w.Out {
						for _, q := range out {
							drained += q
						}
					}
					// 1e-10: ten solves of rounding on amplification by cell water over
					// the day's flux, below 1e3.
					flows := []struct {
						name        string
						salt, water float64
					}{{"pond", s.Pond, w.Pond}, {"runoff", f.Runoff, w.Runoff}, {"laterals", f.Laterals, drained},
						{"base", f.BaseOut, max(w.Through[n], 0)}, {"base inflow", f.BaseIn, max(-w.Through[n], 0)}}
					for i, m := range s.Mass {
						flows = append(flows, struct {
							name        string
							salt, water float64
						}{fmt.Sprintf("cell %d", i), m + s.Solid[i], w.Content[i] * dz})
					}
					for _, x := range flows {
						short := c0*x.water - x.salt
						if short > 1e-10 || !uptake && short < -1e-10 {
							rt.Fatalf("%s: %.12g kg/m2 in %.6g m of water, at %g kg/m3", x.name, x.salt, x.water, c0)
						}
					}
					copy(was, w.Content)
				}
			})
		})
	}
}

// Salt stays behind when roots and the surface take water: half the water, twice
// the concentration; conservation of mass.
func TestEvaporationConcentrates(t *testing.T) {
	const dz = 0.1
	s := New(3)
	for i := range 3 {
		s.Mass[i] = 2 * 0.4 * dz
	}
	for _, theta := range []float64{0.2, 0.1, 0.05} {
		s.Day(water(3, dz, theta, 0))
		for i, m := range s.Mass {
			if c, want := m/(theta*dz), 2*0.4/theta; math.Abs(c/want-1) > 1e-14 { // a few roundings
				t.Errorf("cell %d at %g: %.15g kg/m3, want %g", i, theta, c, want)
			}
		}
	}
}

// FAO-29's root zone by quarters (M15: ECw 1 dS/m, leaching fraction 0.15; from
// memory, recomputed): the water that leaves is at ECw over the fraction, 6.67
// dS/m. The uptake by quarters, 40-30-20-10 %, must not matter for it.
func TestLeachingByQuarters(t *testing.T) {
	const n, dz, theta, applied, fraction = 40, 0.025, 0.3, 0.0032, 0.15
	w := water(n, dz, theta, applied)
	left := applied
	for i := range n {
		share := []float64{0.4, 0.3, 0.2, 0.1}[i/(n/4)] / (n / 4)
		left -= share * (1 - fraction) * applied
		w.Through[i+1] = left
	}
	w.Arrived = applied * PerEC
	s := New(n)
	var f Flux
	for range 30 * 365 {
		f = s.Day(w)
	}
	// Within 1 %, as the balance is exact once thirty years have replaced the water
	// of the root zone a dozen times.
	if ec := f.BaseOut / w.Through[n] / PerEC; math.Abs(ec/6.6667-1) > 0.01 {
		t.Errorf("drains at %.3f dS/m, ECw/LF is 6.667", ec)
	}
}
