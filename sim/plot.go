package sim

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/drain"
	"mottle/sim/heat"
	"mottle/sim/site"
	"mottle/soil"
)

// Resolution of the column: cells grow from Thin at the surface by Ratio to
// Thick. Storm infiltration needs the thin ones, drain flow is content with the
// thick.
type Resolution struct{ Thin, Thick, Ratio float64 }

// DefaultResolution gives 30 to 40 cells in two to three metres.
func DefaultResolution() Resolution { return Resolution{Thin: 0.005, Thick: 0.10, Ratio: 1.25} }

// Plot is a piece of ground ready to run: what does not change with time.
type Plot struct {
	Field     *site.Field
	Materials []soil.Material // by horizon
	Grid      column.Grid

	material []int         // horizon of each cell
	tables   []*soil.Table // by cell
	layers   []heat.Layer  // the column's cells and the deeper ones
	deepWet  []float64     // water content of the deeper ones
	surface  column.Surface
	base     column.Base
	baseEC   float64
	drainage []column.Lateral // of the field as it lies
	evap     evaporation
	topsoil  []float64 // weight of each cell in the top 0.30 m
	tilth    []float64 // in the top 0.15 m
	workable float64   // water content of the tilth below which machines go, m3/m3
}

const (
	heatDepth    = 8.0 // m: the year's wave is below a tenth of a degree there
	topsoilDepth = 0.30
	tilthDepth   = 0.15
	evapDepth    = 0.10 // FAO-56 Ze
)

// NewPlot derives the soil of a field and lays the grid on it.
func NewPlot(f *site.Field, r Resolution) (*Plot, error) {
	p := &Plot{Field: f}
	base := column.Base{Kind: column.BaseRegional, Level: f.Base.Level, Resistance: f.Base.Resistance}
	switch f.Base.Kind {
	case site.Seepage:
		base = column.Base{Kind: column.BaseSeepage, Flux: f.Base.Flux}
	case site.Closed:
		base = column.Base{Kind: column.BaseClosed}
	}
	surface := column.Surface{Store: f.Surface.Storage, HeldHead: math.NaN()}
	if !math.IsInf(f.Surface.CrustK, 1) {
		surface.CrustThickness, surface.CrustK = crustThickness, f.Surface.CrustK
	}
	if err := p.lay(f.Horizons, f.Restrictive, surface, base, r); err != nil {
		return nil, err
	}
	if f.Ditch != nil {
		p.drainage = append(p.drainage, p.ditch(*f.Ditch))
	}
	return p, nil
}

// NewUpland is the land above a wet spot: its own soil, no tile, the same crop
// and weather.
func NewUpland(f *site.Field, r Resolution) (*Plot, error) {
	p := &Plot{Field: f}
	u := f.Runon
	surface := column.Surface{Store: u.Storage, HeldHead: math.NaN()}
	if !math.IsInf(f.Surface.CrustK, 1) {
		surface.CrustThickness, surface.CrustK = crustThickness, f.Surface.CrustK
	}
	base := column.Base{Kind: column.BaseRegional, Level: u.Level, Resistance: f.Base.Resistance}
	depth := u.Horizons[len(u.Horizons)-1].Bottom
	if err := p.lay(u.Horizons, depth, surface, base, r); err != nil {
		return nil, fmt.Errorf("run_on: %w", err)
	}
	return p, nil
}

// crustThickness of a slaked and dried surface (common practice: 5-10 mm).
const crustThickness = 0.01

