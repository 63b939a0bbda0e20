package plots

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestYearsChosen(t *testing.T) {
	for _, c := range []struct {
		what            string
		days            []float64
		median, wettest int
	}{
		{"odd number: the median year itself", []float64{30, 5, 12, 80, 7}, 2, 3},
		{"even number: the earlier of the two in the middle", []float64{12, 30, 80, 20}, 1, 2},
		{"the earlier of two as wet", []float64{4, 9, 1, 9}, 0, 1},
		{"one year", []float64{3}, 0, 0},
		{"no wet year", []float64{0, 0, 0}, 0, 0},
	} {
		if m, w := nearestMedian(c.days), largest(c.days); m != c.median || w != c.wettest {
			t.Errorf("%s: median year %d, wettest %d; want %d, %d", c.what, m, w, c.median, c.wettest)
		}
	}
}

func labels(a axis) (words []string) {
	for _, t := range a.ticks {
		if t.Label != "" {
			words = append(words, t.Label)
		}
	}
	return words
}

// Round marks are multiples of 1, 2 or 5 times a power of ten (common practice);
// an axis of depth says heights without a sign.
func TestMarksAreRound(t *testing.T) {
	for _, c := range []struct {
		what string
		axis axis
		want []string
	}{
		{"98 days", upFrom(98, 5), []string{"0", "20", "40", "60", "80", "100"}},
		{"nothing at all", upFrom(0, 5), []string{"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		{"0.043 in/h", upFrom(0.043, 5), []string{"0.00", "0.01", "0.02", "0.03", "0.04"}},
		{"snow to 0.6 m, soil to 2 m", downTo(0.6, 2, 6), []string{"0.5", "0.0", "0.5", "1.0", "1.5", "2.0"}},
		{"1981-2020", years(1981, 2020), []string{"1985", "1990", "1995", "2000", "2005", "2010", "2015", "2020"}},
		{"three years", years(1999, 2001), []string{"1999", "2000", "2001"}},
		{"four years of peaks", returnAxis(4), []string{"1.25", "1.5", "2", "3", "5"}},
	} {
		if d := cmp.Diff(c.want, labels(c.axis)); d != "" {
			t.Errorf("%s: %s", c.what, d)
		}
		for _, k := range c.axis.ticks {
			if at := c.axis.norm(k.Value); at < -1e-9 || at > 1+1e-9 {
				t.Errorf("%s: mark %v stands at %v, off the axis", c.what, k.Value, at)
			}
		}
	}
	if d := downTo(0.6, 2, 6); d.norm(2) != 0 || d.norm(-0.6) != 1 {
		t.Errorf("depth 2 m stands at %v and snow of 0.6 m at %v, want foot and head", d.norm(2), d.norm(-0.6))
	}
}

func TestNumbersKeepTheDigitsOfUse(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 123.4: "123", 27.94: "27.9", -24.6: "−24.6", 0.0921: "0.092", 0.25: "0.25", 3: "3.0"} {
		if got := short(x); got != want {
			t.Errorf("%v: %q, want %q", x, got, want)
		}
	}
}
