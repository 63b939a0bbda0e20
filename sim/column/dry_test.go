package column_test

import (
	"math"
	"testing"

	"mottle/sim/column"
)

// A soil over a shallow water table gives what the air asks for while it can (a
// quarter of the most); asked for a hundred times that it gives its
// maximum, Ks/(exp(alpha d)-1) for an exponential soil (Gardner 1958), and says
// what it withheld. 1 %: the maximum changes by 2.3 % for a centimetre of depth, and
// the top cell of 2 mm conducts about as if it were not there.
func TestDrySurfaceGivesItsMost(t *testing.T) {
	const alpha, depth, k = 2.0, 1.0, 0.025 / day
	most := k / math.Expm1(alpha*depth)
	for _, demand := range []float64{0.25 * most, 100 * most} {
		table := gardner(0.05, 0.4, alpha, k)
		c := column.New(column.Uniform(depth, 500), same(table, 500), depth)
		c.Base = column.Base{Kind: column.BaseHead}
		c.Surface.Driest = -1000
		for now := 0.0; now < 1000*day; {
			dt, err := c.Step(day, -demand)
			if err != nil {
				t.Fatal(err)
			}
			now += dt
		}
		want := math.Min(demand, most)
		if got := -c.Last.Infiltration; math.Abs(got/want-1) > 0.01 {
			t.Errorf("asked for %.3g m/s: gave %.4g, expected %.4g", demand, got, want)
		}
		if gap := c.Last.Unmet - (demand + c.Last.Infiltration); math.Abs(gap) > 1e-9*demand {
			t.Errorf("asked for %.3g m/s: unmet %.4g, off by %.2g", demand, c.Last.Unmet, gap)
		}
	}
}
