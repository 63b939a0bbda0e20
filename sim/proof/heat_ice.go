package proof

import (
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/soil"
)

// icyPores is the porosity of the ground that ice is put in, m3/m3.
const icyPores = 0.4

// leftByIce is the share of its conductivity that saturated ground keeps when a share
// of its water is frozen, by the steady flux through it.
func leftByIce(frozen float64) (float64, error) {
	const conductivity = 1e-6 // m/s
	g := column.Uniform(1, 20)
	c := column.New(g, filled(flowTable(soil.Exponential{ThetaS: icyPores, Alpha: 1, Ksat: conductivity}), g), 0)
	c.Surface.HeldHead = 0
	c.Base = column.Base{Kind: column.BaseGravity}
	for i := range g.Mid {
		c.SetHead(i, 0)
		c.SetIce(i, frozen*icyPores)
	}
	q, err := settle(c, 0)
	if err != nil {
		return 0, fmt.Errorf("flow past ice: %w", err)
	}
	return q / conductivity, nil
}

// iceImpedance holds the form of what ice leaves, 10^(-exponent Q), against the
// published values at two shares Q of ice, and reports the exponent beside the
// published ones.
func iceImpedance() ([]Check, error) {
	const little, half = 0.3, 0.5 // Q of the rows
	less, err := leftByIce(little)
	if err != nil {
		return nil, err
	}
	more, err := leftByIce(half)
	if err != nil {
		return nil, err
	}
	byVolume := listedRow("I02")
	in, err := parseGiven(byVolume["inputs"], nil)
	if err != nil {
		return nil, fmt.Errorf("row I02: %w", err)
	}
	share := in["theta_i"] / icyPores
	few, err := leftByIce(share)
	if err != nil {
		return nil, err
	}
	first, second, reading := listedRow("I01a"), listedRow("I01b"), listedRow("I01c")
	exponent := -math.Log10(more) / half
	const (
		what        = "exponent of ice impedance, half of the water frozen"
		least, most = 0.5, 6.5 // exponents of Zhao et al. (2013)
	)
	return []Check{
		{ID: "I01a, I01b", What: "logarithm of what ice leaves of conductivity, at Q 0.5 over Q 0.3", Source: first["source"], Status: Computed, Unit: "-",
			Expected: math.Log10(second.num("expected")) / math.Log10(first.num("expected")), Got: math.Log10(more) / math.Log10(less), Tolerance: 1e-3,
			Why: "the form's ratio does not hang on the exponent; fluxes settle to 1e-7"},
		{ID: "I01a, exponent", What: what, Source: first["source"], Status: Memory, Unit: "-",
			Expected: 7, Got: exponent, Report: true, Low: 6.5, High: 7.5,
			Note: "lower on purpose: 7 counts twice what the liquid's own conductivity has lost (Kurylyk and Watanabe 2013)"},
		{ID: "I01c, exponent", What: what, Source: reading["source"], Status: statusOf(reading["read_or_memory"]), Unit: "-",
			Expected: 4, Got: exponent, Report: true, Low: least, High: most, Note: "the liquid's own conductivity is counted apart"},
		{ID: "I02", What: "what 0.1 of ice by volume leaves of conductivity, pores 0.4", Source: byVolume["source"], Status: statusOf(byVolume["read_or_memory"]), Unit: "-",
			Expected: byVolume.num("expected"), Got: few, Report: true, Low: math.Pow(10, -most*share), High: math.Pow(10, -least*share),
			Note: "the product's form takes the share of the water that is ice, here a quarter; the range is that of the exponents 0.5 to 6.5"},
	}, nil
}
