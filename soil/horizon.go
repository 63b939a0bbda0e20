package soil

import (
	"errors"
	"fmt"
	"math"
)

// Horizon is what is known of one layer of soil. NaN stands for "not given";
// texture is needed unless the retention curve is given.
type Horizon struct {
	Name        string
	Top, Bottom float64 // m below the surface
	Sand, Silt  float64 // percent by mass of the fine earth
	Clay        float64
	Organic     float64 // organic matter, percent by mass
	BulkDensity float64 // Mg/m3

	// Measured values, used in place of derived ones.
	Ksat       float64 // saturated conductivity of the whole soil, m/s
	Structure  float64 // Ksat over the conductivity of the matrix, -
	ThetaR     float64 // van Genuchten's parameters, all four or none
	ThetaS     float64
	Alpha      float64 // 1/m
	N          float64
	SalinityEC float64 // ECe at the start, dS/m

	// Measured points of the retention curve, both or neither; 0 stands for "not
	// given" too. On sands the shape of their class is used instead.
	Water33, Water1500 float64 // water content at 33 and 1500 kPa, m3/m3

	Relation Relation // by which the rest is derived
}

// NewHorizon has every value unknown.
func NewHorizon(top, bottom float64) Horizon {
	nan := math.NaN()
	return Horizon{Top: top, Bottom: bottom, Sand: nan, Silt: nan, Clay: nan, Organic: nan, BulkDensity: nan,
		Ksat: nan, Structure: nan, ThetaR: nan, ThetaS: nan, Alpha: nan, N: nan, SalinityEC: nan}
}

func given(x float64) bool { return !math.IsNaN(x) }

// pointsGiven says whether water contents at 33 and 1500 kPa are given.
func (h Horizon) pointsGiven() bool { return h.Water33 > 0 && h.Water1500 > 0 }

// Check returns every fault of a horizon, joined; keys name the field file's.
func (h Horizon) Check() error {
	var faults []error
	bad := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	within := func(key string, x, low, high float64, unit string) {
		if given(x) && (x < low || x > high) {
			bad("%s: found %.4g %s; allowed %.4g to %.4g %s", key, x, unit, low, high, unit)
		}
	}
	if !(h.Bottom > h.Top && h.Top >= 0) {
		bad("top, bottom: found %.3g m to %.3g m; the bottom must lie below the top", h.Top, h.Bottom)
	}
	within("sand", h.Sand, 0, 100, "%")
	within("silt", h.Silt, 0, 100, "%")
	within("clay", h.Clay, 0, 100, "%")
	sum, most, shares := 0.0, 0.0, 0
	for _, x := range []float64{h.Sand, h.Silt, h.Clay} {
		if given(x) {
			sum, most, shares = sum+x, math.Max(most, x), shares+1
		}
	}
	switch {
	case shares == 3 && math.Abs(sum-100) > 1.5:
		bad("sand, silt, clay: add up to %.4g %%; they must make 100 %%", sum)
	case shares == 2 && sum > 100 && most <= 100:
		bad("sand, silt, clay: two add up to %.4g %%; they must leave room for the third in 100 %%", sum)
	}
	within("organic_matter", h.Organic, 0, 20, "%")
	within("bulk_density", h.BulkDensity, 0.5, 2.2, "Mg/m3")
	within("ksat", h.Ksat, 1e-12, 1e-2, "m/s")
	within("structure", h.Structure, 1, 100, "")
	within("ece", h.SalinityEC, 0, 100, "dS/m")
	curve := 0
	for _, x := range []float64{h.ThetaR, h.ThetaS, h.Alpha, h.N} {
		if given(x) {
			curve++
		}
	}
	switch {
	case curve != 0 && curve != 4:
		bad("theta_r, theta_s, alpha, n: %d of the four are given; give all or none", curve)
	case curve == 4:
		within("theta_s", h.ThetaS, 0.2, 0.95, "m3/m3")
		within("theta_r", h.ThetaR, 0, h.ThetaS-0.05, "m3/m3")
		within("alpha", h.Alpha, 0.01, 100, "1/m")
		within("n", h.N, 1.02, 10, "")
		if !given(h.Ksat) {
			bad("ksat: missing; a measured retention curve needs a measured conductivity")
		}
	}
	if (h.Water33 > 0) != (h.Water1500 > 0) {
		bad("water at 33 kPa, water at 1500 kPa: one of the two is given; give both or neither")
	}
	if h.pointsGiven() {
		within("water at 33 kPa", h.Water33, 0.02, 0.9, "m3/m3")
		within("water at 1500 kPa", h.Water1500, 0.01, h.Water33, "m3/m3")
	}
	if h.Relation < 0 || int(h.Relation) >= len(relations) {
		bad("relation: found number %d; allowed 0 to %d", h.Relation, len(relations)-1)
	}
	if known := h.textureKnown(); !known && curve != 4 {
		bad("sand, clay: missing; give two of sand, silt and clay, or a retention curve")
	}
	return errors.Join(faults...)
}

// textureKnown says whether two of the three shares are given.
func (h Horizon) textureKnown() bool {
	return given(h.Sand) && (given(h.Silt) || given(h.Clay)) || given(h.Silt) && given(h.Clay)
}

// texture completes sand and clay from the third share.
func (h Horizon) texture() (sand, clay float64) {
	sand, clay = h.Sand, h.Clay
	if !given(sand) {
		sand = 100 - h.Silt - h.Clay
	}
	if !given(clay) {
		clay = 100 - h.Sand - h.Silt
	}
	return sand, clay
}

// CheckProfile returns every fault of a list of horizons: each horizon's own,
// gaps, overlaps, and a first horizon that does not begin at the surface.
func CheckProfile(horizons []Horizon) error {
	if len(horizons) == 0 {
		return errors.New("horizons: none given; at least one is needed")
	}
	var faults []error
	if horizons[0].Top != 0 {
		faults = append(faults, fmt.Errorf("horizons[0].top: found %.3g m; the first horizon must begin at the surface, 0", horizons[0].Top))
	}
	for i, h := range horizons {
		if err := h.Check(); err != nil {
			for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
				faults = append(faults, fmt.Errorf("horizons[%d] (%s): %w", i, h.Name, e))
			}
		}
		if i == 0 {
			continue
		}
		switch above := horizons[i-1].Bottom; {
		case h.Top > above+1e-9:
			faults = append(faults, fmt.Errorf("horizons[%d].top: found %.3g m, a gap below %.3g m; horizons must follow one another", i, h.Top, above))
		case h.Top < above-1e-9:
			faults = append(faults, fmt.Errorf("horizons[%d].top: found %.3g m, an overlap with the horizon that ends at %.3g m", i, h.Top, above))
		}
	}
	return errors.Join(faults...)
}
