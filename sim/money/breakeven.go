package money

import "math"

// Added is the yield that tile adds to one crop of a rotation. A loss is a negative
// gain. Yield may be in any unit, as long as both prices are by the same.
type Added struct {
	Share     float64 // of the years in which the crop is grown, 0-1
	Gain      float64 // yield added in a year of the crop, by area: bu/ac
	Price     float64 // USD/bu
	ExtraCost float64 // of each added unit: fertiliser, hauling, drying, USD/bu
}

// Income is what added yields bring in a mean year of the rotation, after their
// extra cost and by the area of the gains, USD/ac.
func Income(crops []Added) float64 {
	sum := 0.0
	for _, c := range crops {
		sum += c.Share * c.Gain * (c.Price - c.ExtraCost)
	}
	return sum
}

// BreakEvenGain is the yield (bu/ac) to be added every year that pays a yearly cost
// (USD/ac, [YearlyCost]) at a price and extra cost of the added yield (USD/bu):
// +Inf where the price does not cover the extra cost.
func BreakEvenGain(yearlyCost, price, extraCost float64) float64 {
	if price <= extraCost {
		return math.Inf(1)
	}
	return yearlyCost / (price - extraCost)
}

// BreakEvenPrice is the price (USD/bu) at which a gain of every year (bu/ac, for
// gains that differ [LevelYearly]) pays a yearly cost (USD/ac) and the extra cost of
// the added yield (USD/bu): +Inf where nothing is gained.
func BreakEvenPrice(yearlyCost, gain, extraCost float64) float64 {
	if gain <= 0 {
		return math.Inf(1)
	}
	return yearlyCost/gain + extraCost
}
