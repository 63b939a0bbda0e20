package site

import (
	"fmt"
	"slices"
	"strings"

	"mottle/sim/crop"
	"mottle/sim/money"
	"mottle/sim/unit"
)

// The places of money.Ranges.
const (
	laterals = iota
	sizeExponent
	mainsShare
	outlet
	station
	efficiency
	electricity
	structure
	engineering
	permits
	upkeep
	life
	interest
)

// term is how one of money's ranges stands in the farm section.
type term struct {
	key  string // below farm
	dim  unit.Dimension
	one  float64 // a unit in which it is shown, in the dimension's own
	unit string
	low  float64 // least and greatest that may stand, in the unit shown
	high float64
}

// terms are those of the money ranges, in their order.
var terms = [...]term{
	laterals:     {"laterals", unit.LengthCost, 1 / 0.3048, "USD/ft", 0, 1e4},
	sizeExponent: {"size_exponent", unit.Number, 1, "", 0, 4},
	mainsShare:   {"mains_share", unit.Fraction, 0.01, "%", 0, 100},
	outlet:       {"outlet", unit.Money, 1, "USD", 0, 1e5},
	station:      {"lift.station", unit.Money, 1, "USD", 0, 9e5},
	efficiency:   {"lift.efficiency", unit.Fraction, 0.01, "%", 1, 100},
	electricity:  {"lift.electricity", unit.EnergyPrice, 1, "USD/kWh", 0, 100},
	structure:    {"control_structure", unit.Money, 1, "USD", 0, 1e5},
	engineering:  {"engineering", unit.Fraction, 0.01, "%", 0, 100},
	permits:      {"permits", unit.Money, 1, "USD", 0, 9e5},
	upkeep:       {"upkeep", unit.Fraction, 0.01, "%", 0, 100},
	life:         {"life", unit.Years, 1, "years", 1, 200},
	interest:     {"interest", unit.Fraction, 0.01, "%", 0, 100},
}

// farm reads what the land and the work are worth. Its assumptions are its own.
func (s *Section) farm(f *Field) {
	outer := s.assumed
	s.assumed = nil
	g := s.Group("farm")
	a := &f.Farm
	a.Ranges = money.Ranges()
	a.Drained = g.quantity("drained_area", unit.Area, "10 ha", "nobody said how much ground the laterals lie under")
	a.Whole = g.Optional("field_area", unit.Area)
	g.crops(f)
	g.term(a, laterals)
	g.term(a, sizeExponent)
	a.Mains = g.mains("mains")
	const without, with = "no mains listed (their share of the laterals' cost holds the outlet)", "mains listed"
	g.termIf(len(a.Mains) == 0, with, a, mainsShare)
	g.termIf(len(a.Mains) > 0, without, a, outlet)
	if a.Outlets = 1; g.plays(len(a.Mains) > 0, without, "outlets") {
		a.Outlets = int(g.whole("outlets", "1", "the usual number"))
	}
	if l := g.feature("lift", "the outlet is taken to fall freely; ask whether it lies low enough"); l != nil {
		a.Lift = l.Required("height", unit.Length)
		a.LiftStations = int(l.whole("stations", "1", "one will do"))
		for _, i := range []int{station, efficiency, electricity} {
			l.term(a, i)
		}
		l.End()
	}
	a.ControlStructures = g.structures(f)
	for _, i := range []int{structure, engineering, permits, upkeep, interest, life} {
		g.term(a, i)
	}
	a.Replanting = g.spread("replanting", of(unit.AreaCost), "[30 USD/ac, 60 USD/ac, 120 USD/ac]", "seed, which is partly made good, and passes (assumption)")
	g.End()
	a.Assumed, s.assumed = s.assumed, outer
}

// term reads one of money's ranges; left out, it stays as it is known.
func (s *Section) term(a *Farm, i int) {
	t, r := terms[i], &a.Ranges[i]
	key := t.key[strings.LastIndexByte(t.key, '.')+1:]
	given := s.Has(key)
	x := s.spread(key, of(t.dim), spreadText(r.Spread, t.one, t.unit), known(*r))
	if given {
		*r = money.Range{Spread: x, Item: r.Item, Unit: r.Unit, Source: "the field file", Status: money.Read}
	}
}

