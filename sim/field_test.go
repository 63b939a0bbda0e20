package sim

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/sim/storm"
	"mottle/weather"
)

// climate is the demo's, with every temperature and the rain of the cold half
// year changed.
func climate(warmer, winterRain float64) weather.Climate {
	c := weather.DemoClimate().Wetter(1.2)
	for i := range c.Months {
		m := &c.Months[i]
		m.TmaxDry += warmer
		m.TmaxWet += warmer
		m.Tmin += warmer
		if i < 3 || i > 9 {
			m.Scale *= winterRain
		}
	}
	return c
}

func forcingOf(t interface{ Fatal(...any) }, c weather.Climate, years int) *Forcing {
	s := weather.Invent(c, weather.NewDate(1981, 1, 1), years, 1)
	eto, _, _, err := weather.ReferenceET(s, c.Latitude, c.Elevation, weather.ETChoice{})
	if err != nil {
		t.Fatal(err)
	}
	f, err := NewForcing(s, eto, storm.Default())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func engineOf(t interface{ Fatal(...any) }, field *site.Field, f *Forcing, tile *site.Tile) *Engine {
	p, err := NewPlot(field, DefaultResolution())
	if err != nil {
		t.Fatal(err)
	}
	e, err := NewEngine(p, f, tile, nil)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func demoField() *site.Field {
	f := site.Demo()
	f.Latitude, f.Elevation, f.ReadHour = 46.9, 300, 24
	return &f
}

func runOf(t interface{ Fatal(...any) }, e *Engine) *Record {
	if _, err := e.Spin(context.Background()); err != nil {
		t.Fatal(err)
	}
	r, err := e.Run(context.Background(), false, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func mean(name string, r *Record) float64 {
	for _, m := range Measures() {
		if m.Name == name {
			sum := 0.0
			for _, y := range r.Years {
				sum += m.Of(r, y)
			}
			return sum / float64(len(r.Years))
		}
	}
	panic("no measure " + name)
}

// The frost gate is physics: with the snow swept off, frost goes deeper and the
// first drain flow comes later in the mean over years than under kept snow.
func TestSweptSnowDeepensFrost(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 20)
	run := func(e snow.Exposure) (frost, first float64) {
		field := demoField()
		field.Surface.Exposure = e
		r := runOf(t, engineOf(t, field, f, field.Tile))
		sum, n := 0.0, 0
		for _, y := range r.Years {
			if d := firstDrainFlow(r, y); !math.IsInf(d, 0) {
				sum += d
				n++
			}
		}
		if n < 10 {
			t.Fatalf("only %d of %d years have a first drain flow", n, len(r.Years))
		}
		return mean("deepest_frost", r), sum / float64(n)
	}
	keptFrost, keptFirst := run(snow.Sheltered)
	sweptFrost, sweptFirst := run(snow.Swept)
	t.Logf("frost %.2f m kept, %.2f m swept; first drain flow day %.0f kept, %.0f swept", keptFrost, sweptFrost, keptFirst, sweptFirst)
	if sweptFrost <= keptFrost || sweptFirst <= keptFirst {
		t.Errorf("swept snow: frost %.2f m (kept %.2f), first drain flow on day %.0f (kept %.0f)", sweptFrost, keptFrost, sweptFirst, keptFirst)
	}
}

// In a run of cold, dry winters tile 1 m deep stays shut past 1 May in some
// year, and never does water leave through a frozen layer.
func TestColdDryWintersShutTheTile(t *testing.T) {
	f := forcingOf(t, climate(-4, 0.15), 15)
	field := demoField()
	tile := *field.Tile
	tile.Depth = 1.0
	field.Surface.Exposure = snow.Swept
	e := engineOf(t, field, f, &tile)
	shutOnMayDay, shutDays, gaveWater := 0, 0, false
	for i := range f.Days() {
		if err := e.Day(i, false); err != nil {
			t.Fatal(err)
		}
		l := &e.Water.Laterals[e.drain]
		if e.Water.Ice[e.gate] > shutByIce {
			shutDays++
			if e.day.drain != 0 {
				t.Fatalf("day %d: %g m drained through frozen soil", i, e.day.drain)
			}
			if f.YearDay[i] == 121 {
				shutOnMayDay++
			}
		}
		for j, out := range e.Water.Out[e.drain] {
			if l.FrozenShut && out != 0 {
				t.Fatalf("day %d: cell %d gave %g m to a frozen drain", i, j, out)
			}
		}
		gaveWater = gaveWater || e.day.drain > 0
	}
	t.Logf("shut on 1 May in %d of 15 years, on %d days in all", shutOnMayDay, shutDays)
	if shutOnMayDay == 0 || !gaveWater {
		t.Errorf("shut on 1 May in %d years; drain ever ran: %v", shutOnMayDay, gaveWater)
	}
}

// Without frost, frost physics and none at all are one.
func TestNoFrostInAWarmClimate(t *testing.T) {
	f := forcingOf(t, climate(40, 1), 4)
	for i, x := range f.Tmin {
		if x < 2 {
			f.Tmin[i] = 2
			f.Tmax[i] = math.Max(f.Tmax[i], 4)
		}
	}
	field := demoField()
	a, b := engineOf(t, field, f, field.Tile), engineOf(t, field, f, field.Tile)
	b.Frost = false
	for i := range f.Days() {
		for _, e := range []*Engine{a, b} {
			if err := e.Day(i, true); err != nil {
				t.Fatal(err)
			}
		}
		if a.day.drain != b.day.drain || a.day.runoff != b.day.runoff {
			t.Fatalf("day %d: drain %g and %g, runoff %g and %g", i, a.day.drain, b.day.drain, a.day.runoff, b.day.runoff)
		}
	}
}

// No rain, no outflow: with the table below the drain and a closed base nothing
// leaves but vapour.
func TestNoRainNoOutflow(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 3)
	clear(f.Rain)
	field := demoField()
	field.Base = site.Base{Kind: site.Closed}
	e := engineOf(t, field, f, field.Tile)
	for i := range e.Water.H {
		e.Water.SetHead(i, e.plot.Grid.Mid[i]-1.6)
	}
	for i := range f.Days() {
		if err := e.Day(i, true); err != nil {
			t.Fatal(err)
		}
		if e.day.drain != 0 || e.day.runoff != 0 || e.day.baseOut > 1e-12 { // rounding of the booking by continuity
			t.Fatalf("day %d without rain: drain %g, runoff %g, base %g m", i, e.day.drain, e.day.runoff, e.day.baseOut)
		}
	}
}

// Drains infinitely far apart leave the field as it lies, to the bit.
func TestInfiniteSpacingIsTheUndrainedTwin(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 5)
	field := demoField()
	far := *field.Tile
	far.Spacing = math.Inf(1)
	a, b := runOf(t, engineOf(t, field, f, nil)), runOf(t, engineOf(t, field, f, &far))
	for i := range a.Days.Storage {
		if a.Days.Storage[i] != b.Days.Storage[i] || a.Days.Runoff[i] != b.Days.Runoff[i] || b.Days.Drain[i] != 0 {
			t.Fatalf("day %d: storage %g and %g mm, drain %g", i, a.Days.Storage[i], b.Days.Storage[i], b.Days.Drain[i])
		}
	}
}

// Over random fields the ledgers of water and salt close, and days keep within
// what a day can be.
func TestLedgersClose(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 2)
	rapid.Check(t, func(rt *rapid.T) {
		field := demoField()
		field.Conductance = math.Exp(rapid.Float64Range(-2, 2).Draw(rt, "ln conductivity"))
		field.Surface.Storage = rapid.Float64Range(0, 0.1).Draw(rt, "storage")
		field.Surface.Residue = rapid.Float64Range(0, 1).Draw(rt, "residue")
		field.Surface.Exposure = rapid.SampledFrom([]snow.Exposure{snow.Sheltered, snow.Open, snow.Swept}).Draw(rt, "snow")
		field.Base.Level = rapid.Float64Range(0, 2).Draw(rt, "level")
		field.Base.Resistance = rapid.Float64Range(100, 5000).Draw(rt, "resistance, d") * 86400
		field.Base.EC = rapid.Float64Range(0, 20).Draw(rt, "ground water, dS/m")
		tile := *field.Tile
		tile.Depth = rapid.Float64Range(0.5, 1.8).Draw(rt, "depth")
		tile.Spacing = rapid.Float64Range(4, 60).Draw(rt, "spacing")
		e := engineOf(rt, field, f, &tile)
		r, err := e.Run(context.Background(), false, nil)
		if err != nil {
			rt.Fatal(err)
		}
		if w, s := r.Ledger.WorstWater(), r.Ledger.WorstSalt(); w > 1e-6 || s > 1e-6 {
			rt.Fatalf("ledgers off by %g mm and %g kg/ha a year", w, s)
		}
		for i := range r.Days.Drain {
			d := r.Days
			if d.Drain[i] < -1e-9 || d.Drain[i] > tile.Coefficient*86400*1000*(1+1e-6) || d.Runoff[i] < -1e-9 || d.Pond[i] < 0 || d.RootECe[i] < 0 || d.WetHours[i] > 24.000001 {
				rt.Fatalf("day %d: drain %g mm, runoff %g mm, pond %g mm, ECe %g, wet %g h", i, d.Drain[i], d.Runoff[i], d.Pond[i], d.RootECe[i], d.WetHours[i])
			}
		}
	})
}

