package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestValue holds conversions against exact definitions: 1 in = 25.4 mm, 1 lb =
// 0.45359237 kg (agreement of 1959), 1 ac = 43560 ft2 = 0.40468564224 ha, 1 ft3 =
// 28.316846592 L (NIST Handbook 44, appendix C). The tolerance, 4 in 1e16 of the
// value times three roundings, is that of doubles.
func TestValue(t *testing.T) {
	for _, c := range []struct {
		x    float64
		si   string
		want float64
		us   string
	}{
		{25.4, "mm", 1, "in"},
		{2.54, "cm", 1, "in"},
		{0.3048, "m", 1, "ft"},
		{12.7, "mm/d", 0.5, "in/d"},
		{25.4, "mm/h", 1, "in/h"},
		{0.6096, "m/d", 1, "in/h"}, // 24 in a day
		{0.40468564224, "ha", 1, "ac"},
		{1, "kg/ha", 0.40468564224 / 0.45359237, "lb/ac"},
		{28.316846592, "L/s/ha", 0.40468564224, "cfs/ac"}, // 1 cfs per hectare
		{0.90718474 / 0.40468564224, "t/ha", 1, "ton/ac"}, // 2000 lb
		{1 / 0.40468564224, "bu/ha", 1, "bu/ac"},
		{1 / 0.3048, "USD/m", 1, "USD/ft"},
		{1 / 0.40468564224, "USD/ha", 1, "USD/ac"},
		{1 / 0.90718474, "USD/t", 1, "USD/ton"},
		{4.2, "USD/bu", 4.2, "USD/bu"},
		{0.12, "USD/kWh", 0.12, "USD/kWh"},
		{3000, "USD", 3000, "USD"},
		{30, "years", 30, "years"},
		{-40, "C", -40, "F"},
		{100, "C", 212, "F"},
		{1000, "C-d", 1800, "F-d"},
		{3, "dS/m", 3, "dS/m"},
		{12, "d", 12, "d"},
		{121, "day of year", 121, "day of year"},
		{14, "%", 14, "%"},
		{80, "cm-d", 80, "cm-d"},
		{1.2, "", 1.2, ""},
	} {
		got, u := US.Value(c.x, c.si)
		if math.Abs(got-c.want) > 1.2e-15*math.Abs(c.want) || u != c.us {
			t.Errorf("%g %s: got %.17g %s, want %.17g %s", c.x, c.si, got, u, c.want, c.us)
		}
		if got, u := SI.Value(c.x, c.si); got != c.x || u != c.si {
			t.Errorf("SI changed %g %s to %g %s", c.x, c.si, got, u)
		}
	}
}

// TestValueMeetsParse: a result shown in a US unit that Parse knows reads back as
// the result. Each way rounds a few times: 1e-14 of the value and its offset; values below
// 1e-12, which lose digits near the end of a double's range, count as 1e-12.
func TestValueMeetsParse(t *testing.T) {
	known := map[string]struct {
		dim Dimension
		per float64 // result's unit in the dimension's
	}{
		"mm": {Length, 1e-3}, "cm": {Length, 1e-2}, "m": {Length, 1}, "mm/d": {Conductivity, 1e-3 / 86400},
		"mm/h": {Conductivity, 1e-3 / 3600}, "m/d": {Conductivity, 1. / 86400}, "ha": {Area, 1e4}, "C": {Temperature, 1},
		"t/ha": {Yield, 1}, "kg/ha": {Yield, 1e-3}, "bu/ha": {BushelYield, 1}, "USD/m": {LengthCost, 1}, "USD/ha": {AreaCost, 1},
		"USD/t": {Price, 1}, "USD/bu": {BushelPrice, 1}, "USD": {Money, 1}, "USD/kWh": {EnergyPrice, 1}, "years": {Years, 1},
	}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(Pairs).Draw(t, "pair")
		k, ok := known[p.SI]
		if !ok {
			t.Skip()
		}
		x := rapid.Float64Range(-1e4, 1e4).Draw(t, "x")
		shown, u := US.Value(x, p.SI)
		for _, m := range dimensions[k.dim].units {
			if m.name != u {
				continue
			}
			if back := (shown - m.zero) * m.times / m.over / k.per; math.Abs(back-x) > 1e-14*(max(math.Abs(x), 1e-12)+p.Offset) {
				t.Fatalf("%g %s: shown as %g %s, read as %g", x, p.SI, shown, u, back)
			}
			return
		}
		t.Fatalf("Parse does not know %q", u)
	})
}

// TestDifference: a rise by 10 C is one by 18 F, not by 50.
func TestDifference(t *testing.T) {
	if got, u := US.Difference(10, "C"); got != 18 || u != "F" {
		t.Errorf("got %g %s, want 18 F", got, u)
	}
	if got, u := SI.Difference(10, "C"); got != 10 || u != "C" {
		t.Errorf("got %g %s, want 10 C", got, u)
	}
}

// TestBushels: 1 bu/ac of corn, 56 lb, is 62.77 kg/ha, one of soybean or wheat, 60 lb,
// 67.25 kg/ha (the trade's factors, four digits: half of the last is allowed, 1e-4). A
// price goes the other way: a bushel of corn is 25.40117272 kg (56 times the pound of
// 1959), so 1 USD/bu is 39.36826 USD/t.
func TestBushels(t *testing.T) {
	const corn, soybean = 25.40117272, 27.2155422
	for _, c := range []struct {
		s                 System
		x                 float64
		si                string
		bushel, want, tol float64
		unit              string
	}{
		{US, 0.06277, "t/ha", corn, 1, 1e-4, "bu/ac"},
		{US, 0.06725, "t/ha", soybean, 1, 1e-4, "bu/ac"},
		{US, 39.36826, "USD/t", corn, 1, 1e-7, "USD/bu"},
		{US, 1 / 0.90718474, "USD/t", 0, 1, 1e-15, "USD/ton"}, // no bushel
		{US, 150, "USD/ha", corn, 60.702846336, 1e-11, "USD/ac"},
		{SI, 9.5, "t/ha", corn, 9.5, 0, "t/ha"},
		{SI, 165, "USD/t", corn, 165, 0, "USD/t"},
	} {
		if got, u := c.s.Bushels(c.x, c.si, c.bushel); math.Abs(got-c.want) > c.tol || u != c.unit {
			t.Errorf("%v %g %s: got %.12g %s, want %.12g %s", c.s, c.x, c.si, got, u, c.want, c.unit)
		}
	}
	if got := US.FormatBushels(11.2986, "t/ha", corn); got != "180 bu/ac" { // 180 times 62.77 kg/ha
		t.Errorf("got %q", got)
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		s    System
		x    float64
		si   string
		want string
	}{
		{US, 1.0668, "m", "3.5 ft"}, {SI, 1.0668, "m", "1.07 m"}, {SI, 1.25, "", "1.25"}, {US, 15, "%", "15 %"},
		{SI, 1520.4, "kg/ha", "1520 kg/ha"}, {SI, 999.6, "mm", "1000 mm"}, {SI, -12345, "", "-12345"}, {SI, 0.01234, "m", "0.0123 m"},
	} {
		if got := c.s.Format(c.x, c.si); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// TestUnknownUnit: a unit that is not listed is a fault of the program.
func TestUnknownUnit(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	US.Value(1, "furlong")
}
