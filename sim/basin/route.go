package basin

import (
	"errors"
	"fmt"
	"math"

	"mottle/sim/flow"
)

// Parts of the water in a ditch or stream.
const (
	surface = iota // over the ground
	drained        // through tile
	seeped         // through the ground
	parts
)

// Parts names them, in the order of every array by part.
func Parts() [parts]string { return [parts]string{"surface", "drain", "seepage"} }

const (
	hour = 3600.0 // s
	// pipeSpeed of water in laterals and mains, m/s: between the least that keeps a main
	// clean and what it runs at when full (common practice).
	pipeSpeed = 0.5
	// slowGround is the time that seepage takes to the stream, s (assumption: 30 d).
	slowGround = 30 * 86400
	// lagShare of the time of concentration is the lag of a linear store (NRCS: 0.6).
	lagShare = 0.6
)

// way is how a unit's water comes to where the unit drains to: a linear store for each
// part, nil where it arrives at once.
type way [parts]*flow.Cascade

// newWay is that of a unit by the length and slope of its way: surface water as
// shallow flow over unpaved ground, drain flow through pipe, seepage slowly. A unit
// without length hands on all but seepage in the hour. Land flatter than flow.Flattest
// is taken as that flat, and newNetwork says so.
func newWay(length, slope float64) (way, error) {
	var w way
	var err error
	if w[seeped], err = flow.NewCascade(1, slowGround, hour); err != nil {
		return w, err
	}
	if length == 0 {
		return w, nil
	}
	travel, err := flow.ShallowFlow(length, flow.Unpaved, max(slope, flow.Flattest))
	if err != nil {
		return w, err
	}
	if w[surface], err = flow.NewCascade(1, lagShare*travel, hour); err != nil {
		return w, err
	}
	w[drained], err = flow.NewCascade(1, length/pipeSpeed, hour)
	return w, err
}

// step carries the flow of an hour, m3/s by part.
func (w *way) step(q [parts]float64) [parts]float64 {
	for c, s := range w {
		if s != nil {
			q[c] = s.Step(q[c])
		}
	}
	return q
}

// stored is the water on the way, m3 by part.
func (w *way) stored() (v [parts]float64) {
	for c, s := range w {
		if s != nil {
			v[c] = s.Storage()
		}
	}
	return v
}

// bed is a reach with what stands at its lower end.
type bed struct {
	wave    [parts]*flow.Muskingum
	through bool // crossed within the hour, and so not routed
	stops   []*stop
}

// stop is a store whose outflow does not go with its parts one by one, a pond or an
// outlet of limited capacity: the parts leave as they are mixed in it.
type stop struct {
	store *flow.Store
	held  [parts]float64 // m3
}

// step takes the flow of an hour by part and returns what leaves.
func (s *stop) step(q [parts]float64) [parts]float64 {
	total, held := 0.0, 0.0
	for c := range q {
		total += q[c]
		s.held[c] += q[c] * hour
		held += s.held[c]
	}
	out := s.store.Step(total) * hour
	if held <= 0 {
		return [parts]float64{}
	}
	for c := range q {
		leaves := out * s.held[c] / held
		s.held[c] -= leaves
		q[c] = leaves / hour
	}
	return q
}

// reference is the flow at which a reach's wave is taken, mm/d over the land above:
// about what drained land gives when its outlets run full (common practice).
const reference = 10.0

// newBed lays a reach with so much land above it, m2.
func newBed(r *Reach, above float64) (*bed, error) {
	b := &bed{}
	q := math.Max(above, 1) * reference / 1000 / 86400
	wave, err := (flow.Channel{Length: r.Length, Width: r.Width, Slope: r.Slope, N: r.Roughness}).Wave(q)
	if err != nil {
		return nil, fmt.Errorf("reach %s: %w", r.ID, err)
	}
	for c := range b.wave {
		b.wave[c], err = flow.NewMuskingumCunge(wave, r.Length, 0, hour)
		if unstable := (*flow.StabilityError)(nil); errors.As(err, &unstable) {
			b.wave[c], b.through = nil, true // crossed within the hour: no store at this step
		} else if err != nil {
			return nil, fmt.Errorf("reach %s: %w", r.ID, err)
		}
	}
	if p := r.Pond; p != nil {
		store, err := flow.NewPond([]float64{0, p.Depth}, []float64{p.Area, p.Area}, []float64{0, p.Outflow}, hour)
		if err != nil {
			return nil, fmt.Errorf("reach %s: pond: %w", r.ID, err)
		}
		b.stops = append(b.stops, &stop{store: store})
	}
	if !math.IsInf(r.OutletCapacity, 1) {
		store, err := flow.NewCapped(hour, r.OutletCapacity, hour)
		if err != nil {
			return nil, fmt.Errorf("reach %s: outlet: %w", r.ID, err)
		}
		b.stops = append(b.stops, &stop{store: store})
	}
	return b, nil
}

func (b *bed) step(q [parts]float64) [parts]float64 {
	for c, m := range b.wave {
		if m != nil {
			q[c] = m.Step(q[c])
		}
	}
	for _, s := range b.stops {
		q = s.step(q)
	}
	return q
}

// stored is the water in the reach, m3.
func (b *bed) stored() (v float64) {
	for _, m := range b.wave {
		if m != nil {
			v += m.Storage()
		}
	}
	for _, s := range b.stops {
		v += s.store.Storage()
	}
	return v
}
