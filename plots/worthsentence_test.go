package plots

import (
	"math"
	"strings"
	"testing"

	"mottle/sim/compare"
	"mottle/sim/worth"
)

// change makes the decision's days saturated what a case wants.
func change(r *worth.Result, measure string, set func(l *compare.Line)) {
	c := *r.Compare
	c.Lines = append([]compare.Line(nil), c.Lines...)
	for i := range c.Lines {
		if c.Lines[i].Name == measure {
			set(&c.Lines[i])
		}
	}
	r.Compare = &c
}

// Which way the sentence falls follows from the share of futures above zero, in the
// calibrated words of Mastrandrea et al. (2010): very likely from 90 %, likely from
// 66 %. A middle m of futures spread evenly over m - 1000 to m + 1000 leaves the share
// (m + 1000)/2000 above zero.
func TestStanceFollowsTheFutures(t *testing.T) {
	for _, c := range []struct {
		middle float64
		want   string
	}{
		{990, "Tile pays here"}, {820, "Tile pays here"}, {780, "Tile likely pays here"}, {340, "Tile likely pays here"},
		{300, "It depends on price of corn whether tile pays here"}, {-300, "It depends on price of corn whether tile pays here"},
		{-340, "Tile likely does not pay here"}, {-780, "Tile likely does not pay here"}, {-820, "Tile does not pay here"}, {-1100, "Tile does not pay here"},
	} {
		r := invent(t, 16)
		r.Futures = futures(c.middle, 1000)
		if got := WorthSentence(r, false); !strings.HasPrefix(got, c.want+":") {
			t.Errorf("middle %g: %q, want it to begin with %q", c.middle, got, c.want)
		}
	}
	// What the futures alone would call paying.
	for what, c := range map[string]struct {
		years int
		spoil func(r *worth.Result)
		want  string
	}{
		"few years": {10, func(*worth.Result) {}, "Too few years say whether tile pays here"},
		"a loss nobody published": {16, func(r *worth.Result) {
			for i := range r.AsItLies {
				r.AsItLies[i].Crop = "winter wheat"
				r.AsItLies[i].Yield.Without = []string{"excess water"}
			}
		}, "No one can say whether tile pays here, for what wetness costs winter wheat is not published"},
		"a gain beyond the trials": {16, func(r *worth.Result) {
			for i := range r.AsItLies {
				r.AsItLies[i].Yield.Share /= 3
			}
			r.Trials = []worth.Trial{{Gain: map[string][2]float64{"corn": {0.1, 0.2}}, Low: -900, High: -100}}
		}, "Whether tile pays here depends on a gain in yield beyond that of any trial"},
	} {
		r := invent(t, c.years)
		r.Futures = futures(1500, 1000)
		c.spoil(r)
		if got := stance(r); got != c.want {
			t.Errorf("%s: %q, want %q", what, got, c.want)
		}
	}
	r := invent(t, 16)
	r.Futures = futures(0, 1000)
	r.Futures.Inputs = []worth.Swing{{Input: "soil", Low: 10, High: 300}}
	if got := stance(r); got != "It depends most on soil whether tile pays here" {
		t.Errorf("no input turns the answer: %q", got)
	}
	r.Futures = nil
	r.Money.NPV = -1
	if got := stance(r); got != "At middle prices tile does not pay here" {
		t.Errorf("no futures, a loss: %q", got)
	}
	r.Money.NPV = math.NaN()
	if got := stance(r); !strings.HasPrefix(got, "No one can say") {
		t.Errorf("no futures, nothing known: %q", got)
	}
}

// The whole sentence, by hand: 237 USD/ha are 95.9 USD/ac and 600 are 242.8 (1 ac =
// 0.40469 ha), quantiles of futures spread evenly over -1300 to 2500 are -1110 and 2310.
func TestSentenceByHand(t *testing.T) {
	r := invent(t, 2)
	r.Income = []float64{-100, 300}
	const beside = " Here yield gains 13.9 %, in the simulation; trials elsewhere weighed 10 % to 17 %, and at their gains it would pay here in 0 of 1 and might in 1."
	for us, want := range map[bool]string{
		false: "Too few years say whether tile pays here: in 2 years of weather, tile 1.07 m deep and 15.2 m apart would have taken 29 of 33 days saturated a year (90 % interval 25 to 34) " +
			"and added 237 USD/ha of income a year (−80 to 280 in nine years of ten); it paid back within 15 years in 52 of 100 resampled futures, " +
			"and its median net present value over 30 years was 600 USD/ha (−1,110 to 2,310 in nine futures of ten)." + beside,
		true: "Too few years say whether tile pays here: in 2 years of weather, tile 3.5 ft deep and 50 ft apart would have taken 29 of 33 days saturated a year (90 % interval 25 to 34) " +
			"and added 96 USD/ac of income a year (−32 to 113 in nine years of ten); it paid back within 15 years in 52 of 100 resampled futures, " +
			"and its median net present value over 30 years was 243 USD/ac (−449 to 935 in nine futures of ten)." + beside,
	} {
		if got := WorthSentence(r, us); got != want {
			t.Errorf("US %v:\n got %s\nwant %s", us, got, want)
		}
	}
}

// No sign is built in: days saturated may rise, or change by no more than the noise;
// income may fall.
func TestSentenceHasNoSignBuiltIn(t *testing.T) {
	r := invent(t, 16)
	r.Futures = futures(-2000, 500)
	r.Money.Income = -40
	change(r, "days_saturated", func(l *compare.Line) {
		l.AsItLies, l.WithTile, l.Difference, l.Low, l.High, l.Resolved = 1.2, 1.1, -0.1, -0.4, 0.2, false
	})
	got := WorthSentence(r, false)
	for _, want := range []string{"Tile does not pay here:", "changed the 1.2 days saturated a year by no more than the noise", "cost 40 USD/ha of income a year", "−2,000 USD/ha"} {
		if !strings.Contains(got, want) {
			t.Errorf("a field that needs none: %q lacks %q", got, want)
		}
	}
	change(r, "days_saturated", func(l *compare.Line) {
		l.AsItLies, l.WithTile, l.Difference, l.Low, l.High, l.Resolved = 4, 9, 5, 2, 8, true
	})
	if got := WorthSentence(r, false); !strings.Contains(got, "added 5 days saturated a year to 4 (90 % interval 2 to 8)") {
		t.Errorf("days saturated that rise: %q", got)
	}
	change(r, "days_saturated", func(l *compare.Line) { l.Low, l.High = math.NaN(), math.NaN() })
	r.Money.Income = 0.2
	if got := WorthSentence(r, false); !strings.Contains(got, "too few years for an interval") || !strings.Contains(got, "changed income by less than 1 USD/ha a year") {
		t.Errorf("no interval, no income: %q", got)
	}
}

// Only a certain share reads 0 or 100.
func TestOfHundred(t *testing.T) {
	for share, want := range map[float64]string{0: "0", 0.004: "fewer than 1", 0.52: "52", 0.996: "more than 99", 1: "100"} {
		if got := ofHundred(share); got != want {
			t.Errorf("%g: %q, want %q", share, got, want)
		}
	}
}

func TestRound3(t *testing.T) {
	for x, want := range map[float64]string{0: "0", -0.04: "0", 3.94: "3.9", -3.96: "−4", 9.96: "10", 33.2: "33", -1234567: "−1,234,567", 999.6: "1,000"} {
		if got := round3(x); got != want {
			t.Errorf("%g: %q, want %q", x, got, want)
		}
	}
}
