package site

import (
	"fmt"
	"math"
	"strconv"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/crop"
	"mottle/sim/snow"
	"mottle/sim/unit"
	"mottle/soil"
	"mottle/weather"
)

// field reads the whole file.
func (r *reader) field(s *Section) Field {
	f := Field{
		Name: s.Text("name"), Place: s.Text("place"), Invented: s.Yes("invented"),
		Latitude:  s.Optional("latitude", unit.Angle),
		Elevation: s.Optional("elevation", unit.Length),
		ReadHour:  s.Optional("rain_read_at", unit.Clock),
	}
	relation := s.soil(&f)
	s.surface(&f.Surface)
	if u := s.feature("run_on", "none was stated; ask whether water runs on from land above"); u != nil {
		f.Runon = u.runon(relation)
	}
	s.groundwater(&f)
	if d := s.feature("ditch", "none was stated"); d != nil {
		f.Ditch = &Ditch{Depth: d.Required("depth", unit.Length), Distance: d.Required("distance", unit.Length)}
		d.End()
	}
	if t := s.feature("old_tile", "none was stated; ask for old tile"); t != nil {
		f.Old = t.tile()
	}
	// Without a word on tile a system of defaults is judged.
	if !s.None("tile") {
		f.Tile = s.Group("tile").tile()
	}
	s.rotation(&f)
	s.evapotranspiration(&f.ET)
	s.storms(&f.Storms)
	f.RainEC = s.quantity("rain_salinity", unit.Salinity, "0.02 dS/m", "rain far from the sea")
	s.farm(&f)
	s.End()
	return f
}

// Yes reads a key that is true or false; absent is false.
func (s *Section) Yes(key string) bool {
	s.form(key).kind = yes
	found := s.Text(key)
	if found != "" && found != "true" && found != "false" {
		s.faults.add(s.at(key), "found %.80q; allowed true, false", found)
	}
	return found == "true"
}

// soil reads the soil, and returns the relation that holds for every horizon of the
// file.
func (s *Section) soil(f *Field) soil.Relation {
	g := s.Group("soil")
	s.form("soil").needed = true // without it there is no profile
	f.Restrictive = g.quantity("restrictive_layer", unit.Length, "3 m", "nobody dug for the dense layer; ask where the auger stops")
	relation := g.relation("relation")
	f.Horizons = g.horizons("horizons", relation)
	factor, ok, absent := g.given("conductivity_factor", unit.Number)
	g.form("conductivity_factor").fallback = "1"
	if !ok {
		factor = 1
	}
	if absent && !measured(f.Horizons) {
		g.assume("conductivity_factor", "1", "nobody measured the conductivity")
	}
	f.Conductance = factor
	f.Anisotropy = g.quantity("lateral_over_vertical", unit.Number, "1", "nobody measured it; water is taken to move as easily along the layers as across")
	g.End()
	return relation
}

// relation reads by which relation texture is turned into water and conductivity.
func (s *Section) relation(key string) soil.Relation {
	var words []string
	for _, r := range soil.Relations() {
		words = append(words, r.String())
	}
	word := s.Choice(key, words, soil.SaxtonRawls2006.String(), "it knows density and organic matter; run the field with the other one too: they differ as much as fields do")
	r, err := soil.ParseRelation(word)
	if err != nil {
		panic(err) // the words are its own
	}
	return r
}

// measured says whether every horizon's conductivity was given.
func measured(horizons []soil.Horizon) bool {
	for _, h := range horizons {
		if math.IsNaN(h.Ksat) {
			return false
		}
	}
	return len(horizons) > 0
}

// horizons reads a soil profile.
func (s *Section) horizons(key string, relation soil.Relation) []soil.Horizon {
	s.form(key).needed = true
	var profile []soil.Horizon
	for _, h := range s.Sections(key) {
		profile = append(profile, soil.Horizon{
			Name: h.Text("name"), Top: h.Required("from", unit.Length), Bottom: h.Required("to", unit.Length),
			Sand: h.Optional("sand", unit.Percent), Silt: h.Optional("silt", unit.Percent), Clay: h.Optional("clay", unit.Percent),
			Organic:     h.Optional("organic_matter", unit.Percent),
			BulkDensity: h.Optional("bulk_density", unit.Density),
			Ksat:        h.Optional("ksat", unit.Conductivity),
			Structure:   h.Optional("structure", unit.Number),
			SalinityEC:  h.Optional("ece", unit.Salinity),
			ThetaR:      h.Optional("theta_r", unit.Fraction), ThetaS: h.Optional("theta_s", unit.Fraction),
			Alpha: h.Optional("alpha", unit.InverseLength), N: h.Optional("n", unit.Number),
			Water33: h.Optional("water_33kpa", unit.Fraction), Water1500: h.Optional("water_1500kpa", unit.Fraction),
			Relation: relation,
		})
		h.End()
	}
	return profile
}

// exposures are the words for what wind does to the snow.
var exposures = map[string]snow.Exposure{"open": snow.Open, "sheltered": snow.Sheltered, "swept": snow.Swept}

func (s *Section) surface(v *Surface) {
	g := s.Group("surface")
	v.Storage = g.quantity("standing_water", unit.Length, "12 mm", "nobody measured what stands before it runs off; 2 to 50 mm is field practice")
	v.CrustK = g.unlimited("crust", unit.Conductivity, "none was stated; ground that crusts takes in 1 to 2 mm/h")
	v.Residue = g.quantity("residue", unit.Fraction, "40 %", "between the 30 % where reduced tillage begins and the 60-80 % of no-till; look at the field after planting")
	v.Exposure = exposures[g.Choice("snow", []string{"open", "sheltered", "swept"}, "open", "nobody said what wind does to the snow here; it decides when frost goes out")]
	g.End()
}

