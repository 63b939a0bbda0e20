package crop

// An autumn crop is sown in one year and harvested in the next. Until the year's
// end its sowing is watched beside the stand that was harvested before it; on 1
// January it is the stand. Winter kill is not modelled.

// sowing is an autumn crop in the year in which it is sown.
type sowing struct {
	kind   Kind
	sownOn int     // day of the year, 0 if not sown
	worked float64 // fieldwork days in the window
	units  float64 // heat units since, C-d
}

// Follow says, after Begin, which crop the next year brings: an autumn crop is sown
// in its window once the present crop is off the field (a perennial is broken for
// it), by the same rules as in spring. A crop of spring changes nothing.
func (s *Stand) Follow(next Kind) { s.next = sowing{kind: next} }

// day carries the sowing through a day of the year.
func (a *sowing) day(day int, tmin, tmax float64, g Ground) {
	if a.sownOn > 0 {
		a.units += a.kind.HeatUnits(tmin, tmax)
	} else if a.kind.turn(&a.worked, day, g) {
		a.sownOn = day
	}
}

// up says whether the seedlings are out of the ground.
func (a *sowing) up() bool {
	return a.sownOn > 0 && a.units >= a.kind.Emergence*a.kind.Maturity
}

// seedlingRoots is the depth (m) of a crop that came up in autumn (assumption).
const seedlingRoots = 0.30

// overwinter puts the autumn crop in the ground on 1 January, as its sowing left it.
// A sowing that was not watched, in the first year of a record, is taken as one in
// the middle of the window that came up (assumption).
func (s *Stand) overwinter(a sowing) {
	k := &s.Kind
	if a.kind.Name != k.Name {
		a = sowing{sownOn: (k.FirstPlanting + k.LastPlanting) / 2, units: k.Emergence * k.Maturity}
	}
	if a.sownOn == 0 {
		s.Stage = Harvested // not sown in time
		return
	}
	s.PlantedOn, s.autumn = a.sownOn, a.units
	s.Stage, s.RootDepth = Planted, shallowestRoots
	if s.autumn >= k.Emergence*k.Maturity {
		s.Stage, s.RootDepth = Growing, seedlingRoots
	}
}
