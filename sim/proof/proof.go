// Package proof holds the physics against published values: every check runs
// the code that a comparison runs and says what was expected, from where, what
// came out, and how far apart they may lie, and why.
package proof

import (
	"context"
	"math"
)

// Status says how well an expected value is known.
type Status string

// The statuses, as the reference values carry them.
const (
	Published Status = "published"             // seen in the source or a reproduction of it
	Computed  Status = "computed"              // recomputed or derived independently from the published form
	Memory    Status = "from memory"           // recalled, not seen
	Practice  Status = "common practice"       // a rule of thumb: reported, never failed
	Measured  Status = "measured"              // a record of a real field or station
	Second    Status = "second implementation" // the same equations solved by other code
)

// Check is one row: a quantity expected and found.
type Check struct {
	ID        string  `json:"id"`
	Process   string  `json:"process"`
	What      string  `json:"what"`
	Source    string  `json:"source"`
	Status    Status  `json:"status"`
	Unit      string  `json:"unit"`
	Expected  float64 `json:"expected"`
	Got       float64 `json:"got"`
	Tolerance float64 `json:"tolerance"` // absolute, in the unit
	Why       string  `json:"why"`       // the tolerance, argued
	// Report rows (rules of thumb, approximations) say inside or outside of Low to
	// High and why; they never fail.
	Report bool    `json:"report"`
	Low    float64 `json:"low,omitempty"`
	High   float64 `json:"high,omitempty"`
	Note   string  `json:"note,omitempty"`
}

// Pass says whether the row holds: within tolerance, or for a report inside its
// range.
func (c Check) Pass() bool {
	if c.Report {
		return c.Got >= c.Low && c.Got <= c.High
	}
	return math.Abs(c.Got-c.Expected) <= c.Tolerance
}

// Failed says whether the row makes the proof fail: reports never do.
func (c Check) Failed() bool { return !c.Report && !c.Pass() }

// Group is the checks of one process.
type Group struct {
	Process string
	run     func(context.Context) ([]Check, error)
}

// Run computes the group's checks.
func (g Group) Run(ctx context.Context) ([]Check, error) {
	checks, err := g.run(ctx)
	for i := range checks {
		checks[i].Process = g.Process
	}
	return checks, err
}

// inTurn runs the parts of a group one after the other and joins their checks; the
// first error ends it.
func inTurn(ctx context.Context, parts ...func() ([]Check, error)) ([]Check, error) {
	var all []Check
	for _, part := range parts {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		checks, err := part()
		if err != nil {
			return nil, err
		}
		all = append(all, checks...)
	}
	return all, nil
}
