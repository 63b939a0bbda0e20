package basin

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"mottle/sim/compare"
	"mottle/sim/crop"
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/weather"
)

// common are the keys that hold for all units, as in the field file.
var common = []string{"latitude", "elevation", "rain_read_at", "evapotranspiration", "storms", "rain_salinity"}

// basin reads the whole file.
func (rd *reading) basin(s *site.Section) {
	rd.tree()
	b := rd.b
	b.Name, b.Place, b.Invented = s.Text("name"), s.Text("place"), s.Yes("invented")
	for _, key := range common {
		s.Has(key)
	}
	f, _ := rd.field("", rd.root, common, deepLoam, noTile)
	b.Latitude, b.Elevation, b.ReadHour = f.Latitude, f.Elevation, f.ReadHour
	b.Assumed = append(b.Assumed, f.Assumed...)
	rd.soils(s, f)
	rd.stations(s)
	rd.unitDefaults(s)
	rd.units(s)
	rd.reaches(s)
	rd.scenarios(s)
	s.End()
	rd.network()
	rd.grounds()
	rd.selections()
}

// named reads the name of an entry of a list, which may stand once.
func (rd *reading) named(s *site.Section, what string, names []string) string {
	name := s.Text("name")
	switch {
	case !s.Has("name"):
		s.Fault("name", "missing; give the %s a name", what)
	case slices.Contains(names, name):
		s.Fault("name", "found %.80q a second time; give each %s a name of its own", name, what)
	}
	return name
}

// stations reads where weather was recorded.
func (rd *reading) stations(s *site.Section) {
	for _, e := range s.Sections("stations") {
		st := Station{Name: rd.named(e, "station", rd.stationNames)}
		file, _ := e.Text("weather"), e.Has("hourly")
		pick := weather.Pick{Station: e.Text("station")}
		switch {
		case !e.Has("weather"):
			e.Fault("weather", "missing; give a weather file, or demo for the demo's invented record")
		case file == "demo":
			st.Demo = true
			for _, key := range []string{"station", "hourly"} {
				if e.Has(key) {
					e.Fault(key, "found %.80q; it does nothing with weather demo: take it out", e.Text(key))
				}
			}
		default:
			st.File = file
			rd.record(e, &st, pick)
		}
		if !slices.Contains(rd.stationNames, st.Name) {
			rd.stationNames = append(rd.stationNames, st.Name)
		}
		rd.b.Stations[st.Name] = st
		e.End()
	}
}

// record reads a station's daily record and, where given, its hours of rain.
func (rd *reading) record(e *site.Section, st *Station, pick weather.Pick) {
	if in := rd.file(e, "weather", st.File); in != nil {
		series, report, err := weather.Read(st.File, in, pick)
		in.Close()
		for _, f := range site.Faults(err) {
			rd.add(f)
		}
		st.Record = compare.Record{Series: series, Report: report}
	}
	hourly := e.Text("hourly")
	if hourly == "" {
		return
	}
	if in := rd.file(e, "hourly", hourly); in != nil {
		data := rd.all(e, "hourly", hourly, in)
		st.Record.Hourly = func(s *weather.Series) (*weather.Series, []string, error) {
			return s.WithHourly(hourly, bytes.NewReader(data))
		}
	}
}

// largest is how much of a table or of hours is read, bytes: ten thousand units with
// their outlines are a tenth.
const largest = 1 << 28

// file opens a file that the basin file names, nil after a fault.
func (rd *reading) file(s *site.Section, key, name string) io.ReadCloser {
	if name == "" {
		return nil // told
	}
	if strings.Contains(name, "://") {
		s.Fault(key, "found %.80q; allowed a file: nothing is fetched from a network", name)
		return nil
	}
	if clean := path.Clean(name); path.IsAbs(clean) || clean == ".." || strings.HasPrefix(clean, "../") {
		rd.note("%s lies outside the folder of %s", name, rd.name)
	}
	in, err := rd.open(name)
	switch {
	case err == nil:
		return in
	case errors.Is(err, fs.ErrNotExist):
		s.Fault(key, "found %.80q, a file that is not there; paths are relative to %s", name, rd.name)
	default:
		var at *fs.PathError
		if errors.As(err, &at) {
			err = at.Err
		}
		s.Fault(key, "found %.80q, which cannot be read: %v", name, err)
	}
	return nil
}

// all reads a file to its end and closes it.
func (rd *reading) all(s *site.Section, key, name string, in io.ReadCloser) []byte {
	data, err := io.ReadAll(io.LimitReader(in, largest+1))
	in.Close()
	switch {
	case err != nil:
		s.Fault(key, "found %.80q, which cannot be read: %v", name, err)
	case len(data) > largest:
		s.Fault(key, "found %.80q with more than %d bytes; is it the right file?", name, largest)
	default:
		return data
	}
	return nil
}

// unitDefaults are what a unit takes that does not say it.
type unitDefaults struct {
	tile    site.Tile
	cover   []crop.Kind
	station string
}

func (rd *reading) unitDefaults(s *site.Section) {
	d := s.Group("defaults")
	node := child(rd.root, "defaults")
	d.Has("tile")
	f, _ := rd.field("defaults.", node, []string{"tile"}, deepLoam)
	if f.Tile == nil && child(node, "tile") != nil {
		if d.None("tile") {
			d.Fault("tile", `found "none"; allowed depth, spacing and the other keys of tile: scenarios lay it`)
		}
	}
	if f.Tile != nil {
		rd.defaults.tile = *f.Tile
	}
	for _, a := range f.Assumed {
		a.Key = "defaults." + a.Key
		rd.b.Assumed = append(rd.b.Assumed, a)
	}
	for i, name := range rd.words(d, "defaults.", node, "cover") {
		kind, err := crop.Named(name)
		if err != nil {
			d.Fault("cover", "entry %d: %v%s", i+1, err, meant(name, crop.Names()))
		}
		rd.defaults.cover = append(rd.defaults.cover, kind)
	}
	rd.defaults.station = d.Text("station")
	if name := rd.defaults.station; name != "" && !slices.Contains(rd.stationNames, name) {
		d.Fault("station", "found %.80q; allowed %s%s", name, listed(rd.stationNames, "station"), meant(name, rd.stationNames))
	}
	if len(rd.stationNames) == 1 {
		rd.defaults.station = rd.stationNames[0]
	}
	d.End()
}

// meant is the mend of a word that is almost right.
func meant(found string, words []string) string {
	if near := unit.Nearest(found, words); near != "" {
		return fmt.Sprintf(": did you mean %q?", near)
	}
	return ""
}

// listed joins words that are allowed, the first twelve of them.
func listed(words []string, what string) string {
	const most = 12
	shown := make([]string, min(len(words), most))
	for i := range shown {
		shown[i] = legible(words[i])
	}
	switch n := len(words); {
	case n == 0:
		return "a " + what + ", of which there is none"
	case n > most:
		return strings.Join(shown, ", ") + fmt.Sprintf(" and %d more", n-most)
	}
	return strings.Join(shown, ", ")
}
