package heat

import (
	"math"
	"testing"

	"mottle/soil"
)

func uniform(n int, dz float64, th *soil.Thermal, table *soil.Table) []Layer {
	layers := make([]Layer, n)
	for i := range layers {
		layers[i] = Layer{dz, th, table}
	}
	return layers
}

func fill(n int, x float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = x
	}
	return s
}

// What goes in is stored: no heat is lost in freezing and thawing.
func TestHeatIsKept(t *testing.T) {
	h := soil.NewHorizon(0, 3)
	h.Sand, h.Clay, h.Organic, h.BulkDensity = 10, 34, 3, 1.3
	m, err := soil.Derive(h)
	if err != nil {
		t.Fatal(err)
	}
	n := 40
	c := New(uniform(n, 0.08, &m.Thermal, m.Table), fill(n, 0.42), 3)
	for day := range 400 {
		before := c.Heat()
		air := 6 - 18*math.Cos(2*math.Pi*float64(day-15)/365)
		s := Surface{Air: air, Film: 0.06, Cover: 0.1}
		if air < -8 {
			s.Snow = 1.5
		}
		if _, err := c.Step(86400, s); err != nil {
			t.Fatal(err)
		}
		// Rounding of a store of 1e8 J/m2.
		if gap := c.Heat() - before - c.Inflow; math.Abs(gap) > 1e-4 {
			t.Fatalf("day %d: %g J/m2 lost", day, gap)
		}
		for i, ice := range c.Ice {
			if ice < 0 || ice > c.Water[i]+1e-12 {
				t.Fatalf("day %d layer %d: ice %g of water %g", day, i, ice, c.Water[i])
			}
		}
	}
}

// loam is a column of two metres of loam, thawed.
func loam(t *testing.T, temperature float64) *Column {
	t.Helper()
	h := soil.NewHorizon(0, 2)
	h.Sand, h.Clay, h.Organic, h.BulkDensity = 40, 20, 2, 1.4
	m, err := soil.Derive(h)
	if err != nil {
		t.Fatal(err)
	}
	return New(uniform(20, 0.1, &m.Thermal, m.Table), fill(20, 0.30), temperature)
}

// Under snow whose underside the soil would warm above freezing, what leaves the
// soil either passes the snow from 0 C to the air or melts it: nothing else takes
// heat (rounding of 1e7 J/m2 allowed).
func TestGroundMelt(t *testing.T) {
	c := loam(t, 8)
	const dt = 86400.0
	s := Surface{Air: -4, Snow: 2, Cover: 0.1, Film: 0.06}
	melt, err := c.Step(dt, s)
	if err != nil {
		t.Fatal(err)
	}
	if passed := 4 / (s.Snow + s.Film) * dt; melt <= 0 || math.Abs(-c.Inflow-passed-melt) > 1e-2 {
		t.Errorf("soil gave %.0f J/m2, %.0f passed the snow, %.0f melted it", -c.Inflow, passed, melt)
	}

	// Thin snow in hard frost stays frozen to the ground.
	c = loam(t, 0.5)
	if melt, err = c.Step(dt, Surface{Air: -20, Snow: 0.3, Film: 0.06}); err != nil || melt != 0 {
		t.Errorf("%.0f J/m2 melted at -20 C, %v", melt, err)
	}
}

// The 0 C isotherm lies on the straight line between two cells' middles: -1 C at
// 0.05 m and 3 C at 0.15 m put it at 0.075 m.
func TestFrostDepth(t *testing.T) {
	c := loam(t, 3)
	if d := c.FrostDepth(0.01); d != 0 {
		t.Errorf("frost at %g m in warm ground", d)
	}
	c.SetTemperature(0, -1)
	if d := c.FrostDepth(0.01); math.Abs(d-0.075) > 1e-12 {
		t.Errorf("frost to %g m, want 0.075 m", d)
	}
}

// Water that enters at the soil's temperature changes its heat by its own, and
// entering frozen ground it finds room in the balance at 0 C.
func TestWaterCarriesHeat(t *testing.T) {
	c := loam(t, 6)
	before := c.Heat()
	c.Water[3] += 0.05
	c.bookWater()
	if got, want := c.Heat()-before, soil.HeatWater*0.05*6*0.1; math.Abs(got-want) > 1e-6 {
		t.Errorf("%.1f J/m2 came with the water, want %.1f", got, want)
	}
	c.SetTemperature(3, -2)
	before = c.Heat()
	c.Water[3] += 0.05
	c.bookWater()
	if got := c.Heat() - before; got != 0 {
		t.Errorf("%.1f J/m2 came with water at 0 C", got)
	}
}

func TestStepAllocatesNothing(t *testing.T) {
	c := loam(t, 3)
	air := -15.0
	if n := testing.AllocsPerRun(50, func() {
		if _, err := c.Step(86400, Surface{Air: air, Film: 0.06}); err != nil {
			t.Fatal(err)
		}
		air = -air
	}); n != 0 {
		t.Errorf("%g allocations a step, want none", n)
	}
}
