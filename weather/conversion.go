package weather

import "strings"

// unit is a unit as files write it and the way from it to that of a Series.
type unit struct {
	name          string
	scale, offset float64 // value*scale + offset
}

// The units that readers know; the first of each is that of a Series. An inch is
// 25.4 mm, a mile 1609.344 m and a nautical mile 1852 m by definition.
var (
	temperatureUnits = []unit{{"C", 1, 0}, {"degC", 1, 0}, {"K", 1, -273.15}, {"degF", 5. / 9, -160. / 9}, {"F", 5. / 9, -160. / 9}}
	rainUnits        = []unit{{"mm", 1, 0}, {"mm/day", 1, 0}, {"mm/d", 1, 0}, {"inch", 25.4, 0}, {"in", 25.4, 0}}
	solarUnits       = []unit{{"MJ/m2/day", 1, 0}, {"MJ/m2", 1, 0}, {"MJ/m", 1, 0}, // the raised 2 may be lost
		{"kWh/m2/day", 3.6, 0}, {"kW-hr/m2/day", 3.6, 0}, {"W/m2", 0.0864, 0}, {"W m-2", 0.0864, 0}} // W over 24 h
	windUnits     = []unit{{"m/s", 1, 0}, {"ms-1", 1, 0}, {"km/h", 1 / 3.6, 0}, {"mph", 0.44704, 0}, {"mp/h", 0.44704, 0}, {"kn", 1852. / 3600, 0}}
	depthUnits    = []unit{{"m", 1, 0}, {"cm", 0.01, 0}, {"ft", 0.3048, 0}}
	humidityUnits = []unit{{"%", 1, 0}}
	anyUnit       []unit // of columns that are no measurements
)

// unitOf finds a unit by its squeezed name; none stated is the first.
func unitOf(units []unit, squeezed string) (unit, bool) {
	if len(units) == 0 || squeezed == "" {
		return append(units, unit{scale: 1})[0], true
	}
	for _, u := range units {
		if squeeze(u.name) == squeezed {
			return u, true
		}
	}
	return unit{}, false
}

// unitNames lists the units for a message.
func unitNames(units []unit) string {
	var all []string
	for _, u := range units {
		all = append(all, u.name)
	}
	return strings.Join(all, ", ")
}
