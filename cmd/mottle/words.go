package main

import (
	"fmt"
	"strings"

	"mottle/sim/site"
	"mottle/soil"
	"mottle/weather"
)

// title names a field, by its file where it has no name, and says once that it is
// invented.
func title(name, file string, invented bool) string {
	if name == "" {
		name = file
	}
	if invented {
		name = strings.TrimSuffix(name, " (invented)") + " - INVENTED"
	}
	return name
}

// count writes how many there are, "1 day" or "2 days"; the word takes an s.
func count(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}

// soilWords names the textures of a profile from the top down.
func soilWords(f *site.Field) string {
	var names []string
	for _, h := range f.Horizons {
		m, err := soil.Derive(h)
		if err != nil {
			return "" // reported by the run itself
		}
		if n := len(names); n == 0 || names[n-1] != m.Texture {
			names = append(names, m.Texture)
		}
	}
	return strings.Join(names, " over ")
}

func stationWords(id, name string) string { return strings.TrimSpace(id + " " + name) }

// filledMark says whether a mark stands for a value that was not observed.
func filledMark(m weather.Mark) bool {
	return m.Has(weather.TemperatureFilled) || m.Has(weather.PrecipFilled) || m.Has(weather.CalendarFilled)
}

// dayWords turns a day of a common year into a date, "15 May".
func dayWords(day float64) string {
	_, m, d := (weather.NewDate(2001, 1, 1) + weather.Date(day+0.5) - 1).Civil()
	names := []string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}
	return fmt.Sprintf("%d %s", d, names[m-1])
}
