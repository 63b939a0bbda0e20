package column_test

import (
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

const day = 86400.0

func mustTable(f soil.Form) *soil.Table {
	t, err := soil.NewFormTable(f)
	if err != nil {
		panic(err)
	}
	return t
}

// vanGenuchten takes alpha in 1/m, ks in m/s and the air-entry suction in m.
func vanGenuchten(thr, ths, alpha, n, ks, entry float64) *soil.Table {
	return mustTable(soil.Curve{ThetaR: thr, ThetaS: ths, Alpha: alpha, N: n, L: 0.5, Entry: entry, KMatrix: ks})
}

// gardner is the exponential soil, alpha in 1/m, ks in m/s.
func gardner(thr, ths, alpha, ks float64) *soil.Table {
	return mustTable(soil.Exponential{ThetaR: thr, ThetaS: ths, Alpha: alpha, Ksat: ks})
}

// drainedColumn is loam-like soil with drains 1 m deep and 20 m apart over a
// barrier at 2 m.
func drainedColumn(cells int) *column.Column {
	table := vanGenuchten(0.08, 0.45, 2, 1.4, 0.24/day, 0.02)
	c := column.New(column.Uniform(2, cells), same(table, cells), 0.05)
	c.Base = column.Base{Kind: column.BaseClosed}
	c.AddLateral(column.Lateral{Spacing: 20, Depth: 1, Level: 1, EquivalentDepth: 0.654, Capacity: math.Inf(1), Ponded: 1, Anisotropy: 1})
	return c
}

func same(table *soil.Table, n int) []*soil.Table {
	s := make([]*soil.Table, n)
	for i := range s {
		s[i] = table
	}
	return s
}

func sum(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s
}
