package plots

import (
	"context"
	"sync"
	"testing"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/weather"
)

// fixtureYears of invented weather are enough for every figure.
const fixtureYears = 4

// run compares the demo's invented field, without the land above it, under
// invented weather.
var run = sync.OnceValues(func() (*compare.Result, error) {
	f := site.Demo()
	f.Runon = nil
	s := weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), fixtureYears, 1)
	return compare.Run(context.Background(), &f, s, compare.Options{})
})

func result(t *testing.T) *compare.Result {
	t.Helper()
	r, err := run()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func figures(t *testing.T, us bool) []Figure {
	t.Helper()
	f, err := Compare(result(t), us)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
