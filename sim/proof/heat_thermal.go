package proof

import (
	"fmt"
	"math"

	"mottle/soil"
)

// thermalRows compute the rows on the thermal properties of soil (H01-H04).
var thermalRows = map[string]func(given) float64{
	"H01a": func(in given) float64 { return johansenOf(in).dry() },
	"H01b": func(in given) float64 { // a soil all but without pores conducts as its grains do
		const pores = 1e-9
		th := soil.NewThermal(grainDensity*(1-pores), in["q"], 0, false)
		return th.Conductivity(0, pores)
	},
	"H01c": func(in given) float64 { return johansenOf(in).thawed(in["Sr"], false) },
	"H01d": func(in given) float64 { return johansenOf(in).frozen(in["Sr"], in["theta_u"]) },
	"H01e": func(in given) float64 { return johansenOf(in).frozen(in["Sr"], in["theta_u"]) },
	"H01f": func(in given) float64 { return johansenOf(in).thawed(in["Sr"], true) },
	"H03a": func(in given) float64 {
		const organicDensity = 1.3 // Mg/m3
		bulk := (in["theta_min"] + in["theta_om"]) * grainDensity
		th := soil.NewThermal(bulk, 0.3, in["theta_om"]*organicDensity/bulk, false)
		return th.HeatCapacity(in["theta_w"], in["theta_i"]) / 1e6
	},
	"H03b": func(in given) float64 { return soil.LatentHeat * in["theta"] / 1e6 },
	"H04":  func(given) float64 { return soil.ClapeyronSlope },
}

// thermal holds them.
func thermal() ([]Check, error) {
	checks, err := listedChecks("H", thermalRows)
	checks = append(append(checks, frozenCapacity(), coldIce()), handbookSoil()...)
	checks = append(checks, grains()...)
	for i := range checks {
		switch checks[i].ID {
		case "H01c", "H01d", "H01e", "H01f":
			// Straight lines between 64 saturations: log10 Sr bends by 1/(8 64^2 Sr^2 ln 10).
			checks[i].Tolerance += 1.5e-4
			checks[i].Why += "; and 1.5e-4 for straight lines between 64 degrees of saturation"
		}
	}
	return checks, err
}

// grains holds the conductivity of solids on either side of Johansen's 20 % of
// quartz: 7.7^q times 3.0^(1-q) up to it, 2.0^(1-q) beyond.
func grains() []Check {
	var checks []Check
	for _, c := range []struct{ quartz, want float64 }{{0.10, 3.2965}, {0.20, 3.6224}, {0.25, 2.8015}} {
		const pores = 1e-9
		th := soil.NewThermal(grainDensity*(1-pores), c.quartz, 0, false)
		checks = append(checks, Check{ID: fmt.Sprintf("H01b/quartz %g", c.quartz), What: fmt.Sprintf("conductivity of grains with %g of quartz", c.quartz),
			Source: "Johansen 1975 (from memory), computed apart", Status: Computed, Unit: "W/m/K", Expected: c.want, Got: th.Conductivity(0, pores), Tolerance: 5e-4, Why: "four decimals of a product of powers"})
	}
	return checks
}

// frozenCapacity is de Vries' sum for frozen soil: the pack's row H03a has no ice in
// it. The product counts ice as the water it was, 0.917 of its volume.
func frozenCapacity() Check {
	const mineral, ice, iceDensity = 0.5, 0.3, 0.917 // by volume; ice over water
	th := soil.NewThermal(mineral*grainDensity, 0.3, 0, false)
	want := 1.925*mineral + 1.93*ice
	return Check{ID: "H03a/frozen", What: "heat capacity of frozen soil, ice a third of its volume", Source: "de Vries 1963, with the density of ice", Status: Computed,
		Unit: "MJ/m3/K", Expected: want, Got: th.HeatCapacity(0, ice*iceDensity) / 1e6, Tolerance: 1e-6, Why: "a sum of three products"}
}

// coldIce is the cold that ice holds, as the water that it would freeze: the row of
// snow S06, by the soil's own ice.
func coldIce() Check {
	r := listedRow("S06")
	const (
		depth = 0.1  // m of water, all of it ice
		below = 10.0 // C
	)
	pure := soil.NewThermal(0, 0, 0, false)
	cold := pure.HeatCapacity(0, depth) * below / soil.LatentHeat
	c := listed(r, 1000*cold)
	c.What += " of 100 mm of ice"
	c.Tolerance, c.Why = 0.05/2.1*c.Expected, "one decimal of the heat of ice, 2.1 kJ/kg/K, is used by the row: 2.4 %"
	return c
}

