package snow

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g", what, got, want, tolerance)
	}
}

// NEH 630 chapter 11: 2.74 mm/C-d (0.060 in/F-d, 2.7432) at 6 C above base 0
// melts 16.44 mm. Rounding only.
func TestDegreeDayMelt(t *testing.T) {
	near(t, "melt, m", DegreeDayMelt(2.74e-3, 0, 6), 16.44e-3, 1e-15)
	near(t, "0.060 in/F-d, mm/C-d", 0.060*25.4*1.8, 2.7432, 1e-12)
	near(t, "below base", DegreeDayMelt(2.74e-3, 0, -6), 0, 0)

	// The pack melts by the same figure, and never more than there is.
	par := Default()
	par.MeltFactor = 2.74e-3
	p := Pack{SWE: 0.1, Density: 300}
	near(t, "of 100 mm", p.Day(par, Sheltered, 6, 0, 0).Melt, 16.44e-3, 1e-15)
	p = Pack{SWE: 0.01, Density: 300}
	f := p.Day(par, Sheltered, 6, 0, 0)
	near(t, "of 10 mm", f.Melt, 0.01, 0)
	if p != (Pack{}) {
		t.Errorf("a melted pack leaves %+v", p)
	}
}

// Hedstrom & Pomeroy 1998 (from memory), kg/m3, printed to 0.01.
func TestFreshDensity(t *testing.T) {
	for temperature, want := range map[float64]float64{0: 119.17, -5: 75.36, -10: 69.00} {
		near(t, "fresh density", FreshDensity(temperature), want, 0.005)
	}
}

// Sturm et al. 1997: quadratic, and the line below 0.156 g/cm3, printed to
// four decimals (W/m/K); 0.12597 at 0.3 is exact.
func TestConductivity(t *testing.T) {
	for density, want := range map[float64]float64{100: 0.0464, 200: 0.0653, 300: 0.1260, 400: 0.2513} {
		near(t, "conductivity", Pack{SWE: 0.1, Density: density}.Conductivity(), want, 0.00005)
	}
	pack := Pack{SWE: 0.1, Density: 300}
	near(t, "conductivity", pack.Conductivity(), 0.12597, 1e-12)
	// 100 mm of water at 300 kg/m3 are 1/3 m of snow.
	near(t, "resistance", pack.Resistance(), 1.0/3/0.12597, 1e-12)
	if r, k := (Pack{}).Resistance(), (Pack{}).Conductivity(); r != 0 || k != 0 {
		t.Errorf("bare ground: resistance %g, conductivity %g, want 0", r, k)
	}
}

// Verseghy 1991 (from memory): (rho - 300) exp(-0.01 hours) + 300. From 100
// kg/m3: 300 - 200 exp(-0.24) = 142.6744 after a day, 300 - 200 exp(-2.4) =
// 281.8564 after ten.
func TestSettling(t *testing.T) {
	p := Pack{SWE: 0.05, Density: 100}
	p.Day(Default(), Sheltered, -10, 0, 0)
	near(t, "after a day", p.Density, 142.6744, 1e-4)
	for range 9 {
		p.Day(Default(), Sheltered, -10, 0, 0)
	}
	near(t, "after ten days", p.Density, 281.8564, 1e-4)
	near(t, "water", p.SWE, 0.05, 0)

	hard := Pack{SWE: 0.05, Density: 380}
	hard.Day(Default(), Sheltered, -10, 0, 0)
	near(t, "denser than settled", hard.Density, 380, 0)
}

// Depths add: 10 mm of water at 100 kg/m3 (0.1 m) after a day of settling,
// under 10 mm of fresh snow at 0 C, 119.17 kg/m3.
func TestSnowfallAddsDepth(t *testing.T) {
	p := Pack{SWE: 0.01, Density: 100}
	p.Day(Default(), Sheltered, 0, 0.01, 0)
	near(t, "depth", p.Depth(), 10/142.6744+10/119.17, 1e-5) // densities printed to 5e-3
	near(t, "water", p.SWE, 0.02, 1e-17)
}

// One threshold on the day's mean: at it snow, above it rain.
func TestRainOrSnow(t *testing.T) {
	par := Default()
	for _, c := range []struct{ temperature, snow float64 }{{-5, 0.01}, {1, 0.01}, {1.01, 0}, {10, 0}} {
		var p Pack
		f := p.Day(par, Sheltered, c.temperature, 0.01, 0)
		near(t, "snow", f.SnowKept, c.snow, 0)
		near(t, "rain", f.Rain, 0.01-c.snow, 0)
	}
}

