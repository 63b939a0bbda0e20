package site

import (
	"fmt"
	"math"

	"mottle/soil"
)

// tile warns of a system of laterals.
func (a *adviser) tile(key string, t *Tile) {
	if t == nil || math.IsInf(t.Spacing, 1) {
		return
	}
	a.usual(key+".depth", t.Depth, 0.6, 1.8, meters(t.Depth), "0.6 m", "1.8 m", "plough and frost lie above, ordinary trenching ends below")
	a.usual(key+".spacing", t.Spacing, 5, 60, meters(t.Spacing), "5 m", "60 m", "nobody lays tile closer, and between drains further apart the land hardly feels it")
	if c := t.Coefficient; !math.IsInf(c, 1) {
		a.usual(key+".drainage_coefficient", c, 0.003175/perDay, 0.0254/perDay, rate(c), "3.2 mm/d (1/8 in/d)", "25.4 mm/d (1 in/d)", "field crops on mineral soil are drained at 3/8 to 1 in/d")
	}
	a.pipe(key+".diameter", t.Diameter)
	if below := a.Restrictive - t.Depth; below < 0.3 {
		a.warn(key+".depth", "the drain lies %.2g m above the restrictive layer; with less than 0.3 m below it water reaches it badly: raise it, or look again where the layer begins", below)
	}
	for _, h := range a.Horizons {
		if t.Depth > h.Top && t.Depth <= h.Bottom && h.BulkDensity > soil.DenseTill {
			a.warn(key+".depth", "the drain lies in dense ground (%s, %.3g g/cm3): lay it above, where water moves more easily", horizonName(h), h.BulkDensity)
		}
	}
	if t.OutletWater < t.Depth {
		a.warn(key+".outlet_water", "the water at the outlet stands %.2g m above the drain all year and drowns it: is it a depth below the surface?", t.Depth-t.OutletWater)
	}
	for i, p := range t.Weir {
		if p.CrestDepth < 0.15 {
			a.warn(fmt.Sprintf("%s.weir[%d].crest", key, i), "found %s: the crest holds water nearly to the surface", meters(p.CrestDepth))
		}
	}
}

// sizes are the nominal diameters of corrugated laterals, m: metric and in inches.
var sizes = []float64{0.075, 0.0762, 0.100, 0.1016, 0.125, 0.127, 0.150, 0.1524}

// pipe warns of a diameter that is not made.
func (a *adviser) pipe(key string, d float64) {
	for _, size := range sizes {
		if math.Abs(d-size) < 5e-4 {
			return
		}
	}
	a.warn(key, "found %.4g mm; laterals are made in 75, 100, 125 and 150 mm, or 3, 4, 5 and 6 in: is it the inside diameter?", d*1000)
}

func horizonName(h soil.Horizon) string {
	if h.Name == "" {
		return fmt.Sprintf("%.3g to %.3g m", h.Top, h.Bottom)
	}
	return h.Name
}
