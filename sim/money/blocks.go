package money

import (
	"fmt"
	"math/rand/v2"
)

// Blocks draws years for a resampled series: indices into a record of n years, in
// runs of block years that follow one another in the record, until there are years
// of them; the last run is cut. Each run begins in any year from which a whole run
// fits, with equal chance (moving blocks, Kunsch 1989), so that wet spells stay
// together; the first and last years of the record come up less often. A block of
// 1 draws single years (Efron 1979). It panics unless 1 <= block <= n and years is
// not negative.
func Blocks(n, block, years int, rng *rand.Rand) []int {
	if block < 1 || block > n || years < 0 {
		panic(fmt.Sprintf("money: %d years in blocks of %d from a record of %d", years, block, n))
	}
	drawn := make([]int, 0, years)
	for len(drawn) < years {
		first := rng.IntN(n - block + 1)
		for i := 0; i < block && len(drawn) < years; i++ {
			drawn = append(drawn, first+i)
		}
	}
	return drawn
}
