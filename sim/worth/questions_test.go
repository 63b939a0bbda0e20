package worth

import (
	"testing"

	"mottle/sim"
	"mottle/sim/compare"
)

// Answers follow the numbers: results made by hand in which a figure rises, falls,
// hardly changes, or hangs on what nobody measured.
func TestVerdicts(t *testing.T) {
	line := func(d, low, high float64, resolved bool) compare.Line {
		return compare.Line{Measure: sim.Measure{Name: "x"}, AsItLies: 10, WithTile: 10 + d, Difference: d, Low: low, High: high, Resolved: resolved}
	}
	with := func(low, high float64) *Result {
		return &Result{Compare: &compare.Result{Ranges: []compare.Range{{Measure: "x", Over: "soil", Low: low, High: high}}}}
	}
	for _, c := range []struct {
		what            string
		r               *Result
		l               compare.Line
		rising, falling Verdict
	}{
		{"rises", with(1, 3), line(2, 1, 3, true), Yes, No},
		{"falls", with(-3, -1), line(-2, -3, -1, true), No, Yes},
		{"hardly changes", with(-0.2, 0.2), line(0.1, -0.2, 0.3, true), No, No},
		{"rises, but may fall on other ground", with(-2, 3), line(2, 1, 3, true), Depends, Depends},
		{"falls, but may rise on other ground", with(-3, 2), line(-2, -3, -1, true), Depends, Depends},
		{"the years do not tell", with(-3, 3), line(2, -1, 4, true), Unknown, Unknown},
		{"lost in the time steps", with(1, 3), line(2, 1, 3, false), Unknown, Unknown},
	} {
		if got, why := c.r.rising(c.l, 0.5); got != c.rising || why == "" {
			t.Errorf("%s: rising %q (%s), want %q", c.what, got, why, c.rising)
		}
		if got, _ := c.r.falling(c.l, 0.5); got != c.falling {
			t.Errorf("%s: falling %q, want %q", c.what, got, c.falling)
		}
	}
}
