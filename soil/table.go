package soil

import (
	"fmt"
	"math"
)

// Table holds water content and conductivity against pressure head, looked up
// by the leading bits of the suction's floating-point number: 32 intervals to
// each doubling, linear within. A look-up costs a few nanoseconds where the
// closed form costs two powers and a logarithm.
//
// Water content is piecewise linear in head, so that slope and curve belong to
// each other exactly; the solver relies on that to close its balance.
type Table struct {
	ThetaS, Ksat float64 // at saturation, m3/m3 and m/s
	Storage      float64 // elastic storage above saturation, 1/m
	rows         [tableRows + 1]tableRow
}

type tableRow struct{ theta, slope, k, kslope float64 } // at the row's suction; slopes per metre of head

const (
	mantissaBits = 5   // 32 rows to an octave
	lowestExp    = -14 // 2^-14 m = 0.06 mm, the first row's suction
	octaves      = 32  // up to 2^18 m, beyond oven-dry
	tableRows    = octaves << mantissaBits
	tableShift   = 52 - mantissaBits
	tableBase    = (1023 + lowestExp) << mantissaBits
)

// elasticStorage (1/m) lets a column that is wholly saturated take a rise in
// head; soils have 1e-5 to 1e-3. It keeps the equations solvable and moves
// 0.001 mm of water for a metre of head in a metre of soil.
const elasticStorage = 1e-6

// leastK (m/s) keeps resistances in series finite in oven-dry soil; it moves a
// nanometre in ten million years.
const leastK = 1e-23

// NewTable tabulates any pair of functions of pressure head (m, negative):
// theta (m3/m3) and k (m/s). Both must not rise with suction.
func NewTable(theta, k func(h float64) float64) (*Table, error) {
	t := &Table{ThetaS: theta(0), Ksat: k(0), Storage: elasticStorage}
	suction := func(i int) float64 {
		if i == 0 {
			return 0
		}
		return math.Float64frombits(uint64(i-1+tableBase) << tableShift)
	}
	// Row 0 spans 0 to 2^-14 m, row i+1 starts at suction(i+1).
	th, kk := t.ThetaS, t.Ksat
	for i := range t.rows {
		s0, s1 := suction(i), suction(i+1)
		th1, k1 := theta(-s1), max(k(-s1), leastK)
		// Rounding in the far dry end is no fault.
		if th1 > th && th1-th < 1e-12 {
			th1 = th
		}
		if k1 > kk && k1-kk < 1e-12*t.Ksat {
			k1 = kk
		}
		if !(th1 <= th) || !(k1 <= kk) || !(k1 >= 0) {
			return nil, fmt.Errorf("water content and conductivity must fall with suction: at %.4g m theta %.6g after %.6g, K %.4g after %.4g m/s", s1, th1, th, k1, kk)
		}
		t.rows[i] = tableRow{th, (th - th1) / (s1 - s0), kk, (kk - k1) / (s1 - s0)}
		th, kk = th1, k1
	}
	return t, nil
}

// NewCurveTable tabulates a curve.
func NewCurveTable(c Curve) (*Table, error) { return NewTable(c.Theta, c.K) }

// row finds the row of suction s > 0 and how far s lies beyond its start.
func (t *Table) row(s float64) (*tableRow, float64) {
	b := math.Float64bits(s) >> tableShift
	if b < tableBase {
		return &t.rows[0], s
	}
	i := b - tableBase + 1
	if i > tableRows {
		i = tableRows // drier than the table: its last slope goes on
		return &t.rows[tableRows], s - math.Float64frombits((tableBase+tableRows-1)<<tableShift)
	}
	return &t.rows[i], s - math.Float64frombits(b<<tableShift)
}

// At gives water content, its slope (1/m), conductivity (m/s) and its slope
// (1/s) at pressure head h (m).
func (t *Table) At(h float64) (theta, c, k, dk float64) {
	if h >= 0 {
		return t.ThetaS + t.Storage*h, t.Storage, t.Ksat, 0
	}
	r, x := t.row(-h)
	return r.theta - r.slope*x, r.slope, r.k - r.kslope*x, r.kslope
}

// Theta is the water content at head h.
func (t *Table) Theta(h float64) float64 {
	if h >= 0 {
		return t.ThetaS + t.Storage*h
	}
	r, x := t.row(-h)
	return r.theta - r.slope*x
}

// Head inverts the retention curve: the pressure head (m) at which the soil
// holds theta. Above saturation the elastic storage is inverted; drier than the
// table's end, its last slope goes on.
func (t *Table) Head(theta float64) float64 {
	if theta >= t.ThetaS {
		return (theta - t.ThetaS) / t.Storage
	}
	lo, hi := 0, tableRows // last row whose start holds at least theta
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if t.rows[mid].theta >= theta {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	s := 0.0
	if lo > 0 {
		s = math.Float64frombits(uint64(lo-1+tableBase) << tableShift)
	}
	if r := t.rows[lo]; r.slope > 0 {
		s += (r.theta - theta) / r.slope
	}
	return -s
}
