package unit

import (
	"fmt"
	"math"
	"strings"
)

// System is a choice of units for what is shown.
type System int

// The systems.
const (
	SI System = iota
	US        // US customary
)

// Pair is a unit in which results are shown and its US customary partner: a
// value becomes factor*value + offset.
type Pair struct {
	SI, US string
	Factor float64
	Offset float64
}

const (
	hectares = acre * foot * foot / hectare    // of an acre
	litres   = foot * foot * foot * 1e3 / 1e12 // of a cubic foot
)

// Pairs are the units of results, each with its partner. Time, salinity, shares
// and the excess-water sum, which is a defined index, stay as they are.
var Pairs = []Pair{
	{"mm", "in", 10 / 254., 0},
	{"cm", "in", 100 / 254., 0},
	{"m", "ft", tenThousand / foot, 0},
	{"mm/d", "in/d", 10 / 254., 0},
	{"mm/h", "in/h", 10 / 254., 0},
	{"m/d", "in/h", tenThousand / inch / 24, 0},
	{"ha", "ac", 1 / hectares, 0},
	{"kg/ha", "lb/ac", hectares / pound, 0},
	{"L/s/ha", "cfs/ac", hectares / litres, 0},
	{"C", "F", 1.8, 32},
	{"t/ha", "ton/ac", hectares * 1000 / (ton * pound), 0},
	{"bu/ha", "bu/ac", hectares, 0},
	{"USD/m", "USD/ft", foot / tenThousand, 0},
	{"USD/ha", "USD/ac", hectares, 0},
	{"USD/t", "USD/ton", ton * pound / 1000, 0},
	{"USD/bu", "USD/bu", 1, 0},
	{"USD/kWh", "USD/kWh", 1, 0},
	{"USD", "USD", 1, 0},
	{"years", "years", 1, 0},
	{"C-d", "F-d", 1.8, 0}, // a sum of differences: no offset
	{"Mg/m3", "Mg/m3", 1, 0},
	{"dS/m", "dS/m", 1, 0},
	{"d", "d", 1, 0},
	{"h", "h", 1, 0},
	{"day of year", "day of year", 1, 0},
	{"deg", "deg", 1, 0},
	{"cm-d", "cm-d", 1, 0},
	{"%", "%", 1, 0},
	{"", "", 1, 0},
}

// pair finds a unit of results; one that is not listed is a fault of the program.
func pair(siUnit string) Pair {
	for _, p := range Pairs {
		if p.SI == siUnit {
			return p
		}
	}
	panic(fmt.Sprintf("unit: %q is no unit of results", siUnit))
}

// Value turns a value in a unit of results into the system's own unit, and names
// that. It panics when the unit is not among Pairs.
func (s System) Value(x float64, siUnit string) (float64, string) {
	p := pair(siUnit)
	if s == US {
		return p.Factor*x + p.Offset, p.US
	}
	return x, p.SI
}

// Difference is Value for a difference of two values, which takes no offset.
func (s System) Difference(x float64, siUnit string) (float64, string) {
	p := pair(siUnit)
	if s == US {
		return p.Factor * x, p.US
	}
	return x, p.SI
}

// Bushels is Value for a crop's yield (t/ha) or price (USD/t): the US shows crops
// that have a bushel, kg, by the bushel. It is 0 for others.
func (s System) Bushels(x float64, siUnit string, bushel float64) (float64, string) {
	perTonne := 1000 / bushel
	switch {
	case s != US || bushel == 0:
	case siUnit == "t/ha":
		return s.Value(x*perTonne, "bu/ha")
	case siUnit == "USD/t":
		return s.Value(x/perTonne, "USD/bu")
	}
	return s.Value(x, siUnit)
}

// Format writes a value in the system's unit with three significant digits,
// "3.5 ft"; whole numbers keep all of theirs, "1520 kg/ha".
func (s System) Format(x float64, siUnit string) string { return written(s.Value(x, siUnit)) }

// FormatBushels is Format for what Bushels gives, "180 bu/ac".
func (s System) FormatBushels(x float64, siUnit string, bushel float64) string {
	return written(s.Bushels(x, siUnit, bushel))
}

// written is a value with its unit.
func written(v float64, u string) string {
	digits := fmt.Sprintf("%.3g", v)
	if size := math.Abs(v); size >= 999.5 && size < 1e15 {
		digits = fmt.Sprintf("%.0f", v)
	}
	return strings.TrimSpace(digits + " " + u)
}

// String names the system as it is asked for.
func (s System) String() string {
	if s == US {
		return "us"
	}
	return "si"
}
