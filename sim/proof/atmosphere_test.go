package proof

import (
	"context"
	"testing"
)

// holds runs a group: every check has a source, a tolerance that is argued, and
// holds; no id comes twice.
func holds(t *testing.T, group func(context.Context) ([]Check, error), atLeast int) {
	t.Helper()
	checks, err := group(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(checks) < atLeast {
		t.Errorf("%d checks, want %d", len(checks), atLeast)
	}
	seen := map[string]bool{}
	for _, c := range checks {
		if c.Failed() {
			t.Errorf("%s: %s: got %.7g, expected %.7g within %.2g %s", c.ID, c.What, c.Got, c.Expected, c.Tolerance, c.Unit)
		}
		if !c.Report && !(c.Tolerance > 0) || c.Report && !(c.Low < c.High) {
			t.Errorf("%s: no tolerance or range", c.ID)
		}
		if c.ID == "" || c.What == "" || c.Source == "" || c.Unit == "" || c.Why == "" && c.Note == "" {
			t.Errorf("%s: wants id, what, source, unit or reason: %+v", c.ID, c)
		}
		if seen[c.ID] {
			t.Errorf("%s comes twice", c.ID)
		}
		seen[c.ID] = true
	}
}

// 84 rows of E and A, 10 of C and corn's maturity, 14 of W; 96 and 84 places and months, 13 latitudes twice;
// 4 standard hours, 12 of the hour's sun, 23 of the crops' listing.
func TestAtmosphere(t *testing.T) { holds(t, atmosphere, 84+11+14+96+84+26+4+12+23) }
