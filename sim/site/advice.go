package site

import (
	"fmt"
	"math"
	"strings"

	"mottle/sim/salt"
	"mottle/sim/unit"
	"mottle/soil"
	"mottle/weather"
)

// Warnings lists what is allowed in a field, and odd: what a careful adviser would
// ask about before running it. With a weather record, not nil, it also says what
// does not go with the record. Limits without a source beside them are common
// practice.
func (f *File) Warnings(s *weather.Series) []*Fault {
	a := adviser{Field: &f.Field}
	a.place()
	a.soil("soil.horizons", f.Field.Horizons)
	a.ground()
	a.surroundings()
	a.tile("old_tile", f.Field.Old)
	a.tile("tile", f.Field.Tile)
	a.salt()
	if f.farm {
		a.farm()
	}
	if s != nil {
		a.record(s)
	}
	f.page.locate(a.faults, f.lines)
	a.sort()
	return a.faults
}

// adviser gathers warnings about a field. Nothing is said of a value that nobody
// gave: it is among the assumptions.
type adviser struct {
	*Field
	faults
}

func (a *adviser) warn(key, format string, args ...any) {
	if a.Given(key) {
		a.add(key, format, args...)
	}
}

// usual warns of a value (SI) outside of what is usual, given with its unit; why
// says what to think of.
func (a *adviser) usual(key string, x, low, high float64, si, low2, high2, why string) {
	if x < low*(1-1e-9) || x > high*(1+1e-9) {
		a.warn(key, "found %s; usual are %s to %s: %s", si, low2, high2, why)
	}
}

// place warns of a made-up field that does not say so.
func (a *adviser) place() {
	for _, text := range []string{a.Name, a.Place} {
		for _, word := range []string{"invented", "example", "made up", "made-up", "fictional"} {
			if !a.Invented && strings.Contains(strings.ToLower(text), word) {
				a.warn("name", "found %.80q without the mark of made-up data: add \"invented: true\", so that every result says so", text)
				return
			}
		}
	}
}

// soil warns of each horizon's values.
func (a *adviser) soil(path string, horizons []soil.Horizon) {
	for i, h := range horizons {
		at := fmt.Sprintf("%s[%d]", path, i)
		if sum := h.Sand + h.Silt + h.Clay; math.Abs(sum-100) > 0.11 { // false for a share that is not given
			a.warn(at+".sand", "sand, silt and clay add up to %.4g %%: mend one, or leave one out", sum)
		}
		if d := h.BulkDensity; d < 0.9 || d > 1.9 {
			a.warn(at+".bulk_density", "found %.4g g/cm3; usual are 0.9 to 1.9: peat lies below, rock above; is it the dry mass over the whole volume?", d)
		}
		// The relation was fitted up to 8 % (Saxton and Rawls 2006).
		if h.Organic > 8 {
			a.warn(at+".organic_matter", "found %.4g %%; the relations for mineral soil hold to 8 %%: give bulk_density and a measured curve for peat", h.Organic)
		}
		if h.Structure > 20 {
			a.warn(at+".structure", "found %.4g; three measured fields gave 2 to 15", h.Structure)
		}
		a.conductivity(at+".ksat", h)
	}
	if path != "soil.horizons" {
		return
	}
	if n := len(horizons) - 1; n > 0 && horizons[n].Top >= a.Restrictive-1e-9 {
		a.warn(fmt.Sprintf("%s[%d].from", path, n), "the horizon lies below the restrictive layer at %.4g m: the column ends there, and it plays no part", a.Restrictive)
	}
}

// odds is how far a measured conductivity may lie from the derived one, as a
// factor; measurements of one soil scatter over a factor of ten.
const odds = 100

// conductivity warns of a saturated conductivity far from that of its texture.
func (a *adviser) conductivity(key string, h soil.Horizon) {
	given := h.Ksat
	h.Ksat, h.ThetaR, h.ThetaS, h.Alpha, h.N = Unknown, Unknown, Unknown, Unknown, Unknown
	m, err := soil.Derive(h)
	if err != nil || math.IsNaN(given) || given < m.Ksat*odds && given > m.Ksat/odds {
		return // no texture, none given, or no oddity
	}
	a.warn(key, "found %.3g m/d; a %s of this density has about %.3g m/d: more than a factor of %d apart; is the unit right?",
		given*perDay, m.Texture, m.Ksat*perDay, odds)
}

const perDay = 86400 // seconds

// ground warns of the whole profile and of the surface.
func (a *adviser) ground() {
	a.usual("soil.conductivity_factor", a.Conductance, 0.1, 10, exact(a.Conductance), "0.1", "10", "it multiplies every horizon's conductivity")
	a.usual("soil.lateral_over_vertical", a.Anisotropy, 1, 10, exact(a.Anisotropy), "1", "10", "layers carry water along rather than across")
	a.usual("surface.standing_water", a.Surface.Storage, 0.002, 0.05, meters(a.Surface.Storage), "2 mm", "50 mm", "what stands before it runs off (field practice)")
	if a.Surface.Residue > 0.9 {
		a.warn("surface.residue", "found %.3g %%; no-till leaves 60 to 80 %% after planting", 100*a.Surface.Residue)
	}
}

// surroundings warns of what lies below and around.
func (a *adviser) surroundings() {
	b := a.Base
	if b.Kind == Regional {
		if b.Level < 0.3 {
			a.warn("groundwater.outside_level", "found %s: the field is fed all year by water at its surface; is it a depth?", meters(b.Level))
		}
		a.usual("groundwater.resistance", b.Resistance, 100*perDay, 10000*perDay, exact(b.Resistance/perDay)+" d", "100 d", "10000 d", "three measured fields agreed on some 1500 d")
	}
	if b.Kind == Seepage && b.Flux*perDay > 0.002 {
		a.warn("groundwater.seepage", "found %.3g mm/d, %.0f mm a year: little would be left to drain", b.Flux*perDay*1000, b.Flux*perDay*365250)
	}
	if u := a.Runon; u != nil {
		if u.Ratio > 20 {
			a.warn("run_on.area_ratio", "found %.4g; all runoff of land %.4g times the field's area reaches it at once: is it a channel, with an outlet of its own?", u.Ratio, u.Ratio)
		}
		a.soil("run_on.horizons", u.Horizons)
	}
	if d := a.Ditch; d != nil && d.Distance > 1000 {
		a.warn("ditch.distance", "found %s: a ditch that far draws next to nothing", meters(d.Distance))
	}
	if a.RainEC > 0.2 {
		a.warn("rain_salinity", "found %.3g dS/m; rain far from the sea has 0.01 to 0.05", a.RainEC)
	}
}

// salt warns of soil in which no crop of the rotation would stand (Maas and
// Hoffman 1977: half of the yield is lost 50/slope above the threshold).
func (a *adviser) salt() {
	if len(a.Horizons) == 0 {
		return
	}
	for _, k := range a.Rotation {
		t, err := salt.ToleranceOf(k.Name)
		if err != nil {
			continue
		}
		half := t.Threshold + 50/t.Slope
		if ece := a.Horizons[0].SalinityEC; ece > half {
			a.warn("soil.horizons[0].ece", "found %.3g dS/m; %s loses half of its yield at %.3g: is it of the saturation extract, in dS/m?", ece, k.Name, half)
			return
		}
	}
}

// meters writes a length in m.
func meters(x float64) string { return fmt.Sprintf("%.4g m", x) }

// rate writes a rate of water over an area.
func rate(x float64) string { return unit.SI.Format(x*perDay*1000, "mm/d") }
