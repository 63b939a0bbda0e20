package proof

import (
	"context"
	"encoding/json"
	"testing"
	"time"
)

// Two of water for each of six set-ups; 4 of the peak's sign, 2 of flashiness, 1 of
// runoff; 4 of frost; 4 of storms; the search.
func TestWatershedEvidence(t *testing.T) {
	began := time.Now()
	holds(t, func(ctx context.Context) ([]Check, error) {
		checks, err := watershedEvidence(ctx)
		for _, c := range checks {
			t.Logf("%-60s %10.4g, %g to %g %s %t %s", c.ID, c.Got, c.Low, c.High, c.Unit, c.Pass(), c.Note)
		}
		if _, err := json.Marshal(checks); err != nil {
			t.Errorf("rows without a number: %v", err)
		}
		return checks, err
	}, 12+7+4+4+1)
	t.Log(time.Since(began))
}
