package soil

import (
	"fmt"
	"math"
)

// Material is a horizon with everything the simulation needs.
type Material struct {
	Horizon
	Texture       string  // USDA class, or "given curve"
	Curve         Curve   // retention and conductivity
	FieldCapacity float64 // water content at 1 m suction (10 kPa), m3/m3
	Theta33       float64 // at 33 kPa
	WiltingPoint  float64 // at 1500 kPa
	Thermal       Thermal
	Table         *Table
	Notes         []string // what was derived, from what, by which relation
}

// Defaults of structure: in ploughed and rooted soil roots, cracks and worm
// holes make the whole soil about five times as conductive as the matrix of its
// class (factor 2-15 on three measured fields), through pores that empty by
// 0.3-0.5 m of suction and take 0.02-0.03 of the volume. Dense till, above
// DenseTill Mg/m3, has none.
const (
	DefaultStructure = 5.0
	structurePores   = 0.025
	structureAlpha   = 5.0 // 1/m
	structureN       = 3.0
	DenseTill        = 1.6
)

// sandCurves are class averages of Schaap, Leij and van Genuchten (2001,
// J. Hydrol. 251:163; from memory, corroborated), used where a curve through two
// dry points says little about the wet end.
var sandCurves = map[string]Curve{
	"sand":       {ThetaR: 0.053, Alpha: 3.52371, N: 3.17687},
	"loamy sand": {ThetaR: 0.049, Alpha: 3.47536, N: 1.74582},
}

// matrixConductivity (m/s) is the class average of K0 by Schaap, Leij and van
// Genuchten (2001; from memory, corroborated): where Mualem's curve has to start
// to fit measured unsaturated conductivity, about a tenth of the saturated one
// (Schaap and Leij 2000). Started at the saturated value instead, capillary rise
// holds a spring topsoil too wet to carry a machine.
var matrixConductivity = map[string]float64{
	"clay": 0.0296483 / 86400, "clay loam": 0.0500035 / 86400, "loam": 0.0369828 / 86400, "loamy sand": 0.24322 / 86400,
	"sand": 0.244906 / 86400, "sandy clay": 0.0433511 / 86400, "sandy clay loam": 0.0693426 / 86400, "sandy loam": 0.154882 / 86400,
	"silt": 0.0334195 / 86400, "silty clay": 0.0316957 / 86400, "silty clay loam": 0.0223357 / 86400, "silt loam": 0.0174985 / 86400,
}

// givenCurve stands for the texture of a horizon that has none.
const givenCurve = "given curve"

func sandy(texture string) bool { _, ok := sandCurves[texture]; return ok }

