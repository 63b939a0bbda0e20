package weather

import "slices"

// layoutLocated is the name of the layout.
const layoutLocated = "daily CSV with a location column"

// isLocated recognises the header.
func isLocated(head []byte) bool {
	names := headerOf(head)
	return slices.Contains(names, "location") && slices.Contains(names, "date")
}

// readLocated reads location,date,precipitation,temp_max,temp_min,wind, in mm, C
// and m/s (the weather table of the npm package vega-datasets 3.2.1, which gives
// NOAA Climate Data Online as its source). Wind is taken as that of an airport
// mast, 10 m. Of several locations Pick.Station chooses one.
func readLocated(split *splitter, pick Pick, f *faults) *record {
	header, _, _ := split.next()
	t := newSheet(split, f, header)
	var (
		location   = t.column(anyUnit, "location")
		date       = t.column(anyUnit, "date")
		precip     = t.column(rainUnits, "precipitation")
		tmax, tmin = t.column(temperatureUnits, "temp_max"), t.column(temperatureUnits, "temp_min")
		wind       = t.column(windUnits, "wind")
	)
	t.require("keep the names of these columns", tmax, tmin, precip)
	if f.any() {
		return nil
	}
	rec := &record{layout: layoutLocated, station: unknownStation(), stationChosen: true}
	places := newChooser(f, split, location.name, "", pick)
	for t.next() {
		kept := places.take(t.text(location), nil)
		r := missingRow(split.line)
		var ok bool
		if r.date, ok = t.day(date); !ok {
			continue
		}
		r.tmax, r.tmin = r.keep(t.value(tmax), temperatureLimit), r.keep(t.value(tmin), temperatureLimit)
		r.precip = r.keep(t.value(precip), precipLimit)
		r.wind = r.keep(WindAt2m(t.value(wind), 10), windLimit)
		places.count(&r)
		if kept {
			rec.add(r, split, f)
		}
	}
	if !places.settled() {
		return nil
	}
	if places.kept != nil {
		rec.station.Name = places.kept.id
	}
	t.absent(rec, "wind", wind)
	t.unused(rec)
	return rec
}
