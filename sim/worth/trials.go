package worth

import (
	"math"

	"mottle/sim/money"
)

// Trial is what tile gained where yields were weighed with and without it, and what
// that gain would be worth at this field's prices and costs. It is no source of the
// answer, and stands beside it: the relations are not fitted to any of these places.
type Trial struct {
	Place  string
	Soil   string
	Gain   map[string][2]float64 // of the yield without tile, low and high, by crop
	Source string

	Low, High float64 // NPV, USD/ha; NaN where a crop of the rotation was not grown
}

// trialPlaces are drainage trials; those marked from memory were not seen.
var trialPlaces = []Trial{
	{Place: "south-east Indiana, 35 years", Soil: "silt loam, poorly drained",
		Gain:   map[string][2]float64{"corn": {0.125, 0.167}, "soybean": {0, 0}},
		Source: "Purdue University extension, long-term drainage summary 2023"},
	{Place: "south-east Iowa, 2007-2014", Soil: "silty clay loam to silty clay, poorly drained, undrained plots beside drained ones",
		Gain:   map[string][2]float64{"corn": {0.064, 0.064}, "soybean": {0.124, 0.124}},
		Source: "computed from the yields of Chighladze et al. 2021 (USDA National Agricultural Library)"},
	{Place: "north-east Missouri, about 10 years", Soil: "claypan silt loam, poorly drained",
		Gain:   map[string][2]float64{"corn": {0.20, 0.20}, "soybean": {0.20, 0.20}},
		Source: "University of Missouri extension (20 % or more, with drainage control)"},
	{Place: "north-west Ohio, 25 years", Soil: "silty clay loam to clay, very poorly drained",
		Gain:   map[string][2]float64{"corn": {0.24, 0.39}, "soybean": {0.12, 0.45}},
		Source: "Ohio State University, from memory"},
}

// holdAgainstTrials prices the trials' gains as this field's own.
func (r *Result) holdAgainstTrials(names []string, g []gain) {
	if r.Field.Old != nil {
		return // they weighed tile against none
	}
	p := middlePrices(&r.Field.Farm, names)
	area := r.Field.Farm.Drained / hectare
	upkeep := r.Upkeep.Total() / area
	for _, t := range trialPlaces {
		npv := func(end int) float64 {
			income := 0.0
			for _, y := range g {
				share, ok := t.Gain[y.crop]
				if !ok {
					return math.NaN()
				}
				c := p.crops[y.crop]
				income += c[0] * share[end] / (1 + share[end]) * (c[1] - c[2]) / float64(len(g))
			}
			return money.PresentValue(p.terms.Rate, money.Level(r.Money.PerArea, income-upkeep, p.terms.Years))
		}
		t.Low, t.High = npv(0), npv(1)
		r.Trials = append(r.Trials, t)
	}
}

// Gain is what tile adds to the mean yield, as a share of that without it; +Inf where
// nothing grows without it.
func (r *Result) Gain() float64 {
	a, b := 0.0, 0.0
	for i := range r.AsItLies {
		a += r.AsItLies[i].Yield.Share
		b += r.WithTile[i].Yield.Share
	}
	return b/a - 1
}
