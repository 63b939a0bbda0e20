package compare

import (
	"fmt"
	"math"

	"mottle/sim/site"
	"mottle/sim/snow"
	"mottle/weather"
)

// unmeasured is an input that nobody gave, with the values it is tried at.
type unmeasured struct {
	over     string // what varies, and between what
	variants []variant
}

// unmeasuredInputs lists the ranges to try: every input that decides an answer
// and was assumed, and the hours of the day's rain where only days are known.
// The ranges are those over which three measured fields and thirty-year pairs on
// four soils moved (DEVELOPERS.md); none is fitted to a site. drawn says whether
// the hours of any day's rain were.
func unmeasuredInputs(central variant, s *weather.Series, drawn bool) []unmeasured {
	f := central.field
	var list []unmeasured
	try := func(key, over string, changes ...func(*site.Field)) {
		if f.Given(key) {
			return
		}
		u := unmeasured{over: over}
		for _, change := range changes {
			v := central
			copied := *f
			v.field = &copied
			change(&copied)
			u.variants = append(u.variants, v)
		}
		list = append(list, u)
	}
	if f.Base.Kind == site.Regional {
		level := func(d float64) func(*site.Field) {
			return func(f *site.Field) { f.Base.Level = math.Min(d, f.Restrictive) }
		}
		resistance := func(days float64) func(*site.Field) {
			return func(f *site.Field) { f.Base.Resistance = days * 86400 }
		}
		try("groundwater.outside_level", "outside water level 1.0 to 2.0 m", level(1), level(2))
		try("groundwater.resistance", "resistance to the outside water 300 to 3000 d", resistance(300), resistance(3000))
	}
	factor := func(x float64) func(*site.Field) {
		return func(f *site.Field) { f.Conductance *= x }
	}
	try("soil.conductivity_factor", "conductivity of the soil, 0.4 to 2.5 times", factor(0.4), factor(2.5))
	expose := func(e snow.Exposure) func(*site.Field) {
		return func(f *site.Field) { f.Surface.Exposure = e }
	}
	try("surface.snow", "snow: sheltered, open, swept", expose(snow.Sheltered), expose(snow.Open), expose(snow.Swept))
	stand := func(mm float64) func(*site.Field) {
		return func(f *site.Field) { f.Surface.Storage = mm / 1000 }
	}
	try("surface.standing_water", "water standing before runoff, 2 to 50 mm", stand(2), stand(50))
	crust := func(mmPerHour float64) func(*site.Field) {
		return func(f *site.Field) { f.Surface.CrustK = mmPerHour / 1000 / 3600 }
	}
	try("surface.crust", "a crust on the ground, none to 1 mm/h", crust(1))
	residue := func(x float64) func(*site.Field) {
		return func(f *site.Field) { f.Surface.Residue = x }
	}
	try("surface.residue", "residue on the ground, 10 to 70 %", residue(0.1), residue(0.7))
	demand := func(x float64) func(*site.Field) {
		return func(f *site.Field) { f.ET.HargreavesFactor = x }
	}
	if _, used, _, err := weather.ReferenceET(s, f.Latitude, f.Elevation, f.ET); err == nil && used == weather.Hargreaves {
		try("evapotranspiration.hargreaves_factor", "reference evapotranspiration, factor 0.80 to 0.96", demand(0.80), demand(0.96))
	}
	if drawn {
		u := unmeasured{over: fmt.Sprintf("hours of the day's rain, %d draws", draws)}
		for d := 1; d < draws; d++ {
			v := central
			v.draw = central.draw + d
			u.variants = append(u.variants, v)
		}
		list = append(list, u)
	}
	return list
}

// draws of storms that are run, the central one included.
const draws = 3
