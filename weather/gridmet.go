package weather

import (
	"bytes"
	"math"
	"slices"
)

// layoutGridMET is the name of the layout.
const layoutGridMET = "gridMET point CSV"

// Names of a variable in the data set and in extractions from it. No file of
// points is handed out by the data set itself, so that extractions differ; columns
// are matched by name (gridMET data catalogue, University of Idaho).
var (
	gridMETDate   = []string{"time", "date", "day"}
	gridMETTmax   = []string{"tmmx", "daily_maximum_temperature", "air_temperature_max"}
	gridMETTmin   = []string{"tmmn", "daily_minimum_temperature", "air_temperature_min"}
	gridMETPrecip = []string{"pr", "precipitation_amount"}
)

// isGridMET recognises a date and a variable by its name in the data set.
func isGridMET(head []byte) bool {
	header := headerOf(head)
	for i := range header {
		header[i], _ = cutUnit(header[i])
	}
	has := func(name string) bool { return slices.Contains(header, name) }
	return slices.ContainsFunc(gridMETDate, has) &&
		(slices.ContainsFunc(gridMETTmax, has) || slices.ContainsFunc(gridMETTmin, has) || has("precipitation_amount"))
}

// coldestKelvin is above any temperature in C and below any in K on earth.
const coldestKelvin = 150

// readGridMET reads the days of one cell. Temperatures are in kelvin, or in C where
// an extraction has changed them; radiation is a mean over 24 h. A day runs from
// 06:00 UTC, midnight at 90 W.
func readGridMET(split *splitter, _ Pick, f *faults) *record {
	header, _, _ := split.next()
	t := newSheet(split, f, header, 32767, -9999)
	var (
		date        = t.column(anyUnit, gridMETDate...)
		tmax, tmin  = t.column(temperatureUnits, gridMETTmax...), t.column(temperatureUnits, gridMETTmin...)
		precip      = t.column(rainUnits, gridMETPrecip...)
		solar       = t.column(gridMETSolar, "srad", "daily_mean_shortwave_radiation_at_surface")
		humidityMax = t.column(humidityUnits, "rmax", "daily_maximum_relative_humidity")
		humidityMin = t.column(humidityUnits, "rmin", "daily_minimum_relative_humidity")
		wind        = t.column(windUnits, "vs", "daily_mean_wind_speed")
		latitude    = t.column(anyUnit, "latitude", "lat")
		longitude   = t.column(anyUnit, "longitude", "lon")
	)
	t.require("extract these variables too", tmax, tmin, precip)
	if f.any() {
		return nil
	}
	rec := &record{layout: layoutGridMET, station: unknownStation()}
	celsius := newKelvin(t, tmax, tmin)
	var place [2][]byte
	for t.next() {
		here := [2][]byte{t.text(latitude), t.text(longitude)}
		if rec.rows == nil {
			place = [2][]byte{bytes.Clone(here[0]), bytes.Clone(here[1])}
			rec.station.Latitude = coordinate(f, split.line, latitude.name, string(here[0]), 90)
			rec.station.Longitude = coordinate(f, split.line, longitude.name, string(here[1]), 180)
		} else if !bytes.Equal(place[0], here[0]) || !bytes.Equal(place[1], here[1]) {
			f.add(Fault{Line: split.line, Column: latitude.name, Found: "a second place", Allowed: "one cell", Mend: "keep the rows of one place"})
			split.stop()
			continue
		}
		r := missingRow(split.line)
		var ok bool
		if r.date, ok = t.day(date); !ok {
			continue
		}
		r.tmax, r.tmin = r.keep(celsius.of(tmax), temperatureLimit), r.keep(celsius.of(tmin), temperatureLimit)
		r.precip = r.keep(t.value(precip), precipLimit)
		r.solar = r.keep(t.value(solar), solarLimit)
		r.vapour = r.keep(VapourFromHumidityRange(r.tmin, r.tmax, t.value(humidityMin), t.value(humidityMax)), vapourLimit)
		r.wind = r.keep(WindAt2m(t.value(wind), 10), windLimit)
		rec.add(r, split, f)
	}
	hour, note, ok := dayCut(-6, rec.station.Longitude)
	if !ok {
		f.add(Fault{Column: longitude.name, Found: string(place[1]), Allowed: "a longitude within the contiguous United States, -125 to -66"})
	}
	rec.station.ReadHour = hour
	if note != "" {
		rec.notes = append(rec.notes, note)
	}
	rec.notes = append(rec.notes, celsius.note())
	t.absent(rec, "solar radiation", solar)
	t.absent(rec, "humidity", humidityMax)
	t.absent(rec, "humidity", humidityMin)
	t.absent(rec, "wind", wind)
	t.unused(rec)
	return rec
}

// gridMETSolar is W/m2 where a column states no unit.
var gridMETSolar = append([]unit{{"W/m2", 0.0864, 0}}, solarUnits...)

// kelvin tells temperatures in K from those in C where columns state no unit.
type kelvin struct {
	t       *sheet
	stated  bool
	isK     bool
	decided bool
}

func newKelvin(t *sheet, columns ...column) *kelvin {
	k := &kelvin{t: t, stated: true}
	for _, c := range columns {
		k.stated = k.stated && t.units[c.index] != ""
	}
	return k
}

// of reads a temperature in C. A file with both units is at fault.
func (k *kelvin) of(c column) float64 {
	v := k.t.value(c)
	if math.IsNaN(v) || k.t.units[c.index] != "" {
		return v
	}
	isK := v > coldestKelvin
	if k.decided && isK != k.isK {
		k.t.fault(c, "one unit in all rows, K or C", "the rows above are in the other unit")
		k.t.split.stop()
		return math.NaN()
	}
	k.isK, k.decided = isK, true
	if isK {
		v -= 273.15
	}
	return v
}

// note says which unit was taken and why.
func (k *kelvin) note() string {
	switch {
	case k.stated:
		return "temperatures are in the unit that the header states"
	case k.isK:
		return "temperatures are above 150 and were taken as kelvin"
	}
	return "temperatures are below 150 and were taken as C"
}
