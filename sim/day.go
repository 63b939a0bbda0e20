package sim

import (
	"mottle/sim/crop"
	"mottle/sim/heat"
	"mottle/sim/salt"
	"mottle/soil"
	"mottle/weather"
)

// Resistances between air and soil, m2 K/W: the film of air, and what lies on
// the ground, from bare to heavy residue or sod.
const (
	airFilm     = 0.06
	bareCover   = 0.10
	mulchCover  = 0.10 // more under full residue
	sunWarmth   = 1.0  // C by which midsummer sun warms snow-free ground above the air's mean
	summerSun   = 41.0 // MJ/m2/d outside the atmosphere at midsummer, 40-50 N
	shutByIce   = 0.001
	thawedLimit = 0.001 // m3/m3 of ice: below, a layer counts as thawed
)

// advance is the day of the field.
func (e *Engine) advance(i int, moveSalt bool) error {
	f := e.forcing
	tmin, tmax := f.Tmin[i], f.Tmax[i]
	mean := (tmin + tmax) / 2
	yday := int(f.YearDay[i])
	e.day = today{}
	if i == 0 || f.YearDay[i] == 1 {
		r := e.plot.Field.Rotation
		j := int(f.Year[i]) % len(r)
		e.Stand.Begin(r[j], e.need[j])
		e.Stand.Follow(r[(j+1)%len(r)])
		e.tolerance = e.tolerances[j]
	}

	melt, err := e.freeze(mean, yday)
	if err != nil {
		return err
	}
	e.reachGround(i, mean, melt)
	if e.drain >= 0 {
		l := &e.Water.Laterals[e.drain]
		l.FrozenShut = e.Water.Ice[e.gate] > shutByIce
		level := min(e.tile.Depth, e.tile.OutletWater)
		if len(e.tile.Weir) > 0 {
			_, m, d := (f.Start + weather.Date(i)).Civil()
			level = min(level, e.tile.Weir.CrestDepth(m, d, e.tile.Depth))
		}
		e.Water.SetLevel(e.drain, level)
	}

	e.placeRoots()
	e.rootECe = e.rootZone()
	asked := e.newDemand(f.ETo[i], f.Dryness[i], yday)
	if err := e.moveWater(asked); err != nil {
		return err
	}
	e.day.asked = asked.transpiration * 86400
	if moveSalt {
		e.moveSalt(i)
	}
	e.day.passable, e.day.bears = e.fieldwork(i)
	e.Stand.Day(yday, tmin, tmax, crop.Ground{
		Bears: e.day.bears, Passable: e.day.passable,
		Soil:       e.soilTemperature(),
		WaterTable: min(e.Water.WaterTable(), e.plot.Grid.Depth()),
	})
	e.day.drowned = e.Stand.Flood(e.day.pondSeconds > 86399, mean) == crop.Lost
	return nil
}

// freeze conducts heat through yesterday's snow and the soil, sets the ice of
// the column, and returns the water that the ground could melt from the pack's
// base, m.
func (e *Engine) freeze(mean float64, yday int) (melt float64, err error) {
	w, h := e.Water, e.Heat
	for j := range w.Water {
		// What a linear step stored beyond the pores would freeze at a jump.
		h.Water[j] = min(w.Water[j]+w.Ice[j], w.Soil(j).ThetaS)
	}
	s := heat.Surface{Air: mean, Film: airFilm, Cover: bareCover + mulchCover*e.plot.Field.Surface.Residue, Snow: e.Pack.Resistance()}
	if s.Snow == 0 && mean > 0 {
		s.Air += sunWarmth * e.sun[yday]
	}
	joules, err := h.Step(86400, s)
	if err != nil {
		return 0, err
	}
	if e.Frost {
		for j := range w.Water {
			w.SetIce(j, h.Ice[j])
		}
	}
	return joules / soil.LatentHeat, nil
}

// reachGround takes the day's precipitation through the pack and spreads what
// comes out over the hours: rain by its own hours, melt over the warm ones.
func (e *Engine) reachGround(i int, mean, melt float64) {
	rain := e.forcing.Rain[24*i : 24*i+24]
	total := 0.0
	for _, r := range rain {
		total += r
	}
	hadSnow := e.Pack.SWE > 0
	fx := e.Pack.Day(e.snowPar, e.plot.Field.Surface.Exposure, mean, total/1000, melt)
	e.day.flux = fx
	if !hadSnow && fx.Rain > 0 && fx.Outflow == fx.Rain {
		for h, r := range rain {
			e.day.supply[h] = r / 1000
		}
	} else if fx.Outflow > 0 {
		byRain := 0.0
		if fx.Rain > 0 {
			byRain = min(1, fx.Outflow/fx.Rain) / 1000
		}
		rest := max(0, fx.Outflow-byRain*fx.Rain*1000)
		for h, r := range rain {
			if fx.Rain > 0 {
				e.day.supply[h] = r * byRain
			}
		}
		const first, last = 10, 18 // melt of the day runs in its warm hours
		for h := first; h < last; h++ {
			e.day.supply[h] += rest / (last - first)
		}
	}
	if e.runon != nil {
		for h, r := range e.runon[24*i : 24*i+24] {
			e.day.supply[h] += r / 1000
			e.day.runon += r / 1000
		}
	}
}