// Wind takes its share of snow and none of the rain.
func TestExposure(t *testing.T) {
	for exp, kept := range map[Exposure]float64{Sheltered: 1, Open: 0.7, Swept: 0.3} {
		var p Pack
		f := p.Day(Default(), exp, -10, 0.02, 0)
		near(t, exp.Name+" kept", p.SWE, kept*0.02, 1e-17)
		near(t, exp.Name+" blown off", f.BlownOff, (1-kept)*0.02, 1e-17)
		if f = p.Day(Default(), exp, 8, 0.02, 0); f.BlownOff != 0 {
			t.Errorf("%s: wind took %g m of rain", exp.Name, f.BlownOff)
		}
	}
}

// On bare ground rain goes straight through, whatever the day.
func TestRainOnBareGround(t *testing.T) {
	var p Pack
	f := p.Day(Default(), Open, 15, 0.033, 0.002)
	if want := (Flux{Rain: 0.033, Outflow: 0.033}); f != want || p != (Pack{}) {
		t.Errorf("flux %+v, pack %+v; want %+v and bare ground", f, p, want)
	}
}

// Rain in frost finds no ice to freeze to on bare ground, and goes through too.
func TestFreezingRainOnBareGround(t *testing.T) {
	par := Default()
	par.RainSnowThreshold = -3
	var p Pack
	if f := p.Day(par, Open, -1, 0.01, 0); f.Outflow != 0.01 || p != (Pack{}) {
		t.Errorf("flux %+v, pack %+v; want all of it out", f, p)
	}
}

// Rain on a dry pack is held up to 5 % of the water equivalent (2-5 % in
// drained snow, from memory), the rest drains: 100 mm of ice hold 100 *
// 0.05/0.95 = 5.263 mm of liquid. Threshold moved so that rain falls at 0 C, without melt.
func TestRainOnSnow(t *testing.T) {
	par := Default()
	par.RainSnowThreshold = -1
	p := Pack{SWE: 0.1, Density: 300}
	f := p.Day(par, Sheltered, 0, 0.004, 0)
	near(t, "4 mm: outflow", f.Outflow, 0, 0)
	near(t, "4 mm: held", p.Liquid, 0.004, 1e-17)
	f = p.Day(par, Sheltered, 0, 0.004, 0)
	near(t, "8 mm: held", p.Liquid, 0.1*0.05/0.95, 1e-15)
	near(t, "8 mm: share", p.Liquid/p.SWE, 0.05, 1e-15)
	near(t, "8 mm: outflow", f.Outflow, 0.008-0.1*0.05/0.95, 1e-15)
}

// Rain brings its heat: 10 mm at 10 C melt 1.3 mm as they cool to 0 C (0.0126 mm per
// mm and C, EM 1110-2-1406, from memory; a digit of it), beside what the day melts
// and no more than there is.
func TestHeatOfRain(t *testing.T) {
	p := Pack{SWE: 0.1, Density: 300}
	f := p.Day(Default(), Sheltered, 10, 0.010, 0)
	near(t, "of 100 mm", f.Melt, 0.040+0.00126, 1e-5)
	p = Pack{SWE: 0.041, Density: 300}
	f = p.Day(Default(), Sheltered, 10, 0.010, 0)
	near(t, "of 41 mm", f.Melt, 0.041, 0)
	near(t, "and all of it out", f.Outflow, 0.051, 1e-17)
}

// Held water freezes again at 0.05 of the melt factor, 0.2 mm/C-d (common
// practice): 2 mm at -10 C, and no more than is held.
func TestRefreezing(t *testing.T) {
	p := Pack{SWE: 0.103, Liquid: 0.003, Density: 300}
	f := p.Day(Default(), Sheltered, -10, 0, 0)
	near(t, "first day", f.Refrozen, 0.002, 1e-15)
	f = p.Day(Default(), Sheltered, -10, 0, 0)
	near(t, "second day", f.Refrozen, 0.001, 1e-15)
	near(t, "liquid left", p.Liquid, 0, 1e-17)
	near(t, "water", p.SWE, 0.103, 1e-17)
}

