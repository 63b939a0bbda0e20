package column_test

import (
	"math"
	"testing"

	"mottle/sim/column"
	"mottle/sim/drain"
	"mottle/soil"
)

// Steady rain ends at the mid-spacing water table of Hooghoudt's equation. The
// column adds the head that the water loses on its way down past the drains,
// about 8 d D/(3 L^2) of m: 0.3 % here, 1 % over a barrier 2 m below drains 20 m
// apart.
func TestSteadyRainEndsAtHooghoudt(t *testing.T) {
	const k, spacing, depth, barrier, radius = 0.5 / day, 20.0, 1.2, 2.0, 0.0051
	table := vanGenuchten(0.078, 0.43, 3.6, 1.56, k, 0.02)
	d := drain.EquivalentDepth(spacing, barrier-depth, radius)
	for _, mm := range []float64{1, 2, 4} {
		q := mm / 1000 / day
		c := column.New(column.Uniform(barrier, 60), same(table, 60), 1.2)
		c.Base = column.Base{Kind: column.BaseClosed}
		c.AddLateral(column.Lateral{Spacing: spacing, Depth: depth, Level: depth, EquivalentDepth: d, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1})
		for now := 0.0; now < 400*day; {
			dt, err := c.Step(day, q)
			if err != nil {
				t.Fatal(err)
			}
			now += dt
		}
		// q L^2 = 8 K d m + 4 K m^2 solved for m.
		want := -d + math.Sqrt(d*d+q*spacing*spacing/(4*k))
		if got := depth - c.WaterTable(); math.Abs(got/want-1) > 0.01 {
			t.Errorf("%g mm/d: table %.4f m above the drain, Hooghoudt %.4f m", mm, got, want)
		}
		if out := sum(c.Laterals[0].Rate); math.Abs(out/q-1) > 1e-6 {
			t.Errorf("%g mm/d: drain flow %.6g of the rain", mm, out/q)
		}
	}
}

// A falling table follows the quasi-steady law of its own sink, dm/dt = -q/mu,
// with mu from the column's own retention: theta_s - theta at the height of the
// surface above the table. The curve stands beside Glover and Dumm's (quartic
// start, Dumm 1960), whose h is the height at mid-spacing while q follows from
// the mean height of the parabola: the column knows one height, and falls sooner.
func TestFallingTable(t *testing.T) {
	const (
		k, spacing, radius = 2.0 / day, 60.0, 0.1
		depth, barrier     = 1.5, 11.5
		start              = 0.25 // m above the drain
	)
	// Exponential soil that conducts well above the table, so that its water
	// follows at once, as the law takes it to.
	table := gardner(0.06, 0.4, 1, k)
	const n = 230
	c := column.New(column.Uniform(barrier, n), same(table, n), depth-start)
	c.Base = column.Base{Kind: column.BaseClosed}
	d := drain.EquivalentDepth(spacing, barrier-depth, radius)
	c.AddLateral(column.Lateral{Spacing: spacing, Depth: depth, Level: depth, EquivalentDepth: d, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1})
	flow := func(m float64) float64 { return drain.Hooghoudt(k, k, d, m, spacing) }
	yield := func(m float64) float64 { return table.ThetaS - table.Theta(-(depth - m)) }

	m, now, gap := start, 0.0, 0.0
	for hour := 1; hour <= 24*10; hour++ {
		for ; now < float64(hour)*3600-1e-6; now += 60 {
			half := m - flow(m)/yield(m)*30 // midpoint rule
			m -= flow(half) / yield(half) * 60
		}
		for left := 3600.0; left > 1e-6; {
			dt, err := c.Step(left, 0)
			if err != nil {
				t.Fatal(err)
			}
			left -= dt
		}
		got := depth - c.WaterTable()
		if math.Abs(got-m) > 0.02*start {
			t.Fatalf("after %d h: table %.4f m above the drain, quasi-steady law %.4f m", hour, got, m)
		}
		// K D' t/(mu L^2) with the USBR's flow depth d + h0/2.
		T := k * (d + start/2) * now / (yield(start/2) * spacing * spacing)
		glover := drain.GloverDummQuartic(T)
		if g := math.Abs(got/start - glover); g > gap {
			gap = g
		}
		if hour%24 == 0 {
			t.Logf("%3d h: column %.3f, law %.3f, Glover-Dumm %.3f of h0", hour, got/start, m/start, glover)
		}
	}
	t.Logf("largest gap to Glover-Dumm %.3f of h0", gap)
	if gap > 0.08 {
		t.Errorf("largest gap to Glover and Dumm's curve %.3f of h0, expected at most 0.08", gap)
	}
}

