package site

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/drain"
	"mottle/sim/money"
)

// beyond is how far off what is known a yield or a price is asked about, as a factor:
// prices double and halve within years, a wrong unit is off by more.
const beyond = 3

// usualTerms are limits, in the units shown, beyond which a price or term is asked
// about, with what is commonly met (money.Ranges).
var usualTerms = [...]struct {
	low, high float64
	why       string
}{
	laterals:     {0.3, 5, "installed laterals of 4 in were bid at 0.90 to 1.60 USD/ft about 2023"},
	sizeExponent: {1, 2.5, "pipe costs more by its wall, trench and backfill, between diameter and its square"},
	mainsShare:   {5, 60, "mains commonly add 15 to 35 %"},
	outlet:       {0, 10000, "an outlet is some 500 to 2500 USD"},
	station:      {5000, 200000, "a lift station with its power is some 15000 to 60000 USD"},
	efficiency:   {20, 85, "pumps turn 45 to 70 % of the electricity into raised water"},
	electricity:  {0.02, 0.6, "read it off the bill, in USD"},
	structure:    {0, 10000, "a control structure is some 500 to 2000 USD"},
	engineering:  {0, 20, "design and supervision are 0 to 10 %"},
	permits:      {0, 50000, "permits and survey are some 500 to 5000 USD"},
	upkeep:       {0, 5, "0.5 to 1 % a year is common"},
	life:         {10, 100, "30 to 50 years are commonly reckoned with"},
	interest:     {0.5, 20, "a real rate, less inflation; money that costs nothing makes late years worth as much as early ones"},
}

// farm warns of what the land and the work are said to be worth.
func (a *adviser) farm() {
	w := &a.Farm
	if w.Drained > w.Whole { // false where nobody gave the whole
		a.add("farm.field_area", "found %s; the laterals lie under %s%s, which is more: which of the two is it?", hectares(w.Whole), hectares(w.Drained), a.ifAssumed("farm.drained_area"))
	}
	a.worth()
	for i, r := range w.Ranges {
		t, u := terms[i], usualTerms[i]
		if r.Low < t.one*u.low*(1-1e-9) || r.High > t.one*u.high*(1+1e-9) {
			a.warn("farm."+t.key, "found %s; usual are %g to %s: %s", spreadText(r.Spread, t.one, t.unit), u.low, strings.TrimSpace(exact(u.high)+" "+t.unit), u.why)
		}
	}
	if r := w.Replanting; r.High > 1000 {
		a.warn("farm.replanting", "found %s; usual are 75 to 300 USD/ha (30 to 120 USD/ac)", spreadText(r, 1, "USD/ha"))
	}
	if w.Lift > 10 {
		a.warn("farm.lift.height", "found %s: pumps of field drainage raise water by a few metres; is it the height from sump to outlet?", meters(w.Lift))
	}
	if a.Tile == nil {
		return
	}
	if len(a.Tile.Weir) > 0 && w.ControlStructures == 0 {
		a.warn("farm.control_structures", "found 0; the weir of the tile stands in one")
	}
	a.mains()
}

// worth warns of what crops yield and bring, held against what is known of them, and
// asks for prices that nobody knows.
func (a *adviser) worth() {
	for _, w := range a.Farm.Crops {
		known := (&Section{reader: newReader()}).worth(w.Crop)
		for _, s := range []struct {
			key      string
			x, usual money.Spread
			unit     string
		}{
			{".best_yield", w.BestYield, known.BestYield, "t/ha"},
			{".price", w.Price, known.Price, "USD/t"},
			{".extra_cost", w.ExtraCost, known.ExtraCost, "USD/t"},
		} {
			low, high := s.usual.Low/beyond, s.usual.High*beyond
			if s.key == ".extra_cost" {
				low = 0 // nothing is counted, or it is in the price
			}
			if s.x.Low < low || s.x.High > high { // false for what is unknown
				a.warn(cropKey(w.Crop)+s.key, "found %s; known are %.3g to %.3g %s: is the unit right?", rounded(s.x, s.unit), s.usual.Low, s.usual.High, s.unit)
			}
		}
	}
	for _, key := range a.Unpriced() {
		a.add(key, "missing; none is known of this crop, and without it nobody can say what it brings")
	}
}

// mains warns of pipes that silt up, and of mains none of which carries off what the
// tile is sized for. Upper reaches may be smaller, so that the largest counts.
func (a *adviser) mains() {
	largest := 0.0 // area served by one main at the drainage coefficient, m2
	for i, m := range a.Farm.Mains {
		if math.IsNaN(m.Grade) {
			largest = math.Inf(1)
			continue
		}
		if least := drain.MinimumGrade(m.Diameter, drain.ManningN(m.Diameter), drain.VelocityCleanWater); m.Grade < least {
			a.warn(fmt.Sprintf("farm.mains[%d].grade", i), "found %.2g %%; a main of %.4g mm keeps itself clean from %.2g %% on, where no fine sand enters (ASAE EP480)", 100*m.Grade, 1000*m.Diameter, 100*least)
		}
		if !m.Submain {
			largest = max(largest, drain.PipeAreaServed(drain.ManningFullPipe(m.Diameter, m.Grade), a.Tile.Coefficient))
		}
	}
	off := largest * float64(a.Farm.Outlets)
	if len(a.Farm.Mains) > 0 && !math.IsInf(a.Tile.Coefficient, 1) && off < a.Farm.Drained*(1-1e-9) {
		a.add("farm.mains", "the largest carries the drainage coefficient, %s, off %s for each outlet; the laterals lie under %s%s: a larger main, a steeper grade, or a smaller coefficient",
			rate(a.Tile.Coefficient), hectares(largest), hectares(a.Farm.Drained), a.ifAssumed("farm.drained_area"))
	}
}

// rounded is a spread for reading.
func rounded(s money.Spread, unit string) string {
	if s.Low == s.High {
		return fmt.Sprintf("%.3g %s", s.Middle, unit)
	}
	return fmt.Sprintf("%.3g to %.3g %s", s.Low, s.High, unit)
}

// hectares writes an area in ha.
func hectares(x float64) string { return fmt.Sprintf("%.4g ha", x/1e4) }
