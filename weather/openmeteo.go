package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
)

// layoutOpenMeteo is the name of the layout.
const layoutOpenMeteo = "Open-Meteo daily CSV"

// isOpenMeteo recognises the header of the first block.
func isOpenMeteo(head []byte) bool {
	names := headerOf(head)
	if names[0] == "location_id" {
		names = names[1:]
	}
	return names[0] == "latitude" && names[1] == "longitude"
}

// openMeteoPlace is a row of the first block.
type openMeteoPlace struct {
	station Station
	offset  float64 // of its clock from Greenwich, h
	where   []byte  // its position, by which it is told in a list
}

// readOpenMeteo reads the two blocks of the archive's CSV: the places, and below
// them the days, with the units in the header (Open-Meteo archive). It is a
// reanalysis: too many days of drizzle, low extremes.
func readOpenMeteo(split *splitter, pick Pick, f *faults) *record {
	places, header := openMeteoPlaces(split, f)
	if f.any() {
		return nil
	}
	o := &openMeteoReader{sheet: newSheet(split, f, header)}
	if !o.find() {
		return nil
	}
	rec := &record{layout: layoutOpenMeteo, stationChosen: o.location.has()}
	choice := newChooser(f, split, o.location.name, "", pick)
	if !o.location.has() { // one place, without a name to choose it by
		choice.want = ""
	}
	for o.next() {
		if bytes.Equal(o.text(o.time), []byte("time")) {
			o.fault(o.time, "one table of daily rows", "request daily variables alone")
			break
		}
		id := o.text(o.location)
		kept := choice.take(id, places[string(id)].where)
		r, ok := o.day()
		if !ok {
			continue
		}
		choice.count(&r)
		if kept {
			rec.add(r, split, f)
		}
	}
	if !choice.settled() || choice.kept == nil {
		return rec
	}
	p, has := places[choice.kept.id]
	if !has {
		f.add(Fault{Column: o.location.name, Found: choice.kept.id, Allowed: "a location_id of the first block"})
		return nil
	}
	rec.station = p.station
	hour, note, ok := dayCut(p.offset, p.station.Longitude)
	if !ok {
		f.add(Fault{Column: "utc_offset_seconds", Found: fmt.Sprintf("%+g h at longitude %g", p.offset, p.station.Longitude),
			Allowed: "a clock that fits the place", Mend: "request it with timezone=auto"})
	}
	rec.station.ReadHour = hour
	if note != "" {
		rec.notes = append(rec.notes, note)
	}
	o.absent(rec, "solar radiation", o.solar)
	o.absent(rec, "humidity", o.dew, o.humidity, o.humidityMax)
	o.absent(rec, "mean wind", o.wind)
	o.absent(rec, "snow depth", o.snow)
	o.unused(rec)
	return rec
}

// openMeteoPlaces reads the first block and the header of the second. The key is
// the location_id, "" in a file of one place.
func openMeteoPlaces(split *splitter, f *faults) (places map[string]openMeteoPlace, header [][]byte) {
	fields, _, _ := split.next()
	t := newSheet(split, f, fields)
	var (
		id        = t.column(anyUnit, "location_id")
		latitude  = t.column(anyUnit, "latitude")
		longitude = t.column(anyUnit, "longitude")
		elevation = t.column(anyUnit, "elevation")
		offset    = t.column(anyUnit, "utc_offset_seconds")
	)
	t.require("keep both blocks of the file", latitude, longitude, offset)
	places = map[string]openMeteoPlace{}
	for !f.any() {
		fields, sound, more := split.next()
		if !more {
			f.add(Fault{Found: "one block", Allowed: "a second one below, whose header starts with time"})
			break
		}
		if names := names(fields); slices.Contains(names[:min(2, len(names))], "time") {
			return places, fields
		}
		if !sound || len(fields) != len(t.names) {
			f.add(fieldCount(split.line, len(fields), len(t.names)))
			break
		}
		t.fields = fields
		p := openMeteoPlace{station: unknownStation(), offset: t.value(offset) / 3600}
		p.station.ID = string(t.text(id))
		p.station.Latitude = coordinate(f, split.line, latitude.name, string(t.text(latitude)), 90)
		p.station.Longitude = coordinate(f, split.line, longitude.name, string(t.text(longitude)), 180)
		if v := t.value(elevation); !math.IsNaN(v) {
			p.station.Elevation = v
		}
		if math.IsNaN(p.offset) {
			t.fault(offset, "seconds from Greenwich", "")
		}
		if len(places) == mostStations {
			f.add(Fault{Line: split.line, Found: fmt.Sprintf("more than %d places", mostStations), Allowed: "fewer", Mend: "request fewer places"})
		}
		p.where = fmt.Appendf(nil, "%g %g", p.station.Latitude, p.station.Longitude)
		places[p.station.ID] = p
	}
	return nil, nil
}

