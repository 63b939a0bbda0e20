package proof

import (
	"context"

	"mottle/sim/snow"
)

// snowOf is a pack of 0.1 m of water of a density (kg/m3).
func snowOf(density float64) snow.Pack { return snow.Pack{SWE: 0.1, Density: density} }

// conductivityOf is the conductivity of snow of a density (g/cm3), W/m/K.
func conductivityOf(density float64) float64 { return snowOf(density * 1000).Conductivity() }

// snowRows compute the rows of atmosphere-checks.csv on snow (S).
var snowRows = map[string]func(given) float64{
	"S04a": func(in given) float64 { // the pack's own melt, of more snow than melts
		p := snowOf(300)
		par := snow.Default()
		par.MeltFactor, par.MeltBase = in["Cm"]*perMillimetre, in["Tb_C"]
		return p.Day(par, snow.Sheltered, in["Tmean_C"], 0, 0).Melt / perMillimetre
	},
	"S04b": func(in given) float64 { // a factor in inches and F, one C above freezing
		factor := in["Cm_in_per_F"] * lengthOf("1 in") / perMillimetre
		return snow.DegreeDayMelt(factor, freezingF, freezingF+degree)
	},
	"S07a": func(in given) float64 { return conductivityOf(in["rho_gcm3"]) },
	"S07b": func(in given) float64 { return conductivityOf(in["rho_gcm3"]) },
	"S08": func(in given) float64 { // the density of snow on bare ground
		var p snow.Pack
		p.Day(snow.Default(), snow.Sheltered, in["T_C"], 0.01, 0)
		return p.Density
	},
}

const (
	perMillimetre = 1e-3 // m
	freezingF     = 32.0 // F
)

// snowfall holds the snow pack, and reports where its single threshold, its melt
// and its held water stand among published ones.
func snowfall(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		func() ([]Check, error) { return listedChecks("S", snowRows) },
		snowConduction, settling, rainOnSnow, snowRanges)
}