func (s *Section) runon(relation soil.Relation) *Runon {
	u := &Runon{
		Ratio:    s.Required("area_ratio", unit.Number),
		Horizons: s.horizons("horizons", relation),
		Storage:  s.quantity("standing_water", unit.Length, "5 mm", "sloping land holds little; 2 to 10 mm is field practice"),
		Level:    s.quantity("outside_level", unit.Length, "2.5 m", "nobody gauged it; higher land lies further above the regional water"),
	}
	s.End()
	return u
}

// bases are the words for what the ground water is connected to.
var bases = map[string]Outside{"regional": Regional, "seepage": Seepage, "closed": Closed}

func (s *Section) groundwater(f *Field) {
	g := s.Group("groundwater")
	b := &f.Base
	kind := g.Choice("kind", []string{"regional", "seepage", "closed"}, "regional", "a water level outside, through a resistance, both ways, fitted three measured fields best")
	b.Kind = bases[kind]
	with := "kind " + kind
	b.Level = g.part(b.Kind == Regional, with, "outside_level", unit.Length, "1.4 m", "what three measured fields agreed on; ask what stands in a nearby well or ditch in late summer")
	// The land above a wet spot stands on outside water whatever the field does.
	outside := b.Kind == Regional || f.Runon != nil
	b.Resistance = g.part(outside, with, "resistance", unit.Time, "1500 d", "what three measured fields agreed on; nobody measures it")
	b.EC = g.part(outside, with, "salinity", unit.Salinity, "2 dS/m", "nobody sampled the ground water")
	b.Flux = g.part(b.Kind == Seepage, with, "seepage", unit.Conductivity, "0.5 mm/d", "nobody measured it")
	g.End()
}

// part is a quantity that plays a part with some choices only; with another
// choice it is a fault to give it, for it would do nothing.
func (s *Section) part(plays bool, with, key string, dim unit.Dimension, fallback, reason string) float64 {
	if s.plays(plays, with, key) {
		return s.quantity(key, dim, fallback, reason)
	}
	return 0
}

// plays says whether a key is to be read, for it plays a part; if it does not, it is
// a fault to give it. The survey reads every key.
func (s *Section) plays(part bool, with, key string) bool {
	if part || s.survey {
		return true
	}
	if node := s.take(key); node != nil {
		s.faults.add(s.at(key), "found %s; it does nothing with %s: take it out, or choose otherwise", describe(node), with)
	}
	return false
}

// rotation reads one crop or a list of crops by year.
func (s *Section) rotation(f *Field) {
	node := s.take("crop")
	form := s.form("crop")
	form.kind, form.words, form.fallback = crops, crop.Names(), "corn, soybean"
	if node == nil {
		s.assume("crop", "corn, soybean", "the common rotation of drained cropland")
		f.Rotation = []crop.Kind{named("corn"), named("soybean")}
		return
	}
	entries := []ast.Node{node}
	if _, single := scalar(node); !single {
		entries = s.list("crop")
	}
	for i, entry := range entries {
		key := fmt.Sprintf("crop[%d]", i)
		name, ok := scalar(entry)
		if !ok {
			s.faults.add(key, "found %s; allowed the name of a crop", describe(entry))
			continue
		}
		kind, err := crop.Named(name)
		if err != nil {
			s.faults.add(key, "%v%s", err, meant(name, crop.Names()))
		}
		f.Rotation = append(f.Rotation, kind)
	}
}

// named is a crop that there is.
func named(name string) crop.Kind {
	kind, err := crop.Named(name)
	if err != nil {
		panic(err) // a fallback is the program's own
	}
	return kind
}

// methods are the words for reference evapotranspiration.
var methods = map[string]weather.ETMethod{"auto": weather.Auto, "penman-monteith": weather.PenmanMonteith, "hargreaves": weather.Hargreaves}

func (s *Section) evapotranspiration(c *weather.ETChoice) {
	g := s.Group("evapotranspiration")
	method := g.Choice("method", []string{"auto", "penman-monteith", "hargreaves"}, "auto", "Penman-Monteith where the weather has sun and humidity, Hargreaves elsewhere")
	c.Method = methods[method]
	fallback := strconv.FormatFloat(weather.DefaultHargreavesFactor, 'g', -1, 64)
	c.HargreavesFactor = g.part(c.Method != weather.PenmanMonteith, "method "+method, "hargreaves_factor", unit.Number, fallback, "five reference stations of this climate gave 0.88 to 0.92 of the published coefficient")
	g.End()
}

func (s *Section) storms(v *Storms) {
	g := s.Group("storms")
	v.Seed = g.whole("seed", "1", "any will do")
	v.Draw = int(g.whole("draw", "0", "the first of the draws"))
	g.End()
}

// whole is a whole number from 0.
func (s *Section) whole(key, fallback, reason string) uint64 {
	form := s.form(key)
	form.kind, form.fallback = whole, fallback
	text := fallback
	if s.take(key) == nil {
		s.assume(key, fallback, reason)
	} else if text = s.Text(key); text == "" {
		return 0
	}
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil {
		s.faults.add(s.at(key), "found %.80q; allowed a whole number from 0 to %d", text, math.MaxInt32)
	}
	return n
}
