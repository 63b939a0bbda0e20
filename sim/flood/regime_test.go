package flood

import (
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// twenty is an invented record of 20 days.
var twenty = []float64{2, 2, 3, 10, 25, 18, 12, 9, 7, 6, 5, 5, 4, 4, 8, 15, 11, 8, 6, 5}

// Counted by hand from the 20 days: changes 65 over a sum of 165; Weibull's positions
// 2.1, 10.5 and 18.9 of the sorted days; sum(t q) = 1695.
func TestRegime(t *testing.T) {
	near(t, "flashiness", must[float64](t)(Flashiness(twenty[0], twenty)), 65./165, 1e-12)
	d := must[Duration](t)(NewDuration(twenty))
	for share, want := range map[float64]float64{0.1: 17.7, 0.5: 6.5, 0.9: 2.1, 1. / 21: 25, 20. / 21: 2} {
		near(t, fmt.Sprintf("Q%g", 100*share), must[float64](t)(d.Exceeded(share)), want, 1e-9)
	}
	if _, err := d.Exceeded(0.02); err == nil {
		t.Error("2 % of 20 days accepted")
	}
	near(t, "centre", must[float64](t)(Centre(twenty)), 1695./165, 1e-12)
	if day := must[int](t)(HalfVolume(twenty)); day != 9 {
		t.Errorf("half of the volume on day %d", day)
	}
	lows := must[[]Annual](t)(Lows(twenty, make([]int, 20), 7))
	near(t, "7-day minimum", lows[0].Flow, 39./7, 1e-12)
}

// Whiteoak Creek OH, first six days of water year 1975 (38 32 26 20 23 23 ft3/s, seen):
// 21/162 without a day before, 21/124 when the first day is the one before.
func TestFlashinessBefore(t *testing.T) {
	days := []float64{38, 32, 26, 20, 23, 23}
	near(t, "all days", must[float64](t)(Flashiness(38, days)), 21./162, 1e-12)
	near(t, "days 2-6", must[float64](t)(Flashiness(38, days[1:])), 21./124, 1e-12)
}

// The index has no unit and a steady flow has none; any record with its own last day
// before it stays below 2.
func TestFlashinessBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := rapid.SliceOfN(rapid.Float64Range(0.1, 100), 2, 50).Draw(t, "days")
		tenfold := make([]float64, len(days))
		for i, q := range days {
			tenfold[i] = 10 * q
		}
		last := days[len(days)-1]
		a, b := must[float64](t)(Flashiness(last, days)), must[float64](t)(Flashiness(10*last, tenfold))
		if math.Abs(a-b) > 1e-12 || a < 0 || a > 2 {
			t.Fatalf("%g, tenfold %g", a, b)
		}
	})
	near(t, "steady", must[float64](t)(Flashiness(4, []float64{4, 4, 4})), 0, 0)
}

// Days around the turn of the year (Burn 1997 form, computed elsewhere): 365.08 and
// 0.972, where the plain mean is the end of June; and a set with two late floods.
func TestMeanDay(t *testing.T) {
	day, r := MeanDay([]float64{350, 5, 20, 355})
	near(t, "day", day, 365.08, 0.005)
	near(t, "closeness", r, 0.97200, 6e-6)
	day, r = MeanDay([]float64{75, 82, 90, 68, 160, 172, 95, 80})
	near(t, "day", day, 99.68, 0.005)
	near(t, "closeness", r, 0.809, 5e-4)
	near(t, "melt or rain", EitherOf(0.02, 0.03), 0.0494, 1e-12)
}

