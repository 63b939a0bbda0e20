package crop

import "testing"

// fit is ground that carries a machine, warm and drained.
var fit = Ground{Bears: true, Passable: true, Soil: 15, WaterTable: 1.2}

// season runs a stand through the days of a common year; it returns the stand and
// the stage on the evening of each day.
func season(k Kind, need float64, weather func(day int) (tmin, tmax float64), ground func(day int) Ground) (*Stand, [366]Stage) {
	var s Stand
	var stages [366]Stage
	s.Begin(k, need)
	for day := 1; day <= 365; day++ {
		tmin, tmax := weather(day)
		s.Day(day, tmin, tmax, ground(day))
		stages[day] = s.Stage
	}
	return &s, stages
}

func mild(int) (tmin, tmax float64) { return 12, 26 }

// always gives the same ground on every day.
func always(g Ground) func(int) Ground { return func(int) Ground { return g } }

// The window, soil warmth and the farm's turn, of every crop of spring (common
// practice; 10 C for corn is read, Iowa State extension).
func TestPlantingOfEachCrop(t *testing.T) {
	const corn = 10
	if k := named(t, "corn"); k.SoilWarmth != corn {
		t.Errorf("corn waits for %g C", k.SoilWarmth)
	}
	for _, name := range Names() {
		k := named(t, name)
		if k.Perennial || k.Autumn {
			continue
		}
		turn := k.FirstPlanting + int(k.WorkDays) - 1 // the last of the days that the farm needs
		last := k.LastPlanting
		hurried := last - 20 // three weeks, to the last day
		bears := Ground{Bears: true, Passable: true, Soil: k.SoilWarmth, WaterTable: 2}
		passable := Ground{Passable: true, Soil: k.SoilWarmth, WaterTable: 2}
		cold := bears
		cold.Soil -= 0.01
		from := func(day int, before, after Ground) func(int) Ground {
			return func(d int) Ground {
				if d < day {
					return before
				}
				return after
			}
		}
		for _, c := range []struct {
			what   string
			ground func(int) Ground
			want   int
		}{
			{"ground that bears all year", always(bears), turn},
			{"ground that never bears", always(Ground{Soil: 20}), 0},
			{"fieldwork days before the window only", from(k.FirstPlanting, bears, Ground{Soil: 20}), 0},
			{"soil too cold all year", always(cold), 0},
			{"soil warm late: the farm's days are done by then", from(turn+10, cold, bears), turn + 10},
			{"every second day a fieldwork day", func(d int) Ground {
				if (d-k.FirstPlanting)%2 == 0 {
					return bears
				}
				return Ground{Soil: 20}
			}, k.FirstPlanting + 2*(int(k.WorkDays)-1)},
			{"passable days do not count for the farm's turn", from(turn+3, passable, bears), turn + 3 + int(k.WorkDays) - 1},
			{"passable ground only", always(passable), hurried},
			{"passable ground only, on the last day", from(last, Ground{Soil: 20}, passable), last},
			{"passable ground after the last day", from(last+1, Ground{Soil: 20}, passable), 0},
			{"ground that bears after the last day", from(last+1, Ground{Soil: 20}, bears), 0},
			{"passable ground in a hurry, too cold", always(Ground{Passable: true, Soil: k.SoilWarmth - 0.01}), 0},
			{"one fieldwork day in a hurry", func(d int) Ground {
				if d == last-5 {
					return bears
				}
				return Ground{Soil: 20}
			}, last - 5},
		} {
			s, stages := season(k, k.Maturity, mild, c.ground)
			if s.PlantedOn != c.want {
				t.Errorf("%s, %s: planted on day %d, want %d", name, c.what, s.PlantedOn, c.want)
			}
			if c.want == 0 {
				if stages[last] != Waiting || stages[last+1] != Harvested || s.RootDepth != 0 || s.Units != 0 {
					t.Errorf("%s, %s: stage %d on the last day, %d after; roots %g m, %g C-d", name, c.what, stages[last], stages[last+1], s.RootDepth, s.Units)
				}
			} else if stages[c.want-1] != Waiting || stages[c.want] != Planted {
				t.Errorf("%s, %s: stages %d and %d about planting", name, c.what, stages[c.want-1], stages[c.want])
			}
		}
	}
}

