package money

import (
	"errors"
	"fmt"
	"math"
)

// Terms are the prices and shares of a bill, and the terms on which it is judged.
// Each has its default, the middle of its range, in [Ranges].
type Terms struct {
	Lateral          float64 // installed lateral of 4 in (100 mm), USD/m
	SizeExponent     float64 // installed price of pipe grows with diameter to this power
	MainsShare       float64 // mains, outlet and structures over cost of laterals, where no mains are listed
	Outlet           float64 // outlet pipe, guard and riprap, USD each
	LiftStation      float64 // with its power, USD each
	PumpEfficiency   float64 // work done on the water over electricity taken in
	Electricity      float64 // USD/kWh
	ControlStructure float64 // USD each
	Engineering      float64 // design and supervision over cost of construction
	Permits          float64 // permits and survey, USD for the whole field
	Upkeep           float64 // over first cost, a year
	Years            int     // over which the system is judged
	Rate             float64 // real, a year
}

// Status says how well a price is known.
type Status string

// The statuses.
const (
	Read    Status = "read"        // seen in the source
	Memory  Status = "from memory" // recalled, not seen
	Assumed Status = "assumption"  // chosen here
)

// Range is a price, share or term from low to high, with what it rests on.
type Range struct {
	Spread
	Item, Unit          string
	Year, Place, Source string
	Status              Status
}

// Places of the ranges, by which they are looked up.
const (
	ofLateral = iota
	ofSizeExponent
	ofMainsShare
	ofOutlet
	ofLiftStation
	ofPumpEfficiency
	ofElectricity
	ofControlStructure
	ofEngineering
	ofPermits
	ofUpkeep
	ofYears
	ofRate
	items
)

const (
	foot  = 0.3048 // m
	plain = "any"
	bid   = "extension meetings, rough: take a bid"
)

var ranges = [items]Range{
	ofLateral:          {Spread{0.90 / foot, 1.25 / foot, 1.60 / foot}, "lateral, installed, 4 in", "USD/m", "2022-2025", "Iowa, Minnesota, Dakotas", bid, Memory},
	ofSizeExponent:     {Spread{1.5, 1.8, 2.0}, "growth of pipe price with diameter", "power", plain, plain, "between wall, as the diameter, and volume of trench and backfill, as its square", Assumed},
	ofMainsShare:       {Spread{0.15, 0.25, 0.35}, "mains, outlet and structures", "of laterals", plain, "upper Midwest", "common practice", Memory},
	ofOutlet:           {Spread{500, 1000, 2500}, "outlet", "USD each", "2020s", plain, "rough: take a bid", Assumed},
	ofLiftStation:      {Spread{15000, 30000, 60000}, "lift station with power", "USD each", "2020s", "Red River valley", "rough: take a bid; middle is the geometric mean", Memory},
	ofPumpEfficiency:   {Spread{0.45, 0.60, 0.70}, "wire-to-water efficiency", "-", plain, plain, "middle as in the worked case of pump energy", Assumed},
	ofElectricity:      {Spread{0.08, 0.12, 0.18}, "electricity", "USD/kWh", "2020s", "northern Midwest", "read it off your bill", Assumed},
	ofControlStructure: {Spread{500, 1000, 2000}, "control structure", "USD each", "2010s", "Midwest", "rough: take a bid; middle is the geometric mean", Memory},
	ofEngineering:      {Spread{0, 0.05, 0.10}, "engineering", "of construction", plain, plain, "0 where the contractor's price has the design in it", Assumed},
	ofPermits:          {Spread{500, 2000, 5000}, "permits and survey", "USD", "2020s", plain, "middle as in the worked investment", Assumed},
	ofUpkeep:           {Spread{0.005, 0.0075, 0.010}, "upkeep", "of first cost a year", plain, plain, "common practice", Memory},
	ofYears:            {Spread{30, 30, 50}, "years of service", "years", plain, plain, "extension: 30 to 50, many lines are older and still run", Memory},
	ofRate:             {Spread{0.03, 0.05, 0.09}, "real rate", "a year", plain, plain, "rates of the worked investment: use that of your loan or of your next best use, less inflation", Assumed},
}

// Ranges lists the prices, shares and terms in the order of [Terms].
func Ranges() []Range { return append([]Range(nil), ranges[:]...) }

// TermsFrom builds terms by picking a value of each range, in their order: its middle,
// an end, a draw. Years are rounded. Engineering may be 0 and so has no [Lognormal].
func TermsFrom(pick func(Range) float64) Terms {
	return Terms{
		Lateral:          pick(ranges[ofLateral]),
		SizeExponent:     pick(ranges[ofSizeExponent]),
		MainsShare:       pick(ranges[ofMainsShare]),
		Outlet:           pick(ranges[ofOutlet]),
		LiftStation:      pick(ranges[ofLiftStation]),
		PumpEfficiency:   pick(ranges[ofPumpEfficiency]),
		Electricity:      pick(ranges[ofElectricity]),
		ControlStructure: pick(ranges[ofControlStructure]),
		Engineering:      pick(ranges[ofEngineering]),
		Permits:          pick(ranges[ofPermits]),
		Upkeep:           pick(ranges[ofUpkeep]),
		Years:            int(math.Round(pick(ranges[ofYears]))),
		Rate:             pick(ranges[ofRate]),
	}
}

// DefaultTerms are the middles of the ranges.
func DefaultTerms() Terms { return TermsFrom(func(r Range) float64 { return r.Middle }) }

// Validate returns every fault of the terms, joined, or nil. It allows what can be
// meant, far beyond the ranges: prices of 0 and more, shares to 1.
func (t Terms) Validate() error {
	most := math.MaxFloat64
	return errors.Join(
		allow("price of lateral, USD/m", t.Lateral, 0, most),
		allow("growth of pipe price with diameter, power", t.SizeExponent, 0, 4),
		allow("mains over laterals, share", t.MainsShare, 0, 1),
		allow("outlet, USD each", t.Outlet, 0, most),
		allow("lift station, USD each", t.LiftStation, 0, most),
		allow("wire-to-water efficiency, share", t.PumpEfficiency, 0.01, 1),
		allow("electricity, USD/kWh", t.Electricity, 0, most),
		allow("control structure, USD each", t.ControlStructure, 0, most),
		allow("engineering, share", t.Engineering, 0, 1),
		allow("permits and survey, USD", t.Permits, 0, most),
		allow("upkeep, share a year", t.Upkeep, 0, 1),
		allow("years of service", float64(t.Years), 1, 200),
		allow("real rate, share a year", t.Rate, -0.5, 1),
	)
}

// allow returns a fault unless x is from low to high.
func allow(what string, x, low, high float64) error {
	switch {
	case x >= low && x <= high:
		return nil
	case high == math.MaxFloat64:
		return fmt.Errorf("money: %s: found %g, allowed %g and more", what, x, low)
	}
	return fmt.Errorf("money: %s: found %g, allowed %g to %g", what, x, low, high)
}