// A 15-day record (invented) under the filters' coding variants, computed elsewhere to
// four decimals: the index runs from 0.36 to 0.56.
func TestBaseFlow(t *testing.T) {
	flow := []float64{5, 5, 12, 40, 28, 18, 12, 9, 7, 6, 15, 30, 20, 12, 9}
	for name, c := range map[string]struct {
		filter interface {
			Base([]float64) ([]float64, error)
		}
		index float64
		days  map[int]float64 // some base flows, from day 1
	}{
		"one pass":        {LyneHollick{A: 0.925, Passes: 1}, 0.50128, map[int]float64{3: 5.2625, 7: 10.2984, 12: 7.5497}},
		"one pass, free":  {LyneHollick{A: 0.925, Passes: 1, Free: true}, 0.55634, map[int]float64{11: 9.9145, 13: 11.919}},
		"three passes":    {NathanMcMahon, 0.36170, map[int]float64{4: 5.0871, 10: 5.5811, 15: 6.3523}},
		"Eckhardt":        {Eckhardt{A: 0.98, Most: 0.80, Start: 1}, 0.50390, map[int]float64{2: 4.9074, 4: 7.8102, 14: 8.9609}},
		"Eckhardt, lower": {Eckhardt{A: 0.98, Most: 0.80, Start: 0.8}, 0.48013, nil},
	} {
		base := must[[]float64](t)(c.filter.Base(flow))
		near(t, name, Index(base, flow), c.index, 6e-6)
		for day, want := range c.days {
			near(t, fmt.Sprintf("%s, day %d", name, day), base[day-1], want, 5.1e-5)
		}
	}
}

// Base flow lies between nothing and the flow, for both filters.
func TestBaseFlowBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flow := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 60).Draw(t, "flow")
		for name, base := range map[string][]float64{
			"Lyne-Hollick": must[[]float64](t)(NathanMcMahon.Base(flow)),
			"Eckhardt":     must[[]float64](t)(Eckhardt{A: 0.98, Most: 0.8, Start: 0.8}.Base(flow)),
		} {
			for i := range flow {
				if base[i] < -1e-12 || base[i] > flow[i]+1e-12 {
					t.Fatalf("%s, day %d: %g of %g", name, i+1, base[i], flow[i])
				}
			}
		}
	})
}

// Plotting positions of the largest of 24: 25, 40.3, 43.1 and 48 years (formula).
func TestPlotting(t *testing.T) {
	for a, want := range map[Plotting]float64{Weibull: 0.04, Cunnane: 0.02479, Gringorten: 0.02322, Hazen: 0.02083} {
		near(t, fmt.Sprintf("a %g", float64(a)), a.Exceedance(1, 24), want, 5.1e-6)
	}
	ranks := Ranks([]float64{3, 9, 3, 1})
	if fmt.Sprint(ranks) != "[2 1 3 4]" {
		t.Errorf("ranks %v", ranks)
	}
}

// Peaks by year, with the place and the count; a week's minimum is its last day's.
func TestAnnual(t *testing.T) {
	year := []int{1, 1, 1, 2, 2, 2, 2}
	flow := []float64{1, 7, 2, 4, 4, 3, 1}
	peaks := must[[]Annual](t)(Peaks(flow, year))
	if fmt.Sprint(peaks) != "[{1 7 1 3} {2 4 3 4}]" {
		t.Errorf("peaks %v", peaks)
	}
	lows := must[[]Annual](t)(Lows(flow, year, 2))
	if fmt.Sprint(lows) != "[{1 4 1 3} {2 2 6 4}]" || fmt.Sprint(Flows(lows)) != "[4 2]" {
		t.Errorf("lows %v", lows)
	}
	for name, err := range map[string]error{
		"short year":   second(Lows(flow, year, 4)),
		"out of order": second(Peaks(flow, []int{1, 1, 2, 1, 2, 2, 2})),
		"fewer years":  second(Peaks(flow, year[1:])),
		"negative":     second(Peaks([]float64{-1}, []int{1})),
	} {
		if err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	day := func(y int, m time.Month) time.Time { return time.Date(y, m, 15, 0, 0, 0, 0, time.UTC) }
	if WaterYear(day(2000, time.October)) != 2001 || WaterYear(day(2001, time.September)) != 2001 {
		t.Error("water year runs from October")
	}
	if ClimaticYear(day(2000, time.April)) != 2000 || ClimaticYear(day(2001, time.March)) != 2000 {
		t.Error("climatic year runs from April")
	}
}

func second[T any](_ T, err error) error { return err }
