package proof

import (
	"context"
	"os"
	"strings"
	"testing"
)

// The collections of real records beside the checkout.
const (
	plotRecords    = "../../../shared/field"
	stationRecords = "../../../shared/weather"
)

func needs(t *testing.T, folders ...string) {
	for _, f := range folders {
		if _, err := os.Stat(f); err != nil {
			t.Skipf("no real records in %s", f)
		}
	}
}

// Measured drain flow: the scores are printed (go test -v -run FieldRecords),
// not asserted, for the records leak and gap. Asserted is what must hold in any
// field: each year's water closes, the start is forgotten, and on freely drained
// plots the simulation beats the measured mean, which is what a daily
// Nash-Sutcliffe of 0 stands for.
func TestFieldRecords(t *testing.T) {
	needs(t, plotRecords, stationRecords)
	r, err := Field(context.Background(), os.DirFS(plotRecords), os.DirFS(stationRecords))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := r.Write(&b); err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + b.String())
	if w := r.WorstWater(); w > 1e-6 {
		t.Errorf("a year's water does not close by %g mm", w)
	}
	for _, p := range r.Plots {
		if !p.Forgotten {
			t.Errorf("%s %s: the spin-up did not forget its start", p.Site, p.Plot)
		}
	}
	if daily, _, _ := r.Medians(AllYear); !(daily > 0) {
		t.Errorf("median daily Nash-Sutcliffe of freely drained plots %.2f: no better than the mean", daily)
	}
}
