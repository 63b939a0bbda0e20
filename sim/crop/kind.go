// Package crop grows a crop by heat units and says how much water it asks for,
// from how deep, and what too much water, drought and salt leave of that. It holds
// the published relations of yield to planting date, excess water, drought, standing
// water and salt.
//
// It knows the day's temperatures and what it is told of the ground; it knows
// nothing of soil layers. Depths m, temperatures C, heads m of water.
package crop

import (
	"fmt"
	"sort"
	"strings"
)

// Kind is a crop's constants. Basal coefficients are for a grass reference.
type Kind struct {
	Name      string
	Perennial bool
	Autumn    bool // sown in the autumn before the year of harvest

	// Basal crop coefficients, height and rooting: FAO-56 (Allen et al. 1998)
	// tables 12, 17 and 22, from memory but for the single coefficients. Alfalfa is a
	// mean over its cuts, which have no basal value: the single 0.95 less 0.05.
	KcbStart, KcbMid float64
	KcbEnd           float64 // of annuals: a perennial goes back to KcbStart
	Height           float64 // m
	RootMax          float64 // m

	// Heat units: mean of the extremes held between Base and Cap, less Base.
	Base, Cap float64
	Maturity  float64 // C-d from planting, or from 1 January; the longest that the kind is grown with
	// Shares of Maturity: emergence, a tenth of the ground covered (of annuals), full
	// cover, leaves turning (of annuals). After the corn table of the High Plains
	// Regional Climate Center (corn) and FAO-56 stage lengths (others). Winter wheat
	// counts from 1 January: what ripens it is spring's heat, whenever it was sown. It
	// spreads from green-up on and has the heat of spring wheat from full cover to
	// ripe; 1800 C-d ripens it about 1 July at 41 N and late in July at 47 N
	// (assumption). A sugar beet does not ripen: it is lifted (stages of FAO-56's
	// 50, 40, 50 and 40 days from April, from memory; base 3 C, Milford et al. 1985,
	// from memory). Alfalfa takes 40 days to full cover where pasture takes 30.
	Emergence, Cover, Full, Late float64

	// Planting window: first and last day of the year, the soil temperature that
	// the crop waits for, and the fieldwork days that the farm needs from the
	// first until this field's turn (common practice).
	FirstPlanting, LastPlanting int // day of a common year; of an autumn crop, of the year before
	SoilWarmth                  float64
	WorkDays                    float64

	// Suctions (m) of Feddes et al. (1978), from memory: no uptake above H1, full
	// from H2, falling from H3High (5 mm/d demand) or H3Low (1 mm/d), none at H4.
	// Corn, grass and the dry side of wheat after Wesseling (1991); soybean has no
	// set of its own, its dry side is that of beans (Taylor and Ashcroft 1972). The
	// wet sides of wheat and soybean are the general one of Feddes (assumption: the
	// wheat set has no wet stress short of full saturation). Sugar beet after Wesseling
	// (1991); alfalfa's dry side after Taylor and Ashcroft (1972).
	H1, H2, H3High, H3Low, H4 float64
}

