package proof

import (
	"fmt"
	"math"

	"mottle/soil"
)

// saltRise compares the most that rises from a water table to a dry surface, which
// is what carries salt up, with the classes' integrals. Tables down to 2 m are those
// of the column's maximum evaporation, which has them with more digits.
func saltRise() ([]Check, error) {
	const file, column, depth = "salt-capillary-rise.csv", "at_2.50m", 2.5
	var checks []Check
	for i, r := range table(file) {
		got, err := evaporation(flowTable(classCurve(r["soil"], 0)), depth, airDry)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", file, r["soil"], err)
		}
		want := r.num(column)
		checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("%s: most that rises from a table at %g m", r["soil"], depth), Source: "steady flow to a dry surface, classes of Carsel and Parrish 1988 (from memory)", Status: Computed, Unit: "mm/d",
			Expected: want, Got: got, Tolerance: 0.01 * want, Why: "printed to three digits, half a unit of which is at most 0.5 %, and " + evaporationWhy})
	}
	return checks, nil
}

// saltGardner compares the column's upward flow with Gardner's limit for a soil that
// conducts a/(s^n + b), whose b is too small to be felt.
func saltGardner() ([]Check, error) {
	var in struct{ N []float64 }
	var out struct {
		A         []float64 `json:"A_n"`
		Published []float64
	}
	worked("M19", &in, &out)
	const (
		a, b, depth = 1e-3, 1e-4, 1.0 // m^(n+1)/d, m^n, m
	)
	var checks []Check
	for i, n := range in.N {
		t, err := soil.NewTable(
			func(h float64) float64 { return 0.4 / (1 - h) },
			func(h float64) float64 { return a / (b + math.Pow(-h, n)) * perDay })
		if err != nil {
			return nil, err
		}
		e, err := evaporation(t, depth, airDry)
		if err != nil {
			return nil, fmt.Errorf("M19, n %g: %w", n, err)
		}
		got := e / 1000 / a * math.Pow(depth, n)
		felt := (n - 1) * b * out.A[i] * out.A[i]
		checks = append(checks,
			Check{ID: "M19", What: fmt.Sprintf("most that rises over a table where K falls as s^-%g: factor of a/d^n", n), Source: "Gardner 1958, closed form for small b", Status: Computed, Unit: "-",
				Expected: out.A[i], Got: got, Tolerance: 0.005*out.A[i] + felt, Why: evaporationWhy + "; b takes off (n-1) b A^2"},
			Check{ID: "M19", What: fmt.Sprintf("most that rises over a table where K falls as s^-%g: factor printed", n), Source: "Gardner 1958 (printed values from memory, derived)", Status: Computed, Unit: "-",
				Expected: out.Published[i], Got: got, Tolerance: 0.01*out.Published[i] + felt, Why: "the printed factor, which is 0.5 % off at most, and as above"})
	}
	return checks, nil
}
