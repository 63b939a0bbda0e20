package unit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestParse holds units against their definitions: the inch is 25.4 mm, the
// pound 0.45359237 kg (international yard and pound agreement of 1959), the acre
// 43560 square feet and the mile 5280 feet (NIST Handbook 44, appendix C), F is
// C times 9/5 and 32. Expected values were multiplied out by hand. One rounding
// of a double is allowed for, 1 in 1e15, and none where a decimal is met exactly.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		text  string
		dim   Dimension
		want  float64
		exact bool
	}{
		{"3.5 ft", Length, 1.0668, true},
		{"60ft", Length, 18.288, true},
		{" 4 in ", Length, 0.1016, true},
		{"95 cm", Length, 0.95, true},
		{"20 mm", Length, 0.02, true},
		{"-1.5e1 m", Length, -15, true},
		{".5 m", Length, 0.5, true},
		{"0.5 in/d", Conductivity, 0.0127 / 86400, false},
		{"1 in/h", Conductivity, 0.0254 / 3600, false},
		{"0.3 m/d", Conductivity, 0.3 / 86400, false},
		{"2 mm/h", Conductivity, 0.002 / 3600, false},
		{"36 cm/h", Conductivity, 1e-4, false},
		{"86.4 cm/d", Conductivity, 1e-5, false},
		{"4 um/s", Conductivity, 4e-6, false},
		{"1 ft/d", Conductivity, 0.3048 / 86400, false},
		{"1500 d", Time, 1.296e8, true},
		{"2 h", Time, 7200, true},
		{"5 min", Time, 300, true},
		{"7 h", Clock, 7, true},
		{"1 ac", Area, 4046.8564224, true},
		{"2 ha", Area, 20000, true},
		{"1 mi2", Area, 2589988.110336, true},
		{"1.2 dS/m", Salinity, 1.2, true},
		{"1.2 mmho/cm", Salinity, 1.2, true},
		{"1200 uS/cm", Salinity, 1.2, true},
		{"1.35 g/cm3", Density, 1.35, true},
		{"1350 kg/m3", Density, 1.35, true},
		{"1 lb/ft3", Density, 0.45359237 / 28.316846592, false}, // kg over dm3: 0.3048^3 = 0.028316846592
		{"12 %", Fraction, 0.12, true},
		{"0.3", Fraction, 0.3, true},
		{"12 %", Percent, 12, true},
		{"12", Percent, 12, true},
		{"1.5", Number, 1.5, true},
		{"47.1 deg", Angle, 47.1, true},
		{"50 F", Temperature, 10, true},
		{"-40 F", Temperature, -40, true},
		{"10 C", Temperature, 10, true},
		{"0.015 1/cm", InverseLength, 1.5, true},
		{"30 years", Years, 30, true},
		{"30 a", Years, 30, true},
		{"9.5 t/ha", Yield, 9.5, true},
		{"3400 kg/ha", Yield, 3.4, true},
		{"1 lb/ac", Yield, 0.00045359237 / 0.40468564224, false},
		{"4 ton/ac", Yield, 3.62873896 / 0.40468564224, false}, // 8000 lb are 3628.73896 kg
		{"1 bu/ac", BushelYield, 1 / 0.40468564224, false},
		{"3000 USD", Money, 3000, true},
		{"0.3048 USD/ft", LengthCost, 1, true},
		{"2.5 USD/m", LengthCost, 2.5, true},
		{"0.40468564224 USD/ac", AreaCost, 1, true},
		{"150 USD/ha", AreaCost, 150, true},
		{"45.359237 USD/cwt", Price, 1000, true}, // a hundredweight is 45.359237 kg
		{"0.45359237 USD/lb", Price, 1000, true},
		{"907.18474 USD/ton", Price, 1000, true},
		{"165 USD/t", Price, 165, true},
		{"4.2 USD/bu", BushelPrice, 4.2, true},
		{"0.12 USD/kWh", EnergyPrice, 0.12, true},
	} {
		got, err := Parse(c.text, c.dim)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if c.exact && got != c.want || math.Abs(got-c.want) > 1e-15*math.Abs(c.want) {
			t.Errorf("%q: got %.17g, want %.17g", c.text, got, c.want)
		}
	}
}

