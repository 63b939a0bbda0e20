package crop

import "testing"

// rotation runs two years, a first crop and winter wheat after it, under mean daily
// extremes by month, and returns the stand at the end of both.
func rotation(t *testing.T, first string, before, after func(day int) Ground) (seeded, harvest Stand) {
	var s Stand
	k, wheat := named(t, first), named(t, "winter wheat")
	s.Begin(k, 1000)
	s.Follow(wheat)
	for day := 1; day <= 365; day++ {
		low, high := lincoln(day)
		s.Day(day, low, high, before(day))
	}
	seeded = s
	s.Begin(wheat, wheat.Maturity)
	s.Follow(k)
	for day := 1; day <= 365; day++ {
		low, high := lincoln(day)
		s.Day(day, low, high, after(day))
	}
	return seeded, s
}

// byMonth spreads monthly means of the daily extremes (C) over a year's days.
func byMonth(low, high [12]float64) func(day int) (float64, float64) {
	return func(day int) (float64, float64) {
		m := min(11, (day-1)*12/365)
		return low[m], high[m]
	}
}

// Normals from memory, rounded: eastern Nebraska at 41 N, North Dakota at 47 N.
var (
	lincoln  = byMonth([12]float64{-10, -8, -2, 4, 11, 17, 19, 18, 13, 6, -2, -8}, [12]float64{2, 4, 11, 18, 23, 29, 32, 30, 26, 19, 11, 3})
	bismarck = byMonth([12]float64{-17, -14, -8, -1, 6, 12, 14, 13, 7, 1, -8, -14}, [12]float64{-5, -2, 5, 13, 20, 25, 29, 28, 23, 14, 4, -3})
)

// Winter wheat is ripe from the last third of June to early July in eastern Nebraska,
// in the second half of July in North Dakota (usual dates of harvest, from memory,
// a week after ripeness): its heat is counted from spring, so that sowing early or
// late moves the harvest little.
func TestWinterWheatRipens(t *testing.T) {
	wheat := named(t, "winter wheat")
	for _, c := range []struct {
		place       string
		weather     func(int) (float64, float64)
		first, last int
	}{{"41 N", lincoln, 171, 188}, {"47 N", bismarck, 197, 215}} {
		s, stages := season(wheat, wheat.Maturity, c.weather, always(fit))
		if s.MaturedOn < c.first || s.MaturedOn > c.last {
			t.Errorf("%s: ripe on day %d, want %d-%d", c.place, s.MaturedOn, c.first, c.last)
		}
		if stages[1] != Growing || stages[60] != Growing { // dormant, not full, in winter
			t.Errorf("%s: stages %d and %d in winter", c.place, stages[1], stages[60])
		}
		if s.PlantedOn != 273 { // not watched: the middle of 10 September to 20 October
			t.Errorf("%s: sown on day %d", c.place, s.PlantedOn)
		}
	}
}

// Sown after soybean by the rules of spring: in the window, on ground that bears,
// when the farm's days are done. The year's own dates stay those of soybean.
func TestSownAfterSoybean(t *testing.T) {
	wheat := named(t, "winter wheat")
	for _, c := range []struct {
		what   string
		ground func(int) Ground
		want   int
	}{
		{"ground that bears", always(fit), wheat.FirstPlanting + int(wheat.WorkDays) - 1},
		{"wet until October", func(day int) Ground {
			if day > 150 && day < 280 {
				return Ground{Soil: 15}
			}
			return fit
		}, 280}, // in a hurry by then: the first day that passes
		{"passable at the end only", func(day int) Ground {
			if day < 200 {
				return fit
			}
			return Ground{Soil: 10, Passable: true}
		}, wheat.LastPlanting - hurry + 1},
		{"never fit in autumn", func(day int) Ground {
			if day < 200 {
				return fit
			}
			return Ground{Soil: 10}
		}, 0},
	} {
		seeded, s := rotation(t, "soybean", c.ground, always(fit))
		if seeded.PlantedOn != 124 || seeded.MaturedOn == 0 {
			t.Errorf("%s: soybean planted on day %d, ripe %d", c.what, seeded.PlantedOn, seeded.MaturedOn)
		}
		if s.PlantedOn != c.want || (s.MaturedOn > 0) != (c.want > 0) {
			t.Errorf("%s: sown on day %d, want %d; ripe on day %d", c.what, s.PlantedOn, c.want, s.MaturedOn)
		}
	}
	// A crop still on the field is not sown into: soybean that never ripens stands until
	// the end of November.
	var s Stand
	s.Begin(named(t, "soybean"), 1e5)
	s.Follow(wheat)
	for day := 1; day <= 365; day++ {
		s.Day(day, 12, 26, fit)
	}
	if s.Begin(wheat, wheat.Maturity); s.Stage != Harvested || s.PlantedOn != 0 || s.Season() {
		t.Errorf("sown into a standing crop: stage %d, day %d", s.Stage, s.PlantedOn)
	}
}

// Late sowing comes up in spring; seedlings cover as the table's first coefficient
// does, and the ground has been worked.
func TestSeedlingsOverWinter(t *testing.T) {
	wheat := named(t, "winter wheat")
	s := Stand{Kind: named(t, "soybean"), Stage: Harvested, PlantedOn: 124}
	s.Follow(wheat)
	same(t, "stubble", s.Residue(0.3), 0.6)
	s.Day(289, 4, 10, Ground{Passable: true, Soil: 8})
	same(t, "sown", s.Kcb(289), 0)
	same(t, "worked", s.Residue(0.3), 0.3)
	s.Day(290, 4, 10, Ground{})
	late := s
	for day := 291; day < 320; day++ {
		s.Day(day, 4, 10, Ground{})
	}
	same(t, "seedlings", s.Kcb(320), wheat.KcbStart)

	s.Begin(wheat, wheat.Maturity)
	late.Begin(wheat, wheat.Maturity)
	if s.Stage != Growing || late.Stage != Planted || s.PlantedOn != 289 || s.Units != 0 {
		t.Errorf("stages %d and %d, sown on day %d, %g C-d", s.Stage, late.Stage, s.PlantedOn, s.Units)
	}
	// 7 C-d came in autumn; 119 of 126 are left, at 7 a day.
	for day := 1; day <= 17; day++ {
		late.Day(day, 4, 10, Ground{WaterTable: 2})
		if up := late.Stage == Growing; up != (day == 17) {
			t.Errorf("day %d of spring: stage %d", day, late.Stage)
		}
	}
}

// A year of a spring crop is the same with and without a spring crop named to follow.
func TestFollowChangesNothingInSpringCrops(t *testing.T) {
	var a, b Stand
	a.Begin(named(t, "corn"), 1000)
	b.Begin(named(t, "corn"), 1000)
	b.Follow(named(t, "soybean"))
	for day := 1; day <= 365; day++ {
		a.Day(day, 10, 20, fit)
		b.Day(day, 10, 20, fit)
		if a.Stage != b.Stage || a.Units != b.Units || a.RootDepth != b.RootDepth || a.Kcb(day) != b.Kcb(day) || a.Residue(0.3) != b.Residue(0.3) {
			t.Fatalf("day %d differs", day)
		}
	}
}
