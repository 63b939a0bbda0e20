package compare

import (
	"context"
	"testing"

	"mottle/sim/column"
)

// The demo's pair: forty years, both twins and the land above, every process on.
func BenchmarkPair(b *testing.B) {
	f, s := demoField(b, 40)
	v := variant{field: f, steps: column.DefaultSettings()}
	for b.Loop() {
		if _, err := run(context.Background(), v, s, nil); err != nil {
			b.Fatal(err)
		}
	}
}
