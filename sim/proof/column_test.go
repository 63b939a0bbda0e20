package proof

import (
	"context"
	"testing"
)

func TestColumn(t *testing.T) {
	checks, err := columnGroup(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(checks) == 0 {
		t.Fatal("no checks")
	}
	for _, c := range checks {
		if c.Failed() {
			t.Errorf("%s: %s: got %.6g, expected %.6g within %.2g %s", c.ID, c.What, c.Got, c.Expected, c.Tolerance, c.Unit)
		}
		if !c.Report && !(c.Tolerance > 0) {
			t.Errorf("%s: %s: no tolerance", c.ID, c.What)
		}
		t.Logf("%-50s %-70s got %.6g, expected %.6g (%.2g), %+.2f %%", c.ID, c.What, c.Got, c.Expected, c.Tolerance, 100*(c.Got/c.Expected-1))
	}
}
