package heat

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"mottle/soil"
)

// sharp freezes all its water within a hundredth of a degree, as the Neumann
// solution assumes it to freeze at 0 C.
func sharp(t *testing.T, water float64) *soil.Table {
	table, err := soil.NewTable(
		func(h float64) float64 { return water * math.Max(0, 1+h/(0.01*soil.ClapeyronSlope)) },
		func(float64) float64 { return 1e-6 })
	if err != nil {
		t.Fatal(err)
	}
	return table
}

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

// readCSV gives rows as maps by header.
func readCSV(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/heat/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The two-phase freezing solution of Neumann (Carslaw and Jaeger 1959, chapter
// XI), cases A and B of testdata/heat/atmosphere-neumann.csv.
func TestNeumannFront(t *testing.T) {
	for _, p := range []struct {
		name                        string
		kf, ku, cf, cu, latent      float64
		surface, initial, tolerance float64
	}{
		{"A", 1.8, 1.2, 2.0e6, 2.8e6, 1.0e8, -5, 4, 0.02},
		{"B", 2.0, 1.3, 1.9e6, 2.7e6, 1.3344e8, -10, 8, 0.02},
	} {
		water := p.latent / soil.LatentHeat
		th := soil.FixedThermal(water, 1e6, (p.cu-1e6)/water, (p.cf-1e6)/water, p.ku, p.kf)
		n, dz := 500, 0.01
		c := New(uniform(n, dz, &th, sharp(t, water)), fill(n, water), p.initial)
		now := 0.0
		for _, row := range readCSV(t, "atmosphere-neumann.csv") {
			if row["case"] != p.name {
				continue
			}
			for at := number(t, row["t_d"]); now < at-1e-9; {
				// The surface jumps at the start: short steps on the first day.
				step := 1.0 / 24
				if now < 1-1e-9 {
					step = 1.0 / 480
				}
				if _, err := c.Step(step*86400, Surface{Air: p.surface}); err != nil {
					t.Fatal(err)
				}
				now += step
			}
			want := number(t, row["front_m"])
			got := 0.0 // the front by volume of ice
			for i := range c.Ice {
				got += c.Ice[i] / water * dz
			}
			if math.Abs(got/want-1) > p.tolerance {
				t.Errorf("case %s, %s d: front %.4f m, Neumann %.4f m (%+.2f %%)", p.name, row["t_d"], got, want, 100*(got/want-1))
			}
		}
	}
}

// A yearly wave at the surface dies out with depth as exp(-z/d) and lags by z/d,
// d = sqrt(2a/w) (Carslaw and Jaeger 1959); testdata/heat/atmosphere-annual-wave.csv.
func TestAnnualWave(t *testing.T) {
	const (
		mean, amplitude, t0 = 7.0, 16.0, 105.0
		diffusivity         = 6e-7
		omega               = 2 * math.Pi / (365.25 * 86400)
		capacity            = 2.5e6
	)
	k := diffusivity * capacity
	th := soil.FixedThermal(0.3, capacity-0.3e6, 1e6, 1e6, k, k)
	n, dz := 300, 0.08 // 24 m: ten damping depths
	c := New(uniform(n, dz, &th, sharp(t, 1e-9)), fill(n, 1e-9), mean)
	capNow := c.layers[0].Thermal.HeatCapacity(1e-9, 0)
	d := math.Sqrt(2 * k / capNow / omega)
	day := 0.0
	at := func(day float64) float64 { return mean + amplitude*math.Sin(omega*86400*(day-t0)) }
	// 14 whole years and a part: the start is forgotten at 2 m.
	for _, stop := range []float64{15, 60, 105, 151, 196, 242, 288, 334} {
		for end := 14*365.25 + stop; day < end-1e-9; {
			step := math.Min(0.25, end-day)
			if _, err := c.Step(step*86400, Surface{Air: at(day + step)}); err != nil {
				t.Fatal(err)
			}
			day += step
		}
		for i, temp := range c.Temperature[:50] {
			z := (float64(i) + 0.5) * dz
			want := mean + amplitude*math.Exp(-z/d)*math.Sin(omega*86400*(day-t0)-z/d)
			// Quarter-day backward Euler on a yearly wave errs by w dt/2 of the
			// amplitude, 0.03 C; cells of 8 cm and the finite depth add as much.
			if math.Abs(temp-want) > 0.08 {
				t.Errorf("day %.0f, %.2f m: %.3f C, exact %.3f C", stop, z, temp, want)
			}
		}
	}
	// The reference page gives d for a = 6e-7 m2/s.
	if got := math.Sqrt(2 * diffusivity / omega); math.Abs(got-2.455007) > 1e-6 {
		t.Errorf("damping depth %.6f m, published 2.455007 m", got)
	}
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
