package column

import (
	"math"

	"mottle/sim/tridiag"
)

const (
	shortest   = 0.01  // s: below this a step is given up
	iterations = 8     // Newton solves before the step is cut
	knee       = 0.03  // m of suction, just beyond the air entry of soil
	film       = 1e-8  // m of water on the surface that is no reason to switch
	burst      = 5e-7  // m/s, 2 mm/h: a rise of supply after which steps start small
	burstStep  = 600.0 // s
)

// Step advances the column by at most limit seconds, with water arriving at the
// surface at rate supply (m/s; negative is evaporation, from the pond first). It returns the
// seconds advanced; the flows are in Last.
func (c *Column) Step(limit, supply float64) (float64, error) {
	dt := c.dt
	if supply > c.supply+burst { // the last step's length says nothing about a burst of rain
		dt = min(dt, burstStep)
	}
	c.supply = supply
	if dt >= limit {
		dt = limit
	} else if dt > limit/2 {
		dt = limit / 2
	}
	solves := 0
	for {
		state, used, ok := c.solve(dt, supply)
		solves += used
		if ok {
			c.commit(dt, supply, state)
			c.Last.Solves = solves
			return dt, nil
		}
		if dt /= 3; dt < shortest {
			return 0, c.unsolved(dt)
		}
	}
}

// solve looks for the linear solution of a step: head changes in c.step about
// the point c.hn. It reports the state of the surface and whether the solution
// can be accepted.
func (c *Column) solve(dt, supply float64) (surfaceState, int, bool) {
	n := len(c.H)
	copy(c.hn, c.H)
	clear(c.dry)
	state := surfaceOpen
	if c.Pond > 0 {
		state = surfacePonded
	} else if c.Surface.Driest < 0 {
		if _, _, k, dk := c.soils[0].At(c.H[0]); c.outruns(-supply, c.H[0], k, dk) {
			state = surfaceDry
		}
	}
	switches := 0
	for it := 1; it <= iterations+switches; it++ {
		c.assemble(it == 1, state, dt, supply)
		tridiag.Solve(c.lower, c.diag, c.upper, c.step, c.scratch)

		// The surface: does the state assumed fit what came out?
		q := c.flux[0] + c.dfl[0]*c.step[0]
		if next := c.surfaceFits(state, q, dt, supply); next != state {
			state = next
			if switches++; switches > 6 {
				return state, it, false
			}
			continue
		}
		redo, fits := c.lateralsFit(dt)
		if redo {
			if switches++; switches > 12 {
				return state, it, false
			}
			continue
		}
		fits = fits && c.onCurve()
		if fits {
			return state, it, c.acceptable(dt)
		}
		for i := range n {
			c.hn[i] = damped(c.hn[i], c.step[i])
		}
	}
	return state, iterations, false
}

// damped is the head from which the next solve starts. A very dry cell under
// rain may not change by more than half its suction at once; a saturated cell
// that drains stops at the knee of the curve, because saturation's slope knows
// nothing of what lies beyond, and the iteration would jump to and fro.
func damped(h, d float64) float64 {
	if h >= 0 {
		return max(h+d, -knee)
	}
	if most := 0.5*math.Abs(h) + 0.2; math.Abs(d) > most {
		d = math.Copysign(most, d)
	}
	return h + d
}

// onCurve says whether the linear water content of every cell lies on its
// retention curve, within tolerance.
func (c *Column) onCurve() bool {
	tol := c.Settings.Tolerance
	if c.Settings.Iterated {
		tol *= 0.01
	}
	for i, d := range c.step {
		if !(math.Abs(c.liquid(i, c.hn[i]+d)-c.theta[i]-c.cap[i]*d) <= tol) {
			return false
		}
	}
	return true
}

// acceptable holds the change of a step to three times what was aimed at.
func (c *Column) acceptable(dt float64) bool {
	if dt < 60 {
		return true
	}
	for i := range c.H {
		if math.Abs(c.theta[i]+c.cap[i]*c.step[i]-c.Water[i]) > 3*c.Settings.Target {
			return false
		}
	}
	return true
}