// Each stage comes on the day that its share of the heat is reached: 9 C-d a day of
// corn at 12/26 C, counted from the day after planting, by the definition of heat
// units.
func TestStagesByHeat(t *testing.T) {
	corn := named(t, "corn")
	const need, planted = 1000.0, 114 // the fourth day of the window
	s, stages := season(corn, need, mild, always(fit))
	reached := func(share float64) int { // first whole day at or over it
		day := planted
		for units := 0.0; units < share*need; units += 9 {
			day++
		}
		return day
	}
	for _, c := range []struct {
		stage Stage
		share float64
	}{{Growing, corn.Emergence}, {Full, corn.Full}, {Ripening, corn.Late}, {Harvested, 1}} {
		day := reached(c.share)
		if stages[day-1] >= c.stage || stages[day] != c.stage {
			t.Errorf("stage %d on day %d, want it first then: the day before has %d", stages[day], day, stages[day-1])
		}
	}
	if s.MaturedOn != reached(1) || s.PlantedOn != planted || s.RootDepth != 0 {
		t.Errorf("planted %d, ripe %d, roots %g m left", s.PlantedOn, s.MaturedOn, s.RootDepth)
	}
}

// 28 F (-2.2 C) ends corn in fall (common practice), not in spring, when its growing
// point is below ground; 30 F does not.
func TestKillingFrost(t *testing.T) {
	corn := named(t, "corn")
	frost := func(on int, low float64) func(int) (float64, float64) {
		return func(day int) (float64, float64) {
			if day == on {
				return low, 10
			}
			return 10, 20 // 5 C-d a day: the year has too little to ripen
		}
	}
	for _, c := range []struct {
		on    int
		low   float64
		kills bool
	}{{140, -4, false}, {265, -1.1, false}, {265, -2.3, true}, {214, -2.3, true}} {
		s, stages := season(corn, 2000, frost(c.on, c.low), always(fit))
		if killed := stages[c.on] == Harvested; killed != c.kills {
			t.Errorf("%g C on day %d: killed %v", c.low, c.on, killed)
		}
		if s.MaturedOn != 0 || s.Stage != Harvested || s.Season() {
			t.Errorf("%g C on day %d: ripe on day %d, stage %d at the year's end", c.low, c.on, s.MaturedOn, s.Stage)
		}
	}
	// Without a frost the field is cleared by the end of November, day 334.
	if _, stages := season(corn, 3000, mild, always(fit)); stages[333] == Harvested || stages[334] != Harvested {
		t.Errorf("stages %d and %d at the end of November", stages[333], stages[334])
	}
}

// A perennial stands all year, rooted to its depth, whatever ground and frost do,
// and counts heat from 1 January; a new year begins anew.
func TestPerennial(t *testing.T) {
	grass := named(t, "grass")
	winter := func(day int) (float64, float64) {
		if day < 91 || day > 304 {
			return -20, -5
		}
		return 10, 20 // 10 C-d a day above 5 C
	}
	s, stages := season(grass, grass.Maturity, winter, always(Ground{WaterTable: 0.1}))
	for day := 1; day <= 365; day++ {
		if stages[day] != Growing {
			t.Fatalf("stage %d on day %d", stages[day], day)
		}
	}
	if !s.Season() || s.RootDepth != grass.RootMax || s.PlantedOn != 0 || s.Units != 214*10 {
		t.Errorf("season %v, roots %g m, planted %d, %g C-d", s.Season(), s.RootDepth, s.PlantedOn, s.Units)
	}
	s.Begin(grass, grass.Maturity)
	if s.Units != 0 || s.RootDepth != grass.RootMax {
		t.Errorf("new year: %g C-d, roots %g m", s.Units, s.RootDepth)
	}
	s.Begin(named(t, "corn"), 1200)
	if s.Stage != Waiting || s.RootDepth != 0 || s.Season() {
		t.Errorf("corn after grass: stage %d, roots %g m", s.Stage, s.RootDepth)
	}
}
