package crop

import (
	"math"
	"testing"
)

// same fails unless two pure numbers agree to rounding.
func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-12 {
		t.Errorf("%s: %.15g, want %g", what, got, want)
	}
}

// FAO-56's (Allen et al. 1998, eq. 66) level, line, level, line, by heat: with
// soybean's 0.15, 1.10 and 0.30 (table 17, from memory), and nothing on bare ground.
func TestCoefficientThroughASeason(t *testing.T) {
	k := named(t, "soybean")
	at := func(stage Stage, share float64) float64 {
		s := Stand{Kind: k, Need: 800, Units: 800 * share, Stage: stage, PlantedOn: 130}
		return s.Kcb(200)
	}
	mid := func(a, b float64) float64 { return (a + b) / 2 }
	same(t, "waiting", at(Waiting, 0), 0)
	same(t, "not up", at(Planted, 0), 0)
	same(t, "up", at(Growing, k.Emergence), 0.15)
	same(t, "spreading, half way", at(Growing, mid(k.Cover, k.Full)), (0.15+1.10)/2)
	same(t, "full", at(Full, mid(k.Full, k.Late)), 1.10)
	same(t, "turning, begun", at(Ripening, k.Late), 1.10)
	same(t, "turning, half way", at(Ripening, mid(k.Late, 1)), (1.10+0.30)/2)
	same(t, "ripe", at(Ripening, 1), 0.30)
	same(t, "harvested", at(Harvested, 1), 0)
}

// Grass greens up over its first heat, levels at 0.90 (FAO-56 table 17, rotated
// grazing 0.80-1.00, from memory), and is dormant after day 305 (1 November).
func TestCoefficientOfGrass(t *testing.T) {
	k := named(t, "grass")
	at := func(units float64, day int) float64 {
		s := Stand{Kind: k, Units: units, Stage: Growing}
		return s.Kcb(day)
	}
	start, full := k.Emergence*k.Maturity, k.Full*k.Maturity
	same(t, "winter", at(0, 20), 0.30)
	same(t, "green-up, half way", at((start+full)/2, 120), (0.30+0.90)/2)
	same(t, "summer", at(2*full, 200), 0.90)
	same(t, "31 October, leap year", at(2*full, 305), 0.90)
	same(t, "November", at(2*full, 306), 0.30)
}

// Where nothing was planted in time, weeds come up from mid-June to 0.60 in a month
// (assumption) and are gone by mid-October; after a harvest there are none.
func TestWeeds(t *testing.T) {
	k := named(t, "corn")
	unplanted := Stand{Kind: k, Stage: Harvested}
	for _, c := range []struct {
		day  int
		want float64
	}{{160, 0}, {166, 0}, {181, (0.15 + 0.60) / 2}, {196, 0.60}, {287, 0.60}, {288, 0}} {
		same(t, "weeds", unplanted.Kcb(c.day), c.want)
	}
	harvested := Stand{Kind: k, Stage: Harvested, PlantedOn: 120}
	same(t, "after harvest", harvested.Kcb(230), 0)
}

// Leaves shade by the day's coefficient, and by that of full cover while they turn;
// height goes with the shade above the 0.15 of bare soil (FAO-56 chapter 9, Kcmin).
func TestShadeAndHeight(t *testing.T) {
	k := named(t, "corn") // 2 m at 1.15
	for _, stage := range []Stage{Planted, Growing, Full, Harvested} {
		s := Stand{Kind: k, Stage: stage}
		same(t, "shade", s.Shade(0.4), 0.4)
	}
	s := Stand{Kind: k, Stage: Ripening}
	same(t, "shade of turning leaves", s.Shade(0.4), 1.15)
	for _, c := range []struct{ shade, want float64 }{{0, 0}, {0.15, 0}, {0.65, 1}, {1.15, 2}, {1.2, 2}} {
		same(t, "height", s.Height(c.shade), c.want)
	}
}

// Twice the residue lies between harvest and planting, at most 0.9 (common
// practice), but never less than after planting: without tillage none is buried. A
// field that was not planted in time is worked as if it had been.
func TestResidueThroughTheYear(t *testing.T) {
	k := named(t, "corn")
	for _, c := range []struct{ after, between float64 }{{0, 0}, {0.3, 0.6}, {0.45, 0.9}, {0.8, 0.9}, {0.95, 0.95}, {1, 1}} {
		for what, s := range map[string]Stand{"before planting": {Kind: k, Stage: Waiting}, "after harvest": {Kind: k, Stage: Harvested, PlantedOn: 120}} {
			same(t, what, s.Residue(c.after), c.between)
		}
		for _, stage := range []Stage{Planted, Growing, Full, Ripening} {
			s := Stand{Kind: k, Stage: stage, PlantedOn: 120}
			same(t, "under a crop", s.Residue(c.after), c.after)
		}
		for what, s := range map[string]Stand{"never planted": {Kind: k, Stage: Harvested}, "under grass": {Kind: named(t, "grass"), Stage: Growing}} {
			same(t, what, s.Residue(c.after), c.after)
		}
	}
}
