package flow

import "math"

// graphical holds the coefficients of TR-55's chart for storms of type II at two
// ratios of initial abstraction to rain (NRCS 1986, appendix F; from memory).
var graphical = [2]struct{ ratio, c0, c1, c2 float64 }{
	{0.10, 2.55323, -0.61512, -0.16403},
	{0.30, 2.46532, -0.62257, -0.11657},
}

// GraphicalPeak is the peak (m3/s) of the excess (m) of a type II storm of rain (m)
// on an area (m2) with time of concentration tc (s) and curve number cn, without
// ponds: qu A Q with log10 qu = C0 + C1 log10 Tc + C2 (log10 Tc)^2 (TR-55 1986,
// graphical method; from memory), qu taken between the chart's curves. A design
// value to hold routed peaks against. Outside of Ia/P 0.10 to 0.30 and of Tc 0.1 to
// 10 h the chart says nothing: a [RangeError].
func GraphicalPeak(area, rain, cn, tc float64) (float64, error) {
	ratio := Abstraction * Retention(cn) / rain
	hours := tc / 3600
	if err := firstOf(positive("area, m2", area), positive("rain, m", rain), within("curve number", cn, 1, 100, "give a curve number"),
		within("initial abstraction over rain", ratio, graphical[0].ratio, graphical[1].ratio, "route the storm instead"),
		within("time of concentration, h", hours, 0.1, 10, "route the storm instead")); err != nil {
		return 0, err
	}
	var qu [2]float64 // ft3/s per mi2 and in
	x := math.Log10(hours)
	for i, g := range graphical {
		qu[i] = math.Pow(10, g.c0+g.c1*x+g.c2*x*x)
	}
	const perSecond = 0.3048 * 0.3048 * 0.3048 / (1609.344 * 1609.344 * 0.0254) // ft3/s per mi2 and in to m3/s per m2 and m
	share := (ratio - graphical[0].ratio) / (graphical[1].ratio - graphical[0].ratio)
	return (qu[0] + share*(qu[1]-qu[0])) * perSecond * area * CurveNumberRunoff(rain, cn, Abstraction), nil
}

// InstantOverDaily is the greatest flow of a day over its daily mean on an area
// (m2): 1 + 2.66 A^-0.3 in km2 (Fuller 1914; from memory). For screening: flat land
// with tile usually has less.
func InstantOverDaily(area float64) float64 { return 1 + 2.66*math.Pow(area/1e6, -0.3) }
