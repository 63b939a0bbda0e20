package unit

import (
	"fmt"
	"strings"
)

// Dimension is a kind of quantity, with the unit in which Parse returns it.
type Dimension int

// The dimensions.
const (
	Number        Dimension = iota // a bare number
	Fraction                       // 0-1; "0.3" or "30 %"
	Percent                        // percent; "30" or "30 %"
	Length                         // m
	Conductivity                   // m/s: hydraulic conductivity, and every rate of water over an area
	Time                           // s
	Clock                          // hour of the day, h
	Area                           // m2
	Salinity                       // dS/m
	Density                        // Mg/m3
	Angle                          // degrees
	Temperature                    // C
	InverseLength                  // 1/m
	Years                          // a
	Yield                          // t/ha
	BushelYield                    // bu/ha, of a crop that has a bushel
	Money                          // USD
	LengthCost                     // USD/m
	AreaCost                       // USD/ha
	Price                          // USD/t
	BushelPrice                    // USD/bu, of a crop that has a bushel
	EnergyPrice                    // USD/kWh
)

// measure is a unit: a value x in it is times/over*(x - zero) in the dimension's
// own unit. Two whole numbers keep 95 cm at 0.95 m and 12 in at 1 ft to the last
// bit, which one rounded factor does not.
type measure struct {
	name        string
	times, over float64
	zero        float64
}

// In whole numbers: 1 in = 254/10000 m (international yard and pound agreement
// of 1959), 1 ft = 12 in, 1 ac = 43560 ft2, 1 mi = 5280 ft. A ton is the short one
// of 2000 lb, a hundredweight 100 lb (NIST Handbook 44, appendix C).
const (
	inch, foot = 254, 3048 // over tenThousand, m
	acre       = 43560
	mile       = 5280

	tenThousand = 1e4
	day, hour   = 86400, 3600 // s
	pound       = 0.45359237  // kg, exact by the same agreement
	ton         = 2000        // pounds

	hectare = 1e12 // over acre*foot*foot, ac
)

// dimensions says what each is called, how it is written and its units; a unit
// with an empty name stands for a bare number.
var dimensions = [...]struct {
	called  string
	example string
	units   []measure
}{
	Number:   {"a number without a unit", "1.5", []measure{{"", 1, 1, 0}}},
	Fraction: {"a share from 0 to 1, or a percentage with %", "30 %", []measure{{"", 1, 1, 0}, {"%", 1, 100, 0}}},
	Percent:  {"a percentage", "30 %", []measure{{"", 1, 1, 0}, {"%", 1, 1, 0}}},
	Length: {"a length", "3.5 ft", []measure{
		{"m", 1, 1, 0}, {"cm", 1, 100, 0}, {"mm", 1, 1000, 0}, {"ft", foot, tenThousand, 0}, {"in", inch, tenThousand, 0}}},
	Conductivity: {"a rate", "0.3 m/d", []measure{
		{"m/d", 1, day, 0}, {"cm/d", 1, 100 * day, 0}, {"mm/d", 1, 1000 * day, 0}, {"cm/h", 1, 100 * hour, 0}, {"mm/h", 1, 1000 * hour, 0},
		{"m/s", 1, 1, 0}, {"um/s", 1, 1e6, 0}, {"ft/d", foot, tenThousand * day, 0}, {"in/d", inch, tenThousand * day, 0}, {"in/h", inch, tenThousand * hour, 0}}},
	Time:  {"a time", "1500 d", []measure{{"d", day, 1, 0}, {"h", hour, 1, 0}, {"min", 60, 1, 0}, {"s", 1, 1, 0}}},
	Clock: {"an hour of the day", "7 h", []measure{{"h", 1, 1, 0}}},
	Area: {"an area", "40 ac", []measure{
		{"ha", 1e4, 1, 0}, {"ac", acre * foot * foot, tenThousand * tenThousand, 0}, {"m2", 1, 1, 0}, {"km2", 1e6, 1, 0},
		{"mi2", mile * mile * foot * foot, tenThousand * tenThousand, 0}}},
	Salinity: {"a salinity", "2 dS/m", []measure{{"dS/m", 1, 1, 0}, {"mS/cm", 1, 1, 0}, {"mmho/cm", 1, 1, 0}, {"uS/cm", 1, 1000, 0}}},
	Density: {"a density", "1.35 g/cm3", []measure{
		{"g/cm3", 1, 1, 0}, {"Mg/m3", 1, 1, 0}, {"kg/m3", 1, 1000, 0}, {"lb/ft3", pound * 1e9, foot * foot * foot, 0}}},
	Angle:         {"an angle", "47 deg", []measure{{"deg", 1, 1, 0}}},
	Temperature:   {"a temperature", "10 C", []measure{{"C", 1, 1, 0}, {"F", 5, 9, 32}}},
	InverseLength: {"an inverse length", "1.2 1/m", []measure{{"1/m", 1, 1, 0}, {"1/cm", 100, 1, 0}}},
	Years:         {"a number of years", "30 years", []measure{{"years", 1, 1, 0}, {"a", 1, 1, 0}}},
	Yield: {"a yield", "11 t/ha", []measure{
		{"t/ha", 1, 1, 0}, {"kg/ha", 1, 1000, 0},
		{"lb/ac", pound * hectare / 1000, acre * foot * foot, 0},
		{"ton/ac", ton * pound * hectare / 1000, acre * foot * foot, 0}}},
	BushelYield: {"a yield", "180 bu/ac", []measure{{"bu/ac", hectare, acre * foot * foot, 0}}},
	Money:       {"an amount of money", "3000 USD", []measure{{"USD", 1, 1, 0}}},
	LengthCost:  {"a cost of length", "1.10 USD/ft", []measure{{"USD/m", 1, 1, 0}, {"USD/ft", tenThousand, foot, 0}}},
	AreaCost:    {"a cost of area", "60 USD/ac", []measure{{"USD/ha", 1, 1, 0}, {"USD/ac", hectare, acre * foot * foot, 0}}},
	Price: {"a price", "165 USD/t", []measure{
		{"USD/t", 1, 1, 0}, {"USD/lb", 1e11, pound * 1e8, 0}, {"USD/cwt", 1e9, pound * 1e8, 0},
		{"USD/ton", 1e11 / ton, pound * 1e8, 0}}},
	BushelPrice: {"a price", "4.20 USD/bu", []measure{{"USD/bu", 1, 1, 0}}},
	EnergyPrice: {"a price of electricity", "0.12 USD/kWh", []measure{{"USD/kWh", 1, 1, 0}}},
}

// Units lists the dimension's units as they are written, none for a bare number.
func (d Dimension) Units() []string {
	var names []string
	for _, u := range dimensions[d].units {
		if u.name != "" {
			names = append(names, u.name)
		}
	}
	return names
}

// Bare says whether a number needs no unit.
func (d Dimension) Bare() bool { return dimensions[d].units[0].name == "" }

// Allowed describes what may be written: "a length with one of m, cm, mm, ft, in".
func (d Dimension) Allowed() string {
	called, names := dimensions[d].called, d.Units()
	switch {
	case d.Bare():
		return called
	case len(names) == 1:
		return called + " in " + names[0]
	}
	return fmt.Sprintf("%s with one of %s", called, strings.Join(names, ", "))
}

// AllowedAny describes what may be written where one of several dimensions will do.
func AllowedAny(dims ...Dimension) string {
	said := make([]string, len(dims))
	for i, d := range dims {
		said[i] = d.Allowed()
	}
	return strings.Join(said, ", or ")
}
