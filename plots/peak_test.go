package plots

import (
	"math"
	"regexp"
	"sort"
	"strconv"
	"testing"
)

func TestReturnPeriods(t *testing.T) {
	// Weibull's positions by hand: (24 + 1)/1 for the largest of 24 and so on
	// (formula of Chow, Maidment and Mays 1988, section 12.4). Exact but for the
	// last bit of a division.
	for _, c := range []struct {
		n, rank int
		years   float64
	}{{24, 1, 25}, {24, 2, 12.5}, {24, 5, 5}, {24, 24, 25.0 / 24}, {4, 1, 5}, {4, 4, 1.25}, {1, 1, 2}} {
		if got := returnPeriods(c.n)[c.rank-1]; math.Abs(got-c.years) > 1e-12 {
			t.Errorf("rank %d of %d: %v years, want %v", c.rank, c.n, got, c.years)
		}
	}
}

func TestGumbelReducedVariate(t *testing.T) {
	for _, c := range []struct{ years, variate, within float64 }{
		// The median is -ln ln 2.
		{2, 0.366512920581664, 1e-12},
		// The mean annual flood comes every 2.33 years (Dalrymple 1960, US
		// Geological Survey Water-Supply Paper 1543-A); the mean of the variate is
		// Euler's constant. Rounding of 2.33 moves it by 0.005/1.33/2.33/0.57 = 0.003.
		{2.33, 0.5772, 0.003},
	} {
		if got := gumbel(c.years); math.Abs(got-c.variate) > c.within {
			t.Errorf("%v years: %v, want %v", c.years, got, c.variate)
		}
	}
}

// circle is a full circle of the "as it lies" glyph in the SVG's paths.
var circle = regexp.MustCompile(`<path d="M([0-9.]+),([0-9.]+)A3,3 [^"]*"\s+style="fill:#B65A1F`)

func TestPeaksStandAtTheirPositions(t *testing.T) {
	r := result(t)
	peaks := []float64{}
	for _, l := range r.Lines {
		if l.Name == "peak_hour" {
			peaks = append(peaks, l.YearsAsItLies...)
		}
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(peaks)))
	// By hand, four years: T = 5, 5/2, 5/3, 5/4; -ln(-ln(1 - 1/T)) = -ln(-ln 0.8),
	// -ln(-ln 0.6), -ln(-ln 0.4), -ln(-ln 0.2).
	variates := []float64{1.49994, 0.67173, 0.08742, -0.47588}

	var x, y []float64
	for _, f := range figures(t, false) {
		if f.Name != "peak-flow" {
			continue
		}
		for _, m := range circle.FindAllStringSubmatch(string(f.SVG), -1)[1:] { // the first is the key's
			px, _ := strconv.ParseFloat(m[1], 64)
			py, _ := strconv.ParseFloat(m[2], 64)
			x, y = append(x, px), append(y, py)
		}
	}
	if len(x) != fixtureYears || len(peaks) != fixtureYears {
		t.Fatalf("%d circles and %d peaks, want %d", len(x), len(peaks), fixtureYears)
	}
	// Shares of the way from the smallest to the largest; coordinates are written
	// to 0.01 of some 100 to 500 points.
	share := func(v []float64, i int) float64 { return (v[i] - v[3]) / (v[0] - v[3]) }
	for i := range x {
		if math.Abs(share(x, i)-share(variates, i)) > 2e-4 {
			t.Errorf("rank %d stands at %.4f of the width, want %.4f", i+1, share(x, i), share(variates, i))
		}
		if math.Abs(share(y, i)-share(peaks, i)) > 1e-3 {
			t.Errorf("rank %d stands at %.4f of the height, want %.4f", i+1, share(y, i), share(peaks, i))
		}
	}
}
