package site

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/drain"
	"mottle/soil"
	"mottle/weather"
)

// Validate returns every fault of a field, joined, each a *Fault with the key of
// the field file that it concerns: values out of range, and values that do not
// go together. A latitude, an elevation or an hour that is Unknown passes.
func (f Field) Validate() error { return f.check().err() }

func (f *Field) check() faults {
	var c checks
	if !math.IsNaN(f.Latitude) {
		// The calendar of crops and frost is that of the northern winter.
		c.within("latitude", f.Latitude, 1, 25, 70, "deg")
	}
	if !math.IsNaN(f.Elevation) {
		c.within("elevation", f.Elevation, 1, -500, 9000, "m")
	}
	if !math.IsNaN(f.ReadHour) {
		c.within("rain_read_at", f.ReadHour, 1, 1, 24, "h") // 24 is midnight
	}
	c.within("soil.restrictive_layer", f.Restrictive, 1, 0.5, 10, "m")
	c.within("soil.conductivity_factor", f.Conductance, 1, 0.01, 100, "")
	c.within("soil.lateral_over_vertical", f.Anisotropy, 1, 0.1, 100, "")
	c.profile("soil.horizons", f.Horizons)
	if last := len(f.Horizons) - 1; last >= 0 && f.Horizons[last].Bottom < f.Restrictive-1e-9 {
		c.add(fmt.Sprintf("soil.horizons[%d].to", last), "found %.4g m; the last horizon must reach the restrictive layer at %.4g m%s: describe the soil down to it, or set soil.restrictive_layer",
			f.Horizons[last].Bottom, f.Restrictive, f.ifAssumed("soil.restrictive_layer"))
	}
	c.within("surface.standing_water", f.Surface.Storage, 1000, 0, 500, "mm")
	if !math.IsInf(f.Surface.CrustK, 1) {
		c.within("surface.crust", f.Surface.CrustK, 3.6e6, 0.01, 1000, "mm/h")
	}
	c.within("surface.residue", f.Surface.Residue, 100, 0, 100, "%")
	c.base(f)
	if u := f.Runon; u != nil {
		c.within("run_on.area_ratio", u.Ratio, 1, 0.01, 1000, "")
		c.within("run_on.standing_water", u.Storage, 1000, 0, 500, "mm")
		c.within("run_on.outside_level", u.Level, 1, 0, 20, "m")
		c.profile("run_on.horizons", u.Horizons)
		if last := len(u.Horizons) - 1; last >= 0 && !math.IsNaN(u.Horizons[last].Bottom) {
			c.within(fmt.Sprintf("run_on.horizons[%d].to", last), u.Horizons[last].Bottom, 1, 0.5, 10, "m")
		}
	}
	if d := f.Ditch; d != nil {
		c.depth("ditch.depth", d.Depth, f)
		c.within("ditch.distance", d.Distance, 1, 1, 5000, "m")
	}
	c.tile("old_tile", f.Old, f)
	c.tile("tile", f.Tile, f)
	if len(f.Rotation) == 0 {
		c.add("crop", "found none; allowed at least one crop")
	}
	if f.ET.Method != weather.PenmanMonteith {
		c.within("evapotranspiration.hargreaves_factor", f.ET.HargreavesFactor, 1, 0.5, 1.5, "")
	}
	c.within("rain_salinity", f.RainEC, 1, 0, 5, "dS/m")
	c.farm(f)
	return c.faults
}

// ifAssumed marks a value that nobody gave.
func (f *Field) ifAssumed(key string) string {
	if f.Given(key) {
		return ""
	}
	return " (assumed)"
}

// checks gathers faults of values; NaN lies within no range.
type checks struct{ faults }

// within reports a value that, times scale, lies outside a range of the unit.
func (c *checks) within(key string, x, scale, low, high float64, unit string) {
	if v := x * scale; !(v >= low && v <= high) {
		c.add(key, "found %s; allowed %g to %g", strings.TrimSpace(fmt.Sprintf("%.5g %s", v, unit)), low, high)
	}
}