// assemble fills the tridiagonal system for the heads hn; first says that they
// are those of the step's start.
func (c *Column) assemble(first bool, state surfaceState, dt, supply float64) {
	n := len(c.H)
	hn, theta, slope, k, dk := c.hn[:n], c.theta[:n], c.cap[:n], c.k[:n], c.dk[:n]
	room, ice := c.room[:n], c.Ice[:n]
	for i, s := range c.soils[:n] {
		h := hn[i]
		theta[i], slope[i], k[i], dk[i] = s.At(h)
		if ice[i] != 0 {
			if h >= 0 {
				theta[i] -= ice[i]
			} else {
				theta[i] *= room[i]
				slope[i] *= room[i]
			}
		}
	}
	flux, dfu, dfl := c.flux[:n+1], c.dfu[:n+1], c.dfl[:n+1]
	flux[0], dfl[0] = c.infiltration(state, hn[0], k[0], dk[0], supply, dt)
	for i := range n - 1 {
		j := i + 1
		if c.mixed[i] {
			c.parted(i)
			continue
		}
		// Darcy's law within a material: q = K ((h_i - h_j)/d + 1), K the
		// arithmetic mean, lowered by the ice of both halves in series.
		half, w := c.iced[i]/2, c.perDistance[i]
		gradient := (hn[i]-hn[j])*w + 1
		km := (k[i] + k[j]) * half
		flux[j] = km * gradient
		dfu[j] = dk[i]*half*gradient + km*w
		dfl[j] = dk[j]*half*gradient - km*w
	}
	flux[n], dfu[n] = c.baseFlux(hn[n-1], k[n-1], dk[n-1])

	lower, diag, upper, step := c.lower[:n], c.diag[:n], c.upper[:n], c.step[:n]
	dz, water, uptake, perTime := c.Grid.Dz[:n], c.Water[:n], c.Uptake[:n], 1/dt
	for i := range n {
		store := dz[i] * perTime
		diag[i] = slope[i]*store - dfl[i] + dfu[i+1]
		step[i] = (water[i]-theta[i])*store + flux[i] - flux[i+1] - uptake[i]
		lower[i] = -dfu[i]
		upper[i] = dfl[i+1]
	}
	for j := range c.Laterals {
		l := &c.Laterals[j]
		total := l.flow(c, hn)
		if first {
			copy(l.start, l.rate)
			l.idle = true
		}
		if l.idle = l.idle && total == 0; l.idle {
			continue
		}
		for i := range n {
			diag[i] += late * l.dq[i]
			step[i] -= l.mean(i, 0)
		}
	}
}

// parted is Darcy's law across the edge between cells i and i+1 of different
// materials. Each half keeps the mean of its own material at both heads and the
// halves stand in series: exact when saturated, and a dry lower layer does not
// shut out a wet upper one.
func (c *Column) parted(i int) {
	j := i + 1
	_, _, kiAtJ, dkiAtJ := c.soils[i].At(c.hn[j])
	_, _, kjAtI, dkjAtI := c.soils[j].At(c.hn[i])
	up, lo := (c.k[i]+kiAtJ)/2, (c.k[j]+kjAtI)/2
	ru := c.Grid.Dz[i] / 2 / (up * c.block[i])
	rl := c.Grid.Dz[j] / 2 / (lo * c.block[j])
	w := c.perDistance[i]
	k := 1 / (w * (ru + rl))
	gradient := (c.hn[i]-c.hn[j])*w + 1
	// dk/dx = k^2 w (ru/up dup/dx + rl/lo dlo/dx)
	wu, wl := k*k*w*ru/up, k*k*w*rl/lo
	dki, dkj := (wu*c.dk[i]+wl*dkjAtI)/2, (wu*dkiAtJ+wl*c.dk[j])/2
	c.flux[j] = k * gradient
	c.dfu[j] = dki*gradient + k*w
	c.dfl[j] = dkj*gradient - k*w
}

// surfaceFits returns the state of the surface that the infiltration q calls
// for.
func (c *Column) surfaceFits(state surfaceState, q, dt, supply float64) surfaceState {
	if !math.IsNaN(c.Surface.HeldHead) {
		return state
	}
	pond := c.Pond + dt*(supply-q)
	switch state {
	case surfaceOpen:
		// Could the soil have taken it? The capacity at zero pond, and the top
		// cell's pressure, tell.
		h := c.hn[0] + c.step[0]
		_, _, k, dk := c.soils[0].At(h)
		r, _ := c.surfaceResistance(k, dk)
		if most := (c.Grid.Dz[0]/2 + c.Surface.CrustThickness - h) / r; (q-most)*dt > film {
			return surfacePonded
		}
		if c.outruns(-q-film/dt, h, k, dk) {
			return surfaceDry
		}
	case surfaceDry:
		if q < supply+c.Pond/dt { // it could give more than is asked for
			return surfaceOpen
		}
	case surfacePonded:
		if pond < 0 {
			return surfaceOpen
		}
		if pond > c.Surface.Store+film {
			return surfaceSpilling
		}
	case surfaceSpilling:
		if pond < c.Surface.Store {
			return surfacePonded
		}
	}
	return state
}

