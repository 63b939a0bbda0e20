package compare

import (
	"context"
	"testing"

	"mottle/sim/column"
	"mottle/weather"
)

// One pair of forty years with every process, the land above it included.
func BenchmarkPair(b *testing.B) {
	f := invented()
	s := weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), 40, 1)
	v := variant{field: f, steps: column.DefaultSettings()}
	for b.Loop() {
		if _, err := run(context.Background(), v, s, nil); err != nil {
			b.Fatal(err)
		}
	}
}
