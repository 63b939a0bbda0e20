package snow

import (
	"math"

	"mottle/soil"
)

// Pack is the snow on a plot. The zero value is bare ground. Liquid water and
// what refreezes of it are carried at the pack's own density, so melt and
// refreezing change its depth but not its density.
type Pack struct {
	SWE     float64 // water equivalent, ice and liquid together, m
	Liquid  float64 // the liquid part of SWE, m
	Density float64 // bulk density, kg/m3; 0 without snow
}

// waterDensity turns metres of water into kg/m2.
const waterDensity = 1000.0

// Ice returns the frozen part of the water equivalent, m.
func (p Pack) Ice() float64 { return p.SWE - p.Liquid }

// Depth returns the depth of the snow, m; 0 without snow.
func (p Pack) Depth() float64 {
	if p.SWE == 0 {
		return 0
	}
	return p.SWE * waterDensity / p.Density
}

// Flux is the water that moved in a day, m.
type Flux struct {
	Rain       float64 // precipitation that fell as rain, on snow or on bare ground
	SnowKept   float64 // snowfall that stayed on the plot
	BlownOff   float64 // snowfall that the wind took off the plot
	Melt       float64 // ice turned to liquid from above
	GroundMelt float64 // ice melted from below, straight into the ground
	Refrozen   float64 // held liquid turned to ice
	Outflow    float64 // rain and melt that reached the ground
}

// Day takes the pack through one day with mean temperature tMean, C,
// precipitation precip, m, and the melt groundMelt, m, that heat from the
// ground could bring about, of which no more happens than there is ice. The
// day runs in the order: settle, snowfall, melt from below, melt from above, rain
// and its heat, refreezing, drainage of what the pack cannot hold. Day panics on
// NaN, and on negative precipitation or ground melt: the weather is to be made
// sound before it comes here.
func (p *Pack) Day(par Params, exp Exposure, tMean, precip, groundMelt float64) Flux {
	if !(precip >= 0) || !(groundMelt >= 0) || math.IsNaN(tMean) {
		panic("snow: temperature, precipitation or ground melt is NaN or negative")
	}
	var f Flux
	p.settle(exp.SettledDensity)
	if tMean <= par.RainSnowThreshold {
		f.SnowKept = exp.Kept * precip
		f.BlownOff = precip - f.SnowKept
		p.fall(f.SnowKept, FreshDensity(tMean))
	} else {
		f.Rain = precip
	}

	ice, liquid := p.Ice(), p.Liquid
	f.GroundMelt = min(groundMelt, ice)
	ice -= f.GroundMelt
	f.Melt = min(DegreeDayMelt(par.MeltFactor, par.MeltBase, tMean)+rainMelt(f.Rain, tMean), ice)
	ice -= f.Melt
	liquid += f.Melt + f.Rain
	if ice > 0 {
		f.Refrozen = min(par.RefreezeFactor*max(0, par.MeltBase-tMean), liquid)
		ice += f.Refrozen
		liquid -= f.Refrozen
	}
	// liquid = hold * (ice + liquid) at most.
	held := min(liquid, par.LiquidHold/(1-par.LiquidHold)*ice)
	f.Outflow = f.GroundMelt + liquid - held
	p.SWE, p.Liquid = ice+held, held
	if p.SWE == 0 {
		p.Density = 0
	}
	return f
}

// DegreeDayMelt returns the melt that a day's mean temperature could bring
// about, factor*(tMean - base) and not below 0, in the factor's unit of water
// (NEH 630 chapter 11).
func DegreeDayMelt(factor, base, tMean float64) float64 {
	return factor * max(0, tMean-base)
}

// rainMelt returns the ice, in the unit of the rain, that rain at a day's mean
// temperature t, C, melts as it cools to 0 C: rain cw t/Lf (the term 0.0126 P T in
// mm of EM 1110-2-1406, from memory). A small part of melt, 1.3 mm per 10 mm and
// 10 C.
func rainMelt(rain, t float64) float64 {
	return rain * soil.HeatWater * max(0, t) / soil.LatentHeat
}

// fall lays fresh snow on the pack: depths add.
func (p *Pack) fall(water, freshDensity float64) {
	if water == 0 {
		return
	}
	depth := p.Depth() + water*waterDensity/freshDensity
	p.SWE += water
	p.Density = p.SWE * waterDensity / depth
}
