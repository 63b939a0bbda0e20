package worth

import (
	"errors"
	"math"

	"mottle/sim/compare"
	"mottle/sim/crop"
	"mottle/sim/money"
	"mottle/sim/site"
)

// gain is what tile changed in one year of a record, before prices.
type gain struct {
	crop    string
	share   float64 // of the best yield
	replant float64 // stands fewer that had to be sown again
	drained float64 // mm through the tile
}

// gains of every year of a pair of records.
func gains(lies, tiled []Season, drained []float64) []gain {
	out := make([]gain, len(lies))
	for i := range lies {
		a, b := lies[i], tiled[i]
		out[i] = gain{crop: a.Crop, share: b.Yield.Share - a.Yield.Share,
			replant: float64(a.Resown - b.Resown), drained: drained[i]}
	}
	return out
}

// prices are one value of each range of the farm.
type prices struct {
	crops      map[string][3]float64 // best t/ha, price and extra cost USD/t
	terms      money.Terms
	replanting float64 // USD/ha
}

// pricesFrom takes a value of every range by pick, in a fixed order.
func pricesFrom(f *site.Farm, names []string, pick func(what string, s money.Spread) float64) prices {
	p := prices{crops: map[string][3]float64{}}
	for _, name := range names {
		w, _ := f.Worth(name)
		p.crops[name] = [3]float64{pick("yield of "+name, w.BestYield), pick("price of "+name, w.Price), pick("cost of added "+name, w.ExtraCost)}
	}
	p.terms = f.Terms(func(r money.Range) float64 { return pick(r.Item, r.Spread) })
	p.replanting = pick("replanting", f.Replanting)
	return p
}

// middlePrices are the middles of the farm's ranges.
func middlePrices(f *site.Farm, names []string) prices {
	return pricesFrom(f, names, func(_ string, s money.Spread) float64 { return s.Middle })
}

// income of a year, USD/ha: the yield added at its price less what each added tonne
// costs, and what replanting saves.
func (p *prices) income(g gain) float64 {
	c := p.crops[g.crop]
	return g.share*c[0]*(c[1]-c[2]) + g.replant*p.replanting
}

const hectare = 1e4 // m2

// systemOf is the tile to be paid for. A weir wants a structure.
func systemOf(f *site.Farm, tile *site.Tile) money.System {
	s := f.System(tile)
	if len(tile.Weir) > 0 {
		s.ControlStructures = max(s.ControlStructures, 1)
	}
	return s
}

// flows of a design over the years of its life, USD/ha: the outlay, then each year's
// income less upkeep and pumping.
func (p *prices) flows(s money.System, years []gain) (flows []float64, bill money.Bill, err error) {
	bill, err = s.FirstCost(p.terms)
	if err != nil {
		return nil, nil, err
	}
	area := s.Area / hectare
	flows = append(make([]float64, 0, len(years)+1), -bill.Total()/area)
	for _, g := range years {
		running, err := s.RunningCost(p.terms, bill.Total(), g.drained/1000*s.Area)
		if err != nil {
			return nil, nil, err
		}
		flows = append(flows, p.income(g)-running.Total()/area)
	}
	return flows, bill, nil
}

// settle computes the central answer: middle prices and the mean year of the record
// over the life of the tile.
func (r *Result) settle(names []string, g []gain) error {
	p := middlePrices(&r.Field.Farm, names)
	system := systemOf(&r.Field.Farm, r.Field.Tile)
	recorded, bill, err := p.flows(system, g)
	if err != nil {
		return err
	}
	r.Bill = bill
	drained := 0.0
	for _, y := range g {
		r.Income = append(r.Income, p.income(y))
		drained += y.drained / float64(len(g))
	}
	if r.Upkeep, err = system.RunningCost(p.terms, bill.Total(), drained/1000*system.Area); err != nil {
		return err
	}
	area := system.Area / hectare
	outlay, upkeep := -recorded[0], r.Upkeep.Total()/area
	m := Money{Outlay: bill.Total(), PerArea: outlay, Rate: math.NaN()}
	for _, x := range r.Income {
		m.Income += x / float64(len(r.Income))
	}
	years := p.terms.Years
	level := money.Level(outlay, m.Income-upkeep, years)
	m.YearlyCost = money.YearlyCost(outlay, upkeep, p.terms.Rate, years)
	m.NPV = money.PresentValue(p.terms.Rate, level)
	var why *money.RateError
	if m.Rate, err = money.InternalRate(level); errors.As(err, &why) {
		m.Rate, m.RateWhy = math.NaN(), why.Error()
	} else if err != nil {
		return err
	}
	m.Simple = money.PaybackTime(0, level)
	m.Discounted = money.PaybackTime(p.terms.Rate, level)
	first := p.crops[names[0]]
	m.BreakEvenGain = money.BreakEvenGain(m.YearlyCost, first[1], first[2])
	added, others := 0.0, 0.0 // t/ha of the first crop, and USD/ha of all else, in a mean year
	for _, y := range g {
		if y.crop == names[0] {
			added += y.share * first[0] / float64(len(g))
			y.share = 0
		}
		others += p.income(y) / float64(len(g))
	}
	m.BreakEvenPrice = money.BreakEvenPrice(m.YearlyCost-others, added, first[2])
	for _, s := range r.AsItLies {
		c := p.crops[s.Crop]
		wet := s.Yield.Lost[crop.Late] + s.Yield.Lost[crop.Wet]
		m.DoingNothing += (wet*c[0]*(c[1]-c[2]) + float64(s.Resown)*p.replanting) / float64(len(r.AsItLies))
	}
	r.Money = m
	return nil
}

// drainedOf is the drain flow of each year of a comparison's pair, mm.
func drainedOf(p *compare.Pair) []float64 {
	out := make([]float64, 0, len(p.WithTile.Years))
	for _, y := range p.WithTile.Years {
		sum := 0.0
		for _, x := range p.WithTile.Days.Drain[y.First:y.End] {
			sum += x
		}
		out = append(out, sum)
	}
	return out
}
