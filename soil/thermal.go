package soil

import "math"

// Thermal constants. Heat capacities by volume after de Vries (1963, from
// memory), J/m3/K; latent heat of fusion by volume of water, J/m3.
const (
	HeatMineral = 1.925e6
	HeatOrganic = 2.51e6
	HeatWater   = 4.18e6
	HeatIce     = 1.93e6
	LatentHeat  = 333.6e3 * 1000

	iceDensity = 0.917 // of ice over water: ice is counted here as the water it was

	conductivityWater = 0.57 // W/m/K
	conductivityIce   = 2.2

	// ClapeyronSlope is the suction (m) that holds water unfrozen at one degree
	// below freezing: Lf/(g T0) with Lf 333.6 kJ/kg, T0 273.15 K.
	ClapeyronSlope = 333.6e3 / 9.80665 / 273.15
)

// Thermal is the heat side of a horizon, after Johansen (1975).
type Thermal struct {
	Porosity   float64 // m3/m3
	Solids     float64 // heat capacity of the solids per volume of soil, J/m3/K
	Water, Ice float64 // heat capacities of the water held, liquid and frozen, J/m3/K
	dry        float64 // conductivity when dry, W/m/K
	grain      float64 // grains' conductivity to the power of their share
	coarse     bool
	frozen     [frozenRows + 1]float64 // saturated frozen conductivity against unfrozen water
	thawed     [frozenRows + 1]float64 // conductivity against degree of saturation
}

const frozenRows = 64

// NewThermal takes the dry bulk density (Mg/m3), quartz as a share of the
// solids (sand stands in for it), organic matter as a mass share, and whether
// the soil is coarse.
func NewThermal(bulk, quartz, organic float64, coarse bool) Thermal {
	density := bulk * 1000
	porosity := 1 - bulk/ParticleDensity
	t := Thermal{Porosity: porosity, Water: HeatWater, Ice: HeatIce / iceDensity, coarse: coarse}
	organicVolume := bulk * organic / 1.3 // organic matter at 1.3 Mg/m3
	t.Solids = HeatMineral*math.Max(1-porosity-organicVolume, 0) + HeatOrganic*organicVolume
	// Johansen's regression on the density of dry soil has his grains of 2700 kg/m3
	// in it; it is kept as published. The porosity follows ParticleDensity, because
	// it must be the one that the soil's water fills. For a soil of 1350 kg/m3 that
	// makes it 0.491 where his is 0.500; carried over by porosity, the dry
	// conductivity would be 0.179 in place of 0.174 W/m/K, within his 20 %.
	t.dry = (0.135*density + 64.7) / (2700 - 0.947*density)
	other := 2.0
	if quartz <= 0.2 {
		other = 3.0
	}
	t.grain = math.Pow(math.Pow(7.7, quartz)*math.Pow(other, 1-quartz), 1-porosity)
	saturated := t.grain * math.Pow(conductivityWater, porosity)
	for i := range t.frozen {
		x := float64(i) / frozenRows
		liquid := x * porosity
		t.frozen[i] = t.grain * math.Pow(conductivityIce, porosity-liquid) * math.Pow(conductivityWater, liquid)
		t.thawed[i] = t.dry + (saturated-t.dry)*t.kersten(x)
	}
	return t
}

// FixedThermal is a soil of constant conductivity, one value thawed and one
// frozen, and given heat capacities (J/m3/K), as the textbook solutions assume.
func FixedThermal(porosity, solids, water, ice, thawed, frozen float64) Thermal {
	t := Thermal{Porosity: porosity, Solids: solids, Water: water, Ice: ice, dry: frozen}
	for i := range t.thawed {
		t.thawed[i] = thawed
		t.frozen[i] = frozen + (thawed-frozen)*float64(i)/frozenRows
	}
	return t
}

// kersten is Johansen's Kersten number, in base-10 logarithm. It meets zero at
// a saturation of 0.1 (fine) or 0.037 (coarse), below which the soil conducts
// as if dry.
func (t *Thermal) kersten(sr float64) float64 {
	if sr <= 0 {
		return 0
	}
	slope := 1.0
	if t.coarse {
		slope = 0.7
	}
	return math.Max(slope*math.Log10(sr)+1, 0)
}

// Conductivity is W/m/K for liquid and frozen water contents (m3/m3). Frozen
// soil: Ke equals the degree of saturation.
func (t *Thermal) Conductivity(liquid, ice float64) float64 {
	if ice <= 0 {
		return lookup(&t.thawed, liquid/t.Porosity)
	}
	sr := math.Min((liquid+ice)/t.Porosity, 1)
	return t.dry + (lookup(&t.frozen, liquid/t.Porosity)-t.dry)*sr
}

// lookup interpolates a table over 0 to 1; water beyond the pores of the
// density's porosity counts as full.
func lookup(table *[frozenRows + 1]float64, x float64) float64 {
	u := x * frozenRows
	i := int(u)
	if i < 0 {
		return table[0]
	}
	if i >= frozenRows {
		return table[frozenRows]
	}
	return table[i] + (table[i+1]-table[i])*(u-float64(i))
}

// HeatCapacity is J/m3/K of soil with these liquid and frozen water contents.
func (t *Thermal) HeatCapacity(liquid, ice float64) float64 {
	return t.Solids + t.Water*liquid + t.Ice*ice
}