// The day allocates nothing.
func TestDayAllocatesNothing(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 3)
	field := demoField()
	e := engineOf(t, field, f, field.Tile)
	i := 0
	if n := testing.AllocsPerRun(700, func() {
		if err := e.Day(i, true); err != nil {
			t.Fatal(err)
		}
		i++
	}); n != 0 {
		t.Errorf("%g allocations a day", n)
	}
}

// A year, every process on.
func BenchmarkYear(b *testing.B) {
	f := forcingOf(b, climate(0, 1), 2)
	field := demoField()
	e := engineOf(b, field, f, field.Tile)
	b.ReportAllocs()
	for b.Loop() {
		for i := range 365 {
			if err := e.Day(i, true); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// The yearly lines close: what fell and ran on is what evaporated, left, blew
// away or was stored.
func TestLinesClose(t *testing.T) {
	f := forcingOf(t, climate(0, 1), 4)
	field := demoField()
	field.Ditch = &site.Ditch{Depth: 1.5, Distance: 20}
	r := runOf(t, engineOf(t, field, f, field.Tile))
	for _, y := range r.Years {
		v := map[string]float64{}
		for _, m := range Measures() {
			v[m.Name] = m.Of(r, y)
		}
		gap := v["precipitation"] + v["run_on"] - v["snow_blown_off"] - v["evapotranspiration"] - v["all_outflow"] - v["storage_change"]
		if math.Abs(gap) > 1e-6 {
			t.Errorf("%d: lines off by %g mm", y.Year, gap)
		}
		if v["lateral_outflow"] == 0 || v["salt_drained"] == 0 {
			t.Errorf("%d: ditch %g mm, salt by the tile %g kg/ha", y.Year, v["lateral_outflow"], v["salt_drained"])
		}
	}
}

// Every texture runs at the surface, sand too, whose surface dries to nothing.
func TestEveryTextureRuns(t *testing.T) {
	f := forcingOf(t, climate(3, 0.7), 4)
	for _, texture := range [][2]float64{{95, 3}, {92, 5}, {80, 5}, {65, 10}, {40, 20}, {20, 15}, {10, 5}, {60, 25}, {30, 35}, {10, 35}, {10, 45}, {50, 40}, {25, 50}} {
		field := demoField()
		field.Runon = nil
		h := field.Horizons[0]
		h.Sand, h.Clay, h.Silt, h.Organic, h.Bottom, h.Ksat, h.BulkDensity = texture[0], texture[1], 100-texture[0]-texture[1], 2, 2, math.NaN(), math.NaN()
		field.Horizons = field.Horizons[:1:1]
		field.Horizons[0] = h
		for _, level := range []float64{0.5, 1.9} {
			field.Base.Level = level
			e := engineOf(t, field, f, field.Tile)
			for i := range f.Days() {
				if err := e.Day(i, true); err != nil {
					t.Errorf("sand %g %%, clay %g %%, outside level %g m: %v", texture[0], texture[1], level, err)
					break
				}
			}
		}
	}
}

// First drain flow on records made by hand.
func TestFirstDrainFlow(t *testing.T) {
	run := func(flows func(day int) bool) float64 {
		f := &Forcing{Month: make([]uint8, 365), YearDay: make([]uint16, 365)}
		d := newDays(365)
		for i := range 365 {
			_, m, _ := (weather.NewDate(2001, 1, 1) + weather.Date(i)).Civil()
			f.Month[i], f.YearDay[i] = uint8(m), uint16(i+1)
			if flows(i + 1) {
				d.Drain[i] = 1
			}
		}
		return firstDrainFlow(&Record{Forcing: f, Days: d}, YearSpan{2001, 0, 365})
	}
	for _, c := range []struct {
		what  string
		flows func(day int) bool
		want  float64
	}{
		{"spring", func(d int) bool { return d >= 80 && d < 160 }, 80},
		{"ran on into June, dry summer, autumn", func(d int) bool { return d < 175 || d > 260 }, math.Inf(-1)},
		{"a thaw after New Year", func(d int) bool { return d < 10 || d > 90 && d < 120 }, 91},
		{"autumn only", func(d int) bool { return d > 280 }, 281},
		{"never", func(int) bool { return false }, math.Inf(1)},
		{"a pause of six days is none", func(d int) bool { return d < 51 || d > 56 }, math.Inf(-1)},
	} {
		if got := run(c.flows); got != c.want {
			t.Errorf("%s: %g, want %g", c.what, got, c.want)
		}
	}
}
