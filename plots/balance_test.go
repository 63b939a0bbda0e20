package plots

import (
	"math"
	"testing"

	"mottle/sim"
)

// The fates are all there are: what a year received, less its fates, is what the
// field's store gained (conservation of mass).
func TestFatesCloseTheBalance(t *testing.T) {
	r := result(t)
	s := subject{r: r}
	for name, rec := range map[string]*sim.Record{lies.name: r.Pair.AsItLies, tiled.name: r.Pair.WithTile} {
		in := s.yearSums(rec, received)
		if in[0] < 300 || in[0] > 2000 {
			t.Errorf("%s: received %v mm, not a year of a humid plain", name, in[0])
		}
		for k, y := range rec.Years[1:] {
			left := in[k+1]
			for _, f := range fates {
				left -= s.yearSums(rec, f.of)[k+1]
			}
			gained := rec.Days.Storage[y.End-1] - rec.Days.Storage[y.First-1]
			// The ledger closes to 1e-6 mm a year.
			if math.Abs(left-gained) > 1e-6 {
				t.Errorf("%s, %d: received less fates %v mm, the store gained %v", name, y.Year, left, gained)
			}
		}
	}
}