// lateralsFit checks the linear drain flows. redo asks for another solve with
// changed switches; fits says whether the flows lie close enough to their law.
func (c *Column) lateralsFit(dt float64) (redo, fits bool) {
	fits = true
	for j := range c.Laterals {
		l := &c.Laterals[j]
		if l.idle {
			continue
		}
		total := 0.0
		for i, q := range l.rate {
			if q == 0 {
				continue
			}
			q += l.dq[i] * c.step[i]
			if q < 0 && l.dq[i] > 0 { // the cell ran dry within the step
				c.dry[i] = true
				redo = true
			}
			total += q
		}
		if redo {
			return true, false
		}
		if !l.full && total > l.Capacity*(1+1e-9) {
			fits = false // the next solve starts nearer and meets the cap
			continue
		}
		if l.full {
			continue
		}
		now := 0.0
		for _, q := range l.rate {
			now += q
		}
		// A change of flow that the linear law may have overstated.
		if math.Abs(total-now)*dt > 10*c.Settings.Volume {
			fits = false
		}
	}
	return redo, fits
}

// commit books the linear solution. The flux through each edge is what
// continuity leaves, from the surface down: it differs from the linear flux by
// the rounding of the solve alone, and the balance closes whatever that was.
func (c *Column) commit(dt, supply float64, state surfaceState) {
	f := &c.Last
	*f = Flows{}
	swing := 0.0
	for j := range c.Laterals {
		l := &c.Laterals[j]
		if l.idle {
			clear(l.Rate)
			continue
		}
		before, after := 0.0, 0.0
		out := c.Out[j]
		for i, d := range c.step {
			q := l.mean(i, d)
			before += l.start[i]
			after += l.rate[i] + l.dq[i]*d
			l.Rate[i] = q
			out[i] += q * dt
			f.Lateral += q
		}
		swing = max(swing, math.Abs(after-before))
	}
	q := c.flux[0] + c.dfl[0]*c.step[0]
	f.Infiltration = q
	c.Through[0] += q * dt
	change, perTime := 0.0, 1/dt
	for i, d := range c.step {
		theta := c.theta[i] + c.cap[i]*d
		gain := theta - c.Water[i]
		change = max(change, math.Abs(gain))
		c.Water[i] = theta
		c.H[i] = c.hn[i] + d
		q -= gain*c.Grid.Dz[i]*perTime + c.Uptake[i]
		for j := range c.Laterals {
			if !c.Laterals[j].idle {
				q -= c.Laterals[j].Rate[i]
			}
		}
		c.Through[i+1] += q * dt
	}
	f.BaseOut = q
	if math.IsNaN(c.Surface.HeldHead) {
		q := f.Infiltration
		switch state {
		case surfaceOpen:
			c.Pond = 0
		case surfacePonded:
			c.Pond += dt * (supply - q)
		case surfaceSpilling:
			f.Runoff = supply - q + (c.Pond-c.Surface.Store)/dt
			c.Pond = c.Surface.Store
		case surfaceDry:
			f.Unmet = q - supply - c.Pond/dt
			c.Pond = 0
		}
	}
	// The next step: as long as water content and drain flow allow.
	grow := 2.0
	if change > 0 {
		grow = min(grow, 0.9*c.Settings.Target/change)
	}
	if swing > 0 {
		grow = min(grow, 2*c.Settings.Volume/(swing*dt))
	}
	c.dt = max(dt*max(grow, 0.2), 10*shortest)
}

// unsolved describes the failure for the error message.
func (c *Column) unsolved(dt float64) error {
	worst, at := -1.0, 0
	for i := range c.H {
		next := c.hn[i] + c.step[i]
		if gap := math.Abs(c.liquid(i, next) - c.theta[i] - c.cap[i]*c.step[i]); gap > worst || math.IsNaN(gap) {
			worst, at = gap, i
		}
	}
	return &Unsolved{Layer: at, Depth: c.Grid.Mid[at], Head: c.hn[at], Gap: worst, Step: dt}
}