// Heat from the ground melts the pack from below in any cold, straight into
// the ground, and stops with the ice.
func TestGroundMelt(t *testing.T) {
	p := Pack{SWE: 0.02, Density: 300}
	f := p.Day(Default(), Sheltered, -20, 0, 0.001)
	near(t, "outflow", f.Outflow, 0.001, 1e-17)
	near(t, "water", p.SWE, 0.019, 1e-17)
	f = p.Day(Default(), Sheltered, -20, 0, 1)
	near(t, "the last of it", f.Outflow, 0.019, 1e-17)
	if p != (Pack{}) {
		t.Errorf("left over: %+v", p)
	}
}

// Winter after winter of any weather: every day closes to rounding, no store
// is ever negative, liquid stays within what the pack can hold, and density
// stays between the freshest snow and the settled.
func TestDayCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		exp := rapid.SampledFrom([]Exposure{Sheltered, Open, Swept}).Draw(t, "exposure")
		par := Default()
		par.LiquidHold = rapid.Float64Range(0, 0.3).Draw(t, "hold")
		par.RefreezeFactor = rapid.Float64Range(0, 0.02).Draw(t, "refreeze")
		var p Pack
		for range rapid.IntRange(1, 60).Draw(t, "days") {
			temperature := rapid.Float64Range(-40, 25).Draw(t, "temperature")
			precip := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.15)).Draw(t, "precipitation")
			ground := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.005)).Draw(t, "ground melt")
			before := p.SWE
			f := p.Day(par, exp, temperature, precip, ground)

			if gap := precip - (p.SWE - before) - f.Outflow - f.BlownOff; math.Abs(gap) > 4e-16*(1+before) {
				t.Fatalf("gap of %g m: %+v, %+v", gap, p, f)
			}
			for what, v := range map[string]float64{
				"SWE": p.SWE, "liquid": p.Liquid, "ice": p.Ice(), "depth": p.Depth(), "rain": f.Rain, "snow": f.SnowKept, "blown off": f.BlownOff,
				"melt": f.Melt, "ground melt": f.GroundMelt, "refrozen": f.Refrozen, "outflow": f.Outflow, "resistance": p.Resistance(),
			} {
				if !(v >= 0) {
					t.Fatalf("%s is %g: %+v, %+v", what, v, p, f)
				}
			}
			if p.Liquid > par.LiquidHold*p.SWE*(1+1e-12) {
				t.Fatalf("liquid %g of %g m, may hold %g of it", p.Liquid, p.SWE, par.LiquidHold)
			}
			if p.SWE > 0 && !(p.Density > 67.9 && p.Density <= exp.SettledDensity) || p.SWE == 0 && p != (Pack{}) {
				t.Fatalf("density out of range: %+v", p)
			}
		}
	})
}

func TestDayRefusesBrokenWeather(t *testing.T) {
	nan := math.NaN()
	for _, w := range [][3]float64{{nan, 0, 0}, {0, nan, 0}, {0, 0, nan}, {0, -0.001, 0}, {0, 0, -0.001}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("weather %v went through", w)
				}
			}()
			var p Pack
			p.Day(Default(), Open, w[0], w[1], w[2])
		}()
	}
}

func TestValidate(t *testing.T) {
	if err := Default().Validate(); err != nil {
		t.Error(err)
	}
	for _, e := range []Exposure{Sheltered, Open, Swept} {
		if err := e.Validate(); err != nil {
			t.Error(err)
		}
	}
	par := Default()
	par.MeltFactor, par.LiquidHold = -1, 2
	if err := par.Validate(); err == nil || !strings.Contains(err.Error(), "melt factor") || !strings.Contains(err.Error(), "liquid hold") {
		t.Errorf("error %v, want one with both faults", err)
	}
	if err := (Exposure{"odd", 1.2, 900}).Validate(); err == nil || !strings.Contains(err.Error(), "kept") || !strings.Contains(err.Error(), "settled") {
		t.Errorf("error %v, want one with both faults", err)
	}
}

func TestDayAllocatesNothing(t *testing.T) {
	p := Pack{SWE: 0.1, Density: 200}
	if n := testing.AllocsPerRun(100, func() { p.Day(Default(), Open, 0.5, 0.01, 1e-4) }); n != 0 {
		t.Errorf("%g allocations a day, want none", n)
	}
}

func BenchmarkDay(b *testing.B) {
	p := Pack{SWE: 0.1, Density: 200}
	par := Default()
	b.ReportAllocs()
	for b.Loop() {
		p.Day(par, Open, 0.5, 0.004, 1e-4)
	}
}
