package sim

import (
	"errors"
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/crop"
	"mottle/sim/heat"
	"mottle/sim/salt"
	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/weather"
)

// Engine is one twin: the state of a plot and the means to move it by a day.
type Engine struct {
	Water *column.Column
	Heat  *heat.Column
	Salt  *salt.Column
	Pack  snow.Pack
	Stand crop.Stand

	// Frost says whether soil water freezes. It does; without frost physics a warm
	// climate must come out the same, which a test shows.
	Frost bool

	plot       *Plot
	forcing    *Forcing
	tile       *site.Tile
	drain      int       // index of the tile's lateral, -1 without
	gate       int       // the cell that holds the pipe
	runon      []float64 // mm, 24 per day, from the land above; nil for none
	snowPar    snow.Params
	sun        [366]float64     // share of midsummer's sun, by day of a common year
	need       []float64        // heat units to maturity of each crop of the rotation
	tolerances []salt.Tolerance // what each crop of the rotation stands of salt
	tolerance  salt.Tolerance   // of the crop of the year

	day     today
	rootECe float64
	// What the surface has evaporated since it was wetted, m (FAO-56's De).
	surfaceLoss float64
	rooted      int
	roots       []float64
	able        []float64
	salts       salt.Water

	transpiring, evaporating, thirsting float64 // m/s now; the last is transpiration that dryness costs
}

// today gathers what the steps of a day leave.
type today struct {
	supply       [24]float64 // m of water reaching the ground in each hour
	hours        [24]float64 // m of outflow over the edge in each hour
	runoffHours  [24]float64 // m of runoff
	transpired   float64     // m
	evaporated   float64
	runoff       float64
	drain        float64
	ditch        float64
	baseOut      float64
	baseIn       float64
	asked        float64 // m of transpiration, by the weather and the stand
	thirst       float64 // m of it that dryness cost
	pondSeconds  float64 // with water standing
	drowned      bool    // the stand was lost to standing water
	wetSeconds   float64 // with the table within 0.30 m
	tableSeconds float64 // m s, for the mean depth
	air          float64 // m3/m3 s, air-filled space of the top 0.30 m
	runon        float64 // m
	flux         snow.Flux
	salt         salt.Flux
	saltArrived  float64 // kg/m2
	passable     bool
	bears        bool // a fieldwork day
}

// NewEngine builds a twin with the given tile (nil for none) and run-on.
func NewEngine(p *Plot, f *Forcing, tile *site.Tile, runon []float64) (*Engine, error) {
	n := p.Grid.Cells()
	e := &Engine{plot: p, forcing: f, tile: tile, drain: -1, runon: runon, Frost: true, snowPar: snow.Default(),
		roots: make([]float64, n), able: make([]float64, n)}
	if math.IsNaN(p.Field.Latitude) {
		return nil, errors.New("latitude: not known; the sun's height needs it")
	}
	for d := 1; d < len(e.sun); d++ {
		e.sun[d] = weather.ExtraterrestrialRadiation(p.Field.Latitude, d) / summerSun
	}
	level := p.base.Level
	if p.base.Kind != column.BaseRegional {
		level = 1.2
	}
	e.Water = column.New(p.Grid, p.tables, math.Min(level, p.Grid.Depth()-0.2))
	e.Water.Surface, e.Water.Base = p.surface, p.base
	for _, l := range p.drainage {
		e.Water.AddLateral(l)
	}
	if tile != nil {
		l, err := p.tile(tile)
		if err != nil {
			return nil, err
		}
		e.drain = e.Water.AddLateral(l)
		e.gate = p.Grid.CellAt(tile.Depth)
	}
	wet := make([]float64, len(p.layers))
	copy(wet, e.Water.Water)
	copy(wet[n:], p.deepWet)
	e.Heat = heat.New(p.layers, wet, math.Max(meanTemperature(f)+1.5, 2))
	e.Salt = salt.New(n)
	for i := range n {
		m := p.at(i)
		e.Salt.SetECe(i, m.SalinityEC, p.Grid.Dz[i], salt.PasteWater(m.Theta33, m.Curve.ThetaS))
	}
	e.salts = salt.Water{Dz: p.Grid.Dz, Content: make([]float64, n), Through: e.Water.Through, Out: e.Water.Out, BaseEC: p.baseEC}
	for _, k := range p.Field.Rotation {
		e.need = append(e.need, heatNeed(k, f))
		tolerance, err := salt.ToleranceOf(k.Name)
		if err != nil {
			return nil, err
		}
		e.tolerances = append(e.tolerances, tolerance)
	}
	return e, nil
}

func meanTemperature(f *Forcing) float64 {
	sum := 0.0
	for i := range f.Tmin {
		sum += (f.Tmin[i] + f.Tmax[i]) / 2
	}
	return sum / float64(f.Days())
}

// heatNeed picks a hybrid for the place: farmers grow one that ripens in 95 of
// 100 of the heat between 10 May and 25 September, and none longer than the
// kind's own (common practice).
func heatNeed(k crop.Kind, f *Forcing) float64 {
	sum, days := 0.0, 0
	for i := range f.Tmin {
		if d := f.YearDay[i]; d >= 130 && d <= 268 {
			sum += k.HeatUnits(f.Tmin[i], f.Tmax[i])
			days++
		}
	}
	if days == 0 || k.Perennial {
		return k.Maturity
	}
	return math.Min(k.Maturity, 0.95*sum/float64(days)*139)
}

// Adopt takes over the state of another twin of the same plot; its tile stays
// its own.
func (e *Engine) Adopt(o *Engine) {
	e.Water.Adopt(o.Water)
	e.Heat.Adopt(o.Heat)
	copy(e.Salt.Mass, o.Salt.Mass)
	copy(e.Salt.Solid, o.Salt.Solid)
	e.Salt.Pond = o.Salt.Pond
	e.Pack, e.Stand, e.rootECe, e.surfaceLoss = o.Pack, o.Stand, o.rootECe, o.surfaceLoss
}

// Day moves the twin through day i of the record. Salt moves only when moveSalt
// is set.
func (e *Engine) Day(i int, moveSalt bool) error {
	if err := e.advance(i, moveSalt); err != nil {
		return fmt.Errorf("%s: %w", e.forcing.Start+weather.Date(i), err)
	}
	return nil
}
