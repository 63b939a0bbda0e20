package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/heat"
	"mottle/soil"
)

// wave is a sine of temperature at the surface of dry ground.
type wave struct {
	mean, amplitude float64 // C
	diffusivity     float64 // m2/s
	period          float64 // d
	start           float64 // d, when it rises through the mean
}

// at is the temperature (C) of the surface on a day.
func (w wave) at(day float64) float64 {
	return w.mean + w.amplitude*math.Sin(2*math.Pi*(day-w.start)/w.period)
}

// damping is the depth (m) in which the wave dies to 1/e, of which the grid and the
// start take their size.
func (w wave) damping() float64 {
	return math.Sqrt(w.diffusivity * w.period * dayLength / math.Pi)
}

// run carries a column ten damping depths deep from the settled wave at the day
// first, in steps of a share of the period, to each of the days, and calls seen
// there.
func (w wave) run(first float64, days []float64, seen func(at float64, c *heat.Column, g column.Grid)) error {
	const (
		capacity = 2.5e6 // J/m3/K
		dry      = 1e-9  // water content
		pores    = 0.3
		steps    = 1461 // to a period: a quarter of a day in a year
	)
	d := w.damping()
	g, err := column.Graded(10*d, 0.01*d, 0.2*d, 1.1, nil)
	if err != nil {
		return err
	}
	k := w.diffusivity * capacity
	th := soil.FixedThermal(pores, capacity, soil.HeatWater, soil.HeatIce, k, k)
	c := textbookSoil(g, dry, &th, w.mean)
	for i, z := range g.Mid {
		lag := z / d * w.period / (2 * math.Pi)
		c.SetTemperature(i, w.mean+(w.at(first-lag)-w.mean)*math.Exp(-z/d))
	}
	for now, k := first, 0; k < len(days); k++ {
		for now < days[k]*(1-1e-12) {
			step := math.Min(w.period/steps, days[k]-now)
			now += step
			if _, err := c.Step(step*dayLength, heat.Surface{Air: w.at(now)}); err != nil {
				return fmt.Errorf("at %.4g d: %w", now, err)
			}
		}
		seen(days[k], c, g)
	}
	return nil
}

// waveShare is what a temperature may be off, as a share of the amplitude at the
// surface: implicit steps of 1/1461 of the period put the wave half a step behind, pi/1461 of the
// amplitude, and cells growing to a fifth of the damping depth add as much.
const (
	waveShare = 0.005
	waveWhy   = "0.5 % of the amplitude: half a step of 1/1461 of the period is 0.2 %, cells of up to a fifth of the damping depth as much"
)

// annualWave holds the yearly wave at depth against the exact solution
// (atmosphere-annual-wave.csv), two years after the start. At the surface itself the
// wave is imposed, so that there is nothing to hold.
func annualWave() ([]Check, error) {
	const file = "atmosphere-annual-wave.csv"
	rows := table(file)
	const year = 365.25
	w := wave{mean: rows[0].num("Tmean_C"), amplitude: rows[0].num("A_C"), diffusivity: rows[0].num("alpha_m2_s"), period: year, start: rows[0].num("t0_d")}
	byDay := map[float64][]row{}
	var days []float64
	for _, r := range rows {
		if r.num("z_m") == 0 {
			continue
		}
		at := r.num("t_d")
		if byDay[at] == nil {
			days = append(days, at)
		}
		byDay[at] = append(byDay[at], r)
	}
	var checks []Check
	err := w.run(-2*year, days, func(at float64, c *heat.Column, g column.Grid) {
		for _, r := range byDay[at] {
			z := r.num("z_m")
			checks = append(checks, Check{ID: fmt.Sprintf("%s:%g m, %g d", file, z, at), What: fmt.Sprintf("yearly wave at %g m, day %g", z, at),
				Source: "Carslaw and Jaeger 1959 (periodic surface temperature)", Status: Computed, Unit: "C",
				Expected: r.num("T_C"), Got: alongDepth(g.Mid, c.Temperature, z), Tolerance: waveShare * w.amplitude, Why: waveWhy})
		}
	})
	return checks, err
}

// dampedWaves hold amplitude and lag at depth, out of a whole period of the column's
// temperatures, against the exact solution (H10).
func dampedWaves() ([]Check, error) {
	const year = 365.25
	yearly := wave{mean: 7, amplitude: 12, diffusivity: 6e-7, period: year}
	amplitude, lag, err := yearly.seenAt(1)
	if err != nil {
		return nil, err
	}
	daily := wave{mean: 15, amplitude: 10, diffusivity: 5e-7, period: 1}
	const depth = 0.10 // m
	small, _, err := daily.seenAt(depth)
	if err != nil {
		return nil, err
	}
	within := func(id string, got, share float64, why string) Check {
		c := listed(listedRow(id), got)
		c.Tolerance, c.Why = share*c.Expected, why
		return c
	}
	const (
		off     = 0.005
		why     = "0.5 %: steps of 1/1461 of the period and cells of up to a fifth of the damping depth"
		lagging = "0.5 %, and half a step of a quarter of a day"
	)
	last := within("H10c", lag, off, lagging)
	last.Tolerance += year / 1461 / 2
	return []Check{
		within("H10a", 1/math.Log(yearly.amplitude/amplitude), off, why),
		within("H10b", amplitude, off, why),
		last,
		within("H10d", depth/math.Log(daily.amplitude/small), off, why),
	}, nil
}

// seenAt is the amplitude (C) of the column's temperature at a depth (m), and how
// many days it lags behind the surface, by its first harmonic over a period.
func (w wave) seenAt(z float64) (amplitude, lag float64, err error) {
	const samples = 64
	days := make([]float64, samples)
	for i := range days {
		days[i] = w.period * (1 + float64(i+1)/samples)
	}
	in, quarter := 0.0, 0.0 // in step with the surface, and a quarter period behind
	err = w.run(0, days, func(at float64, c *heat.Column, g column.Grid) {
		x := alongDepth(g.Mid, c.Temperature, z) - w.mean
		sin, cos := math.Sincos(2 * math.Pi * (at - w.start) / w.period)
		in += x * sin * 2 / samples
		quarter -= x * cos * 2 / samples
	})
	return math.Hypot(in, quarter), math.Atan2(quarter, in) * w.period / (2 * math.Pi), err
}