// With drains infinitely far apart the column is the undrained one, to the bit.
func TestInfiniteSpacing(t *testing.T) {
	table := vanGenuchten(0.078, 0.43, 3.6, 1.56, 0.25/day, 0.02)
	build := func(tiled bool) *column.Column {
		c := column.New(column.Uniform(2, 40), same(table, 40), 0.5)
		c.Base = column.Base{Kind: column.BaseRegional, Level: 1.4, Resistance: 1500 * day}
		c.Surface.Store = 0.01
		if tiled {
			c.AddLateral(column.Lateral{Spacing: math.Inf(1), Depth: 1, Level: 1, EquivalentDepth: 1, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1})
		}
		return c
	}
	a, b := build(false), build(true)
	for i := range 300 {
		supply := 0.0
		if i%5 == 0 {
			supply = 0.03 / day
		}
		for _, c := range []*column.Column{a, b} {
			for left := day; left > 1e-6; {
				dt, err := c.Step(left, supply)
				if err != nil {
					t.Fatal(err)
				}
				left -= dt
			}
		}
	}
	for i := range a.H {
		if a.H[i] != b.H[i] || a.Water[i] != b.Water[i] {
			t.Fatalf("cell %d: head %g and %g", i, a.H[i], b.H[i])
		}
	}
}

// The pipe never carries more than its capacity, and water stands when it
// cannot keep up.
func TestCapacityHolds(t *testing.T) {
	table := vanGenuchten(0.078, 0.43, 3.6, 1.56, 3/day, 0.02)
	c := column.New(column.Uniform(2, 40), same(table, 40), 0.2)
	c.Base = column.Base{Kind: column.BaseClosed}
	c.Surface.Store = 0.02
	const capacity = 0.0127 / day
	c.AddLateral(column.Lateral{Spacing: 10, Depth: 1, Level: 1, EquivalentDepth: 0.5, Capacity: capacity, Ponded: 1.5, Anisotropy: 1})
	full := 0
	for range 10 {
		for left := day; left > 1e-6; {
			dt, err := c.Step(left, 0.02/day)
			if err != nil {
				t.Fatal(err)
			}
			left -= dt
			q := sum(c.Laterals[0].Rate)
			if q > capacity*(1+1e-6) {
				t.Fatalf("drain carries %.3g of its capacity", q/capacity)
			}
			if q > capacity*0.999 {
				full++
			}
		}
	}
	if full == 0 || c.Pond == 0 {
		t.Errorf("the drain ran full on %d steps and %.3g m stand on the surface: the test does not reach the cap", full, c.Pond)
	}
}

// Rain with ponding on loam and silt loam (cases r09a, r09b): the graded grid of
// the model, capacity at zero pond depth. The reference pack found 4 % too much
// in the first quarter hour with top cells of 4 mm; these start at 5 mm and grow twice as fast: 6 % is
// allowed, 8 % in the first quarter hour.
func TestPondingInfiltration(t *testing.T) {
	for _, p := range []struct {
		name          string
		table         *soil.Table
		initial, rain float64
	}{
		{"r09a_ponding_loam", vanGenuchten(0.078, 0.43, 3.6, 1.56, 0.2496/day, 0.02), -3, 0.06 / 3600},
		{"r09b_ponding_silt_loam", vanGenuchten(0.067, 0.45, 2, 1.41, 0.108/day, 0.02), -5, 0.03 / 3600},
	} {
		g, err := column.Graded(1, 0.005, 0.1, 1.25, nil)
		if err != nil {
			t.Fatal(err)
		}
		c := column.New(g, same(p.table, g.Cells()), 2)
		c.Base = column.Base{Kind: column.BaseGravity}
		for i := range c.H {
			c.SetHead(i, p.initial)
		}
		now := 0.0
		for _, row := range readRows(t, p.name+"_balance.csv") {
			for now < row[0]-1e-6 {
				dt, err := c.Step(math.Min(row[0]-now, 3600), p.rain)
				if err != nil {
					t.Fatal(err)
				}
				now += dt
			}
			tolerance := 0.06
			if row[0] < 1800 {
				tolerance = 0.08
			}
			if got := c.Through[0]/row[1] - 1; math.Abs(got) > tolerance {
				t.Errorf("%s, %.0f s: infiltrated %.2f mm, reference %.2f mm (%+.1f %%)", p.name, now, c.Through[0]*1000, row[1]*1000, 100*got)
			}
		}
	}
}

// Stepping allocates nothing.
func TestStepAllocatesNothing(t *testing.T) {
	c := drainedColumn(40)
	if n := testing.AllocsPerRun(200, func() {
		if _, err := c.Step(day, 0.002/day); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations a step", n)
	}
}
