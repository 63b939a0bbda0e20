package column_test

import (
	"math"
	"testing"

	"mottle/sim/column"
)

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
