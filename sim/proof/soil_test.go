package proof

import (
	"context"
	"testing"
)

func TestSoil(t *testing.T) { runGroup(t, soilGroup) }

// runGroup fails on every failed check of a group, and on checks that cannot fail.
func runGroup(t *testing.T, group func(context.Context) ([]Check, error)) {
	t.Helper()
	checks, err := group(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(checks) == 0 {
		t.Fatal("no checks")
	}
	reports := 0
	for _, c := range checks {
		switch {
		case c.Report:
			reports++
			t.Logf("report %s: %s: got %.6g, %.6g to %.6g %s, inside %v", c.ID, c.What, c.Got, c.Low, c.High, c.Unit, c.Pass())
		case c.Failed():
			t.Errorf("%s: %s: got %.8g, expected %.8g within %.2g %s", c.ID, c.What, c.Got, c.Expected, c.Tolerance, c.Unit)
		case !(c.Tolerance > 0):
			t.Errorf("%s: %s: no tolerance", c.ID, c.What)
		}
		if c.ID == "" || c.What == "" || c.Source == "" || c.Status == "" || !c.Report && c.Why == "" {
			t.Errorf("incomplete: %+v", c)
		}
	}
	t.Logf("%d checks, %d reports", len(checks)-reports, reports)
}