var kinds = map[string]Kind{
	"corn": {KcbStart: 0.15, KcbMid: 1.15, KcbEnd: 0.15, Height: 2, RootMax: 1.5,
		Base: 10, Cap: 30, Maturity: 1361, Emergence: 0.05, Cover: 0.15, Full: 0.45, Late: 0.80,
		FirstPlanting: 111, LastPlanting: 166, SoilWarmth: 10, WorkDays: 4,
		H1: 0.15, H2: 0.30, H3High: 3.25, H3Low: 6, H4: 80},
	"soybean": {KcbStart: 0.15, KcbMid: 1.10, KcbEnd: 0.30, Height: 0.8, RootMax: 1.3,
		Base: 10, Cap: 30, Maturity: 1250, Emergence: 0.06, Cover: 0.17, Full: 0.42, Late: 0.82,
		FirstPlanting: 121, LastPlanting: 171, SoilWarmth: 12, WorkDays: 4,
		H1: 0.10, H2: 0.25, H3High: 7.5, H3Low: 20, H4: 80},
	"spring wheat": {KcbStart: 0.15, KcbMid: 1.10, KcbEnd: 0.20, Height: 1, RootMax: 1.3,
		Base: 0, Cap: 35, Maturity: 1550, Emergence: 0.07, Cover: 0.15, Full: 0.35, Late: 0.75,
		FirstPlanting: 95, LastPlanting: 151, SoilWarmth: 4, WorkDays: 3,
		H1: 0.10, H2: 0.25, H3High: 5, H3Low: 9, H4: 160},
	"winter wheat": {Autumn: true, KcbStart: 0.30, KcbMid: 1.10, KcbEnd: 0.20, Height: 1, RootMax: 1.5,
		Base: 0, Cap: 35, Maturity: 1800, Emergence: 0.07, Cover: 0.08, Full: 0.44, Late: 0.785,
		FirstPlanting: 253, LastPlanting: 293, SoilWarmth: 4, WorkDays: 3,
		H1: 0.10, H2: 0.25, H3High: 5, H3Low: 9, H4: 160},
	"sugar beet": {KcbStart: 0.15, KcbMid: 1.15, KcbEnd: 0.50, Height: 0.5, RootMax: 1.2,
		Base: 3, Cap: 30, Maturity: 2300, Emergence: 0.06, Cover: 0.23, Full: 0.54, Late: 0.88,
		FirstPlanting: 105, LastPlanting: 151, SoilWarmth: 5, WorkDays: 3,
		H1: 0.10, H2: 0.25, H3High: 3.2, H3Low: 6, H4: 160},
	"alfalfa": {Perennial: true, KcbStart: 0.30, KcbMid: 0.90, Height: 0.7, RootMax: 1.5,
		Base: 5, Cap: 30, Maturity: 900, Emergence: 0.01, Full: 0.33,
		H1: 0.10, H2: 0.25, H3High: 15, H3Low: 15, H4: 80},
	"grass": {Perennial: true, KcbStart: 0.30, KcbMid: 0.90, Height: 0.25, RootMax: 1.0,
		Base: 5, Cap: 30, Maturity: 900, Emergence: 0.01, Full: 0.25,
		H1: 0.10, H2: 0.25, H3High: 2, H3Low: 8, H4: 80},
}

// Named finds a crop by name; the error lists those that there are.
func Named(name string) (Kind, error) {
	k, ok := kinds[strings.ToLower(strings.TrimSpace(name))]
	if !ok {
		return Kind{}, fmt.Errorf("found %q; allowed: %s", name, strings.Join(Names(), ", "))
	}
	k.Name = strings.ToLower(strings.TrimSpace(name))
	return k, nil
}

// Names lists the crops in alphabetical order.
func Names() []string {
	names := make([]string, 0, len(kinds))
	for n := range kinds {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}

// HeatUnits of a day, C-d: both extremes are held within Base and Cap before
// the mean is taken (the corn practice of Gilmore and Rogers 1958).
func (k Kind) HeatUnits(tmin, tmax float64) float64 {
	hold := func(t float64) float64 { return max(k.Base, min(t, k.Cap)) }
	return (hold(tmin)+hold(tmax))/2 - k.Base
}

// Uptake is Feddes' factor at a suction (m, positive when dry) for a demand of
// potential transpiration (mm/d), split into what is lost to wetness and what
// to drought: the factor itself is 1 - wet - dry.
func (k Kind) Uptake(suction, demand float64) (wet, dry float64) {
	switch {
	case suction <= k.H1:
		return 1, 0
	case suction < k.H2:
		return 1 - (suction-k.H1)/(k.H2-k.H1), 0
	}
	h3 := k.H3High
	switch {
	case demand <= 1:
		h3 = k.H3Low
	case demand < 5:
		h3 = k.H3High + (k.H3Low-k.H3High)*(5-demand)/4
	}
	switch {
	case suction <= h3:
		return 0, 0
	case suction >= k.H4:
		return 0, 1
	}
	return 0, 1 - (k.H4-suction)/(k.H4-h3)
}
