package sim

import (
	"context"
	"math"
	"os"
	"testing"
	"time"

	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/sim/storm"
	"mottle/soil"
	"mottle/weather"
)

func probeField() *site.Field {
	corn, _ := crop.Named("corn")
	soy, _ := crop.Named("soybean")
	var hs []soil.Horizon
	for _, r := range [][]float64{{0, .2, 8, 34, 6.5, 1.2, .3456, 1}, {.2, .55, 8, 36, 4.5, 1.25, .2592, 1.2}, {.55, .95, 10, 38, 1.2, 1.35, .1296, 1.5}, {.95, 1.3, 18, 32, .5, 1.45, .0864, 2}, {1.3, 2.0, 32, 28, .3, 1.65, .0259, 2.5}} {
		h := soil.NewHorizon(r[0], r[1])
		h.Sand, h.Clay, h.Organic, h.BulkDensity, h.Ksat, h.SalinityEC = r[2], r[3], r[4], r[5], r[6]/86400, r[7]
		if r[0] < 1.2 {
			h.Ksat = math.NaN()
		}
		hs = append(hs, h)
	}
	return &site.Field{Name: "probe", Latitude: 47, Elevation: 300, ReadHour: 24, Horizons: hs, Restrictive: 2, Conductance: 1, Anisotropy: 1,
		Surface:  site.Surface{Storage: .012, CrustK: math.Inf(1), Residue: .3, Exposure: snow.Open},
		Base:     site.Base{Level: 1.4, Resistance: 1500 * 86400, EC: 2.5},
		Rotation: []crop.Kind{corn, soy}, RainEC: .02,
		Tile: &site.Tile{Depth: 1.2, Spacing: 22, Diameter: .1, Wrap: drain.Bare, Coefficient: .0127 / 86400, OutletWater: math.Inf(1)}}
}

func TestProbe(t *testing.T) {
	f := probeField()
	s := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), 40, 1)
	if name := os.Getenv("PROBE"); name != "" {
		fl, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		s, _, err = weather.Read(name, fl)
		if err != nil {
			t.Fatal(err)
		}
		s.Station.ReadHour = 7
		s, _ = s.ByCivilDay()
		s, _, err = s.Fill(weather.FillRule{AllowLong: true})
		if err != nil {
			t.Fatal(err)
		}
	}
	eto, used, _, err := weather.ReferenceET(s, 47, 300, weather.ETChoice{})
	if err != nil {
		t.Fatal(err)
	}
	o := storm.Default()
	o.Seed = 1
	fc, err := NewForcing(s, eto, o)
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewPlot(f, DefaultResolution())
	if err != nil {
		t.Fatal(err)
	}
	t.Log(used, p.Grid.Cells(), len(p.layers))
	e, err := NewEngine(p, fc, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	sp, err := e.Spin(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	t.Log(sp)
	d, err := NewEngine(p, fc, f.Tile, nil)
	if err != nil {
		t.Fatal(err)
	}
	d.Adopt(e)
	t0 := time.Now()
	a, err := e.Run(context.Background(), false, nil)
	if err != nil {
		t.Fatal(err)
	}
	t1 := time.Now()
	b, err := d.Run(context.Background(), false, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Log(t1.Sub(t0), time.Since(t1), "ledger", a.Ledger.WorstWater(), b.Ledger.WorstWater(), a.Ledger.WorstSalt(), b.Ledger.WorstSalt())
	ny := float64(len(a.Years))
	for m := uint8(1); m <= 12; m++ {
		var pr, et, T1, E1, T2, E2, dr, ro1, ro2, tb1, tb2, n float64
		for i := range fc.Month {
			if fc.Month[i] != m {
				continue
			}
			n++
			pr += a.Days.Precipitation[i] / ny
			et += fc.ETo[i] / ny
			T1 += a.Days.Transpiration[i] / ny
			E1 += a.Days.Evaporation[i] / ny
			T2 += b.Days.Transpiration[i] / ny
			E2 += b.Days.Evaporation[i] / ny
			dr += b.Days.Drain[i] / ny
			ro1 += a.Days.Runoff[i] / ny
			ro2 += b.Days.Runoff[i] / ny
			tb1 += a.Days.Table[i]
			tb2 += b.Days.Table[i]
		}
		t.Logf("%2d P %5.0f ETo %5.0f | T %5.0f E %5.0f  ro %4.0f tab %.2f | T %5.0f E %5.0f ro %4.0f drain %5.0f tab %.2f", m, pr, et, T1, E1, ro1, tb1/n, T2, E2, ro2, dr, tb2/n)
	}
	for _, m := range Measures() {
		var x, y float64
		for _, yr := range a.Years {
			x += cut(m.Of(a, yr)) / float64(len(a.Years))
			y += cut(m.Of(b, yr)) / float64(len(a.Years))
		}
		t.Logf("%-26s %10.2f %10.2f %10.2f %s", m.Name, x, y, y-x, m.Unit)
	}
}

func cut(x float64) float64 { return math.Max(-2000, math.Min(x, 2000)) }
