package proof

import (
	"context"
	"testing"
	"time"
)

func TestRunoff(t *testing.T) {
	began := time.Now()
	checks, err := runoffGroup(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range checks {
		if c.Report {
			t.Logf("%-60s %9.4g, %.4g to %.4g %s %t %s", c.ID, c.Got, c.Low, c.High, c.Unit, c.Pass(), c.Note)
		}
		if c.Failed() {
			t.Errorf("%s: %s: expected %.6g, got %.6g, tolerance %.2g %s", c.ID, c.What, c.Expected, c.Got, c.Tolerance, c.Unit)
		}
	}
	t.Logf("%d rows in %s", len(checks), time.Since(began))
}
