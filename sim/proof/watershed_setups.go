package proof

import (
	"context"
	"strings"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// landYears of invented weather each set-up is run through.
const landYears = 20

// land is an invented field, described as a user would, in an invented climate of the
// kind in which the effect was measured. None of it was fitted to the measurements.
type land struct {
	key     string
	name    string
	climate weather.Climate
	file    string
}

// lands are the set-ups. The permeable soil comes in three states of wetness, because
// the evidence does not say how wet its fields stood and the sign hangs on it. Textures,
// depths and spacings are what is usual on such ground (common practice); what the
// files leave out takes the reader's defaults.
func lands() []land {
	return []land{
		{"tight", "tight wet clay under pasture", maritime(), `
invented: true
soil:
  restrictive_layer: 2 m
  horizons:
    - {from: 0 cm,  to: 25 cm,  sand: 15 %, clay: 48 %, organic_matter: 4 %, bulk_density: 1.25 g/cm3}
    - {from: 25 cm, to: 200 cm, sand: 12 %, clay: 55 %, organic_matter: 0.8 %, bulk_density: 1.45 g/cm3}
groundwater: {outside_level: 0.8 m}
tile: {depth: 0.8 m, spacing: 10 m, drainage_coefficient: none}
crop: grass
`},
		{"permeable", "permeable sandy loam under pasture, waterlogged", maritime(), `
invented: true
soil:
  restrictive_layer: 4 m
  horizons:
    - {from: 0 cm,  to: 25 cm,  sand: 65 %, clay: 10 %, organic_matter: 3 %}
    - {from: 25 cm, to: 400 cm, sand: 70 %, clay: 8 %, organic_matter: 0.5 %}
groundwater: {outside_level: 0.8 m}
tile: {depth: 1.2 m, spacing: 25 m, drainage_coefficient: none}
crop: grass
`},
		{"permeable, drier", "the same sandy loam, ground water at the default depth", maritime(), `
invented: true
soil:
  restrictive_layer: 4 m
  horizons:
    - {from: 0 cm,  to: 25 cm,  sand: 65 %, clay: 10 %, organic_matter: 3 %}
    - {from: 25 cm, to: 400 cm, sand: 70 %, clay: 8 %, organic_matter: 0.5 %}
groundwater: {outside_level: 1.4 m}
tile: {depth: 1.2 m, spacing: 25 m, drainage_coefficient: none}
crop: grass
`},
		{"permeable, free", "the same sandy loam, ground water freely connected", maritime(), `
invented: true
soil:
  restrictive_layer: 4 m
  horizons:
    - {from: 0 cm,  to: 25 cm,  sand: 65 %, clay: 10 %, organic_matter: 3 %}
    - {from: 25 cm, to: 400 cm, sand: 70 %, clay: 8 %, organic_matter: 0.5 %}
groundwater: {outside_level: 1.4 m, resistance: 200 d}
tile: {depth: 1.2 m, spacing: 25 m, drainage_coefficient: none}
crop: grass
`},
		{"frozen", "clay plain of the cold prairie", colder(weather.DemoClimate(), 3).Wetter(0.85), `
invented: true
soil:
  restrictive_layer: 2 m
  horizons:
    - {from: 0 cm,  to: 20 cm,  sand: 6 %, clay: 55 %, organic_matter: 5 %, bulk_density: 1.20 g/cm3}
    - {from: 20 cm, to: 200 cm, sand: 5 %, clay: 62 %, organic_matter: 1 %, bulk_density: 1.40 g/cm3}
tile: {depth: 0.9 m, spacing: 12 m}
crop: [corn, soybean]
`},
		{"storms", "silty clay loam over loam till, great storms", weather.DemoClimate().Wetter(1.4), `
invented: true
soil:
  horizons:
    - {from: 0 cm,   to: 45 cm,  sand: 18 %, clay: 32 %, organic_matter: 4 %,   bulk_density: 1.32 g/cm3}
    - {from: 45 cm,  to: 100 cm, sand: 24 %, clay: 32 %, organic_matter: 1 %,   bulk_density: 1.42 g/cm3}
    - {from: 100 cm, to: 300 cm, sand: 38 %, clay: 26 %, organic_matter: 0.3 %, bulk_density: 1.55 g/cm3}
tile: {depth: 1.2 m, spacing: 18 m}
crop: [corn, soybean]
`},
	}
}

// maritime is an invented climate without hard frost: rain on nearly half of all days
// in every month, about 800 mm a year, mean near 10 C.
func maritime() weather.Climate {
	const mean = 10.0
	const pulled = 0.4 // of the plain's swing over the year and from day to day
	c := weather.DemoClimate()
	c.Name = "invented maritime lowland"
	for i := range c.Months {
		m := &c.Months[i]
		m.WetAfterDry, m.WetAfterWet, m.Shape, m.Scale = 0.35, 0.60, 0.75, 6.2
		for _, t := range []*float64{&m.TmaxDry, &m.TmaxWet, &m.Tmin} {
			*t = mean + pulled*(*t-5.5)
		}
		m.TmaxSD *= pulled
		m.TminSD *= pulled
	}
	return c
}

// colder is the climate with every temperature lower by some degrees.
func colder(c weather.Climate, degrees float64) weather.Climate {
	for i := range c.Months {
		m := &c.Months[i]
		m.TmaxDry -= degrees
		m.TmaxWet -= degrees
		m.Tmin -= degrees
	}
	return c
}

// landRun is a set-up run as it lies and with tile, hours kept.
type landRun struct {
	land
	field              *site.Field
	asItLies, withTile *sim.Record
}

// pair runs the set-up as it lies and with tile.
func (l land) pair(ctx context.Context, years int, p compare.Precision) (*landRun, error) {
	f, err := site.ReadField(l.name, strings.NewReader(l.file))
	if err != nil {
		return nil, err
	}
	s := weather.Invent(l.climate, weather.NewDate(1981, 1, 1), years, 1)
	met, s, err := compare.Meet(f, compare.Record{Series: s}, compare.Period{}, false)
	if err != nil {
		return nil, err
	}
	d, err := compare.Prepare(ctx, met, s, p)
	if err != nil {
		return nil, err
	}
	r := &landRun{land: l, field: met}
	if r.asItLies, err = d.RunHourly(ctx, met.Old); err != nil {
		return nil, err
	}
	r.withTile, err = d.RunHourly(ctx, met.Tile)
	return r, err
}
