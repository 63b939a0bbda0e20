package flood

import (
	"math"
	"testing"
)

// Eight values (invented) under every measure, computed elsewhere to six digits.
func TestFitMeasures(t *testing.T) {
	measured, simulated := []float64{2, 5, 9, 14, 11, 7, 4, 3}, []float64{3, 5, 8, 11, 10, 6, 3, 3}
	for name, c := range map[string]struct {
		of   func(a, b []float64) float64
		want float64
	}{
		"NSE": {NSE, 0.886063}, "RSR": {RSR, 0.337545}, "PBIAS": {PercentBias, 10.909091},
		"KGE": {KGE, 0.745051}, "KGE 2012": {KGE2012, 0.825256}, "d": {Agreement, 0.963818},
		"NSE of logs": {func(a, b []float64) float64 { return NSE(logs(a), logs(b)) }, 0.887947},
	} {
		near(t, name, c.of(measured, simulated), c.want, 5.1e-7)
	}
	near(t, "no better than the mean", NSE([]float64{0, 14, 0, 14}, []float64{7, 7, 7, 7}), 0, 1e-12)
	near(t, "perfect", NSE(measured, measured), 1, 1e-12)
	if !math.IsNaN(NSE([]float64{3, 3, 3}, []float64{1, 2, 3})) || !math.IsNaN(KGE([]float64{3, 3, 3}, []float64{1, 2, 3})) {
		t.Error("a measured series that does not vary has a mark")
	}
}

func logs(x []float64) []float64 {
	y := make([]float64, len(x))
	for i := range x {
		y[i] = math.Log(x[i])
	}
	return y
}