// TestParseFaults: the message says what was found, what is allowed, the mend.
func TestParseFaults(t *testing.T) {
	const length = "allowed a length with one of m, cm, mm, ft, in"
	for _, c := range []struct {
		text string
		dim  Dimension
		want string
	}{
		{"3.5 fot", Length, `found "3.5 fot"; ` + length + `: did you mean "3.5 ft"?`},
		{"3.5 FT", Length, `found "3.5 FT"; ` + length + `: did you mean "3.5 ft"?`},
		{"3.5 feet", Length, `found "3.5 feet"; ` + length + `: did you mean "3.5 ft"?`},
		{"0.9", Length, `found "0.9"; ` + length + ` (for example "3.5 ft")`},
		{"", Length, `found ""; ` + length + ` (for example "3.5 ft")`},
		{"ft", Length, `found "ft"; ` + length + ` (for example "3.5 ft")`},
		{"4 kg", Length, `found "4 kg"; ` + length + ` (for example "3.5 ft")`},
		{"+-3 m", Length, `found "+-3 m"; ` + length + ` (for example "3.5 ft")`},
		{"inf m", Length, `found "inf m"; ` + length + ` (for example "3.5 ft")`},
		{"3,5 ft", Length, `found "3,5 ft"; ` + length + `: write the decimals after a point`},
		{"1e400 m", Length, `found "1e400 m"; ` + length + `: the number is too large`},
		{"1e308 d", Time, `found "1e308 d"; allowed a time with one of d, h, min, s: the number is too large`},
		{"3 m", Number, `found "3 m"; allowed a number without a unit (for example "1.5")`},
		{"30 pct", Percent, `found "30 pct"; allowed a percentage (for example "30 %")`},
		{"30", Fraction, `found "30"; allowed a share from 0 to 1, or a percentage with % (for example "30 %")`},
		{"130 %", Fraction, `found "130 %"; allowed a share from 0 to 1, or a percentage with % (for example "30 %")`},
		{"-0.1", Fraction, `found "-0.1"; allowed a share from 0 to 1, or a percentage with % (for example "30 %")`},
		{"190", Yield, `found "190"; allowed a yield with one of t/ha, kg/ha, lb/ac, ton/ac (for example "11 t/ha")`},
		{"10 t", BushelYield, `found "10 t"; allowed a yield in bu/ac (for example "180 bu/ac")`},
		{"4.20 usd/bu", BushelPrice, `found "4.20 usd/bu"; allowed a price in USD/bu: did you mean "4.20 USD/bu"?`},
		{"$4.20/bu", BushelPrice, `found "$4.20/bu"; allowed a price in USD/bu (for example "4.20 USD/bu")`},
		{"1.10 USD", LengthCost, `found "1.10 USD"; allowed a cost of length with one of USD/m, USD/ft: did you mean "1.10 USD/m"?`},
		{"3,000 USD", Money, `found "3,000 USD"; allowed an amount of money in USD: write the decimals after a point`},
		{"3000", Money, `found "3000"; allowed an amount of money in USD (for example "3000 USD")`},
		{"60 ac", AreaCost, `found "60 ac"; allowed a cost of area with one of USD/ha, USD/ac (for example "60 USD/ac")`},
		{"165 USD/T", Price, `found "165 USD/T"; allowed a price with one of USD/t, USD/lb, USD/cwt, USD/ton: did you mean "165 USD/t"?`},
		{"12 USD", EnergyPrice, `found "12 USD"; allowed a price of electricity in USD/kWh: did you mean "12 USD/kWh"?`},
		{"30 y", Years, `found "30 y"; allowed a number of years with one of years, a (for example "30 years")`},
		{"7", Clock, `found "7"; allowed an hour of the day in h (for example "7 h")`},
	} {
		x, err := Parse(c.text, c.dim)
		if err == nil {
			t.Errorf("%q: got %g, want an error", c.text, x)
		} else if err.Error() != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.text, err, c.want)
		}
	}
}

