package proof

import (
	"context"

	"mottle/sim/snow"
)

// snowOf is a pack of 0.1 m of water of a density (kg/m3).
func snowOf(density float64) snow.Pack { return snow.Pack{SWE: 0.1, Density: density} }

// snowRows compute the rows of atmosphere-checks.csv on snow (S).
var snowRows = map[string]func(given) float64{
	"S04a": func(in given) float64 { // the pack's own melt, of more snow than melts
		p := snowOf(300)
		par := snow.Default()
		par.MeltFactor, par.MeltBase = in["Cm"]*perMillimetre, in["Tb_C"]
		return p.Day(par, snow.Sheltered, in["Tmean_C"], 0, 0).Melt / perMillimetre
	},
	"S07a": func(in given) float64 { return snowOf(in["rho_gcm3"] * 1000).Conductivity() },
	"S07b": func(in given) float64 { return snowOf(in["rho_gcm3"] * 1000).Conductivity() },
	"S08": func(in given) float64 { // the density of snow on bare ground
		var p snow.Pack
		p.Day(snow.Default(), snow.Sheltered, in["T_C"], 0.01, 0)
		return p.Density
	},
}

const perMillimetre = 1e-3 // m

// snowfall holds the snow pack, and reports where its single threshold and its
// melt factor stand among published ones.
func snowfall(context.Context) ([]Check, error) {
	checks, err := listedChecks("S", snowRows)
	if err != nil {
		return nil, err
	}
	return append(checks, halfSnow()...), nil
}

// halfSnow reports the temperature at which precipitation turns from snow to rain,
// found by letting it fall, and the melt of a day one degree above freezing.
func halfSnow() []Check {
	cold, warm := -10.0, 10.0
	for range 40 {
		mid := (cold + warm) / 2
		var p snow.Pack
		if p.Day(snow.Default(), snow.Sheltered, mid, 0.01, 0).Rain > 0 {
			warm = mid
		} else {
			cold = mid
		}
	}
	threshold := func(id, source string, status Status, expected, low, high float64, note string) Check {
		return Check{ID: id, What: "daily mean at which half falls as snow", Source: source, Status: status, Unit: "C",
			Expected: expected, Got: warm, Report: true, Low: low, High: high, Note: note}
	}
	p := snowOf(300)
	melt := p.Day(snow.Default(), snow.Sheltered, 1, 0, 0).Melt / perMillimetre
	factor := func(id, source string, expected, low, high float64, note string) Check {
		return Check{ID: id, What: "melt a degree above freezing", Source: source, Status: Memory, Unit: "mm/C-d",
			Expected: expected, Got: melt, Report: true, Low: low, High: high, Note: note}
	}
	logistic := listedRow("S01c").num("expected")
	const atNinety = 1.376 // C, the same curve at 90 % humidity
	ramp := listedRow("S03")
	const oneStep = "the product takes one threshold, snow at or below it and rain above"
	return []Check{
		threshold("S01c, range", "Jennings et al. 2018: hemispheric mean and the range of most stations", Memory, 1.0, -0.4, 2.4,
			oneStep),
		threshold("S01c, logistic", listedRow("S01c")["source"], Published, logistic, atNinety, logistic,
			oneStep+"; the range is that of 90 to 80 % humidity, and saturated air has half its snow at 0.74 C"),
		threshold("S03, middle", ramp["source"], Memory, 1.1, -1.1, 3.3, oneStep+"; the ramp gives half at the expected value"),
		factor("S04a, range", "NEH 630 chapter 11, degree-day factors", 2.74, 1.6, 6.0, "4 suits bare cropland; 2.74 is for when nothing is known"),
		factor("S04a, rain-free", "EM 1110-2-1406, rain-free melt in the open", 2.75, 1.8, 3.7, "the product's factor serves days with rain too, and heats nothing by rain itself"),
	}
}
