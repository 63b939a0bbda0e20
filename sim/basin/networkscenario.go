package basin

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"mottle/sim/crop"
)

// drainable says whether a unit counts for the drained share: an annual crop grows
// on it, or tile lies there.
func (u *Unit) drainable() bool {
	return u.Tile != nil || slices.ContainsFunc(u.Cover, func(k crop.Kind) bool { return !k.Perennial })
}

// among says whether a list names a unit by its id or its group.
func (u *Unit) among(words []string) bool {
	return slices.Contains(words, u.ID) || u.Group != "" && slices.Contains(words, u.Group)
}

// DrainedShare is the share of the drainable land that has tile, 0-1. Of units under
// a scenario it is what the scenario came to: units are drained whole.
func DrainedShare(units []Unit) float64 {
	var drained, all float64
	for i := range units {
		if u := &units[i]; u.drainable() {
			all += u.Area
			if u.Tile != nil {
				drained += u.Area
			}
		}
	}
	if all == 0 {
		return 0
	}
	return drained / all
}

// Under returns the units as they are under a scenario, in the same order; what they
// share with Basin.Units is not to be changed. Wetness, for WettestFirst, says for
// each unit how wet it lies without tile (any measure; days saturated); it may be
// nil with the other rules.
//
// A share is met by whole units: one belongs to it when its middle does. Tile that
// lies today is the last to be taken up, so that of two shares the greater holds the
// smaller.
func (b *Basin) Under(s *Scenario, wetness []float64) ([]Unit, error) {
	if s.Drained == WettestFirst && len(wetness) != len(b.Units) {
		return nil, fmt.Errorf("scenario %s drains the wettest first: found %d wetnesses for %d units", s.Name, len(wetness), len(b.Units))
	}
	units := slices.Clone(b.Units)
	lay := func(i int) {
		u := &units[i]
		if u.Tile == nil {
			t := u.Design
			if s.Tile != nil {
				t = *s.Tile
			}
			u.Tile = &t
		}
	}
	var land []int
	for i := range units {
		if units[i].drainable() {
			land = append(land, i)
		}
	}
	switch s.Drained {
	case Undrained:
		for i := range units {
			units[i].Tile = nil
		}
	case AllDrained:
		for _, i := range land {
			lay(i)
		}
	case WettestFirst, LowestFirst:
		height := func(i int) float64 { return b.Units[i].Elevation }
		if s.Drained == WettestFirst {
			height = func(i int) float64 { return -wetness[i] }
		}
		today := func(i int) float64 {
			if b.Units[i].Tile != nil {
				return 0
			}
			return 1
		}
		chosen := first(b.Units, land, s.Share, today, height)
		for _, i := range land {
			units[i].Tile = nil
		}
		for _, i := range chosen {
			units[i].Tile = b.Units[i].Tile
			lay(i)
		}
	case Listed:
		for i := range units {
			if units[i].among(s.Units) {
				lay(i)
			}
		}
	}
	restore(units, s)
	control(units, s)
	return units, nil
}

// first are the units of the land that make up a share of its area, ranked by keys
// and then by id.
func first(units []Unit, land []int, share float64, keys ...func(int) float64) []int {
	land = slices.Clone(land)
	slices.SortFunc(land, func(i, j int) int {
		for _, key := range keys {
			if c := cmp.Compare(key(i), key(j)); c != 0 {
				return c
			}
		}
		return strings.Compare(units[i].ID, units[j].ID)
	})
	total := 0.0
	for _, i := range land {
		total += units[i].Area
	}
	before := 0.0
	for n, i := range land {
		if before+units[i].Area/2 > share*total {
			return land[:n]
		}
		before += units[i].Area
	}
	return land
}

// restore makes wetlands of units: tile taken up, under grass, storing water.
func restore(units []Unit, s *Scenario) {
	grass, err := crop.Named("grass")
	if err != nil {
		panic(err) // there is grass
	}
	for i := range units {
		if u := &units[i]; u.among(s.Wetlands) {
			u.Tile, u.Cover, u.Storage = nil, []crop.Kind{grass}, math.Max(u.Storage, s.WetlandStorage)
		}
	}
}

// control gives drained units a weir: those named, or a share, the flattest first,
// for one crest holds the water of little ground where land slopes (common practice).
func control(units []Unit, s *Scenario) {
	var held []int
	for i := range units {
		if u := &units[i]; u.Tile != nil && (s.ControlledShare > 0 || u.among(s.ControlledUnits)) {
			held = append(held, i)
		}
	}
	if s.ControlledShare > 0 {
		held = first(units, held, s.ControlledShare, func(i int) float64 { return units[i].Slope })
	}
	for _, i := range held {
		t := *units[i].Tile
		t.Weir = s.Weir
		units[i].Tile = &t
	}
}
