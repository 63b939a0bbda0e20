package drain

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A row of the table of capacities (Manning, n of ASAE EP480 from memory, computed
// independently) gives the area that each size serves: a little less area takes
// that size, a little more the next.
func TestSizePipeCapacities(t *testing.T) {
	diameters := TradeDiameters()
	if len(diameters)*7 != 63 { // each of the table's sizes at seven grades, and no other
		t.Errorf("%d trade diameters, the table has 9", len(diameters))
	}
	for _, r := range table(t, "drain_pipe_capacity.csv", 63) {
		this := -1
		for i, d := range diameters {
			if math.Abs(1000*d-r.num("inside_diameter_mm")) < 1e-9 {
				this = i
			}
		}
		if this < 0 {
			t.Fatalf("line %d: %s mm is no trade diameter", r.line, r.fields["inside_diameter_mm"])
		}
		for _, column := range []string{"0.25", "0.375", "0.5", "0.75", "1"} {
			var inches float64
			fmt.Sscan(column, &inches)
			duty := Duty{Coefficient: 25.4 * inches * mmPerDay, Grade: r.num("grade_pct") / 100, MostVelocity: math.Inf(1)}
			area := r.num("ha_at_"+column+"in_d") * 1e4
			duty.Area = area * (1 - 2*sixDigits)
			if s, err := SizePipe(duty); err != nil || s.Diameter != diameters[this] {
				t.Errorf("line %d, %s in/d: got %g m (%v), want %g", r.line, column, s.Diameter, err, diameters[this])
			}
			duty.Area = area * (1 + 2*sixDigits)
			s, err := SizePipe(duty)
			if this+1 < len(diameters) {
				if err != nil || s.Diameter != diameters[this+1] {
					t.Errorf("line %d, %s in/d, more: got %g m (%v), want %g", r.line, column, s.Diameter, err, diameters[this+1])
				}
				continue
			}
			var misfit *SizeError
			if !errors.As(err, &misfit) || misfit.Misfit != TooMuchFlow {
				t.Errorf("line %d, %s in/d, more: got %v, want too much flow", r.line, column, err)
			}
		}
	}
}

// At the least grades printed by ASAE EP480 (from memory; 0.0062 % of rounding at
// worst) a size that the flow fills is taken; below them it is not.
func TestSizePipeLeastGrades(t *testing.T) {
	for _, r := range table(t, "drain_minimum_grade.csv", 7) {
		for column, velocity := range map[string]float64{"table_cpt_v0.5fps_pct": VelocityCleanWater, "table_cpt_v1.4fps_pct": VelocityFineSand} {
			if r.fields[column] == "" {
				continue
			}
			diameter := r.num("nominal_in") * 0.0254
			for _, c := range []struct {
				off   float64 // %
				takes bool
			}{{+0.0062, true}, {-0.0062, false}} {
				duty := Duty{Coefficient: mmPerDay, LeastVelocity: velocity, MostVelocity: math.Inf(1), Grade: (r.num(column) + c.off) / 100}
				duty.Area = 0.999 * PipeAreaServed(ManningFullPipe(diameter, duty.Grade), duty.Coefficient)
				s, err := SizePipe(duty)
				if took := err == nil && s.Diameter == diameter; took != c.takes {
					t.Errorf("line %d %s: at %g %% got %g m (%v)", r.line, column, 100*duty.Grade, s.Diameter, err)
				}
			}
		}
	}
}

// A larger size stands for one that runs too slowly only where the flow half fills it.
// Capacities and velocities are those of the table times the root of the grades' ratio;
// least grades for 1.4 ft/s are 0.41 % of 5 in, 0.32 % of 6 in and 0.22 % of 8 in.
func TestSizePipeHalfFull(t *testing.T) {
	for _, c := range []struct {
		grade, flow float64 // %, L/s
		inches      float64 // 0: too flat
	}{
		{0.35, 4.5, 6}, // 5 in carries 5.0; 6 in carries 8.1 and is 55 % filled
		{0.35, 3.6, 0}, // 5 in carries 5.0, 4 in 2.8; 6 in would be 44 % filled
		{0.25, 6.7, 0}, // 6 in carries 6.9; 8 in carries 14.8 and would be 45 % filled
	} {
		d := Duty{Area: 1e4, Coefficient: c.flow * 1e-7, Grade: c.grade / 100, LeastVelocity: VelocityFineSand, MostVelocity: VelocityMostSand}
		s, err := SizePipe(d)
		var misfit *SizeError
		if c.inches == 0 && !(errors.As(err, &misfit) && misfit.Misfit == TooFlat) ||
			c.inches > 0 && (err != nil || math.Abs(s.Diameter-0.0254*c.inches) > 1e-9) {
			t.Errorf("%g L/s at %g %%: got %g m (%v), want %g in", c.flow, c.grade, s.Diameter, err, c.inches)
		}
	}
}

// The listing is in feet per second (NRCS National Engineering Handbook 650 chapter
// 14, from memory).
func TestVelocityMost(t *testing.T) {
	for i, v := range []float64{VelocityMostSand, VelocityMostSilt, VelocityMostSiltyClayLoam, VelocityMostClay} {
		near(t, "velocity", v/0.3048, []float64{3.5, 5, 6, 7}[i], 1e-12)
	}
}

func TestSizePipeMisfits(t *testing.T) {
	const ha = 1e4
	for _, c := range []struct {
		name string
		duty Duty
		want Misfit
		says string
	}{
		// 18 in at 0.1 % carries 61.137 L/s (table of capacities), which 55.5 ha bring; 60 ha
		// need (60/55.456)^2 of the grade, 0.117 %, and a hair for rounding.
		{"too much", Duty{60 * ha, 9.525 * mmPerDay, 0.001, 0, VelocityMostSand}, TooMuchFlow, "lead 55.5 ha to it, or lay 457 mm pipe at 0.118 %"},
		// 3 in carries 0.62 ha at 0.1 %, 4 in 1.34 and runs at 0.18 m/s; at 0.55 % (table of
		// least grades, 0.5487) 4 in runs at 1.4 ft/s and 1 ha half fills it no longer, nor is
		// it the smallest; 3 in carries 1 ha from 0.26 % and is clean from 0.805 %.
		{"too flat", Duty{1 * ha, 9.525 * mmPerDay, 0.001, VelocityFineSand, VelocityMostSand}, TooFlat, "lay 76 mm pipe at 0.81 %"},
		// 8 in carries 33 L/s at 2 % at 1.29 m/s, and sand stands 1.07: (1.0668/1.2932)^2 of 2 %.
		{"too steep", Duty{30 * ha, 9.525 * mmPerDay, 0.02, VelocityCleanWater, VelocityMostSand}, TooSteep, "lay 203 mm pipe at 1.35 % with drops between"},
		// 18 in holds 0.164 m2, at 1.07 m/s 175 L/s; 200 ha at 3/8 in/d bring 220.
		{"too steep, no way", Duty{200 * ha, 9.525 * mmPerDay, 0.02, VelocityCleanWater, VelocityMostSand}, TooSteep, "several pipes"},
	} {
		_, err := SizePipe(c.duty)
		var misfit *SizeError
		if !errors.As(err, &misfit) || misfit.Misfit != c.want || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want it to say %q", c.name, err, c.says)
		}
	}
	err := Duty{Area: -1, Grade: math.NaN(), Coefficient: math.Inf(1), LeastVelocity: 2, MostVelocity: 1}.Validate()
	for _, want := range []string{"area", "grade", "coefficient", "velocity"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not name %q", err, want)
		}
	}
}

