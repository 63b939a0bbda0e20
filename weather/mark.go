package weather

import (
	"fmt"
	"strings"
)

// Mark is a set of remarks about one day.
type Mark uint16

// The remarks a day can carry.
const (
	TemperatureFilled Mark = 1 << iota // Tmin or Tmax is not the day's own reading
	PrecipFilled                       // Precip is not the day's own reading
	OptionalFilled                     // solar, vapour pressure or wind is not the day's own
	ExtremesSwapped                    // Tmax was below Tmin and the two were exchanged
	DayAbsent                          // the file has no row for the day
	TraceRain                          // precipitation too small to measure, kept as 0 mm
	SpreadTotal                        // share of a total read after several days
	CalendarFilled                     // 31 December of a leap year in a 365-day calendar
)

var markNames = [...]string{
	"temperature-filled", "precip-filled", "optional-filled", "extremes-swapped",
	"day-absent", "trace-rain", "spread-total", "calendar-filled",
}

// Has tells whether all remarks of n are set.
func (m Mark) Has(n Mark) bool { return m&n == n }

// String joins the names of the remarks with "+"; no remark is "".
func (m Mark) String() string {
	var names []string
	for i, name := range markNames {
		if m.Has(1 << i) {
			names = append(names, name)
		}
	}
	return strings.Join(names, "+")
}

// ParseMark reads what String writes. The error lists the names allowed.
func ParseMark(text string) (Mark, error) {
	var m Mark
	if text == "" {
		return m, nil
	}
next:
	for _, word := range strings.Split(text, "+") {
		for i, name := range markNames {
			if word == name {
				m |= 1 << i
				continue next
			}
		}
		return 0, fmt.Errorf("mark %q: allowed %s", word, strings.Join(markNames[:], ", "))
	}
	return m, nil
}
