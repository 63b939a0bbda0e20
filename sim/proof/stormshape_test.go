package proof

import (
	"math"
	"testing"
)

// The ranges of the design reports come out of the table as the reference pack
// read it (rows S1 to S3 of watershed-checks.csv, recomputed): half of the last
// digit printed.
func TestDesignShapes(t *testing.T) {
	for _, c := range []struct {
		shape      string
		span, want float64
	}{{"type_II", 1, 0.452}, {"type_III", 1, 0.404}, {"type_I", 1, 0.280}, {"type_IA", 1, 0.157}, {"type_II", 6, 0.703}} {
		if got := readDesignShape(c.shape).most(c.span); math.Abs(got-c.want) > 5e-4 {
			t.Errorf("%s: largest share in %g h %.4f, want %.3f", c.shape, c.span, got, c.want)
		}
	}
}
