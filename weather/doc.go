// Package weather turns daily records into a series the simulation can run on.
//
// Read takes a file as an agency or a grower hands it out and returns a Series
// on the full calendar with a Report of what was found. Three steps follow, in
// this order:
//
//	s, report, err := weather.Read(name, r, weather.Pick{}) // as recorded, gaps are NaN
//	s, note := s.ByCivilDay()                             // morning maximum to its own day
//	s, notes, err := s.Fill(weather.FillRule{})
//
// ReferenceET gives the evaporative demand of the filled series after FAO-56
// (Allen, Pereira, Raes & Smith 1998), and Invent makes a series from monthly
// statistics after Richardson (1981) where no record is at hand.
//
// Units inside: C, mm/d, MJ/m2/d, kPa, m/s at 2 m, m of snow. A missing value
// is NaN. Nothing is read from or written to paths: callers pass readers.
package weather
