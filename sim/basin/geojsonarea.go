package basin

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// Axes of the WGS 84 ellipsoid (NIMA TR 8350.2, 2000): semi-major, m, and the square
// of the first eccentricity.
const (
	semiMajor = 6378137.0
	eccentric = 6.69437999014e-3
)

// errNoArea is an outline of a kind that has none.
var errNoArea = errors.New("a geometry that is no area")

// outlineArea is the area of a Polygon or MultiPolygon, m2: outer rings less holes.
func outlineArea(geometry []byte) (float64, error) {
	var g struct {
		Type        string          `json:"type"`
		Coordinates json.RawMessage `json:"coordinates"`
	}
	if err := json.Unmarshal(geometry, &g); err != nil {
		return 0, errors.New("found no JSON object with type and coordinates; allowed a Polygon or MultiPolygon")
	}
	var polygons [][][][]float64
	var err error
	switch g.Type {
	case "Polygon":
		polygons = make([][][][]float64, 1)
		err = json.Unmarshal(g.Coordinates, &polygons[0])
	case "MultiPolygon":
		err = json.Unmarshal(g.Coordinates, &polygons)
	case "Point", "MultiPoint", "LineString", "MultiLineString", "GeometryCollection":
		return 0, fmt.Errorf("%w, %s", errNoArea, g.Type)
	default:
		return 0, fmt.Errorf("found type %.80q; allowed Polygon, MultiPolygon", g.Type)
	}
	if err != nil {
		return 0, fmt.Errorf("found coordinates that are no %s; allowed rings of [longitude, latitude]", g.Type)
	}
	total := 0.0
	for _, rings := range polygons {
		for i, ring := range rings {
			area, err := ringArea(ring)
			if err != nil {
				return 0, err
			}
			if i > 0 {
				area = -area
			}
			total += area
		}
	}
	return total, nil
}

// ringArea is the area within a closed ring, m2, whichever way it runs. Both axes of
// an equal-area cylindrical projection of the ellipsoid are straight: longitude, and
// q(latitude); the area is the trapezoid rule in them (Snyder 1987, Map projections - a
// working manual, USGS Professional Paper 1395, eqs. 3-12 and 10-15).
func ringArea(ring [][]float64) (float64, error) {
	if len(ring) < 4 {
		return 0, fmt.Errorf("found a ring of %d positions; allowed 4 at least, the last the same as the first", len(ring))
	}
	for _, p := range ring {
		if len(p) < 2 || math.Abs(p[0]) > 180 || math.Abs(p[1]) > 90 {
			return 0, fmt.Errorf("found position %v; allowed longitude and latitude in degrees (WGS 84): export the layer in EPSG:4326", p)
		}
	}
	if first, last := ring[0], ring[len(ring)-1]; first[0] != last[0] || first[1] != last[1] {
		return 0, fmt.Errorf("found a ring from %v to %v; allowed one that ends where it begins", first, last)
	}
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		east := math.Remainder(b[0]-a[0], 360) // the short way, over the date line too
		sum += east * math.Pi / 180 * (authalic(a[1]) + authalic(b[1])) / 2
	}
	return math.Abs(sum) * semiMajor * semiMajor / 2, nil
}

// authalic is q, twice the area (in squares of the semi-major axis and for each radian
// of longitude) between the equator and a latitude, deg (Snyder 1987, eq. 3-12).
func authalic(latitude float64) float64 {
	e := math.Sqrt(eccentric)
	s := math.Sin(latitude * math.Pi / 180)
	return (1 - eccentric) * (s/(1-eccentric*s*s) + math.Atanh(e*s)/e)
}
