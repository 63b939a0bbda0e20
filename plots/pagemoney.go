package plots

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"mottle/sim/money"
)

// bill is what the system costs, item by item.
func (d decision) bill() grid {
	g := grid{ID: "bill", Caption: "The bill", Head: []string{"item", "quantity", "unit cost (USD)", "cost (USD)"}, Words: 1}
	d.addBill(&g, d.w.Bill, "all, once")
	d.addBill(&g, d.w.Upkeep, "upkeep, a mean year")
	return g
}

func (d decision) addBill(g *grid, b money.Bill, total string) {
	if len(b) == 0 {
		return
	}
	for _, l := range b {
		name := l.Item
		if l.Diameter > 0 {
			name += ", " + d.units.Format(l.Diameter*1000, "mm")
		}
		quantity, each := "", ""
		switch {
		case strings.HasPrefix(l.Unit, "of "):
			quantity, each = percent(l.Quantity)+" "+l.Unit, "of "+round3(l.UnitCost)
		case l.Unit == "m":
			v, u := d.units.Value(l.Quantity, "m")
			cost, _ := d.units.Value(l.UnitCost, "USD/m")
			quantity, each = round3(v)+" "+u, cents(cost)
		default:
			quantity, each = round3(l.Quantity)+" "+l.Unit, cents(l.UnitCost)
		}
		g.Rows = append(g.Rows, row(name, quantity, each, round3(l.Cost())))
	}
	g.Rows = append(g.Rows, gridRow{Cells: []string{total, "", "", round3(b.Total())}, Total: true})
}

// percent writes a share.
func percent(share float64) string {
	if math.IsNaN(share) {
		return "–"
	}
	return strings.Replace(fmt.Sprintf("%.3g %%", 100*share), "-", "−", 1)
}

// cents writes a price.
func cents(x float64) string {
	if math.Abs(x) >= 100 {
		return round3(x)
	}
	return fmt.Sprintf("%.2f", x)
}

// worthOf lists the money side of the answer.
func (d decision) worthOf() grid {
	m := d.w.Money
	g := grid{ID: "money", Caption: "What it is worth, at middle prices", Head: []string{"figure", "value"}, Words: 1}
	add := func(name, value string) { g.Rows = append(g.Rows, row(name, value)) }
	add("outlay", round3(m.Outlay)+" USD")
	add("outlay by area", dollars(m.PerArea, d.units))
	add("extra income a year", dollars(m.Income, d.units))
	add("outlay and upkeep spread evenly, a year", dollars(m.YearlyCost, d.units))
	add("net present value"+over(d.w), dollars(m.NPV, d.units))
	rate := percent(m.Rate) + " a year"
	if math.IsNaN(m.Rate) {
		rate = strings.TrimSuffix("none: "+m.RateWhy, ": ")
	}
	add("internal rate of return, real", rate)
	add("simple payback", m.Simple.String())
	add("discounted payback", m.Discounted.String())
	if len(d.r.Field.Rotation) > 0 {
		name := d.r.Field.Rotation[0].Name
		w, _ := d.r.Field.Farm.Worth(name)
		even := func(x float64, si string) string {
			if math.IsInf(x, 1) {
				return "none pays"
			}
			return d.units.FormatBushels(x, si, w.Bushel)
		}
		add("gain of "+name+" that breaks even, every year", even(m.BreakEvenGain, "t/ha"))
		add("price of "+name+" that breaks even", even(m.BreakEvenPrice, "USD/t"))
	}
	add("cost of doing nothing: lost to wetness and late planting, a year", dollars(m.DoingNothing, d.units))
	return g
}

// swings lists what moves the answer.
func (d decision) swings() grid {
	u := d.unit("USD/ha")
	g := grid{ID: "swings", Caption: "What moves the answer: median net present value (" + u + ")",
		Head: []string{"input", "its lower third", "its upper third", "turns the answer"}, Words: 1}
	for _, s := range d.w.Futures.Inputs {
		turns := "no"
		if s.Low*s.High < 0 {
			turns = "yes"
		}
		g.Rows = append(g.Rows, row(s.Input, round3(d.value(s.Low, "USD/ha")), round3(d.value(s.High, "USD/ha")), turns))
	}
	return g
}

