package crop

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// M11: four factors multiplied (common practice; recomputed), exact but for
// rounding.
func TestFactorsMultiplied(t *testing.T) {
	var in struct{ Planting, Wet, Dry, Salt float64 }
	var out struct{ Product float64 }
	worked(t, "M11", &in, &out)
	yield, lost, err := Attribute(Shares{Late: in.Planting, Wet: in.Wet, Dry: in.Dry, Salt: in.Salt})
	if err != nil || math.Abs(yield-out.Product) > 1e-12 {
		t.Errorf("yield %.12g, want %g; %v", yield, out.Product, err)
	}
	if !(lost[Dry] > lost[Wet] && lost[Wet] > lost[Late] && lost[Late] > lost[Salt]) {
		t.Errorf("the more a cause takes the larger its part: %v", lost)
	}
}

// The parts add up to the loss whatever the factors; each lies between what its cause
// takes from what all others leave, and what it takes alone; equal factors bear
// alike; a cause that takes nothing bears nothing. Identities of the rule.
func TestAttributionAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var kept Shares
		for c := range kept {
			kept[c] = rapid.OneOf(rapid.Just(1.0), rapid.Just(0.0), rapid.Float64Range(0, 1), rapid.Float64Range(0.999999999, 1)).Draw(t, Cause(c).String())
		}
		yield, lost, err := Attribute(kept)
		if err != nil {
			t.Fatal(err)
		}
		sum, product := 0.0, 1.0
		for c, x := range lost {
			sum += x
			product *= kept[c]
			others := 1.0
			for o, f := range kept {
				if o != c {
					others *= f
				}
			}
			if alone := 1 - kept[c]; x > alone+1e-9 || x < others*alone-1e-9 {
				t.Fatalf("%v: %g, alone %g, after all others %g", Cause(c), x, alone, others*alone)
			}
			for o, f := range kept {
				if f == kept[c] && lost[o] != x {
					t.Fatalf("equal factors %v lose %v", kept, lost)
				}
			}
			if kept[c] == 1 && x != 0 {
				t.Fatalf("%v loses %g though it took nothing", Cause(c), x)
			}
		}
		if yield != product || math.Abs(sum-(1-yield)) > 1e-15*8 {
			t.Fatalf("yield %g, product %g; lost %g", yield, product, sum)
		}
	})
}

// Two equal factors of a half lose three quarters, half of it each; a factor of
// nothing bears all. By hand.
func TestAttributionByHand(t *testing.T) {
	for _, c := range []struct{ kept, lost Shares }{
		{Shares{1, 0.5, 0.5, 1}, Shares{0, 0.375, 0.375, 0}},
		{Shares{0.9, 0, 0.5, 1}, Shares{0, 1, 0, 0}},
		{Shares{0, 0, 1, 1}, Shares{0.5, 0.5, 0, 0}},
		{Shares{0.5, 0.25, 1, 1}, Shares{0.875 / 3, 0.875 * 2 / 3, 0, 0}},
	} {
		_, lost, err := Attribute(c.kept)
		for i := range lost {
			if err != nil || math.Abs(lost[i]-c.lost[i]) > 1e-12 {
				t.Errorf("%v: lost %v, want %v; %v", c.kept, lost, c.lost, err)
			}
		}
	}
	for _, f := range []float64{-0.1, 1.1, math.NaN()} {
		if _, _, err := Attribute(Shares{1, f, 1, 1}); err == nil {
			t.Errorf("%g of the yield was taken", f)
		}
	}
}
