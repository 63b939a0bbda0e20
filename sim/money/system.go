package money

import (
	"errors"
	"fmt"
	"math"
)

// System is a drainage system as far as its cost hangs on it.
type System struct {
	Area              float64 // drained, m2: above 0; no default
	Spacing           float64 // of laterals, m: 2 to 200; no default
	LateralDiameter   float64 // m: 0.05 to 1; [DefaultSystem] 0.1016 (4 in)
	Mains             []Pipe  // with submains; none: a share of the laterals' cost stands for mains, outlet and structures
	Outlets           int     // 0 to 100; DefaultSystem 1. Billed where mains are listed
	LiftStations      int     // 0 to 100; DefaultSystem 0
	Lift              float64 // height through which they raise the water, m: 0 to 30; DefaultSystem 0
	ControlStructures int     // 0 to 1000; DefaultSystem 0
}

// Pipe is a length of main or submain of one size.
type Pipe struct {
	Submain  bool
	Diameter float64 // inside, m: 0.05 to 2
	Length   float64 // m: 0 and more
}

// DefaultSystem is a pattern of 4 in laterals that drains through one outlet by
// gravity, its mains taken as a share of the laterals' cost.
func DefaultSystem(area, spacing float64) System {
	return System{Area: area, Spacing: spacing, LateralDiameter: fourInch, Outlets: 1}
}

// Validate returns every fault of the system, joined, or nil.
func (s System) Validate() error {
	faults := []error{
		allow("drained area, m2", s.Area, math.SmallestNonzeroFloat64, math.MaxFloat64),
		allow("spacing of laterals, m", s.Spacing, 2, 200),
		allow("diameter of laterals, m", s.LateralDiameter, 0.05, 1),
		allow("outlets", float64(s.Outlets), 0, 100),
		allow("lift stations", float64(s.LiftStations), 0, 100),
		allow("lift, m", s.Lift, 0, 30),
		allow("control structures", float64(s.ControlStructures), 0, 1000),
	}
	for i, p := range s.Mains {
		faults = append(faults,
			allow(fmt.Sprintf("main %d, diameter, m", i+1), p.Diameter, 0.05, 2),
			allow(fmt.Sprintf("main %d, length, m", i+1), p.Length, 0, math.MaxFloat64))
	}
	if (s.LiftStations > 0) != (s.Lift > 0) {
		faults = append(faults, fmt.Errorf("money: found %d lift stations with a lift of %g m: give both, or neither", s.LiftStations, s.Lift))
	}
	return errors.Join(faults...)
}

// Laterals is their length, m: the area over the spacing.
func (s System) Laterals() float64 { return s.Area / s.Spacing }

// The tube that is priced: 100 mm, or 4 in.
const hundredMillimetre, fourInch = 0.100, 0.1016 // m

// PipePrice is the installed price of pipe of an inside diameter (m), USD/m: that of
// 4 in (or 100 mm) lateral times the ratio of the diameters to a power.
func (t Terms) PipePrice(diameter float64) float64 {
	priced := min(max(diameter, hundredMillimetre), fourInch)
	return t.Lateral * math.Pow(diameter/priced, t.SizeExponent)
}

// Line is one item of a bill. Its cost is quantity times unit cost.
type Line struct {
	Item     string
	Diameter float64 // of pipe, m; else 0
	Quantity float64
	Unit     string  // of the quantity
	UnitCost float64 // USD
}

// Cost of the item, USD.
func (l Line) Cost() float64 { return l.Quantity * l.UnitCost }

// Bill is a list of items.
type Bill []Line

// Total of the bill, USD.
func (b Bill) Total() float64 {
	sum := 0.0
	for _, l := range b {
		sum += l.Cost()
	}
	return sum
}

// FirstCost is the bill of putting the system in, without items of which there are
// none. The error joins every fault of system and terms.
func (s System) FirstCost(t Terms) (Bill, error) {
	if err := errors.Join(s.Validate(), t.Validate()); err != nil {
		return nil, err
	}
	var b Bill
	add := func(item string, diameter, quantity float64, unit string, unitCost float64) {
		if quantity > 0 {
			b = append(b, Line{item, diameter, quantity, unit, unitCost})
		}
	}
	add("laterals", s.LateralDiameter, s.Laterals(), "m", t.PipePrice(s.LateralDiameter))
	if len(s.Mains) == 0 {
		add("mains, outlet and structures", 0, t.MainsShare, "of laterals", b.Total())
	} else {
		for _, p := range s.Mains {
			item := "main"
			if p.Submain {
				item = "submain"
			}
			add(item, p.Diameter, p.Length, "m", t.PipePrice(p.Diameter))
		}
		add("outlet", 0, float64(s.Outlets), "each", t.Outlet)
	}
	add("lift station with power", 0, float64(s.LiftStations), "each", t.LiftStation)
	add("control structure", 0, float64(s.ControlStructures), "each", t.ControlStructure)
	add("engineering", 0, t.Engineering, "of construction", b.Total())
	if t.Permits > 0 {
		add("permits and survey", 0, 1, "field", t.Permits)
	}
	return b, nil
}

// RunningCost is the bill of a year: upkeep of what was built for a first cost (USD),
// and the energy to lift the water drained in the year (m3) where there is a lift
// station. The error joins every fault of system, terms and water.
func (s System) RunningCost(t Terms, firstCost, water float64) (Bill, error) {
	if err := errors.Join(s.Validate(), t.Validate(),
		allow("first cost, USD", firstCost, 0, math.MaxFloat64),
		allow("water drained in the year, m3", water, 0, math.MaxFloat64)); err != nil {
		return nil, err
	}
	b := Bill{{"upkeep", 0, t.Upkeep, "of first cost", firstCost}}
	if s.LiftStations > 0 {
		b = append(b, Line{"energy to lift the water", 0, PumpEnergy(water, s.Lift, t.PumpEfficiency), "kWh", t.Electricity})
	}
	return b, nil
}

// PumpEnergy is the electricity, kWh, that raises a volume of water (m3) through a
// height (m) at a wire-to-water efficiency: 9.81 V H/(3600 e). NaN unless volume and
// height are 0 or more and the efficiency is above 0 and at most 1.
func PumpEnergy(volume, height, efficiency float64) float64 {
	const weight = 9.81 // of a cubic metre of water, kN
	if !(volume >= 0 && height >= 0 && efficiency > 0 && efficiency <= 1) {
		return math.NaN()
	}
	return volume * weight * height / (3600 * efficiency)
}