// plus is round3 with its sign.
func plus(x float64) string {
	if x > 0 {
		return "+" + round3(x)
	}
	return round3(x)
}

// prices lists the crops and the prices, shares and terms behind the bill.
func (d decision) prices() grid {
	g := grid{ID: "prices", Caption: "Prices, yields and terms", Words: 1, Head: []string{"item", "low", "middle", "high", "unit", "how well known", "source"}}
	add := func(item string, s money.Spread, of func(x float64) (float64, string), known, source string) {
		low, u := of(s.Low)
		middle, _ := of(s.Middle)
		high, _ := of(s.High)
		g.Rows = append(g.Rows, row(item, figure(low), figure(middle), figure(high), u, known, source))
	}
	farm := &d.r.Field.Farm
	grown := map[string]bool{}
	for _, k := range d.r.Field.Rotation {
		w, known := farm.Worth(k.Name)
		if grown[k.Name] || !known {
			continue
		}
		grown[k.Name] = true
		in := func(si string) func(x float64) (float64, string) {
			return func(x float64) (float64, string) { return d.units.Bushels(x, si, w.Bushel) }
		}
		add(k.Name+", yield on well-drained ground", w.BestYield, in("t/ha"), "", "")
		add(k.Name+", price", w.Price, in("USD/t"), "", "")
		add(k.Name+", cost of each added unit", w.ExtraCost, in("USD/t"), "", "")
	}
	add("replanting a drowned stand", farm.Replanting, func(x float64) (float64, string) { return d.units.Value(x, "USD/ha") }, "", "")
	for _, r := range farm.Ranges {
		source := ""
		for _, part := range []string{r.Source, r.Year, r.Place} {
			if part != "" && part != "any" {
				source += ", " + part
			}
		}
		add(r.Item, r.Spread, func(x float64) (float64, string) {
			switch {
			case isUnit(r.Unit):
				return d.units.Value(x, r.Unit)
			case strings.HasPrefix(r.Unit, "of ") || r.Unit == "a year":
				return 100 * x, "% " + r.Unit
			case r.Unit == "-":
				return 100 * x, "%"
			}
			return x, r.Unit
		}, string(r.Status), strings.TrimPrefix(source, ", "))
	}
	return g
}

// trials lists what tile gained where yields were weighed.
func (d decision) trials() grid {
	g := grid{ID: "trials", Caption: "Gains weighed elsewhere, at this field’s prices", Words: 2,
		Note: fmt.Sprintf("They are no source of the answer and stand beside it. This field’s own mean gain: %s.", percent(d.w.Gain())),
		Head: []string{"where", "soil", "gain in yield", "net present value (" + d.unit("USD/ha") + ")"}}
	for _, t := range d.w.Trials {
		gain := ""
		for _, name := range slices.Sorted(maps.Keys(t.Gain)) {
			ends := t.Gain[name]
			low, high := percent(ends[0]), percent(ends[1])
			if low == high {
				gain += name + " " + low + "; "
			} else {
				gain += name + " " + low + " to " + high + "; "
			}
		}
		npv := "a crop was not grown there"
		if !math.IsNaN(t.Low) {
			npv = dollarRange(t.Low, t.High, d.units)
		}
		g.Rows = append(g.Rows, row(t.Place+" ("+t.Source+")", t.Soil, strings.TrimSuffix(gain, "; "), npv))
	}
	return g
}

// figure writes a number of a table with three digits, whole ones with all.
func figure(x float64) string {
	switch {
	case math.IsNaN(x):
		return "–"
	case math.Abs(x) >= 100:
		return round3(x)
	}
	return strings.Replace(fmt.Sprintf("%.3g", x), "-", "−", 1)
}
