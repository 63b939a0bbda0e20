package storm

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func july(int) int    { return 7 }
func january(int) int { return 1 }

// spread is Hourly on an array with something left in it.
func spread(t interface{ Fatal(...any) }, daily []float64, monthOf func(int) int, o Options) []float64 {
	dst := make([]float64, 24*len(daily))
	for h := range dst {
		dst[h] = 99
	}
	if err := Hourly(dst, daily, monthOf, o); err != nil {
		t.Fatal(err)
	}
	return dst
}

func total(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}

// No rain is lost or made, and no hour is negative, for any record, hour of
// reading and draw. Tolerance: rounding of a few thousand sums.
func TestRainIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		daily := rapid.SliceOfN(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 200)), 1, 60).Draw(t, "daily")
		o := Default()
		o.Seed = rapid.Uint64().Draw(t, "seed")
		o.Draw = rapid.IntRange(0, 1000).Draw(t, "draw")
		o.ReadHour = rapid.Float64Range(0.01, 24).Draw(t, "read hour")
		dst := spread(t, daily, func(day int) int { return day%12 + 1 }, o)
		for h, mm := range dst {
			if mm < 0 {
				t.Fatalf("hour %d: %g mm", h, mm)
			}
		}
		if got, want := total(dst), total(daily); math.Abs(got-want) > 1e-12*want {
			t.Fatalf("%.15g mm in, %.15g mm out", want, got)
		}
	})
}

// Each storm stays within the 24 h that end at the reading: read at 07:00, the
// rain of day i falls between 07:00 of day i-1 and 07:00 of day i.
func TestStormStaysWithinItsReading(t *testing.T) {
	o := Default()
	o.ReadHour = 7
	for draw := range 200 {
		o.Draw = draw
		dst := spread(t, []float64{0, 0, 30, 0}, july, o)
		if got := total(dst[24+7 : 48+7]); math.Abs(got-30) > 1e-12 {
			t.Fatalf("draw %d: %g of 30 mm within the reading", draw, got)
		}
	}
	// The first reading began before the record; its early part joins hour 0.
	first := 0.0
	for draw := range 200 {
		o.Draw = draw
		dst := spread(t, []float64{30, 0}, july, o)
		if got := total(dst[:7]); math.Abs(got-30) > 1e-12 {
			t.Fatalf("draw %d: %g of 30 mm before the first reading", draw, got)
		}
		first += dst[0] / 30 / 200
	}
	// 17 of the 24 h lie before the record. A storm of 5.5 h with a uniform place is
	// centred in the middle on average, so more than half of the rain is early.
	if first < 0.5 || first > 0.95 {
		t.Errorf("share of first-day rain in the first hour: %.2f", first)
	}
}

// The same seed and draw give the same hours to the last bit; another seed,
// draw or day gives others.
func TestDrawsRepeat(t *testing.T) {
	daily := []float64{10, 0, 10, 4}
	o := Default()
	o.Seed, o.Draw = 11, 3
	once := spread(t, daily, july, o)
	if diff := cmp.Diff(once, spread(t, daily, july, o)); diff != "" {
		t.Errorf("the same draw differs:\n%s", diff)
	}
	if cmp.Equal(once[:24], once[48:72]) {
		t.Error("two days of equal rain have the same storm")
	}
	other := o
	other.Draw++
	if cmp.Equal(once, spread(t, daily, july, other)) {
		t.Error("another draw gives the same storms")
	}
	other = o
	other.Seed++
	if cmp.Equal(once, spread(t, daily, july, other)) {
		t.Error("another seed gives the same storms")
	}
}

// A day's storm does not hang on the days around it.
func TestStormDependsOnItsOwnDayOnly(t *testing.T) {
	o := Default()
	o.Seed = 5
	alone := spread(t, []float64{0, 0, 12, 0}, july, o)
	among := spread(t, []float64{3, 40, 12, 7, 0, 9}, july, o)
	if diff := cmp.Diff(alone[48:72], among[48:72]); diff != "" {
		t.Errorf("the storm of day 2 changes with other days:\n%s", diff)
	}
}

// A storm of length l placed at random touches l+1 clock hours on average, so
// the mean count less one is the mean length asked for. The standard deviation of
// lengths is below 7 h, so 20,000 days give the mean to 0.05 h; four of these,
// and 0.1 h for storms above 23 h, which cannot touch a 25th hour.
func TestMeanLengthOfStorms(t *testing.T) {
	const days = 20000
	daily := make([]float64, days)
	for i := range daily {
		daily[i] = 10
	}
	for _, c := range []struct {
		season  string
		monthOf func(int) int
		want    float64
	}{{"warm", july, 5.5}, {"cold", january, 14}} {
		dst := spread(t, daily, c.monthOf, Default())
		hours := 0
		for _, mm := range dst {
			if mm > 0 {
				hours++
			}
		}
		if got := float64(hours)/days - 1; math.Abs(got-c.want) > 0.3 {
			t.Errorf("%s: mean length %.2f h, want %.1f", c.season, got, c.want)
		}
	}
}

// A hundred-year day does not fall in an hour: its worst hour holds no more than
// design rainfall's, about half (TP-40's ratio of 1 h to 24 h depth in the Midwest,
// from memory: 0.4-0.5), and more than an even rain of seven hours.
func TestGreatDaysAreLong(t *testing.T) {
	daily := make([]float64, 500)
	for i := range daily {
		daily[i] = 170
	}
	dst := spread(t, daily, july, Default())
	worst := 0.0
	for _, mm := range dst {
		worst = math.Max(worst, mm)
	}
	if worst > 0.5*170 || worst < 0.15*170 {
		t.Errorf("worst hour of 500 days of 170 mm: %.0f mm", worst)
	}
}

