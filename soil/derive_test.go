package soil

import (
	"math"
	"testing"
)

func TestProbe(t *testing.T) {
	for _, r := range [][]float64{{8, 34, 6.5, 1.2}, {8, 36, 4.5, 1.25}, {10, 38, 1.2, 1.35}, {18, 32, .5, 1.45}, {32, 28, .3, 1.65}, {40, 22, 4, 1.35}, {6, 52, 5, 1.15}, {88, 5, 1, 1.5}} {
		h := NewHorizon(0, 1)
		h.Sand, h.Clay, h.Organic, h.BulkDensity = r[0], r[1], r[2], r[3]
		m, err := Derive(h)
		if err != nil {
			t.Fatal(err)
		}
		c := m.Curve
		t.Logf("%s a %.3f n %.3f ths %.3f fc %.3f wp %.3f K %.3f m/d; theta .3 .5 1: %.3f %.3f %.3f  K(-.02,-.1,-.5,-1): %.2g %.2g %.2g %.2g", m.Texture, c.Alpha, c.N, c.ThetaS, m.Theta33, m.WiltingPoint, c.Ksat()*86400, c.Theta(-.3), c.Theta(-.5), c.Theta(-1), c.K(-.02)*86400, c.K(-.1)*86400, c.K(-.5)*86400, c.K(-1)*86400)
		for _, x := range []float64{-1e-5, -.01, -.0201, -.5, -3, -200, -5000} {
			th, _, k, _ := m.Table.At(x)
			if math.Abs(th-c.Theta(x)) > 2e-5 || math.Abs(k/c.K(x)-1) > .03 {
				t.Errorf("%g: %g %g, %g %g", x, th, c.Theta(x), k, c.K(x))
			}
			if x < -.02 {
				if hh := m.Table.Head(th); math.Abs(hh/x-1) > 1e-9 {
					t.Errorf("head %g %g", hh, x)
				}
			}
		}
	}
}
