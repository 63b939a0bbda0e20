package crop

import (
	"errors"
	"math"
	"testing"
)

// drowned is the fate after a spell under water at one stage and warmth.
func drowned(k Kind, days int, share, mean float64) Fate {
	var s Spell
	for range days {
		s.Day(&k, true, share, mean)
	}
	return s.Fate()
}

// Days that crops live under water, as crop-flood-tolerance.csv lists them (extension
// bulletins, mostly read): the last day of its range does not lose a stand and the
// next does; where only harm is listed no day does.
func TestDaysUnderWater(t *testing.T) {
	rows := values(t, "crop-flood-tolerance.csv")
	last := map[string]int{}
	for _, r := range rows {
		if r["days_max"] != "" {
			last[r["crop"]+", "+r["stage"]] = int(number(t, r["days_max"]))
		}
	}
	cool, warm, hot := 18.0, 24.0, 26.0 // C: under 70 F (21.1 C), over it, over 77 F (25 C)
	for _, c := range []struct {
		crop        string
		share, mean float64
		days        int
		want        Fate
	}{
		{"corn", 0.10, cool, 2, Stands},
		{"corn", 0.10, cool, 3, Doubtful},
		{"corn", 0.10, cool, last["corn, before V6, under water"], Doubtful},
		{"corn", 0.10, cool, last["corn, before V6, under water"] + 1, Lost},
		{"corn", 0.10, warm, 2, Stands},
		{"corn", 0.10, warm, 3, Lost},
		{"corn", 0.10, hot, 1, Stands},
		{"corn", 0.10, hot, 2, Lost}, // hot days halve survival
		{"corn", 0.20, 30, 7, Stands},
		{"corn", 0.20, 30, last["corn, V7-V10, under water"], Doubtful},
		{"corn", 0.20, 30, last["corn, V7-V10, under water"] + 1, Lost},
		{"corn", 0.20, 30.1, 3, Stands},
		{"corn", 0.20, 30.1, 6, Lost},
		{"corn", 0.35, warm, 20, Unjudged}, // 11 to 16 leaves: nothing published
		{"corn", 0.49, warm, 2, Stands},
		{"corn", 0.49, warm, 30, Doubtful}, // harmed, no stand lost
		{"soybean", 0.20, warm, last["soybean, vegetative"], Stands},
		{"soybean", 0.20, warm, 6, Doubtful}, // "possible stand and yield loss"
		{"soybean", 0.60, warm, last["soybean, any"], Stands},
		{"soybean", 0.60, warm, 3, Doubtful},
		{"spring wheat", 0.5, cool, 1, Stands},
		{"winter wheat", 0.5, cool, 2, Doubtful},
		{"winter wheat", 0.1, -1, 60, Stands}, // dormant
		{"alfalfa", 0.5, cool, 7, Stands},
		{"alfalfa", 0.5, cool, last["alfalfa, established, growing"], Doubtful},
		{"alfalfa", 0.5, cool, last["alfalfa, established, growing"] + 1, Lost},
		{"sugar beet", 0.2, cool, 9, Unjudged},
		{"grass", 0.2, cool, 9, Unjudged},
	} {
		if c.days == 0 || c.days == 1 && c.want == Lost {
			t.Fatalf("row of %s missing", c.crop)
		}
		if got := drowned(named(t, c.crop), c.days, c.share, c.mean); got != c.want {
			t.Errorf("%s at %g of its heat, %d days at %g C: fate %d, want %d", c.crop, c.share, c.days, c.mean, got, c.want)
		}
	}
	// A day in the air begins the count anew.
	corn := named(t, "corn")
	var s Spell
	for day := range 9 {
		s.Day(&corn, day != 4, 0.10, cool)
	}
	if s.Days != 4 || s.Fate() != Doubtful {
		t.Errorf("spell of %d days, fate %d", s.Days, s.Fate())
	}
}

// Limits are asked by crop and stage; where none is published the answer is typed.
func TestFloodLimits(t *testing.T) {
	l, err := FloodLimitOf("corn", 0.2)
	if err != nil || l.Least != 7 || l.Most != 10 || l.Status != Read {
		t.Errorf("%+v, %v", l, err)
	}
	var none *NoRelation
	if _, err := FloodLimitOf("sugar beet", 0.2); !errors.As(err, &none) {
		t.Errorf("sugar beet: %v", err)
	}
	for crop, limits := range floodLimits {
		for i, l := range limits {
			if l.From >= l.To || l.Least > l.Most || l.Source == "" || l.Status == "" || i > 0 && l.From < limits[i-1].To {
				t.Errorf("%s, row %d: %+v", crop, i, l)
			}
		}
	}
}

// A drowned annual is replanted when the ground bears, and counts its heat anew; after
// the window, and in an autumn crop, the field stays bare; a perennial stays.
func TestReplanting(t *testing.T) {
	var s Stand
	s.Begin(named(t, "corn"), 1200)
	for day := 1; day <= 365; day++ {
		g := fit
		if day >= 130 && day < 140 {
			g = Ground{Soil: 15}
		}
		s.Day(day, 12, 26, g)
		fate := s.Flood(day >= 130 && day < 140, 19)
		if (fate == Lost) != (day == 134) { // the fifth day
			t.Errorf("day %d: fate %d", day, fate)
		}
	}
	if s.Drowned != 1 || s.PlantedOn != 140 || s.MaturedOn != 140+134 { // 1200 C-d at 9 a day
		t.Errorf("drowned %d times, planted on day %d, ripe %d", s.Drowned, s.PlantedOn, s.MaturedOn)
	}
	for _, c := range []struct {
		crop string
		day  int
	}{{"corn", 170}, {"winter wheat", 60}} {
		var s Stand
		k := named(t, c.crop)
		s.Begin(k, k.Maturity)
		for day := 1; day <= 365; day++ {
			s.Day(day, 10, 22, fit)
			if day == c.day {
				s.flood.most = 1 // at the limit of its days
				if c.crop == "winter wheat" {
					s.flood.most = 2 // no limit of small grains is published: forced
				}
				s.Units = 0.05 * s.Need
				s.Flood(true, 20)
			}
		}
		if s.Drowned != 1 || s.PlantedOn != 0 || s.MaturedOn != 0 {
			t.Errorf("%s: drowned %d, planted on day %d", c.crop, s.Drowned, s.PlantedOn)
		}
	}
	var hay Stand
	hay.Begin(named(t, "alfalfa"), 900)
	for range 15 {
		hay.Flood(true, 20)
	}
	if hay.Flood(true, 20) != Lost || hay.Stage != Growing {
		t.Errorf("alfalfa: stage %d", hay.Stage)
	}
}

// Soybean's loss a day on clay and silt loam at four leaves (Scott et al. 1989 by
// extension, read) in kg/ha, as the listing prints them to 1 kg/ha; in flower from
// memory in bu/ac.
func TestSoybeanFloodLoss(t *testing.T) {
	for _, c := range []struct {
		flowering, clay bool
		want            float64
	}{{false, true, 121}, {false, false, 54}, {true, true, 2.3 * 67.25}, {true, false, 1.5 * 67.25}} {
		if got := SoybeanFloodLoss(7, c.flowering, c.clay) / 5; math.Abs(got-c.want) > 0.5 {
			t.Errorf("flowering %v, clay %v: %.1f kg/ha a day, want %g", c.flowering, c.clay, got, c.want)
		}
	}
	if SoybeanFloodLoss(2, true, true) != 0 { // little loss under 48 h
		t.Error("two days cost yield")
	}
}
