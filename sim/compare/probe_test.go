package compare

import (
	"context"
	"math"
	"testing"

	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/soil"
	"mottle/weather"
)

func invented() *site.Field {
	corn, _ := crop.Named("corn")
	soy, _ := crop.Named("soybean")
	horizons := func(rows [][]float64) (hs []soil.Horizon) {
		for _, r := range rows {
			h := soil.NewHorizon(r[0], r[1])
			h.Sand, h.Clay, h.Organic, h.BulkDensity, h.SalinityEC = r[2], r[3], r[4], r[5], r[6]
			hs = append(hs, h)
		}
		return hs
	}
	hs := horizons([][]float64{{0, .2, 8, 34, 6.5, 1.2, 1}, {.2, .55, 8, 36, 4.5, 1.25, 1.2}, {.55, .95, 10, 38, 1.2, 1.35, 1.5}, {.95, 1.3, 18, 32, .5, 1.45, 2}, {1.3, 2.0, 32, 28, .3, 1.65, 2.5}})
	up := horizons([][]float64{{0, .2, 40, 22, 4, 1.35, .6}, {.2, .6, 40, 26, 1.5, 1.45, .6}, {.6, 1, 42, 24, .6, 1.55, .8}, {1, 1.8, 42, 23, .3, 1.7, 1.2}})
	var as []site.Assumption
	for _, k := range []string{"groundwater.outside_level", "groundwater.resistance", "soil.conductivity_factor", "surface.snow", "surface.standing_water", "surface.residue", "evapotranspiration.hargreaves_factor"} {
		as = append(as, site.Assumption{Key: k})
	}
	return &site.Field{Name: "probe", Latitude: 47, Elevation: 300, ReadHour: 24, Horizons: hs, Restrictive: 2, Conductance: 1, Anisotropy: 1,
		Surface:  site.Surface{Storage: .03, CrustK: math.Inf(1), Residue: .3, Exposure: snow.Open},
		Base:     site.Base{Level: 1.4, Resistance: 1500 * 86400, EC: 2.5},
		Runon:    &site.Runon{Ratio: 3, Horizons: up, Storage: .005, Level: 2.5},
		Rotation: []crop.Kind{corn, soy}, RainEC: .02, Assumed: as, Storms: site.Storms{Seed: 1},
		Tile: &site.Tile{Depth: 1.07, Spacing: 15.2, Diameter: .1, Wrap: drain.Bare, Coefficient: .0127 / 86400, OutletWater: math.Inf(1)}}
}

func TestProbe(t *testing.T) {
	f := invented()
	s := weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), 40, 1)
	r, err := Run(context.Background(), f, s, Options{Ranges: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Log(r.Pair.Spinup, r.FieldYears, r.CPUSeconds, r.Pair.Seconds)
	for _, l := range r.Lines {
		t.Logf("%-26s %9.2f %9.2f %9.2f (%.2f, %.2f) noise %.3f %v %s", l.Name, l.AsItLies, l.WithTile, l.Difference, l.Low, l.High, l.Noise, l.Resolved, l.Unit)
	}
	for _, g := range r.Ranges {
		switch g.Measure {
		case "days_saturated", "drain_outflow", "peak_hour", "evapotranspiration", "frost_out":
			t.Logf("%-20s %-10s %-50s %.2f %.2f", g.Measure, g.Of, g.Over, g.Low, g.High)
		}
	}
}
