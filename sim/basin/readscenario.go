package basin

import (
	"fmt"
	"math"
	"slices"

	"github.com/goccy/go-yaml/ast"

	"mottle/sim/site"
	"mottle/sim/unit"
)

// rules are the words for which units are drained.
var rules = []string{"today", "none", "all", "wettest first", "lowest first", "listed"}

// usual are the scenarios where none are named.
func usual() []Scenario {
	return []Scenario{{Name: "today", Drained: AsToday}, {Name: "none", Drained: Undrained}, {Name: "all", Drained: AllDrained}}
}

// scenarios reads what is to be set beside each other.
func (rd *reading) scenarios(s *site.Section) {
	if !s.Has("scenarios") {
		rd.b.Scenarios = usual()
		rd.b.Assumed = append(rd.b.Assumed, site.Assumption{Key: "scenarios", Value: "today, none, all", Reason: "none were named"})
		return
	}
	var names []string
	for i, e := range s.Sections("scenarios") {
		sc := rd.scenario(e, names, i)
		names = append(names, sc.Name)
		rd.b.Scenarios = append(rd.b.Scenarios, sc)
	}
	if len(names) == 0 {
		s.Fault("scenarios", "found no entry; give at least one, or take the key out")
	}
}

func (rd *reading) scenario(e *site.Section, names []string, i int) Scenario {
	path := fmt.Sprintf("scenarios[%d].", i)
	node := entryOf(child(rd.root, "scenarios"), i)
	sc := Scenario{Name: rd.named(e, "scenario", names)}
	if e.Has("drained") {
		sc.Drained = Rule(max(0, slices.Index(rules, e.Choice("drained", rules, rules[0], ""))))
	}
	bySize := sc.Drained == WettestFirst || sc.Drained == LowestFirst
	said := "drained " + rules[sc.Drained]
	sc.Share = share(e, "drained_share", bySize, bySize, said)
	sc.Units = rd.words(e, path, node, "drained_units")
	if named := len(sc.Units) > 0; named != (sc.Drained == Listed) {
		e.Fault("drained_units", "%s", map[bool]string{true: "found units; they do nothing with " + said + ": take them out, or write drained: listed", false: "missing; drained listed needs ids or groups"}[named])
	}
	for _, key := range []string{"tile", "weir"} {
		e.Has(key)
	}
	if lays := sc.Drained != AsToday && sc.Drained != Undrained; e.Has("tile") && !lays {
		e.Fault("tile", "found with %s, which lays none: take it out, or choose otherwise", said)
	} else if e.Has("tile") {
		if f, ok := rd.field(path, node, []string{"tile"}, deepLoam); ok && f.Tile == nil {
			e.Fault("tile", `found "none"; allowed depth, spacing and the other keys of tile`)
		} else if ok {
			sc.Tile = f.Tile
			for _, a := range f.Assumed {
				a.Key = path + a.Key
				rd.b.Assumed = append(rd.b.Assumed, a)
			}
		}
	}
	rd.controlled(e, &sc, path, node)
	sc.Wetlands = rd.words(e, path, node, "wetland_units")
	sc.WetlandStorage = e.Optional("wetland_storage", unit.Length)
	switch {
	case len(sc.Wetlands) == 0 && e.Has("wetland_storage"):
		e.Fault("wetland_storage", "found without wetland_units; it does nothing: take it out, or name the units")
	case len(sc.Wetlands) == 0:
		sc.WetlandStorage = 0
	case !e.Has("wetland_storage"):
		e.Fault("wetland_storage", "missing; give the depth of water that stands there before it runs off (for example 0.3 m)")
	case sc.WetlandStorage < 0 || sc.WetlandStorage > 0.5:
		e.Fault("wetland_storage", "found %.4g m; allowed 0 to 0.5 m", sc.WetlandStorage)
	}
	e.End()
	return sc
}

// share is a share that is needed, or does nothing.
func share(e *site.Section, key string, plays, needed bool, said string) float64 {
	switch {
	case !plays && e.Has(key):
		e.Fault(key, "found with %s; it does nothing: take it out, or choose otherwise", said)
	case plays && needed && !e.Has(key):
		e.Fault(key, "missing; give %s", unit.Fraction.Allowed())
	case plays:
		if x := e.Optional(key, unit.Fraction); !math.IsNaN(x) {
			return x
		}
	}
	return 0
}

// controlled reads which drained units have a control weir, and its calendar.
func (rd *reading) controlled(e *site.Section, sc *Scenario, path string, node ast.Node) {
	sc.ControlledUnits = rd.words(e, path, node, "controlled_units")
	sc.ControlledShare = share(e, "controlled_share", true, false, "")
	controls := len(sc.ControlledUnits) > 0 || sc.ControlledShare > 0
	switch {
	case len(sc.ControlledUnits) > 0 && e.Has("controlled_share"):
		e.Fault("controlled_share", "found beside controlled_units; give one or the other")
	case controls && !e.Has("weir"):
		e.Fault("weir", "missing; give the periods in which a crest holds the outlet (for example [{from: 10-15, to: 04-15, crest: 0.4 m}])")
	case !controls && e.Has("weir"):
		e.Fault("weir", "found without controlled_units or controlled_share; it does nothing: take it out, or name the units")
	case controls && e.None("weir"):
		e.Fault("weir", `found "none"; allowed a list of periods`)
	case controls:
		sc.Weir = rd.weir(path, child(node, "weir"))
	}
}

// selections checks what scenarios name against the units that there are.
func (rd *reading) selections() {
	if len(rd.b.Units) == 0 {
		return
	}
	known := map[string]bool{}
	var words []string
	for _, u := range rd.b.Units {
		for _, word := range []string{u.ID, u.Group} {
			if word != "" && !known[word] {
				known[word] = true
				words = append(words, word)
			}
		}
	}
	list := child(rd.root, "scenarios")
	for i, s := range rd.b.Scenarios {
		entry := entryOf(list, i)
		for _, named := range []struct {
			key   string
			words []string
		}{{"drained_units", s.Units}, {"controlled_units", s.ControlledUnits}, {"wetland_units", s.Wetlands}} {
			key := fmt.Sprintf("scenarios[%d].%s", i, named.key)
			for _, word := range named.words {
				if !known[word] {
					rd.at(lineOf(child(entry, named.key)), key, "found %.80q; allowed the id of a unit, or a group%s", word, meant(word, words))
				}
			}
		}
		if s.Drained == LowestFirst {
			for _, u := range rd.b.Units {
				if math.IsNaN(u.Elevation) && u.drainable() {
					rd.row(rd.unitFile, u.Row, "elevation", "missing; scenario %q drains the lowest first", s.Name)
				}
			}
		}
		rd.crests(s)
	}
}

// crests checks that a weir's crest lies above the tile that it is to hold.
func (rd *reading) crests(s Scenario) {
	for _, p := range s.Weir {
		for i := range rd.b.Units {
			u := &rd.b.Units[i]
			depth := u.Design.Depth
			if s.Tile != nil && u.Tile == nil {
				depth = s.Tile.Depth
			}
			if mayHold := s.ControlledShare > 0 || u.among(s.ControlledUnits); mayHold && u.drainable() && p.CrestDepth > depth {
				rd.row(rd.unitFile, u.Row, "tile_depth", "found %.4g m; allowed at least %.4g m, the crest in scenario %q", depth, p.CrestDepth, s.Name)
			}
		}
	}
}