// A size that is given fits, and no smaller one does; a mend that is advised mends.
func TestSizePipeHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Duty{
			Area:          math.Exp(rapid.Float64Range(math.Log(1e2), math.Log(3e6)).Draw(t, "log area")),
			Coefficient:   rapid.Float64Range(3, 60).Draw(t, "mm/d") * mmPerDay,
			Grade:         math.Exp(rapid.Float64Range(math.Log(1e-4), math.Log(0.05)).Draw(t, "log grade")),
			LeastVelocity: rapid.SampledFrom([]float64{0, VelocityCleanWater, VelocityFineSand}).Draw(t, "least"),
			MostVelocity:  rapid.SampledFrom([]float64{VelocityMostSand, VelocityMostClay, math.Inf(1)}).Draw(t, "most"),
		}
		smallest := true // of those that carry the flow
		s, err := SizePipe(d)
		for _, diameter := range TradeDiameters() { // the definition
			q := ManningFullPipe(diameter, d.Grade)
			v := 4 * q / (math.Pi * diameter * diameter)
			carries := q >= d.Flow()
			fits := carries && v >= d.LeastVelocity && v <= d.MostVelocity && (smallest || d.Flow() >= q/2)
			if carries {
				smallest = false
			}
			if fits {
				if err != nil || s.Diameter != diameter {
					t.Fatalf("%g m fits %+v; got %g, %v", diameter, d, s.Diameter, err)
				}
				return
			}
		}
		var misfit *SizeError
		if !errors.As(err, &misfit) {
			t.Fatalf("%+v: no size fits; got %+v, %v", d, s, err)
		}
		switch misfit.Misfit { // what is advised mends
		case TooMuchFlow:
			lead := d
			lead.Area = PipeAreaServed(misfit.Found.Discharge, d.Coefficient) * (1 - 1e-9)
			lead.LeastVelocity, lead.MostVelocity = 0, math.Inf(1)
			if _, err := SizePipe(lead); err != nil {
				t.Fatalf("%v; led: %v", misfit, err)
			}
		case TooFlat:
			if misfit.Found.Velocity >= d.LeastVelocity {
				t.Fatalf("%v", misfit)
			}
		case TooSteep:
			if misfit.Found.Velocity <= d.MostVelocity {
				t.Fatalf("%v", misfit)
			}
		}
		if d.Grade = misfit.Grade; d.Grade != 0 {
			if got, err := SizePipe(d); err != nil || got != misfit.There {
				t.Fatalf("%v; mended: %v", misfit, err)
			}
		}
	})
}