// openMeteoReader reads the second block.
type openMeteoReader struct {
	*sheet
	location, time, tmax, tmin, precip, solar column
	dew, humidity, humidityMax, humidityMin   column
	wind, snow                                column
}

// find finds the columns; ok is false after a fault.
func (o *openMeteoReader) find() (ok bool) {
	o.location, o.time = o.column(anyUnit, "location_id"), o.column(anyUnit, "time")
	o.tmax, o.tmin = o.column(temperatureUnits, "temperature_2m_max"), o.column(temperatureUnits, "temperature_2m_min")
	o.precip = o.column(rainUnits, "precipitation_sum")
	o.solar = o.column(solarUnits, "shortwave_radiation_sum")
	o.dew, o.humidity = o.column(temperatureUnits, "dew_point_2m_mean"), o.column(humidityUnits, "relative_humidity_2m_mean")
	o.humidityMax, o.humidityMin = o.column(humidityUnits, "relative_humidity_2m_max"), o.column(humidityUnits, "relative_humidity_2m_min")
	o.wind = o.column(windUnits, "wind_speed_10m_mean", "windspeed_10m_mean")
	o.snow = o.column(depthUnits, "snow_depth_mean")
	if slices.Contains(o.names, "temperature_2m") || slices.Contains(o.names, "precipitation") {
		o.f.add(Fault{Line: o.line, Column: "time", Found: "hourly rows", Allowed: "one row a day",
			Mend: "request the daily variables temperature_2m_max, temperature_2m_min and precipitation_sum"})
		return false
	}
	o.require("request these daily variables too", o.tmax, o.tmin, o.precip)
	return !o.f.any()
}

// day reads the current row, false when its date cannot be read.
func (o *openMeteoReader) day() (row, bool) {
	r := missingRow(o.split.line)
	if text := o.text(o.time); len(text) > 10 && text[10] == 'T' {
		o.fault(o.time, "one row a day, written as 2006-01-02", "these are hourly rows, request the daily variables")
		o.split.stop() // every row would say the same
		return r, false
	}
	var ok bool
	if r.date, ok = o.sheet.day(o.time); !ok {
		return r, false
	}
	r.tmax, r.tmin = r.keep(o.value(o.tmax), temperatureLimit), r.keep(o.value(o.tmin), temperatureLimit)
	r.precip = r.keep(o.value(o.precip), precipLimit)
	r.solar = r.keep(o.value(o.solar), solarLimit)
	r.vapour = r.keep(o.vapour(r.tmin, r.tmax), vapourLimit)
	r.wind = r.keep(WindAt2m(o.value(o.wind), 10), windLimit)
	r.snowDepth = r.keep(o.value(o.snow), snowDepthLimit)
	return r, true
}

// vapour takes the best of what the row has, in the order that FAO-56 prefers.
func (o *openMeteoReader) vapour(tmin, tmax float64) float64 {
	for _, v := range [...]float64{
		VapourFromDewPoint(o.value(o.dew)),
		VapourFromHumidityRange(tmin, tmax, o.value(o.humidityMin), o.value(o.humidityMax)),
		VapourFromMeanHumidity(tmin, tmax, o.value(o.humidity)),
	} {
		if !math.IsNaN(v) {
			return v
		}
	}
	return math.NaN()
}
