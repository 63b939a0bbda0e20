package storm

// huffSteps is the number of equal parts of a storm in the table, 5 % each.
const huffSteps = 20

// huffMedian is the share of a storm's rain, %, fallen by each 5 % of its
// duration: the median of storms at a point whose heaviest quarter is the
// first, second, third or fourth (Huff 1990, Illinois State Water Survey
// Circular 173, from memory).
var huffMedian = [4][huffSteps + 1]float64{
	{0, 16, 33, 43, 52, 60, 66, 71, 75, 79, 82, 84, 86, 88, 90, 92, 94, 96, 97, 98, 100},
	{0, 3, 8, 12, 16, 22, 29, 39, 51, 62, 70, 76, 81, 85, 88, 91, 93, 95, 97, 98, 100},
	{0, 3, 6, 9, 12, 15, 19, 23, 27, 32, 38, 45, 57, 70, 79, 85, 89, 92, 95, 97, 100},
	{0, 2, 5, 8, 10, 13, 16, 19, 22, 25, 28, 32, 35, 39, 45, 51, 59, 72, 84, 92, 100},
}

// huffRanks is the running share of storms of each quartile: 30, 36, 19 and
// 15 % (Huff 1967, from memory).
var huffRanks = [4]float64{0.30, 0.66, 0.85, 1}

// quartileOf returns the quartile, 0 to 3, of a storm whose length has the
// given rank, 0 to 1, among all storms of its season. Short storms are mostly
// first quartile and the longest fourth (Huff 1990); laying the published
// shares along the ranks keeps both that order and the shares.
func quartileOf(rank float64) int {
	for q, upTo := range huffRanks {
		if rank < upTo {
			return q
		}
	}
	return len(huffRanks) - 1
}

// Fallen returns the share (0 to 1) of a storm's rain fallen after the share x
// of its duration, for storms whose heaviest quarter is the first to fourth:
// quartile 0 to 3. It is linear between the 5 % steps of Huff's (1990) medians,
// 0 before the storm and 1 after it. It panics on another quartile.
func Fallen(quartile int, x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	}
	curve := &huffMedian[quartile]
	i := int(x * huffSteps)
	part := x*huffSteps - float64(i)
	return (curve[i] + part*(curve[i+1]-curve[i])) / 100
}
