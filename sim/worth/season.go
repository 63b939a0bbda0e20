package worth

import (
	"mottle/sim"
	"mottle/sim/crop"
)

// Weeks counted from 1 April to 15 June, and from 1 September to 30 November.
const (
	springFirst, springLast = 91, 166 // days of a common year
	autumnFirst, autumnLast = 244, 334
	springWeeks             = (springLast - springFirst + 7) / 7
	autumnWeeks             = (autumnLast - autumnFirst + 7) / 7
)

// harvestSpan is the time after ripeness in which a crop is to be brought in, days
// (common practice).
const harvestSpan = 30

// Season is the crop of one year on one of the twins.
type Season struct {
	Year int
	Crop string

	Bears   int // day of the year from 1 March on which the ground first bears a machine; 0 none
	Planted int // day of the year of the last planting, of an autumn crop of the year before; 0 not planted
	Drowned int // stands lost to standing water
	Resown  int // of them, those that were sown again
	Ripe    int // last day of the year on which the crop stood; 0 none

	Spring [springWeeks]int // fieldwork days by week from 1 April
	Autumn [autumnWeeks]int // from 1 September
	// Harvest is the fieldwork days in the 30 days after the crop is ripe, -1 where
	// none ripened.
	Harvest int

	Saturated        int // days in the calendar year
	SaturatedSpring  int // April to June
	SaturatedByPhase [crop.Maturation + 1]int
	ShortAirByPhase  [crop.Maturation + 1]int
	UnderWater       int // days in the season with water standing at their end
	Excess           crop.StressDays
	Thirst           crop.Thirst
	ECe              float64 // dS/m, mean of the season
	Yield            Yield
}

// seasonOf reads a year of a record.
func seasonOf(r *sim.Record, y sim.YearSpan, kind crop.Kind) Season {
	s := Season{Year: y.Year, Crop: kind.Name, Harvest: -1}
	d := r.Days
	ece, standing := 0.0, 0
	lost := false // the last stand drowned
	for i := y.First; i < y.End; i++ {
		day := int(r.Forcing.YearDay[i])
		if d.Bears[i] {
			switch {
			case day >= springFirst && day <= springLast:
				s.Spring[(day-springFirst)/7]++
			case day >= autumnFirst && day <= autumnLast:
				s.Autumn[(day-autumnFirst)/7]++
			}
			if s.Bears == 0 && day >= 60 {
				s.Bears = day
			}
		}
		phase := d.Phase[i]
		if d.Saturated(i) {
			s.Saturated++
			s.SaturatedByPhase[phase]++
			if m := r.Forcing.Month[i]; m >= 4 && m <= 6 {
				s.SaturatedSpring++
			}
		}
		if d.ShortAir(i) {
			s.ShortAirByPhase[phase]++
		}
		if phase != crop.NoPhase {
			if lost {
				s.Resown++
			}
			lost = false
			s.Planted = int(d.Planted[i])
			s.Ripe = day
			ece += d.RootECe[i]
			standing++
			if d.Pond[i] > 0 {
				s.UnderWater++
			}
			s.Excess.Add(phase, d.Table[i])
			s.Thirst.Add(phase, d.Asked[i], d.Thirst[i])
		}
		if d.Drowned[i] { // a new stand starts afresh
			s.Drowned++
			lost, s.Planted, s.Ripe = true, 0, 0
			s.Excess, s.Thirst = crop.StressDays{}, crop.Thirst{}
			ece, standing = 0, 0
		}
	}
	if standing > 0 {
		s.ECe = ece / float64(standing)
	}
	if s.Ripe > 0 && !kind.Perennial {
		s.Harvest = 0
		for i := y.First; i < y.End; i++ {
			if day := int(r.Forcing.YearDay[i]); day > s.Ripe && day <= s.Ripe+harvestSpan && d.Bears[i] {
				s.Harvest++
			}
		}
	}
	return s
}

// Seasons reads every complete year of a record, the rotation by year as the twins
// were run, with the default relations of yield.
func Seasons(r *sim.Record, rotation []crop.Kind) ([]Season, error) {
	return seasonsBy(r, rotation, defaultLine)
}

// seasonsBy is Seasons with one of the published lines of yield over excess water.
func seasonsBy(r *sim.Record, rotation []crop.Kind, line wetLine) ([]Season, error) {
	out := make([]Season, 0, len(r.Years))
	for _, y := range r.Years {
		kind := rotation[y.Year%len(rotation)]
		s := seasonOf(r, y, kind)
		var err error
		if s.Yield, err = yieldOf(&s, kind, line); err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}
