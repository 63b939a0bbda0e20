package weather

import (
	"bytes"
	"slices"
	"strings"
)

// plainKeys are the keys of the comment lines above the header of our layout.
// Other comment lines are remarks.
var plainKeys = []string{"station", "name", "latitude", "longitude", "elevation_m", "read_hour",
	"temperature_day", "invented", "origin", "note"}

// readPlainHead reads the comment lines "# key: value" at the top of the file, and
// the header below them, nil when there is none.
func readPlainHead(split *splitter, f *faults) (s *Series, header []string) {
	s = &Series{Layout: layoutPlain, Station: unknownStation()}
	var seen []string
	for {
		text, ok := split.nextLine()
		if !ok {
			return s, nil
		}
		if text = bytes.TrimSpace(text); text[0] != '#' {
			if !split.split(text) {
				f.add(unpaired(split.line))
			}
			return s, names(split.fields)
		}
		line := split.line
		key, value, ok := strings.Cut(string(text[1:]), ":")
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if !ok || key == "note" || strings.ContainsAny(key, " \t") {
			continue // a remark
		}
		if slices.Contains(seen, key) {
			f.add(Fault{Line: line, Column: key, Found: value, Allowed: "each key once"})
			continue
		}
		seen = append(seen, key)
		s.setHead(key, value, line, f)
	}
}

// setHead stores one key of the head.
func (s *Series) setHead(key, value string, line int, f *faults) {
	choice := func(yes, no string) bool {
		if value != yes && value != no {
			f.add(Fault{Line: line, Column: key, Found: value, Allowed: yes + ", " + no})
		}
		return value == yes
	}
	switch key {
	case "station":
		s.Station.ID = value
	case "name":
		s.Station.Name = value
	case "latitude":
		s.Station.Latitude = coordinate(f, line, key, value, 90)
	case "longitude":
		s.Station.Longitude = coordinate(f, line, key, value, 180)
	case "elevation_m":
		s.Station.Elevation = coordinate(f, line, key, value, 9000)
	case "read_hour":
		v, ok := number(value)
		if !ok || v <= 0 || v > 24 {
			f.add(Fault{Line: line, Column: key, Found: value, Allowed: "a local hour above 0 and up to 24, 24 = midnight"})
		}
		s.Station.ReadHour = v
	case "temperature_day":
		s.CivilTemperature = choice("civil", "read")
	case "invented":
		s.Invented = choice("yes", "no")
	case "origin":
		s.Layout = value
	default:
		fault := Fault{Line: line, Column: key, Found: key, Allowed: strings.Join(plainKeys, ", ")}
		if like := nearest(key, plainKeys); like != "" {
			fault.Mend = "did you mean " + like + "?"
		}
		f.add(fault)
	}
}
