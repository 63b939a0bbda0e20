package proof

import (
	"context"
	"math"
	"testing"
	"time"
)

// Rules of thumb never fail the proof; a row without a number, or a range that
// is none, would.
func TestThumb(t *testing.T) {
	began := time.Now()
	checks, err := thumbGroup(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range checks {
		t.Logf("%-25s %8.3f, %g to %g %s %t %s", c.ID, c.Got, c.Low, c.High, c.Unit, c.Pass(), c.Note)
		if c.Failed() || !c.Report || c.Status != Practice || c.Note == "" || !(c.Low < c.High) || math.IsNaN(c.Got) || math.IsInf(c.Got, 0) {
			t.Errorf("%s: no report: %+v", c.ID, c)
		}
	}
	t.Logf("%d rows in %s", len(checks), time.Since(began))
}
