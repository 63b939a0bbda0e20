package proof

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mottle/sim/drain"
)

// moneyPipe sizes pipes for a little less than the area that each size serves, and a
// little more: the first takes that size, the second the next.
func moneyPipe() ([]Check, error) {
	const (
		file   = "drain_pipe_capacity.csv"
		source = "Manning with n of ASAE EP480 (n from memory), smallest trade size that carries"
	)
	sizes := drain.TradeDiameters()
	none := 2 * sizes[len(sizes)-1] // stands for no size, m
	var checks []Check
	for i, r := range table(file) {
		this := slices.IndexFunc(sizes, func(d float64) bool { return math.Abs(1000*d-r.num("inside_diameter_mm")) < 1e-6 })
		if this < 0 {
			return nil, fmt.Errorf("%s: %s in is no trade size of the product", file, r["nominal_in"])
		}
		next := none
		if this+1 < len(sizes) {
			next = sizes[this+1]
		}
		duty := drain.Duty{Coefficient: 9.525 * mmPerDay, Grade: r.num("grade_pct") / 100, MostVelocity: math.Inf(1)}
		for _, c := range []struct {
			what        string
			share, want float64
		}{{"a hair less than fills", 1 - 2*sixDigits, sizes[this]}, {"a hair more than fills", 1 + 2*sixDigits, next}} {
			duty.Area = c.share * 1e4 * r.num("ha_at_0.375in_d")
			s, err := drain.SizePipe(duty)
			got := s.Diameter
			var misfit *drain.SizeError
			switch {
			case errors.As(err, &misfit) && misfit.Misfit == drain.TooMuchFlow:
				got = none
			case err != nil:
				return nil, err
			}
			checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("pipe at %s %% for %s %s in at 3/8 in/d (914.4: none)", r["grade_pct"], c.what, r["nominal_in"]), Source: source, Status: Computed, Unit: "mm",
				Expected: 1000 * c.want, Got: 1000 * got, Tolerance: 0.001, Why: "a trade size, exact; areas are printed to six digits"})
		}
	}
	return checks, nil
}

// moneyPipeGrade sizes pipes that their flow nearly fills at the least grades of the
// table, and below them.
func moneyPipeGrade() ([]Check, error) {
	const file = "drain_minimum_grade.csv"
	var checks []Check
	for i, r := range table(file) {
		diameter := r.num("nominal_in") * 0.0254
		for _, c := range []struct {
			velocity float64
			column   string
		}{{drain.VelocityCleanWater, "calc_cpt_v0.152mps_pct"}, {drain.VelocityFineSand, "calc_cpt_v0.427mps_pct"}} {
			for _, off := range []float64{2 * sixDigits, -2 * sixDigits} {
				duty := drain.Duty{Coefficient: mmPerDay, Grade: r.num(c.column) / 100 * (1 + off), LeastVelocity: c.velocity, MostVelocity: math.Inf(1)}
				duty.Area = 0.999 * drain.PipeAreaServed(drain.ManningFullPipe(diameter, duty.Grade), duty.Coefficient)
				s, err := drain.SizePipe(duty)
				var misfit *drain.SizeError
				if err != nil && !errors.As(err, &misfit) {
					return nil, err
				}
				takes, want, side := 0.0, 0.0, "below"
				if s.Diameter == diameter {
					takes = 1
				}
				if off > 0 {
					want, side = 1, "at"
				}
				checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("%s in tube is taken %s its least grade for %.3g m/s (1 yes, 0 no)", r["nominal_in"], side, c.velocity),
					Source: "Manning at the velocities of ASAE EP480", Status: Computed, Unit: "-", Expected: want, Got: takes, Tolerance: 0.5, Why: "yes or no; grades are printed to six digits"})
			}
		}
	}
	return checks, nil
}