// The warm season is May to September, five months of convective storms; July is in it.
func TestWarmSeason(t *testing.T) {
	months := 0
	for month := 1; month <= 12; month++ {
		if warm(month) {
			months++
		}
	}
	if months != 5 || !warm(5) || !warm(7) || !warm(9) {
		t.Errorf("%d warm months; May %t, July %t, September %t", months, warm(5), warm(7), warm(9))
	}
}

// The first quartile's heaviest fifth holds 52 % (Huff 1990), so a first-
// quartile storm of 5 h drops at most 52 % in one clock hour, and at least half of that,
// because two clock hours cover the heaviest. A storm of 1 h drops at least half.
func TestShareOfLargestHour(t *testing.T) {
	largest := func(quartile int, start, length float64) float64 {
		dst := make([]float64, 48)
		place(dst, 1, quartile, start, length)
		m := 0.0
		for _, v := range dst {
			m = max(m, v)
		}
		return m
	}
	for start := 0.0; start < 2; start += 0.01 {
		if got := largest(0, start, 5); got > 0.52+1e-12 || got < 0.26 {
			t.Errorf("5 h storm from %.2f h: largest hour %.3f", start, got)
		}
		if got := largest(1, start, 1); got < 0.5-1e-12 {
			t.Errorf("1 h storm from %.2f h: largest hour %.3f", start, got)
		}
	}
	if got := largest(0, 3, 5); math.Abs(got-0.52) > 1e-12 {
		t.Errorf("5 h storm on the hour: largest hour %.3f, want 0.52", got)
	}
	if got := largest(2, 0, 20); math.Abs(got-0.13) > 1e-12 {
		t.Errorf("third-quartile storm of 20 h: largest hour %.3f, want its largest 5 %% step, 0.13", got)
	}
}

// Neighbouring days and draws are unrelated: over n pairs the correlation of
// independent numbers has standard deviation 1/sqrt(n) = 0.007; four of them.
func TestNeighbouringStreamsAreUnrelated(t *testing.T) {
	const n = 20000
	rank := func(seed uint64, draw, day int) float64 {
		var pcg rand.PCG
		pcg.Seed(seed, streamOf(draw, day))
		return rand.New(&pcg).Float64() - 0.5
	}
	var days, draws, seeds, mean float64
	for i := range n {
		days += 12 * rank(1, 0, i) * rank(1, 0, i+1) / n
		draws += 12 * rank(1, 0, i) * rank(1, 1, i) / n
		seeds += 12 * rank(1, 0, i) * rank(2, 0, i) / n
		mean += rank(1, 0, i) / n
	}
	for what, r := range map[string]float64{"days": days, "draws": draws, "seeds": seeds} {
		if math.Abs(r) > 4/math.Sqrt(n) {
			t.Errorf("neighbouring %s correlate: %.4f", what, r)
		}
	}
	if math.Abs(mean) > 4/math.Sqrt(12*n) {
		t.Errorf("mean rank off the middle by %.4f", mean)
	}
}

func TestHourlyFaults(t *testing.T) {
	good := Default()
	for what, c := range map[string]struct {
		hours int
		daily []float64
		month int
		o     Options
		want  string
	}{
		"gap":       {72, []float64{0, 3, math.NaN()}, 7, good, "day 2 of the record: rain NaN"},
		"negative":  {24, []float64{-1}, 7, good, "rain -1 mm"},
		"endless":   {24, []float64{math.Inf(1)}, 7, good, "rain +Inf mm"},
		"month":     {24, []float64{1}, 0, good, "month 0"},
		"hours":     {25, []float64{1}, 7, good, "25 hours for 1 days"},
		"read hour": {24, []float64{1}, 7, Options{WarmDuration: 5, ColdDuration: 14}, "read hour: found 0"},
		"duration":  {24, []float64{1}, 7, Options{WarmDuration: 5, ColdDuration: 30, ReadHour: 24}, "cold duration: found 30 h"},
		"draw":      {24, []float64{1}, 7, Options{Draw: -1, WarmDuration: 5, ColdDuration: 14, ReadHour: 24}, "draw: found -1"},
	} {
		err := Hourly(make([]float64, c.hours), c.daily, func(int) int { return c.month }, c.o)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", what, err, c.want)
		}
	}
}

// A record of thirty years allocates no more than one of a day.
func TestHourlyAllocatesNothingPerDay(t *testing.T) {
	allocations := func(days int) float64 {
		daily, dst := make([]float64, days), make([]float64, 24*days)
		for i := range daily {
			daily[i] = 5
		}
		return testing.AllocsPerRun(5, func() {
			if err := Hourly(dst, daily, july, Default()); err != nil {
				t.Fatal(err)
			}
		})
	}
	if one, many := allocations(1), allocations(10957); many > one {
		t.Errorf("%g allocations for 30 years, %g for a day", many, one)
	}
}

func BenchmarkThirtyYears(b *testing.B) {
	daily := make([]float64, 10957)
	for i := range daily {
		if i%3 == 0 { // about 120 wet days a year, invented
			daily[i] = 7
		}
	}
	dst := make([]float64, 24*len(daily))
	b.ReportAllocs()
	for b.Loop() {
		if err := Hourly(dst, daily, july, Default()); err != nil {
			b.Fatal(err)
		}
	}
}