// lay derives the horizons and fills the grid down to depth.
func (p *Plot) lay(horizons []soil.Horizon, depth float64, surface column.Surface, base column.Base, r Resolution) error {
	materials, err := soil.DeriveProfile(horizons)
	if err != nil {
		return err
	}
	if last := horizons[len(horizons)-1].Bottom; last < depth-1e-9 {
		return fmt.Errorf("soil.horizons: end at %.3g m; they must reach the restrictive layer at %.3g m", last, depth)
	}
	var interfaces []float64
	for i := range materials {
		m := &materials[i]
		if f := p.Field.Conductance; f != 1 {
			m.Curve.KMatrix *= f
			m.Curve.KStructure *= f
			if m.Table, err = soil.NewCurveTable(m.Curve); err != nil {
				return err
			}
		}
		if m.Bottom < depth-1e-9 {
			interfaces = append(interfaces, m.Bottom)
		}
	}
	p.Materials = materials
	if p.Grid, err = column.Graded(depth, r.Thin, r.Thick, r.Ratio, interfaces); err != nil {
		return err
	}
	p.surface, p.base, p.baseEC = surface, base, p.Field.Base.EC
	n := p.Grid.Cells()
	p.material, p.tables = make([]int, n), make([]*soil.Table, n)
	for i, z := range p.Grid.Mid {
		for p.Materials[p.material[i]].Bottom < z {
			p.material[i]++
		}
		p.tables[i] = p.at(i).Table
		p.layers = append(p.layers, heat.Layer{Thickness: p.Grid.Dz[i], Thermal: &p.at(i).Thermal, Freezing: p.tables[i]})
	}
	// Below the column: the last horizon, wet, in cells that grow to heatDepth.
	last := p.at(n - 1)
	for z, dz := depth, p.Grid.Dz[n-1]; z < heatDepth; {
		dz = math.Min(dz*1.5, heatDepth-z)
		if heatDepth-z-dz < dz/2 {
			dz = heatDepth - z
		}
		p.layers = append(p.layers, heat.Layer{Thickness: dz, Thermal: &last.Thermal, Freezing: last.Table})
		p.deepWet = append(p.deepWet, last.Curve.ThetaS)
		z += dz
	}
	p.topsoil, p.tilth = p.weights(topsoilDepth), p.weights(tilthDepth)
	// A machine goes when the tilth holds no more than its water at 1 m suction,
	// 0.90 of it on clay. Workday studies put the limit at 0.80-1.00 of field
	// capacity (common practice). At 0.95 a drained silty clay loam under Iowa
	// weather had 13 fieldwork days from April to mid June, at 1.00 33; federal
	// crop progress reports 35-48 for Iowa's mixed land.
	for i, w := range p.tilth {
		limit := 1.0
		if m := p.at(i); m.Clay >= 40 {
			limit = 0.90
		}
		p.workable += w * limit * p.at(i).FieldCapacity
	}
	p.evap = newEvaporation(p)
	return nil
}

// at is the material of cell i.
func (p *Plot) at(i int) *soil.Material { return &p.Materials[p.material[i]] }

// weights are the shares of the cells in the uppermost depth metres.
func (p *Plot) weights(depth float64) []float64 {
	var w []float64
	for i := range p.Grid.Dz {
		in := math.Min(p.Grid.Edge[i+1], depth) - p.Grid.Edge[i]
		if in <= 0 {
			break
		}
		w = append(w, in/depth)
	}
	return w
}

// tile turns a tile system into a lateral sink of this plot.
func (p *Plot) tile(t *site.Tile) (column.Lateral, error) {
	if t.Depth >= p.Grid.Depth() {
		return column.Lateral{}, fmt.Errorf("tile.depth: found %.3g m; allowed less than the restrictive layer's %.3g m", t.Depth, p.Grid.Depth())
	}
	radius, _, err := drain.EffectiveRadius(t.Diameter, t.Wrap)
	if err != nil {
		return column.Lateral{}, fmt.Errorf("tile.diameter: %w", err)
	}
	barrier := p.Grid.Depth() - t.Depth
	l := column.Lateral{
		Spacing: t.Spacing, Depth: t.Depth, Level: t.Depth, Capacity: t.Coefficient, Anisotropy: p.Field.Anisotropy,
		EquivalentDepth: drain.EquivalentDepth(t.Spacing, barrier, radius), Ponded: 1,
	}
	if !math.IsInf(t.Spacing, 1) {
		// Kirkham over Hooghoudt for a flooded surface; the conductivity cancels.
		full := drain.Hooghoudt(1, 1, l.EquivalentDepth, t.Depth, t.Spacing)
		l.Ponded = math.Max(1, drain.KirkhamPonded(1, 0, t.Depth, radius, p.Grid.Depth(), t.Spacing)/full)
	}
	return l, nil
}

// ditchRadius stands for the wetted half-perimeter of a small ditch (assumption).
const ditchRadius = 0.3

// ditch is a far outlet: a drain at twice its distance.
func (p *Plot) ditch(d site.Ditch) column.Lateral {
	depth := d.Depth
	return column.Lateral{
		Spacing: 2 * d.Distance, Depth: depth, Level: depth, Capacity: math.Inf(1), Anisotropy: p.Field.Anisotropy,
		EquivalentDepth: drain.EquivalentDepth(2*d.Distance, p.Grid.Depth()-depth, ditchRadius), Ponded: 1,
	}
}