// profile reports the faults of a list of horizons. Soil says "horizons[1] (Bg):
// sand: found ..." and speaks of top and bottom; the field file's key is
// "soil.horizons[1].sand", and it speaks of from and to.
func (c *checks) profile(path string, horizons []soil.Horizon) {
	for i, h := range horizons {
		c.rest(fmt.Sprintf("%s[%d]", path, i), h)
	}
	err := soil.CheckProfile(horizons)
	if err == nil {
		return
	}
	list := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		list = joined.Unwrap()
	}
	for _, e := range list {
		said := strings.NewReplacer("].top:", "].from:", "top, bottom:", "from, to:").Replace(e.Error())
		entry, text, _ := strings.Cut(strings.TrimPrefix(said, "horizons"), ": ")
		key, _, _ := strings.Cut(path+entry, " (")
		if word, rest, ok := strings.Cut(text, ": "); ok && !strings.Contains(word, " ") {
			key, text = key+"."+word, rest
		}
		c.add(key, "%s", text)
	}
}

// rest reports two shares of a texture, each in range, that leave less than
// nothing for the third.
func (c *checks) rest(key string, h soil.Horizon) {
	var names []string
	sum := 0.0
	for i, x := range []float64{h.Sand, h.Silt, h.Clay} {
		if x >= 0 && x <= 100 {
			names, sum = append(names, [...]string{"sand", "silt", "clay"}[i]), sum+x
		}
	}
	if len(names) == 2 && sum > 100 {
		c.add(key, "%s: add up to %.4g %%; allowed 100 %% at most", strings.Join(names, ", "), sum)
	}
}

// depth reports a depth that does not lie between the surface and the
// restrictive layer.
func (c *checks) depth(key string, depth float64, f *Field) {
	if math.IsNaN(depth) || depth <= 0 || depth >= f.Restrictive {
		c.add(key, "found %.4g m; allowed above 0 and less than the depth of the restrictive layer, %.4g m%s",
			depth, f.Restrictive, f.ifAssumed("soil.restrictive_layer"))
	}
}

func (c *checks) base(f *Field) {
	if f.Base.Kind == Regional {
		c.within("groundwater.outside_level", f.Base.Level, 1, 0, 20, "m")
	}
	if f.Base.Kind == Regional || f.Runon != nil {
		c.within("groundwater.resistance", f.Base.Resistance, 1./86400, 1, 1e5, "d")
		c.within("groundwater.salinity", f.Base.EC, 1, 0, 100, "dS/m")
	}
	if f.Base.Kind == Seepage {
		c.within("groundwater.seepage", f.Base.Flux, 86400e3, 0, 20, "mm/d")
	}
}

func (c *checks) tile(key string, t *Tile, f *Field) {
	if t == nil {
		return
	}
	c.depth(key+".depth", t.Depth, f)
	if !math.IsInf(t.Spacing, 1) {
		c.within(key+".spacing", t.Spacing, 1, 1, 500, "m")
	}
	if _, _, err := drain.EffectiveRadius(t.Diameter, t.Wrap); err != nil {
		c.add(key+".diameter", "found %.4g mm; allowed 75 to 152 mm (3 to 6 in)", t.Diameter*1000)
	}
	if !math.IsInf(t.Coefficient, 1) {
		c.within(key+".drainage_coefficient", t.Coefficient, 86400e3, 0.1, 200, "mm/d")
	}
	if !(t.OutletWater >= 0) {
		c.add(key+".outlet_water", "found %.4g m; allowed a depth below the surface, from 0", t.OutletWater)
	}
	bottom := t.Depth
	if math.IsNaN(bottom) {
		bottom = math.Inf(1) // told above; the crest is not to blame
	}
	if err := t.Weir.Validate(bottom); err != nil {
		for line := range strings.SplitSeq(err.Error(), "\n") {
			c.add(key+".weir", "%s", strings.TrimPrefix(line, "drain: weir "))
		}
	}
}