// termIf is term for one that plays a part with some choices only.
func (s *Section) termIf(plays bool, with string, a *Farm, i int) {
	if s.plays(plays, with, terms[i].key) {
		s.term(a, i)
	}
}

// known says what a range rests on.
func known(r money.Range) string {
	text := r.Item + ": " + r.Source
	for _, more := range []string{r.Year, r.Place} {
		if more != "any" {
			text += ", " + more
		}
	}
	return fmt.Sprintf("%s (%s)", text, r.Status)
}

// mains reads the list of mains and submains; without one a share stands for them.
func (s *Section) mains(key string) []Main {
	var mains []Main
	for _, m := range s.Sections(key) {
		mains = append(mains, Main{
			Pipe:  money.Pipe{Length: m.Required("length", unit.Length), Diameter: m.Required("diameter", unit.Length), Submain: m.Yes("submain")},
			Grade: m.Optional("grade", unit.Fraction),
		})
		m.End()
	}
	return mains
}

// structures is the number of control structures: where a weir stands there is one.
func (s *Section) structures(f *Field) int {
	fallback, reason := "0", "none was stated"
	if f.Tile != nil && len(f.Tile.Weir) > 0 && !s.survey {
		fallback, reason = "1", "the weir of the tile stands in one"
	}
	return int(s.whole("control_structures", fallback, reason))
}

// commonly are yields of well drained ground in the northern Midwest: corn and soybean
// about those of a 35-year trial in southeastern Indiana at its closest spacing, 168
// and 57 bu/ac (extension summary, 2023), the others common practice, from memory.
var commonly = map[string]string{
	"corn": "[150 bu/ac, 170 bu/ac, 200 bu/ac]", "soybean": "[45 bu/ac, 55 bu/ac, 62 bu/ac]",
	"spring wheat": "[3 t/ha, 3.7 t/ha, 4.4 t/ha]", "winter wheat": "[3.2 t/ha, 4 t/ha, 5 t/ha]",
	"sugar beet": "[55 t/ha, 65 t/ha, 75 t/ha]", "alfalfa": "[7 t/ha, 9 t/ha, 12 t/ha]", "grass": "[4 t/ha, 6 t/ha, 8 t/ha]",
}

// crops reads what every crop yields and brings. What is left out is an assumption of
// crops that are grown, or of which something was said.
func (s *Section) crops(f *Field) {
	g := s.Group("crops")
	for _, name := range crop.Names() {
		before := len(s.assumed)
		f.Farm.Crops = append(f.Farm.Crops, g.Group(name).worth(name))
		if !g.Has(name) && !slices.Contains(f.grown(), name) {
			s.assumed = s.assumed[:before]
		}
	}
	g.End()
}

// worth reads what a crop yields and brings.
func (s *Section) worth(name string) Worth {
	w := Worth{Crop: name}
	yield, price := of(unit.Yield), of(unit.Price)
	var usual, extra, source string
	if c, err := money.CropNamed(name); err == nil {
		w.Bushel = c.Bushel
		yield = measure{[]unit.Dimension{unit.Yield, unit.BushelYield}, c.Bushel}
		price = measure{[]unit.Dimension{unit.Price, unit.BushelPrice}, c.Bushel}
		if len(c.Seasons) > 0 {
			r := c.Price()
			usual, source = spreadText(r.Spread, 1, "USD/bu"), known(r)
		}
		extra = exact(c.ExtraCost) + " USD/bu"
	}
	w.BestYield = s.spread("best_yield", yield, commonly[name], "what well drained ground of the northern Midwest bears (common practice); give your own")
	w.Price = s.spread("price", price, usual, source)
	w.ExtraCost = s.spread("extra_cost", price, extra, "nutrients, hauling and drying of added yield (assumption)")
	s.End()
	return w
}
