package proof

import (
	"context"
	"fmt"
	"maps"
	"strconv"
	"strings"
)

// atmosphere holds reference evapotranspiration, the sun, the crop's heat units
// and coefficients, and the weather generator.
func atmosphere(ctx context.Context) ([]Check, error) {
	return inTurn(ctx,
		func() ([]Check, error) { return listedChecks("EAC", atmosphereRows) },
		standardHours, hourlySun, cropListing,
		func() ([]Check, error) {
			maturity, err := cornMaturity()
			return append([]Check{maturity}, sunTable()...), err
		},
		generatorChecks)
}

// atmosphereRows compute the rows of atmosphere-checks.csv that the product has the
// quantity for.
var atmosphereRows = func() map[string]func(given) float64 {
	all := maps.Clone(evapotranspirationRows)
	maps.Copy(all, coefficientRows)
	return all
}()

// statusOf turns the word of a table of values into a status.
func statusOf(word string) Status {
	switch {
	case strings.HasPrefix(word, "read"):
		return Published
	case strings.HasPrefix(word, "computed"):
		return Computed
	}
	return Memory
}

// listed is the check that a row of atmosphere-checks.csv stands for.
func listed(r row, got float64) Check {
	c := Check{ID: r["id"], What: r["quantity"], Source: r["source"], Status: statusOf(r["read_or_memory"]), Unit: r["unit"],
		Expected: r.num("expected"), Got: got, Tolerance: r.num("tolerance"),
		Why: "the last digit printed, by a rounded example"}
	if c.Status == Computed {
		c.Why = "the digits kept of the same equations computed apart"
	}
	return c
}

// listedChecks runs the rows of atmosphere-checks.csv whose ids begin with one of
// the letters and that one of the functions computes.
func listedChecks(letters string, compute map[string]func(given) float64) ([]Check, error) {
	var checks []Check
	inputs := map[string]given{}
	for _, r := range table("atmosphere-checks.csv") {
		id := r["id"]
		in, err := parseGiven(r["inputs"], inputs)
		if err != nil {
			return nil, fmt.Errorf("row %s: %w", id, err)
		}
		inputs[id] = in
		if f := compute[id]; f != nil && strings.Contains(letters, id[:1]) {
			checks = append(checks, listed(r, f(in)))
		}
	}
	return checks, nil
}

// given are the "key=value;..." of a row.
type given map[string]float64

// parseGiven reads the numbers, angles such as 13deg44minN among them. Words are
// left out, numbers followed by a remark keep the number, and "same as C02a"
// takes over the inputs of an earlier row.
func parseGiven(text string, earlier map[string]given) (given, error) {
	in := given{}
	for part := range strings.SplitSeq(text, ";") {
		if id, ok := strings.CutPrefix(part, "same as "); ok {
			if earlier[id] == nil {
				return nil, fmt.Errorf("found %q; allowed the id of a row above", part)
			}
			maps.Copy(in, earlier[id])
			continue
		}
		key, value, ok := strings.Cut(part, "=")
		if !ok {
			continue
		}
		if angle, ok := parseAngle(value); ok {
			in[key] = angle
			continue
		}
		number, _, _ := strings.Cut(value, "(")
		if v, err := strconv.ParseFloat(number, 64); err == nil {
			in[key] = v
		}
	}
	return in, nil
}

// parseAngle reads 13deg44minN as deg, south negative.
func parseAngle(text string) (float64, bool) {
	deg, rest, ok := strings.Cut(text, "deg")
	if !ok {
		return 0, false
	}
	d, err1 := strconv.ParseFloat(deg, 64)
	minutes, hemisphere, _ := strings.Cut(rest, "min")
	m, err2 := strconv.ParseFloat(minutes, 64)
	angle := d + m/60
	if hemisphere == "S" {
		angle = -angle
	}
	return angle, err1 == nil && err2 == nil
}

// lat is the latitude under either of its keys, deg.
func (in given) lat() float64 {
	if v, ok := in["lat_deg"]; ok {
		return v
	}
	return in["lat"]
}

func (in given) day() int { return int(in["J"]) }

// listedRow is a row of atmosphere-checks.csv.
func listedRow(id string) row {
	for _, r := range table("atmosphere-checks.csv") {
		if r["id"] == id {
			return r
		}
	}
	panic(fmt.Errorf("atmosphere-checks.csv: no row %q", id))
}