// lightRain is the supply (m in an hour) below which the hours of a spell are
// taken together: it lies far below what any soil here takes in, and a peak it
// smooths is lower than it.
const lightRain = 0.001

// spell returns the hour at which the spell of even supply that begins at hour h
// ends, and its supply, m/s.
func (e *Engine) spell(h int) (end int, supply float64) {
	s := &e.day.supply
	sum := s[h]
	for end = h + 1; end < 24; end++ {
		light := s[h] > 0 && s[end] > 0 && max(s[h], s[end]) < lightRain
		if s[end] != s[h] && !light {
			break
		}
		sum += s[end]
	}
	return end, sum / float64(end-h) / 3600
}

// moveWater steps the column through the day, hour by hour while water arrives.
func (e *Engine) moveWater(d demand) error {
	e.Water.ResetTotals()
	for h := 0; h < 24; {
		end, supply := e.spell(h)
		pond := e.take(d)
		for now, stop := float64(h)*3600, float64(end)*3600; now < stop-1e-6; {
			left := stop - now
			evaporate := 0.0
			if pond > 0 {
				evaporate = min(pond, supply+e.Water.Pond/left)
			}
			before := e.Water.Pond
			dt, err := e.Water.Step(left, supply-evaporate)
			if err != nil {
				return err
			}
			e.count(now, dt, evaporate)
			now += dt
			if (before > 0) != (e.Water.Pond > 0) {
				pond = e.take(d)
			}
		}
		h = end
	}
	return nil
}

// count adds a step's flows to the day.
func (e *Engine) count(now, dt, pondEvaporation float64) {
	w, t := e.Water, &e.day
	t.transpired += e.transpiring * dt
	t.thirst += e.thirsting * dt
	t.evaporated += (e.evaporating + pondEvaporation) * dt
	t.runoff += w.Last.Runoff * dt
	tile := 0.0
	if e.drain >= 0 {
		for _, q := range w.Laterals[e.drain].Rate {
			tile += q
		}
	}
	t.drain += tile * dt
	t.ditch += (w.Last.Lateral - tile) * dt
	if b := w.Last.BaseOut * dt; b > 0 {
		t.baseOut += b
	} else {
		t.baseIn -= b
	}
	if w.Pond > 0 {
		t.pondSeconds += dt
	}
	table := w.WaterTable()
	if table < topsoilDepth {
		t.wetSeconds += dt
	}
	// Loss of the surface since wetting: evaporation against what infiltrates.
	e.surfaceLoss = max(0, e.surfaceLoss+(e.evaporating-max(w.Last.Infiltration, 0))*dt)
	if table < wetTable {
		e.surfaceLoss = 0
	}
	t.tableSeconds += min(table, e.plot.Grid.Depth()) * dt
	air := 0.0
	for j, share := range e.plot.topsoil {
		air += share * (w.Soil(j).ThetaS - w.Water[j] - w.Ice[j])
	}
	t.air += air * dt

	edge := w.Last.Runoff + tile
	if edge <= 0 {
		return
	}
	for h := int(now / 3600); h < 24; h++ {
		a, b := max(now, float64(h)*3600), min(now+dt, float64(h+1)*3600)
		if b <= a {
			break
		}
		t.hours[h] += edge * (b - a)
		t.runoffHours[h] += w.Last.Runoff * (b - a)
	}
}

// moveSalt carries the salt with the day's water.
func (e *Engine) moveSalt(i int) {
	w := e.Water
	s := &e.salts
	for j := range s.Content {
		s.Content[j] = w.Water[j] + w.Ice[j]
	}
	arrived := 0.0
	for _, m := range e.day.supply {
		arrived += m
	}
	s.Pond, s.Runoff = w.Pond, e.day.runoff
	s.Arrived = arrived * e.plot.Field.RainEC * salt.PerEC
	e.day.salt = e.Salt.Day(*s)
	e.day.saltArrived = s.Arrived
}

// rootZone is the mean ECe over the rooting depth, dS/m.
func (e *Engine) rootZone() float64 {
	g := &e.plot.Grid
	depth := min(e.Stand.Roots(), g.Depth())
	sum := 0.0
	for j := range e.rooted {
		m := e.plot.at(j)
		share := (min(g.Edge[j+1], depth) - g.Edge[j]) / depth
		sum += share * e.Salt.ECe(j, g.Dz[j], salt.PasteWater(m.Theta33, m.Curve.ThetaS))
	}
	return sum
}

// fieldwork says whether a machine can pass at all today, and whether the
// ground bears it: a fieldwork day.
func (e *Engine) fieldwork(i int) (passable, bears bool) {
	rain := 0.0
	for _, r := range e.forcing.Rain[24*i : 24*i+24] {
		rain += r
	}
	if rain >= 2 || e.Pack.SWE > 0 || e.Water.WaterTable() < topsoilDepth {
		return false, false
	}
	water := 0.0
	for j, share := range e.plot.tilth {
		if e.Water.Ice[j] > thawedLimit {
			return false, false
		}
		water += share * e.Water.Water[j]
	}
	return true, water < e.plot.workable
}

// soilTemperature at planting depth, 5 cm.
func (e *Engine) soilTemperature() float64 { return e.Heat.Temperature[e.plot.Grid.CellAt(0.05)] }