// handbookSoil holds latent heat and heat capacity of the handbook's homogeneous
// soil (H07a, H07b), 100 lb/ft3 with 15 % of water, in its units.
func handbookSoil() []Check {
	const (
		pound   = 0.45359237 / (0.3048 * 0.3048 * 0.3048) / 1000 // Mg/m3 in a lb/ft3
		dry     = 100 * pound                                    // Mg/m3
		water   = 0.15 * dry                                     // m3/m3
		btu     = btuFt3                                         // J/m3 in a Btu/ft3
		btuF    = btuFt3 * degree                                // J/m3/K in a Btu/ft3/F
		byWater = 0.75 * 15                                      // Btu/ft3/F, of row H07b
		low     = 0.17 * 100                                     // Btu/ft3/F, of its solids
		high    = 0.20 * 100                                     // of another handbook's
	)
	latent := listed(listedRow("H07a"), soil.LatentHeat*water/btu)
	latent.What = "latent heat of the handbook's soil"
	latent.Tolerance = 0.005 * latent.Expected
	latent.Why = "0.5 %: the handbook's 144 Btu/lb is 334.9 kJ/kg, where 333.6 to 334 is tabled"
	th := soil.NewThermal(dry, 0.5, 0, false)
	solids := th.HeatCapacity(0, 0)
	wet := (th.HeatCapacity(water, 0)+th.HeatCapacity(0, water))/2 - solids
	source := listedRow("H07b")["source"]
	return []Check{latent,
		{ID: "H07b, water", What: "heat capacity of the handbook's soil, its water, half frozen", Source: source, Status: Published, Unit: "Btu/ft3/F",
			Expected: byWater, Got: wet / btuF, Tolerance: 0.005 / 0.75 * byWater, Why: "two decimals are kept of the mean of water and ice, 0.75: 0.7 %"},
		{ID: "H07b, solids", What: "heat capacity of the handbook's soil, its solids", Source: "0.17 Btu/lb/F in TM 5-852-6, 0.2 in UFC 3-130-05", Status: Published, Unit: "Btu/ft3/F",
			Expected: (low + high) / 2, Got: solids / btuF, Tolerance: (high - low) / 2, Why: "between the two handbooks"},
	}
}

const (
	grainDensity    = 2.65 // Mg/m3, of the product's porosity
	johansenDensity = 2.70 // Mg/m3, of the rows' porosity
)

// johansen is the soil of the rows H01. They put the porosity at 1 - rho/2700 and the
// product at 1 - rho/2650, so that two soils stand for one: by gives the dry
// conductivity of the density, pores the saturated one of the porosity, and the
// Kersten number.
type johansen struct {
	quartz, porosity float64
	by               soil.Thermal
}

func johansenOf(in given) johansen {
	bulk := in["rho_b"] / 1000
	return johansen{in["q"], 1 - bulk/johansenDensity, soil.NewThermal(bulk, in["q"], 0, false)}
}

// pores is the soil of the rows' porosity.
func (j johansen) pores(coarse bool) soil.Thermal {
	return soil.NewThermal(grainDensity*(1-j.porosity), j.quartz, 0, coarse)
}

// dry is the conductivity of the dry soil, W/m/K.
func (j johansen) dry() float64 { return j.by.Conductivity(0, 0) }

// thawed is the conductivity at a degree of saturation, W/m/K.
func (j johansen) thawed(sr float64, coarse bool) float64 {
	p := j.pores(coarse)
	dry, full := p.Conductivity(0, 0), p.Conductivity(j.porosity, 0)
	kersten := (p.Conductivity(sr*j.porosity, 0) - dry) / (full - dry)
	return j.dry() + (full-j.dry())*kersten
}

// frozen is the conductivity at a degree of saturation of which some water (m3/m3)
// is liquid, W/m/K.
func (j johansen) frozen(sr, liquid float64) float64 {
	p := j.pores(false)
	dry, full := p.Conductivity(0, 0), p.Conductivity(liquid, j.porosity-liquid)
	kersten := (p.Conductivity(liquid, sr*j.porosity-liquid) - dry) / (full - dry)
	return j.dry() + (full-j.dry())*math.Min(kersten, 1)
}
