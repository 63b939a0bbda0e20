package snow

import (
	"errors"
	"fmt"
)

// Params are the constants of the pack.
type Params struct {
	RainSnowThreshold float64 // C: precipitation is snow at or below this daily mean
	MeltFactor        float64 // m of water per C and day above MeltBase
	MeltBase          float64 // C: melt above, refreezing below
	RefreezeFactor    float64 // m of water per C and day below MeltBase
	LiquidHold        float64 // liquid water held against drainage, share of SWE
}

// Default returns the constants for cold-winter cropland:
//
//   - threshold 1.0 C: mean 50 % rain-snow temperature of the Northern
//     Hemisphere (Jennings et al. 2018), from memory;
//   - melt factor 4 mm/C-d above 0 C: within 1.6-6.0 of NEH 630 chapter 11,
//     and near what soil temperatures under winter fields ask for;
//   - refreezing at 0.05 of the melt factor, common practice, from memory: the
//     cold must pass through the snow;
//   - 5 % of SWE held as liquid: 2-5 % in drained snow, from memory.
func Default() Params {
	return Params{
		RainSnowThreshold: 1,
		MeltFactor:        4e-3,
		MeltBase:          0,
		RefreezeFactor:    0.05 * 4e-3,
		LiquidHold:        0.05,
	}
}

// Validate returns every value outside its physical range, joined, or nil.
func (p Params) Validate() error {
	return errors.Join(
		within("rain-snow threshold", p.RainSnowThreshold, -3, 5, "C"),
		within("melt factor", p.MeltFactor, 0, 0.02, "m/C-d"),
		within("melt base", p.MeltBase, -5, 5, "C"),
		within("refreeze factor", p.RefreezeFactor, 0, 0.02, "m/C-d"),
		within("liquid hold", p.LiquidHold, 0, 0.3, "of SWE"),
	)
}

// Exposure says what wind does to the snow of a plot.
type Exposure struct {
	Name           string
	Kept           float64 // share of snowfall that stays on the plot, 0-1
	SettledDensity float64 // density towards which the pack settles, kg/m3
}

// Exposures of cropland, chosen on winter soil temperatures measured in open
// ground; 300 kg/m3 is the settled density of Verseghy 1991, and wind packs
// exposed snow harder. A field's exposure is seldom known: run more than one.
var (
	Sheltered = Exposure{"sheltered", 1.0, 300}
	Open      = Exposure{"open", 0.7, 400}
	Swept     = Exposure{"swept", 0.3, 400}
)

// Validate returns every value outside its physical range, joined, or nil.
// Densities end at 600 kg/m3, the end of the conductivity relation.
func (e Exposure) Validate() error {
	return errors.Join(
		within("share of snowfall kept", e.Kept, 0, 1, "of snowfall"),
		within("settled density", e.SettledDensity, 100, 600, "kg/m3"),
	)
}

func within(name string, value, low, high float64, unit string) error {
	if value >= low && value <= high {
		return nil
	}
	return fmt.Errorf("snow: %s: found %g %s, allowed %g to %g", name, value, unit, low, high)
}
