package crop

import "math"

// Stage of a stand.
type Stage int

// The stages.
const (
	Waiting   Stage = iota // not planted this year
	Planted                // in the ground, not up
	Growing                // up, to full cover
	Full                   // full cover
	Ripening               // leaves turning
	Harvested              // off the field, or not planted in time
)

// Stand is the crop on a field through a year.
type Stand struct {
	Kind  Kind
	Need  float64 // heat units from planting to maturity in this place, C-d
	Stage Stage

	PlantedOn int     // day of the year, 0 if not planted; of an autumn crop, of the year before
	MaturedOn int     // day of the year, 0 if not (yet) ripe
	Drowned   int     // stands lost to standing water this year (Flood)
	Units     float64 // heat units since planting, or since the year's start of a perennial or an autumn crop
	RootDepth float64 // m
	Climate   float64 // added to the coefficient of full cover (ClimateAdjustment)
	worked    float64 // fieldwork days in the window
	autumn    float64 // heat units of an autumn crop in the year before
	next      sowing  // the autumn crop that follows, if one does
	flood     Spell
}

// Begin starts a year with the given crop and its need of heat (C-d). An autumn
// crop is in the ground by then, if it was sown in time (Follow).
func (s *Stand) Begin(k Kind, need float64) {
	sown := s.next
	*s = Stand{Kind: k, Need: need}
	switch {
	case k.Perennial:
		s.Stage = Growing
		s.RootDepth = k.RootMax
	case k.Autumn:
		s.overwinter(sown)
	}
}

// Ground is what a stand is told of the ground each day.
type Ground struct {
	Bears      bool    // a fieldwork day
	Passable   bool    // nothing stands, the table is below 0.30 m, no ice, little rain
	Soil       float64 // temperature at planting depth, C
	WaterTable float64 // depth, m
}

const (
	shallowestRoots = 0.10 // m
	hurry           = 21   // days before the last planting date (common practice)
	killingFrost    = -2.2 // C, 28 F: ends an annual summer crop (common practice)
)

// Day carries the stand through a day of the year.
func (s *Stand) Day(day int, tmin, tmax float64, g Ground) {
	k := &s.Kind
	if s.next.kind.Autumn && (s.Stage == Harvested || k.Perennial) {
		s.next.day(day, tmin, tmax, g)
	}
	if k.Perennial {
		s.Units += k.HeatUnits(tmin, tmax)
		return
	}
	if s.Stage == Waiting {
		if day > k.LastPlanting {
			s.Stage = Harvested
		} else if k.turn(&s.worked, day, g) {
			s.Stage, s.PlantedOn = Planted, day
			s.RootDepth = shallowestRoots
		}
		return
	}
	if s.Stage == Harvested {
		return
	}
	s.Units += k.HeatUnits(tmin, tmax)
	x := s.Units / s.Need
	switch {
	case x >= 1, s.Stage >= Growing && tmin < killingFrost && day > 213, day >= 334:
		if x >= 1 {
			s.MaturedOn = day
		}
		s.Stage = Harvested
		s.RootDepth = 0
		return
	case x >= k.Late:
		s.Stage = Ripening
	case x >= k.Full:
		s.Stage = Full
	case (s.Units+s.autumn)/s.Need >= k.Emergence:
		s.Stage = Growing
	}
	s.growRoots(x, g.WaterTable)
}

// turn says whether a day is that of planting, and counts it in the fieldwork days
// worked in the window.
func (k *Kind) turn(worked *float64, day int, g Ground) bool {
	if day < k.FirstPlanting || day > k.LastPlanting {
		return false
	}
	if g.Bears {
		*worked++
	}
	// Near the end of the window a farm no longer waits for good tilth.
	turn := g.Bears && *worked >= k.WorkDays || g.Passable && day > k.LastPlanting-hurry
	return turn && g.Soil >= k.SoilWarmth
}

// growRoots follows the sine curve of Borg and Grimes (1986, Trans. ASAE
// 29:194, from memory) in heat units to full cover; roots do not grow into
// standing water.
func (s *Stand) growRoots(x, waterTable float64) {
	aim := s.Kind.RootMax * (0.5 + 0.5*math.Sin(3.03*min(x/s.Kind.Full, 1)-1.47))
	s.RootDepth = max(s.RootDepth, min(aim, waterTable))
}

// Season says whether the crop stands: planting to maturity.
func (s *Stand) Season() bool { return s.Stage != Waiting && s.Stage != Harvested }

// weeds grow where nothing was planted; their coefficient is that of sparse
// growth (assumption). Without them an unplanted wet field would dry by its
// bare surface alone.
const (
	bareKcb  = 0.0
	weedsKcb = 0.60
	weedsDay = 166 // 15 June
)

// Kcb is the basal coefficient of the day (FAO-56: level, straight line, level,
// straight line, over heat units instead of days). Climate moves the upper level,
// and the last where it is 0.45 or more.
func (s *Stand) Kcb(day int) float64 {
	k := &s.Kind
	mid, end := k.KcbMid+s.Climate, k.KcbEnd
	if end >= 0.45 {
		end += s.Climate
	}
	line := func(x, a, b, ya, yb float64) float64 { return ya + (yb-ya)*min(1, max(0, (x-a)/(b-a))) }
	if k.Perennial {
		if s.Units < k.Emergence*k.Maturity || day > 305 {
			return k.KcbStart
		}
		return line(s.Units/k.Maturity, k.Emergence, k.Full, k.KcbStart, mid)
	}
	switch s.Stage {
	case Waiting, Planted:
		return bareKcb
	case Harvested:
		if s.next.up() {
			return s.next.kind.KcbStart
		}
		if s.next.sownOn > 0 {
			return bareKcb
		}
		if s.PlantedOn == 0 && day > weedsDay && day < 288 {
			return line(float64(day), weedsDay, weedsDay+30, 0.15, weedsKcb)
		}
		return bareKcb
	}
	x := s.Units / s.Need
	if x < k.Late {
		return line(x, k.Cover, k.Full, k.KcbStart, mid)
	}
	return line(x, k.Late, 1, mid, end)
}

// Roots is the depth that water is taken from: the crop's, or the 0.3 m of weeds
// and of a young crop's neighbours.
func (s *Stand) Roots() float64 { return max(s.RootDepth, 0.3) }

// Shade is the basal coefficient whose leaves shade the ground: that of the day,
// but leaves that turn go on shading until harvest.
func (s *Stand) Shade(kcb float64) float64 {
	if s.Stage == Ripening {
		return s.Kind.KcbMid + s.Climate
	}
	return kcb
}

// Height of a stand with that shade, m.
func (s *Stand) Height(shade float64) float64 {
	return s.Kind.Height * min(1, max(shade-0.15, 0)/(s.Kind.KcbMid-0.15))
}

// Residue is the share of the ground under crop residue, given that after
// planting: from harvest until tillage and planting twice as much lies there, at
// most 0.9 where tillage buries any (common practice: corn leaves 80-95 %, a pass
// of tillage buries a third to a half).
func (s *Stand) Residue(afterPlanting float64) float64 {
	if s.Season() || s.next.sownOn > 0 || s.Stage == Harvested && s.PlantedOn == 0 {
		return afterPlanting // or left to weeds
	}
	return max(afterPlanting, min(0.9, 2*afterPlanting))
}
