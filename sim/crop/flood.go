package crop

import "math"

// FloodLimit is how long plants live under water in a part of the season.
type FloodLimit struct {
	From, To float64 // share of the heat from planting to maturity
	// Days under water that a stand lives through, and beyond which it is lost; infinite
	// where only harm is published.
	Least, Most float64
	Warm        float64 // C of the day's mean above which Least is all; 0 for none
	Hot         float64 // C above which days count double; 0 for none
	Note        string
	Source      string
	Status      Status
}

// Leaf stages of corn as shares of its heat: 6, 11 and 16 leaves and blister, at 360,
// 660, 960 and 1440 of 2450 F-d (High Plains Regional Climate Center, medium hybrid).
const (
	corn6, corn11, corn16, cornBlister = 360.0 / 2450, 660.0 / 2450, 960.0 / 2450, 1440.0 / 2450
)

// floodLimits by crop. Survival is halved by hot days (extension bulletins, read). No
// limits were found for sugar beet and grass, nor for corn of 11 to 16 leaves and
// after blister.
var floodLimits = map[string][]FloodLimit{
	"corn": {
		{From: 0, To: corn6, Least: 2, Most: 4, Warm: (70.0 - 32) / 1.8, Hot: 25, Status: Read,
			Note: "young plants live about 2 d warm, 4 d cool", Source: "Nebraska extension 2019; Missouri and South Dakota extension"},
		{From: corn6, To: corn11, Least: 7, Most: 10, Hot: 30, Status: Read, Note: "7 to 10 leaves", Source: "Nebraska extension 2019"},
		{From: corn16, To: cornBlister, Least: 2, Most: math.Inf(1), Status: Read, Note: "pollination and uptake harmed beyond 2-4 d", Source: "Nebraska extension 2019"},
	},
	"soybean": {
		{From: 0, To: 0.42, Least: 5, Most: math.Inf(1), Status: Read, Note: "vegetative, to full cover: shorter plants after 4-5 d, stand possibly lost from 6 d", Source: "Nebraska extension 2019"},
		{From: 0.42, To: 1, Least: 2, Most: math.Inf(1), Status: Read, Note: "little loss under 48 h at any stage", Source: "Nebraska extension 2019"},
	},
	"spring wheat": {smallGrains},
	"winter wheat": {smallGrains},
	"alfalfa": {
		{From: 0, To: math.Inf(1), Least: 7, Most: 14, Status: FromMemory, Note: "established and growing; new seeding far less, dormant more", Source: "extension forage bulletins"},
	},
}

var smallGrains = FloodLimit{From: 0, To: 1, Least: 1, Most: math.Inf(1), Status: SecondHand,
	Note: "1 d flooded often withstood", Source: "North Dakota extension 2000"}

// FloodLimitOf is the limit for a crop that has had a share of its heat; the error
// is NoRelation.
func FloodLimitOf(crop string, share float64) (FloodLimit, error) {
	if l := floodLimit(crop, share); l != nil {
		return *l, nil
	}
	return FloodLimit{}, &NoRelation{crop, "standing water at this stage"}
}

func floodLimit(crop string, share float64) *FloodLimit {
	limits := floodLimits[crop]
	for i := range limits {
		if l := &limits[i]; share >= l.From && share < l.To {
			return l
		}
	}
	return nil
}

// Days that a stand under water of a temperature (C, the day's mean air) lives
// through, and beyond which it is lost.
func (l *FloodLimit) Days(mean float64) (least, most float64) {
	least, most = l.Least, l.Most
	if l.Warm > 0 && mean > l.Warm && !math.IsInf(most, 1) {
		most = least
	}
	if l.Hot > 0 && mean > l.Hot {
		least, most = least/2, most/2
	}
	return least, most
}

// Fate is what standing water has done to a stand.
type Fate int

// The fates.
const (
	Stands   Fate = iota
	Unjudged      // under water at a stage without a published limit
	Doubtful      // longer than stands surely live through
	Lost          // longer than any does: it has to be replanted
)

// Spell is an unbroken time under water. Each of its days takes its part of the days
// that a stand lives, so that stage and warmth may change within it.
type Spell struct {
	Days        int
	least, most float64 // taken of the days lived through, and of those to loss
	unjudged    bool
}

// Day adds a day, under water all day or not, to the spell of a crop that has had a
// share of its heat. Below the crop's base temperature it is dormant and the day
// takes nothing (assumption: cool plants live longer, by how much is not published).
func (s *Spell) Day(k *Kind, under bool, share, mean float64) {
	if !under {
		*s = Spell{}
		return
	}
	s.Days++
	if mean <= k.Base {
		return
	}
	l := floodLimit(k.Name, share)
	if l == nil {
		s.unjudged = true
		return
	}
	least, most := l.Days(mean)
	s.least += 1 / least
	s.most += 1 / most
}

// Fate of the stand so far.
func (s *Spell) Fate() Fate {
	const whole = 1 + 1e-9 // seven sevenths are one
	switch {
	case s.most > whole:
		return Lost
	case s.least > whole:
		return Doubtful
	case s.unjudged:
		return Unjudged
	}
	return Stands
}

// Flood tells the stand of a day whether its plants stood under water all day at
// what mean temperature, C, and says what that has done. An annual of spring that is
// lost waits to be replanted, within its window; an autumn crop leaves the field bare
// until the next crop, and a perennial stays: its reseeding is not modelled.
func (s *Stand) Flood(under bool, mean float64) Fate {
	if s.Kind.Perennial {
		s.flood.Day(&s.Kind, under, s.Units/s.Kind.Maturity, mean)
		return s.flood.Fate()
	}
	if !s.Season() {
		s.flood = Spell{}
		return Stands
	}
	s.flood.Day(&s.Kind, under, s.Units/s.Need, mean)
	fate := s.flood.Fate()
	if fate == Lost {
		s.Stage = Waiting
		if s.Kind.Autumn {
			s.Stage = Harvested
		}
		s.Drowned++
		s.PlantedOn, s.Units, s.RootDepth = 0, 0, 0
		s.flood = Spell{}
	}
	return fate
}

// SoybeanFloodLoss is the yield that soybean loses to a flood of some days, kg/ha:
// Scott et al. (1989) per day, at four leaves (read) or in full flower (from memory),
// on clay or on silt loam. Nothing under 48 h (read), and each day beyond counts
// (assumption: how the two join). It counts the same days as the stress-day index:
// one or the other, never both.
func SoybeanFloodLoss(days float64, flowering, clay bool) float64 {
	const bushel = 67.25 // kg/ha to the bu/ac
	rate := 0.8
	switch {
	case flowering && clay:
		rate = 2.3
	case flowering:
		rate = 1.5
	case clay:
		rate = 1.8
	}
	return rate * bushel * max(0, days-2)
}
