package crop

import (
	"math"
	"testing"
)

// rooted carries corn of 1.5 m at 12 C-d a day, so that its roots are full-grown
// after 75 days, under a table that the day sets; it returns the depth by day.
func rooted(t *testing.T, table func(day int) float64) (depth [76]float64) {
	k := named(t, "corn")
	k.RootMax = 1.5
	s := Stand{Kind: k, Need: 75 * 12 / k.Full, Stage: Planted, RootDepth: shallowestRoots}
	for day := 1; day <= 75; day++ {
		s.Day(120+day, 14, 30, Ground{WaterTable: table(day)})
		depth[day] = s.RootDepth
	}
	return depth
}

// M09: Borg and Grimes (1986; from memory, recomputed), 1.5 m in 75 days, printed
// to four decimals; seed depth is at least 0.1 m here (assumption).
func TestRootCurve(t *testing.T) {
	var in struct {
		Max  float64 `json:"root_max_m"`
		Full int     `json:"days_to_max"`
		Day  []int
	}
	var out struct {
		Depth []float64 `json:"depth_m"`
	}
	worked(t, "M09", &in, &out)
	if in.Max != 1.5 || in.Full != 75 || len(in.Day) != 4 {
		t.Fatalf("case M09 has changed: %+v", in)
	}
	depth := rooted(t, func(int) float64 { return 3 })
	for i, day := range in.Day {
		// The last, 1.49994 by the curve, is printed 1.5.
		if got, want := depth[day], max(out.Depth[i], 0.1); math.Abs(got-want) > 1e-4 {
			t.Errorf("day %d: %.5f m, table %.4f", day, got, want)
		}
	}
}

// Roots do not grow into standing water, go on with the curve when it falls, and do
// not shrink when it rises (reference practice: growth held above a standing table).
func TestRootsUnderATable(t *testing.T) {
	free := rooted(t, func(int) float64 { return 3 })
	held := rooted(t, func(day int) float64 {
		switch {
		case day < 30:
			return 0.3
		case day < 60:
			return 0.8
		}
		return 0.05 // the surface floods
	})
	for day := 1; day <= 75; day++ {
		want := free[day]
		if day < 30 {
			want = min(want, 0.3)
		} else {
			want = min(free[min(day, 59)], 0.8)
		}
		if math.Abs(held[day]-want) > 1e-12 {
			t.Errorf("day %d: %.3f m, want %.3f (curve %.3f)", day, held[day], want, free[day])
		}
	}
	// Flooded from the start, the seed's own depth stays.
	if got := rooted(t, func(int) float64 { return 0 })[75]; got != 0.1 {
		t.Errorf("flooded throughout: %g m", got)
	}
}

// Water is taken from the crop's depth, and from 0.3 m, that of weeds, without one.
func TestDepthOfUptake(t *testing.T) {
	for _, c := range []struct{ roots, want float64 }{{0, 0.3}, {0.1, 0.3}, {0.9, 0.9}} {
		s := Stand{RootDepth: c.roots}
		if got := s.Roots(); got != c.want {
			t.Errorf("roots of %g m take water from %g m", c.roots, got)
		}
	}
}
