// Package basin is a small watershed as a planner describes it: land units that
// drain to one another, to reaches and to the outlet, with the soils, the weather
// stations and the scenarios to be set beside each other.
//
// Units come from any GIS as CSV or GeoJSON (see Columns), all else from a file of
// keys (see Keys). SI throughout: m, m2, s, m3/s, slopes as fractions.
package basin

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"

	"mottle/sim/compare"
	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/site"
)

// Outlet is the name of the point that all water leaves by.
const Outlet = "outlet"

// Basin is a watershed that was read without a fault.
type Basin struct {
	Name     string
	Place    string
	Invented bool // the demo and whatever else is made up

	Latitude  float64 // degrees; NaN: taken from the weather file
	Elevation float64 // m; NaN: taken from the weather file
	ReadHour  float64 // hour at which rain is read, 24 midnight; NaN: from the weather file

	Units   []Unit  // as they stand in the file
	Reaches []Reach // likewise

	// Soils by name: each a field without tile, crop and name of its own. Field
	// lays a unit's on it.
	Soils     map[string]site.Field
	Stations  map[string]Station // by name; empty: one, which the caller supplies
	Scenarios []Scenario         // at least one

	Assumed []site.Assumption // inputs that nobody gave
	Notes   []string          // what was read in another way than it stands, or left aside
}

// Unit is a piece of land of one soil, one cover and one way down.
type Unit struct {
	ID        string
	Group     string  // any word by which scenarios may name several; "" for none
	Area      float64 // m2
	Soil      string  // a key of Basin.Soils
	Cover     []crop.Kind
	Slope     float64    // fall over length
	Tile      *site.Tile // what drains it today, nil for none
	Design    site.Tile  // what a scenario lays that drains it: Tile's where there is one
	Storage   float64    // depth of water that stands before it runs off, m
	To        string     // the unit or reach that it drains to, or Outlet
	Length    float64    // travel length to there, m
	Station   string     // a key of Basin.Stations, "" where there are none
	Elevation float64    // m; NaN when not given
	Row       int        // line of the table in which it stands, or number of the feature from 1

	Geometry   []byte     // GeoJSON geometry; nil when there is none
	Properties []Property // as they stand in the file, for output
}

// Reach is a piece of ditch or stream, or a pond in it.
type Reach struct {
	ID        string
	To        string  // the reach that it leads to, or Outlet
	Length    float64 // m
	Slope     float64 // fall over length
	Width     float64 // of the bed, m
	Roughness float64 // Manning's n
	Pond      *Pond   // at its lower end; nil for none
	// OutletCapacity is the most that leaves at its lower end, m3/s; +Inf for no limit.
	OutletCapacity float64
	Row            int // line of the file in which it stands

	coefficient float64 // outlet capacity over the land above, m/s; 0 for none
}

// Pond is a level pool.
type Pond struct {
	Area    float64 // of its water, m2
	Depth   float64 // from the outlet to the brim, m
	Outflow float64 // what the outlet carries with the pond full to the brim, m3/s
}

// Station is where weather was recorded.
type Station struct {
	Name   string
	File   string // "" for the demo's invented record
	Demo   bool   // Record is the caller's to supply
	Record compare.Record
}

// Rule says which units are drained.
type Rule int

// The rules. Land is drainable when an annual crop grows on it, or tile lies there
// today.
const (
	AsToday      Rule = iota // what is drained today
	Undrained                // none
	AllDrained               // all that is drainable
	WettestFirst             // a share: today's first, then the wettest as they lie
	LowestFirst              // a share: today's first, then the lowest
	Listed                   // today's and those named
)

// Scenario is what changes from today.
type Scenario struct {
	Name    string
	Drained Rule
	Share   float64    // of the drainable land, 0-1; WettestFirst, LowestFirst
	Units   []string   // ids or groups; Listed
	Tile    *site.Tile // what is laid where none lies today; nil: the unit's Design

	Weir            drain.WeirSchedule // of controlled units
	ControlledUnits []string           // ids or groups, as far as they are drained
	ControlledShare float64            // of the drained land, the flattest first, 0-1

	Wetlands       []string // ids or groups: tile taken up, grass, storage
	WetlandStorage float64  // depth of water that stands there, m
}

// maxFile is how much is read of a basin file, bytes: more than site.ReadKeys takes,
// which says what is wrong.
const maxFile = 1 << 20

// Read reads a basin file (YAML, see Keys) and the files that it names, each opened
// by open under the path as it stands there, which is relative to the basin file.
// Whether a path may lead out of the folder, by .. or by a link, is for open to say;
// one that visibly does is noted. Every fault of all files is reported, each a
// *site.Fault on a line of its own; equal ones of a table share a line with all of
// their rows.
func Read(name string, r io.Reader, open func(path string) (io.ReadCloser, error)) (*Basin, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	rd := newReading(name, data, open)
	err = site.ReadKeys(name, bytes.NewReader(data), "basin", "units, reaches and soils", rd.basin)
	for _, f := range site.Faults(err) {
		rd.add(f)
	}
	if err := rd.err(); err != nil {
		return nil, err
	}
	return rd.b, nil
}

// Field is a unit as a field: its soil with the unit's cover, tile and storage.
func (b *Basin) Field(u *Unit) (site.Field, error) {
	f, ok := b.Soils[u.Soil]
	if !ok {
		return f, fmt.Errorf("unit %s: found soil %q, which the basin does not hold", u.ID, u.Soil)
	}
	f.Name, f.Place, f.Invented = u.ID, b.Place, b.Invented
	if u.Storage != f.Surface.Storage { // the unit's own is no assumption
		f.Assumed = slices.DeleteFunc(slices.Clone(f.Assumed), func(a site.Assumption) bool { return a.Key == "surface.standing_water" })
	}
	f.Rotation, f.Tile, f.Surface.Storage = u.Cover, u.Tile, u.Storage
	return f, nil
}

// errNoOpen is why a file cannot be read where none can be opened.
var errNoOpen = errors.New("no other files are at hand here")
