package flow

import (
	"fmt"
	"math"
)

// Level is a point of a store's relation of outflow to storage.
type Level struct {
	Storage float64 // m3
	Outflow float64 // m3/s
}

// Store is a body of water whose outflow follows its storage in straight pieces: an
// outlet of limited capacity, a pond. (A linear store is a [Cascade] of one.) Under an inflow that is
// constant in the step each piece is an exponential, so a step is exact, of any
// length. Water that does not fit under the last level leaves as it comes.
type Store struct {
	levels  []Level
	dt      float64
	storage float64
	spilled float64
}

// NewStore makes a store with the given levels, rising from no storage and no
// outflow, stepped by dt (s). The last storage may be infinite. Levels that do not
// rise are a [RangeError].
func NewStore(levels []Level, dt float64) (*Store, error) {
	if err := positive("step, s", dt); err != nil {
		return nil, err
	}
	if len(levels) < 2 || levels[0] != (Level{}) {
		return nil, fmt.Errorf("store: found %d levels, wanted at least two, the first of no storage and no outflow", len(levels))
	}
	for i := 1; i < len(levels); i++ {
		below, at := levels[i-1], levels[i]
		if err := firstOf(
			within(fmt.Sprintf("storage of level %d, m3", i), at.Storage, math.Nextafter(below.Storage, math.Inf(1)), math.Inf(1), "list the levels from low to high"),
			within(fmt.Sprintf("outflow of level %d, m3/s", i), at.Outflow, below.Outflow, math.MaxFloat64, "a fuller store lets out no less"),
		); err != nil {
			return nil, err
		}
		if math.IsInf(at.Storage, 0) && at.Outflow != below.Outflow {
			return nil, fmt.Errorf("store: level %d without end must keep the outflow %g m3/s of the level below, found %g", i, below.Outflow, at.Outflow)
		}
	}
	return &Store{levels: append([]Level(nil), levels...), dt: dt}, nil
}

// NewCapped makes a linear store of k (s) whose outlet carries at most capacity
// (m3/s); what is above waits, without bound.
func NewCapped(k, capacity, dt float64) (*Store, error) {
	if err := firstOf(positive("residence time, s", k), positive("capacity, m3/s", capacity)); err != nil {
		return nil, err
	}
	return NewStore([]Level{{}, {k * capacity, capacity}, {math.Inf(1), capacity}}, dt)
}

// Step takes the mean inflow (m3/s) of a step and returns its mean outflow. A hair
// below 0, as rounding upstream may leave it, passes an empty store unchanged.
func (s *Store) Step(inflow float64) float64 {
	before, spill := s.storage, 0.0
	for left := s.dt; left > 0; {
		i := s.piece(inflow)
		if i == len(s.levels) {
			spill += (inflow - s.levels[i-1].Outflow) * left
			break
		}
		left -= s.advance(s.levels[i-1], s.levels[i], inflow, left)
	}
	s.spilled += spill
	return inflow - (s.storage-before)/s.dt
}

// piece is the level above the piece in which the storage moves under an inflow; at
// a level it is the piece that the water moves into.
func (s *Store) piece(inflow float64) int {
	last := len(s.levels) - 1
	for i := 1; i <= last; i++ {
		top := s.levels[i]
		if s.storage < top.Storage || s.storage == top.Storage && inflow <= top.Outflow {
			return i
		}
	}
	return last + 1
}

// advance moves the storage through a piece for at most the time left, and returns
// the time that it took: dS/dt = I - O, with O a straight line of S.
func (s *Store) advance(low, high Level, inflow, left float64) float64 {
	slope := (high.Outflow - low.Outflow) / (high.Storage - low.Storage)
	net := inflow - low.Outflow - slope*(s.storage-low.Storage)
	to := low // where the piece ends on the way
	if net > 0 {
		to = high
	}
	taken, room := left, to.Storage-s.storage
	if room == 0 {
		return left // empty, under an inflow below 0
	}
	if net != 0 {
		// The time to the end of the piece: t = -ln(1 - slope room/net)/slope.
		if reach := slope * room / net; slope == 0 {
			taken = room / net
		} else if reach < 1 {
			taken = -math.Log1p(-reach) / slope
		} else {
			taken = math.Inf(1)
		}
	}
	if taken < left {
		s.storage = to.Storage
		return taken
	}
	if slope == 0 {
		s.storage += net * left
	} else {
		s.storage -= net * math.Expm1(-slope*left) / slope
	}
	s.storage = math.Max(s.storage, 0) // rounding only: with an inflow of 0 or more the exact solution stays above
	return left
}

// Storage is the water (m3) in the store.
func (s *Store) Storage() float64 { return s.storage }

// Spilled is the water (m3) that has left above the last level, part of the outflow.
func (s *Store) Spilled() float64 { return s.spilled }

// Outflow is the outflow (m3/s) at this moment, without a spill.
func (s *Store) Outflow() float64 {
	for i := 1; i < len(s.levels); i++ {
		low, high := s.levels[i-1], s.levels[i]
		if s.storage <= high.Storage {
			return low.Outflow + (high.Outflow-low.Outflow)/(high.Storage-low.Storage)*(s.storage-low.Storage)
		}
	}
	return s.levels[len(s.levels)-1].Outflow
}