// Derive completes a horizon. The texture goes through the horizon's relation to
// water contents and to the matrix conductivity. From Saxton and Rawls (2006), and
// through given points, a van Genuchten curve is laid exactly through saturation,
// 33 and 1500 kPa; Cosby et al. (1984) bring their own. Given values replace
// derived ones. Every step leaves a note.
func Derive(h Horizon) (Material, error) {
	if err := h.Check(); err != nil {
		return Material{}, err
	}
	m := Material{Horizon: h}
	note := func(format string, args ...any) { m.Notes = append(m.Notes, fmt.Sprintf(format, args...)) }

	sand, clay := 40.0, 20.0 // loam stands in where only a curve is given
	if h.textureKnown() {
		sand, clay = h.texture()
		m.Sand, m.Clay, m.Silt = sand, clay, 100-sand-clay
		m.Texture = TextureClass(sand, clay)
	} else {
		m.Texture = givenCurve
		note("texture not given: heat properties of a loam")
	}
	if !given(m.Organic) {
		m.Organic = 1
		note("organic matter not given: 1 %%")
	}
	cited := h.Relation.Cited()
	if m.Organic > saxtonOrganic && h.Relation == SaxtonRawls2006 {
		note("organic matter %.3g %% lies beyond the relation's %.0f %%, which was used", m.Organic, saxtonOrganic)
	}
	if h.Relation == Cosby1984 && m.Texture != givenCurve {
		note("organic matter and density play no part in the conductivity of %s", cited)
	}
	if !given(m.BulkDensity) && given(h.ThetaS) {
		m.BulkDensity = ParticleDensity * (1 - h.ThetaS)
		note("bulk density not given: %.3g Mg/m3 from the saturated water content", m.BulkDensity)
	}
	ptf := h.Relation.points(sand/100, clay/100, m.Organic, m.BulkDensity)
	if !given(m.BulkDensity) {
		m.BulkDensity = ptf.bulk
		note("bulk density not given: %.3g Mg/m3 (%s)", m.BulkDensity, cited)
	}
	if h.pointsGiven() && !sandy(m.Texture) {
		ptf.theta33, ptf.theta1500, ptf.alpha = h.Water33, h.Water1500, 0
		if h.Relation == SaxtonRawls2006 && ptf.thetaS > h.Water33 {
			ptf.ksat = saxtonKsat(ptf.thetaS, ptf.theta33, ptf.theta1500)
		}
	}
	if !given(m.Structure) {
		m.Structure = DefaultStructure
		if m.BulkDensity > DenseTill || sandy(m.Texture) || given(h.ThetaS) {
			m.Structure = 1 // a measured curve holds its large pores already
		}
		note("structure not given: the whole soil %.3g times as conductive as its matrix", m.Structure)
	}

	c := Curve{L: 0.5, Entry: AirEntry, OvenDry: true}
	if m.Structure > 1 {
		c.Structure, c.AlphaS, c.NS = structurePores, structureAlpha, structureN
	}
	shape, coarse := sandCurves[m.Texture]
	switch {
	case given(h.ThetaS):
		c.ThetaR, c.ThetaS, c.Alpha, c.N = h.ThetaR, h.ThetaS, h.Alpha, h.N
		c.Structure = 0
		note("retention curve as given")
	case ptf.alpha > 0:
		c.ThetaS, c.Alpha, c.N = ptf.thetaS, ptf.alpha, ptf.n
		c.Structure = math.Min(c.Structure, 0.5*(ptf.thetaS-ptf.theta33))
		note("retention: power law as a van Genuchten curve, air entry %.3g m (%s), %.3f at saturation", 1/ptf.alpha, cited, ptf.thetaS)
	case coarse:
		c.ThetaS = ptf.thetaS
		c.ThetaR, c.Alpha, c.N = shape.ThetaR, shape.Alpha, shape.N
		note("retention: class average of Schaap et al. (2001), pores %.3f from the bulk density", c.ThetaS)
	default:
		c.ThetaS = ptf.thetaS
		c.Structure = math.Min(c.Structure, 0.5*(c.ThetaS-ptf.theta33))
		// Residual water: half of that at 1500 kPa, the driest that evaporation
		// leaves in FAO-56 (Allen et al. 1998, eq. 73). A power law has none.
		if h.Relation != Cosby1984 {
			c.ThetaR = ptf.theta1500 / 2
		}
		alpha, n, err := fitTwoPoints(c.ThetaR, c.ThetaS-c.Structure, ptf.theta33, ptf.theta1500, AirEntry)
		if err != nil {
			return Material{}, fmt.Errorf("horizon %s: %w", h.Name, err)
		}
		c.Alpha, c.N = alpha, n
		from := cited
		if h.pointsGiven() {
			from = "as given"
		}
		note("retention: van Genuchten through %.3f at saturation, %.3f at 33 kPa, %.3f at 1500 kPa (%s)", ptf.thetaS, ptf.theta33, ptf.theta1500, from)
	}
	if h.pointsGiven() && (coarse || given(h.ThetaS)) {
		note("water at 33 and 1500 kPa was given and is not used: two dry points say little of a sand, and nothing beside a whole curve")
	}
	if given(m.Ksat) {
		note("conductivity as given")
	} else {
		m.Ksat = ptf.ksat * m.Structure
		note("conductivity %.3g m/d: matrix %.3g m/d (%s) times structure %.3g", m.Ksat*86400, ptf.ksat*86400, cited, m.Structure)
	}
	c.KMatrix = math.Min(m.Ksat/m.Structure, matrixConductivity[m.Texture])
	if m.Texture == givenCurve {
		c.KMatrix = m.Ksat / m.Structure
	}
	c.KStructure = m.Ksat - c.KMatrix
	if c.KStructure > 0 && c.AlphaS == 0 {
		c.AlphaS, c.NS = structureAlpha, structureN
	}
	if !given(m.SalinityEC) {
		m.SalinityEC = 0.5
		note("ECe not given: 0.5 dS/m")
	}

	m.Curve = c
	m.FieldCapacity = c.Theta(-1)
	m.Theta33 = c.Theta(-Suction33kPa)
	m.WiltingPoint = c.Theta(-Suction1500kPa)
	// Sand stands in for quartz (common practice).
	m.Thermal = NewThermal(m.BulkDensity, sand/100, m.Organic/100, coarseTexture(m.Texture))
	table, err := NewCurveTable(c)
	if err != nil {
		return Material{}, fmt.Errorf("horizon %s: %w", h.Name, err)
	}
	m.Table = table
	return m, nil
}

// DeriveProfile checks and completes a list of horizons.
func DeriveProfile(horizons []Horizon) ([]Material, error) {
	if err := CheckProfile(horizons); err != nil {
		return nil, err
	}
	materials := make([]Material, len(horizons))
	for i, h := range horizons {
		m, err := Derive(h)
		if err != nil {
			return nil, err
		}
		materials[i] = m
	}
	return materials, nil
}
