package crop

import (
	"fmt"
	"strings"
)

// Status says how well a figure of a yield relation is known.
type Status string

// The statuses.
const (
	Read         Status = "read"         // seen in the publication or a reprint of it
	SecondHand   Status = "second hand"  // seen quoted by another
	FromMemory   Status = "from memory"  // recalled, not seen
	Interpolated Status = "interpolated" // between figures that were read, or on past them at their rate
	Assumed      Status = "assumption"   // chosen here, no source
)

// NoRelation is the answer where a crop has no published relation for a loss: it is
// no answer, not a loss of nothing.
type NoRelation struct {
	Crop string
	Loss string // to what: "planting date", "excess water", ...
}

// Error says which relation is missing.
func (n *NoRelation) Error() string {
	return fmt.Sprintf("%s: no published relation of yield to %s", n.Crop, n.Loss)
}

// choose picks the relation with that name, or the first, the default, for "". A
// crop without any is answered by NoRelation, an unknown name by what is allowed.
func choose[R any](all []R, crop, loss, name string, called func(R) string) (R, error) {
	var none R
	if len(all) == 0 {
		return none, &NoRelation{crop, loss}
	}
	if name == "" {
		return all[0], nil
	}
	names := make([]string, len(all))
	for i, r := range all {
		names[i] = called(r)
		if names[i] == name {
			return r, nil
		}
	}
	return none, fmt.Errorf("%s, yield and %s: found %q; allowed: %s", crop, loss, name, strings.Join(names, "; "))
}
