package site

import (
	"math"

	"mottle/sim/money"
)

// Farm is what the land and the work are worth, and what the tile to be judged would
// be built of beside its laterals. It is filled whether or not anybody asks; no figure
// of water, frost or yield hangs on it.
type Farm struct {
	Drained float64 // area under the laterals, m2
	Whole   float64 // area of the whole field, m2; NaN: nobody said
	Crops   []Worth // of every crop there is, in the order of crop.Names

	Mains             []Main // none: a share of the laterals' cost stands for them
	Outlets           int    // billed where mains are listed
	LiftStations      int    // 0: the outlet falls freely
	Lift              float64
	ControlStructures int

	Ranges     []money.Range // prices, shares and terms in the order of money.Ranges; where the file gave one, its spread
	Replanting money.Spread  // of ground whose stand was drowned: seed and passes, USD/ha

	Assumed []Assumption // kept apart from the field's: they matter to those who ask for money
}

// Worth is what a crop yields and brings. Spreads of what nobody knows are NaN.
type Worth struct {
	Crop      string
	Bushel    float64      // mass, kg; 0: the crop is not sold by the bushel
	BestYield money.Spread // of well drained ground there, t/ha
	Price     money.Spread // USD/t
	ExtraCost money.Spread // of an added tonne: nutrients, hauling, drying, USD/t
}

// Main is a length of main or submain.
type Main struct {
	money.Pipe
	Grade float64 // fall, m/m; NaN: nobody said
}

// Worth finds what a crop yields and brings; false for a crop that there is not.
func (a *Farm) Worth(crop string) (Worth, bool) {
	for _, w := range a.Crops {
		if w.Crop == crop {
			return w, true
		}
	}
	return Worth{}, false
}

// System is the drainage system whose cost is asked for: tile on the farm's ground.
func (a *Farm) System(t *Tile) money.System {
	s := money.System{Area: a.Drained, Spacing: t.Spacing, LateralDiameter: t.Diameter, Outlets: a.Outlets,
		LiftStations: a.LiftStations, Lift: a.Lift, ControlStructures: a.ControlStructures}
	for _, m := range a.Mains {
		s.Mains = append(s.Mains, m.Pipe)
	}
	return s
}

// Terms picks a value of each of the farm's ranges, as money.TermsFrom does of its
// own: the middle, an end, a draw.
func (a *Farm) Terms(pick func(money.Range) float64) money.Terms {
	i := -1
	return money.TermsFrom(func(money.Range) float64 {
		i++
		return pick(a.Ranges[i])
	})
}

// Unpriced lists the keys of prices and extra costs of crops in the rotation that
// nobody gave and nobody knows: without them there is no income.
func (f *Field) Unpriced() []string {
	var keys []string
	for _, name := range f.grown() {
		w, _ := f.Farm.Worth(name)
		if math.IsNaN(w.Price.Middle) {
			keys = append(keys, cropKey(name)+".price")
		}
		if math.IsNaN(w.ExtraCost.Middle) {
			keys = append(keys, cropKey(name)+".extra_cost")
		}
	}
	return keys
}

// grown lists the crops of the rotation, each once.
func (f *Field) grown() []string {
	var names []string
	seen := map[string]bool{}
	for _, k := range f.Rotation {
		if !seen[k.Name] {
			seen[k.Name] = true
			names = append(names, k.Name)
		}
	}
	return names
}

// cropKey is the key of what a crop yields and brings.
func cropKey(name string) string { return "farm.crops." + name }
