package proof

import (
	"context"

	"mottle/sim/column"
	"mottle/sim/salt"
)

// saltGroup holds the movement of salt with water, and what salt leaves of a
// yield.
func saltGroup(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		saltConservation, saltDisplacement, saltFront, saltLeachingFraction, saltLeachingNeed, saltCapillary,
		saltLoad, saltYearly, saltReclamation, saltYield, saltHandbook, saltSmooth, saltClasses, saltRise, saltGardner,
	)
}

// briny is a column of water with its salt, stepped by days as a field is.
type briny struct {
	water *column.Column
	salt  *salt.Column
	day   salt.Water
	flux  salt.Flux // of the last day
	since salt.Flux // since the start
	came  float64   // with the water that arrived, kg/m2
}

func newBriny(c *column.Column, baseEC float64) *briny {
	return &briny{water: c, salt: salt.New(c.Grid.Cells()),
		day: salt.Water{Dz: c.Grid.Dz, Content: make([]float64, c.Grid.Cells()), Through: c.Through, Out: c.Out, BaseEC: baseEC}}
}

// step carries water and salt through a day on which water of an EC (dS/m) arrives
// at supply (m/s; negative evaporates from the surface).
func (b *briny) step(supply, ec float64) error {
	b.water.ResetTotals()
	runoff := 0.0
	for left := 1 / perDay; left > 1e-6; {
		dt, err := b.water.Step(left, supply)
		if err != nil {
			return err
		}
		left -= dt
		runoff += b.water.Last.Runoff * dt
	}
	for i := range b.day.Content {
		b.day.Content[i] = b.water.Water[i] + b.water.Ice[i]
	}
	b.day.Pond, b.day.Runoff = b.water.Pond, runoff
	b.day.Arrived = max(supply, 0) / perDay * ec * salt.PerEC
	b.came += b.day.Arrived
	b.flux = b.salt.Day(b.day)
	b.since.Runoff += b.flux.Runoff
	b.since.Laterals += b.flux.Laterals
	b.since.BaseOut += b.flux.BaseOut
	b.since.BaseIn += b.flux.BaseIn
	return nil
}

// fill gives every cell water of an EC (dS/m).
func (b *briny) fill(ec float64) {
	for i, w := range b.water.Water {
		b.salt.Mass[i] = ec * salt.PerEC * w * b.water.Grid.Dz[i]
	}
}

// above is the salt above the lower edge of cell i, kg/m2.
func (b *briny) above(i int) float64 {
	sum := b.salt.Pond
	for j := range i + 1 {
		sum += b.salt.Mass[j] + b.salt.Solid[j]
	}
	return sum
}
