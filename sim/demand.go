package sim

import "mottle/sim/crop"

// evaporation is the two-stage limit of FAO-56 (Allen et al. 1998, eq. 73-77):
// the surface evaporates freely until it has lost REW since it was wetted, then
// less, in a straight line to nothing at TEW, which leaves half the water at
// 1500 kPa in the top 0.10 m. As in FAO-56 the loss is booked, evaporation
// against rain; what rises from below does not wet the surface again, unless the
// table stands so near (within wetTable) that the surface stays wet. Limiting
// evaporation by the water of the top layer alone, with the Richards column free
// to refill it, evaporated 110 mm in an Iowa May where 60-80 mm is measured.
type evaporation struct {
	weight []float64 // m of each cell in the evaporating layer
	total  float64   // TEW, m
	easy   float64   // REW, m
	driest []float64 // half the water at 1500 kPa, m3/m3
}

// wetTable is the depth of the water table (m) that keeps the surface in the
// first stage.
const wetTable = 0.30

// easyShare is REW over TEW: 8-11 of 22-27 mm on silty clay loam, 2-7 of 6-12
// on sand (FAO-56 table 19, from memory).
const easyShare = 0.4

func newEvaporation(p *Plot) evaporation {
	e := evaporation{}
	for i, share := range p.weights(evapDepth) {
		m, d := p.at(i), share*evapDepth
		e.weight = append(e.weight, d)
		e.driest = append(e.driest, max(m.WiltingPoint/2, m.Curve.ThetaR))
		e.total += crop.Evaporable(m.Theta33, 2*e.driest[i], d)
	}
	e.easy = easyShare * e.total
	return e
}

// demand is what a day asks of the ground, m/s.
type demand struct {
	transpiration float64
	cover         float64 // what the crop's shade leaves of surface evaporation: few Kcmax ETo
	surface       float64 // (Kcmax - Kcb) ETo
	mulch         float64 // factor of residue
	mm            float64 // potential transpiration, mm/d, for Feddes' h3
}

// kcMax is the upper limit of evaporation from any surface in FAO-56's standard
// climate (eq. 72). It is 1.2 where the ground is wetted
// every three or four days or less often; where more often, the ground stores less
// heat between and FAO-56 lets it fall to about 1.1 (from memory), which suits a
// climate with rain on every third day. A full crop keeps its own Kcb + 0.05.
const kcMax = 1.1

// compensation is the share of potential transpiration below which roots no
// longer make up in wetter or drier layers what they miss in others (Jarvis
// 1989, J. Hydrol. 107:57; 0.5, from memory).
const compensation = 0.5

// day's demand from reference evapotranspiration (mm/d), the climate's dryness and
// the stand.
func (e *Engine) newDemand(eto, dryness float64, yday int) demand {
	if e.Pack.SWE > 0.001 { // under snow nothing evaporates
		return demand{}
	}
	const perSecond = 1e-3 / 86400
	e.Stand.Climate = crop.ClimateAdjustment(dryness, e.Stand.Kind.Height)
	kcb := e.Stand.Kcb(yday)
	shade := e.Stand.Shade(kcb)
	height := e.Stand.Height(shade)
	ceiling := max(kcMax+crop.ClimateAdjustment(dryness, height), kcb+0.05)
	few := min(1, max(0.01, 1-crop.Cover(shade, ceiling, height)))
	tp := kcb * eto * e.tolerance.Yield(e.rootECe)
	return demand{
		transpiration: tp * perSecond,
		mm:            tp,
		// What salt-killed cover does not use is left to the surface.
		surface: (ceiling*eto - tp) * perSecond,
		cover:   few * ceiling * eto * perSecond,
		// FAO-56 chapter 11: 5 % less evaporation for each 10 % of ground covered.
		mulch: 1 - 0.5*e.Stand.Residue(e.plot.Field.Surface.Residue),
	}
}

// placeRoots spreads uptake over the rooting depth, falling in a straight line
// to nothing at its end (FAO-29's 40-30-20-10 % by quarters, nearly).
func (e *Engine) placeRoots() {
	depth := min(e.Stand.Roots(), e.plot.Grid.Depth())
	g := &e.plot.Grid
	e.rooted = 0
	for i := range g.Dz {
		a, b := g.Edge[i]/depth, min(g.Edge[i+1]/depth, 1)
		if a >= 1 {
			break
		}
		e.roots[i] = (b - b*b/2 - a + a*a/2) * 2
		e.rooted++
	}
}

// take sets the uptake of every cell for the coming hours, from the demand and
// the water that there is, and returns the part of the surface's demand that
// standing water is to meet.
func (e *Engine) take(d demand) (fromPond float64) {
	c := e.Water
	clear(c.Uptake)
	e.transpiring, e.evaporating, e.thirsting = 0, 0, 0
	wetLoss := 0.0
	if d.transpiration > 0 {
		k := &e.Stand.Kind
		able, wet := 0.0, 0.0
		for i := range e.rooted {
			e.able[i] = 0
			if c.Ice[i] > 0 {
				continue
			}
			w, dry := k.Uptake(-c.H[i], d.mm)
			e.able[i] = e.roots[i] * (1 - w - dry)
			able += e.able[i]
			wet += e.roots[i] * w
		}
		scale := 1 / max(able, compensation)
		for i := range e.rooted {
			c.Uptake[i] = d.transpiration * e.able[i] * scale
		}
		e.transpiring = d.transpiration * able * scale
		// Water that a drowned crop cannot take still leaves, from the wet
		// surface.
		wetLoss = min(d.transpiration-e.transpiring, d.transpiration*wet)
		e.thirsting = d.transpiration - e.transpiring - wetLoss
	}
	if d.surface <= 0 && wetLoss <= 0 {
		return 0
	}
	if c.Pond > 0 {
		return min(d.surface, d.cover) + wetLoss
	}
	v := &e.plot.evap
	kr := crop.SurfaceReduction(e.surfaceLoss, v.easy, v.total)
	rate := crop.SurfaceEvaporation(kr, d.surface, d.cover)*d.mulch + kr*wetLoss
	// From the cells of the evaporating layer by the water they can give.
	give := 0.0
	for i, w := range v.weight {
		e.able[i] = 0
		if c.Ice[i] == 0 {
			e.able[i] = max(c.Water[i]-v.driest[i], 0) * w
			give += e.able[i]
		}
	}
	if give <= 0 {
		return 0
	}
	rate = min(rate, give/86400)
	for i := range v.weight {
		c.Uptake[i] += rate * e.able[i] / give
	}
	e.evaporating = rate
	return 0
}

// inSeason says whether the stand counts as in season: planting to maturity, or
// April to October of a perennial. A year without a crop is given its season at its
// end (Days.fallowSeason).
func inSeason(s *crop.Stand, month int) bool {
	if s.Kind.Perennial {
		return month >= 4 && month <= 10
	}
	return s.Season()
}
