package site

import (
	"math"
	"slices"

	"mottle/sim/heat"
	"mottle/soil"
	"mottle/weather"
)

// usualSnow is the thermal resistance of 0.1 m of settled snow, m2 K/W: a screening
// figure between ground swept bare and ground in shelter (assumption).
const usualSnow = 0.1 / 0.2

// frost warns of a drain that frost reaches in half of the winters: by Stefan's
// formula, under a little snow, in the soil above the drain.
func (a *adviser) frost(s *weather.Series) {
	if a.Tile == nil || math.IsInf(a.Tile.Spacing, 1) {
		return
	}
	var known []float64
	for _, w := range weather.FreezingIndex(s) {
		if !math.IsNaN(w.FreezingIndex) {
			known = append(known, w.FreezingIndex)
		}
	}
	if len(known) == 0 {
		return
	}
	slices.Sort(known)
	median := known[len(known)/2]
	for _, h := range a.Horizons {
		if a.Tile.Depth/2 < h.Top || a.Tile.Depth/2 > h.Bottom {
			continue
		}
		m, err := soil.Derive(h)
		if err != nil {
			return
		}
		const unfrozen = 0.05 // m3/m3 that stay liquid, nearly
		ice := m.FieldCapacity - unfrozen
		depth := heat.StefanDepthUnder(usualSnow, m.Thermal.Conductivity(unfrozen, ice), median, ice*soil.LatentHeat)
		if depth > a.Tile.Depth {
			a.warn("tile.depth", "frost reaches some %.2g m here in half of the winters (%.0f C-d of frost, under 0.1 m of snow, by Stefan's formula) and shuts a drain at %s until it is out: compare shows when", depth, median, meters(a.Tile.Depth))
		}
		return
	}
}