// TestParseAny: a value says by its unit of which dimension it is; what fits none is
// told all that is allowed.
func TestParseAny(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		dim  Dimension
	}{{"9 t/ha", 9, Yield}, {"40.468564224 bu/ac", 100, BushelYield}} {
		if x, dim, err := ParseAny(c.text, Yield, BushelYield); err != nil || math.Abs(x-c.want) > 1e-15*c.want || dim != c.dim {
			t.Errorf("%q: got %.17g of %d, %v", c.text, x, dim, err)
		}
	}
	for text, want := range map[string]string{
		"190 bu": `found "190 bu"; allowed a yield with one of t/ha, kg/ha, lb/ac, ton/ac, or a yield in bu/ac (for example "180 bu/ac")`,
		"9 T/ha": `found "9 T/ha"; allowed a yield with one of t/ha, kg/ha, lb/ac, ton/ac, or a yield in bu/ac: did you mean "9 t/ha"?`,
	} {
		if _, _, err := ParseAny(text, Yield, BushelYield); err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
		}
	}
}

// TestUnits: the units are those that can be read, and the list is the caller's own.
func TestUnits(t *testing.T) {
	for d := range dimensions {
		dim := Dimension(d)
		for _, name := range dim.Units() {
			if _, err := Parse("0.5 "+name, dim); err != nil {
				t.Error(err)
			}
		}
		if _, err := Parse("0.5", dim); (err == nil) != dim.Bare() {
			t.Errorf("dimension %d: bare %v, %v", d, dim.Bare(), err)
		}
		if names := dim.Units(); len(names) > 0 {
			names[0] = "furlong"
			if dim.Units()[0] == "furlong" {
				t.Errorf("dimension %d: its units were changed", d)
			}
		}
	}
	if names := Number.Units(); len(names) != 0 {
		t.Errorf("a bare number has units %v", names)
	}
}

// TestParseRoundTrip: what is written with any unit of a dimension reads back as
// the value it came from. A conversion rounds twice each way, writing is exact:
// 1e-15 of the larger of value and zero point is allowed; values below 1e-12,
// which lose digits near the end of a double's range, count as 1e-12.
func TestParseRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := Dimension(rapid.IntRange(0, len(dimensions)-1).Draw(t, "dimension"))
		u := rapid.SampledFrom(dimensions[dim].units).Draw(t, "unit")
		low, high := -1e6, 1e6
		if dim == Fraction {
			low, high = 0, 1
		}
		x := rapid.Float64Range(low, high).Draw(t, "value")
		text := fmt.Sprintf("%v %s", x*u.over/u.times+u.zero, u.name)
		got, err := Parse(text, dim)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got-x) > 1e-15*max(math.Abs(x), u.zero, 1e-12) {
			t.Fatalf("%s: got %.17g, want %.17g", text, got, x)
		}
	})
}

// TestExamples: the example that an error shows can be read.
func TestExamples(t *testing.T) {
	for d := range dimensions {
		if _, err := Parse(dimensions[d].example, Dimension(d)); err != nil {
			t.Error(err)
		}
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"depth", "spacing", "weir", "penman-monteith"}
	for found, want := range map[string]string{
		"dept": "depth", "Depth": "depth", "spaceing": "spacing", "wier": "weir", "penman": "penman-monteith",
		"": "", "x": "", "envelope": "",
	} {
		if got := Nearest(found, keys); got != want {
			t.Errorf("%q: got %q, want %q", found, got, want)
		}
	}
}

// FuzzParse: any text gives a finite value or an error of one line that shows it.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"3.5 ft", "0.3 m/d", "12 %", "-1e3", "1e", "1/m", "3,5 ft", "\xff m", "1e308 d", "ft\n3", "180 bu/ac", "4.20 USD/bu", "1.1 USD/ft", "30 years"} {
		for d := range dimensions {
			f.Add(s, d)
		}
	}
	f.Fuzz(func(t *testing.T, text string, d int) {
		if d < 0 || d >= len(dimensions) {
			t.Skip()
		}
		x, err := Parse(text, Dimension(d))
		switch {
		case err == nil && (math.IsNaN(x) || math.IsInf(x, 0)):
			t.Errorf("%q: got %g", text, x)
		case err != nil && (strings.Contains(err.Error(), "\n") || !strings.HasPrefix(err.Error(), "found ")):
			t.Errorf("%q: %v", text, err)
		}
	})
}
