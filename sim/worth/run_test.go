package worth

import (
	"context"
	"testing"
	"time"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// demo is the invented field under its invented weather, some years of it.
func demo(t testing.TB, years int) (*site.Field, *weather.Series) {
	t.Helper()
	s := weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), years, 1)
	f, met, err := compare.Meet(site.Demo(), compare.Record{Series: s}, compare.Period{}, false)
	if err != nil {
		t.Fatal(err)
	}
	return f, met
}

func TestDemoLook(t *testing.T) {
	f, s := demo(t, 40)
	began := time.Now()
	r, err := Run(context.Background(), f, s, Options{Quick: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("quick %v", time.Since(began))
	t.Logf("%+v", r.Money)
	for _, l := range r.Bill {
		t.Logf("%+v", l)
	}
	t.Logf("best %+v flat %d", r.Map.Best, len(r.Map.Flat))
	for i, d := range r.Map.Depths {
		t.Logf("%.2f %.0f", d, r.Map.NPV[i])
	}
	for _, q := range r.Questions {
		t.Logf("%s %s: %s (%s)", q.Ask, q.Verdict, q.Answer, q.Why)
	}
	for i := range r.Years {
		a, b := r.AsItLies[i], r.WithTile[i]
		t.Logf("%d %s: bears %d %d, planted %d %d drowned %d %d, saturated %d %d, kept %.2f %.2f, %v %v", a.Year, a.Crop, a.Bears, b.Bears, a.Planted, b.Planted, a.Drowned, b.Drowned, a.Saturated, b.Saturated, a.Yield.Share, b.Yield.Share, a.Yield.Kept, b.Yield.Kept)
	}
}
