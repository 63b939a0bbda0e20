package drain

import (
	"math"
	"strings"
	"testing"
)

// A calendar of controlled drainage of the usual kind (common practice): water
// held near the surface over winter and half way down in the growing season.
var held = WeirSchedule{
	{MonthDay{11, 1}, MonthDay{3, 15}, 0.15},
	{MonthDay{6, 10}, MonthDay{9, 1}, 0.6},
}

func TestCrestDepth(t *testing.T) {
	for _, c := range []struct {
		month, day int
		want       float64
	}{
		{10, 31, 1}, {11, 1, 0.15}, {12, 31, 0.15}, {1, 1, 0.15}, {2, 29, 0.15}, {3, 15, 0.15}, {3, 16, 1},
		{6, 9, 1}, {6, 10, 0.6}, {9, 1, 0.6}, {9, 2, 1},
	} {
		if got := held.CrestDepth(c.month, c.day, 1); got != c.want {
			t.Errorf("month %d day %d: crest at %g m, want %g", c.month, c.day, got, c.want)
		}
	}
	if got := WeirSchedule(nil).CrestDepth(5, 1, 1.2); got != 1.2 {
		t.Errorf("no weir: %g, want the drain's depth", got)
	}
}

func TestWeirValidate(t *testing.T) {
	if err := held.Validate(1); err != nil {
		t.Error(err)
	}
	err := WeirSchedule{
		{MonthDay{11, 1}, MonthDay{2, 30}, 0.15},
		{MonthDay{5, 1}, MonthDay{6, 1}, 1.5},
		{MonthDay{1, 10}, MonthDay{1, 20}, math.NaN()},
		{MonthDay{4, 1}, MonthDay{5, 1}, 0.5},
	}.Validate(1)
	if err == nil {
		t.Fatal("want faults")
	}
	for _, want := range []string{"period 1: found month 2 day 30", "period 2: crest 1.5 m", "period 3: crest NaN", "periods 1 and 3 overlap", "periods 2 and 4 overlap"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("faults do not name %q:\n%v", want, err)
		}
	}
	if n := strings.Count(err.Error(), "\n") + 1; n != 5 {
		t.Errorf("%d faults, want 5:\n%v", n, err)
	}
}
