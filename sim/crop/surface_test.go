package crop

import "testing"

// The ends of FAO-56's (Allen et al. 1998) eq. 74 and 76; package proof holds the
// values between.
func TestSurface(t *testing.T) {
	for _, c := range []struct{ lost, want float64 }{{0, 1}, {9, 1}, {23.5, 0}, {30, 0}} {
		if got := SurfaceReduction(c.lost, 9, 23.5); got != c.want {
			t.Errorf("Kr after %g of 23.5 mm: %g, want %g", c.lost, got, c.want)
		}
	}
	if got := Cover(1.2, 1.2, 2); got != 1 {
		t.Errorf("cover at the ceiling: %g, want 1", got)
	}
	// Never nothing: the ratio is held at 0.01, the exponent of low stands is 1.
	if got := Cover(0, 1.2, 0); got != 0.01 {
		t.Errorf("cover of bare ground: %g, want 0.01", got)
	}
}
