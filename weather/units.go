package weather

import "fmt"

// Units is a system of units in which an agency hands out the same layout.
type Units int

// The systems of units.
const (
	UnitsFromValues Units = iota // told from the values; an error when they do not tell
	Metric                       // C, mm, m/s
	Standard                     // F, inches, miles an hour
)

var unitsNames = [...]string{"", "metric", "standard"}

// String returns the name that ParseUnits reads.
func (u Units) String() string { return unitsNames[u] }

// ParseUnits reads "metric" or "standard", or "" for UnitsFromValues. The error
// lists them.
func ParseUnits(text string) (Units, error) {
	for u, name := range unitsNames {
		if text == name {
			return Units(u), nil
		}
	}
	return 0, fmt.Errorf("found %q; allowed metric, standard", text)
}
