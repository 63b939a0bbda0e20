package weather

import (
	"fmt"
	"math"
)

// clockSlack is how far a time zone may stand from the sun's time of the place, h;
// common practice, civil zones reach it only far west in their zone.
const clockSlack = 3

// dayCut returns the local hour at which days end whose clock stands offset hours
// from Greenwich at a longitude: 24 when the clock fits the sun there. It notes a
// day that ends earlier, such as one of Greenwich at 90 W at hour 18, so that the
// simulation can place its rain. ok is false when the day ends so late that its
// date names another day.
func dayCut(offset, longitude float64) (hour float64, note string, ok bool) {
	if math.IsNaN(longitude) {
		return math.NaN(), "the place is not known, so neither is the hour at which its days end", true
	}
	ahead := offset - longitude/15
	switch {
	case math.Abs(ahead) <= clockSlack:
		return 24, "", true
	case ahead < 0:
		return math.NaN(), "", false
	}
	hour = math.Round(24 - ahead)
	return hour, fmt.Sprintf("days are cut at hour %g of the place, midnight %+g h from Greenwich: each holds the evening before it; request the local time zone where you can", hour, offset), true
}
