package storm

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// Huff 1990, Circular 173 (numbers from memory): every entry, and the figures
// quoted beside the table.
func TestHuffMedian(t *testing.T) {
	f, err := os.Open("../../testdata/storm/huff_median.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) != huffSteps+2 {
		t.Fatalf("%d lines, want a header and %d steps", len(lines), huffSteps+1)
	}
	for i, line := range lines[1:] {
		for q := range huffMedian {
			want, err := strconv.ParseFloat(line[q+1], 64)
			if err != nil {
				t.Fatal(err)
			}
			if got := huffMedian[q][i]; got != want {
				t.Errorf("quartile %d, step %d: %g, want %g", q+1, i, got, want)
			}
		}
	}
}

// Rain in each quarter of the storm, %, and peak over mean intensity of a 5 %
// step, as listed with the curves (exact: table entries are whole per cents).
func TestHuffPublishedFigures(t *testing.T) {
	quarters := [4][4]float64{{60, 22, 10, 8}, {22, 48, 21, 9}, {15, 23, 47, 15}, {13, 15, 23, 49}}
	peaks := [4]float64{3.4, 2.4, 2.6, 2.6}
	for q := range huffMedian {
		for i, want := range quarters[q] {
			got := 100 * (Fallen(q, float64(i+1)/4) - Fallen(q, float64(i)/4))
			if math.Abs(got-want) > 1e-9 {
				t.Errorf("quartile %d: %g %% in quarter %d, want %g", q+1, got, i+1, want)
			}
		}
		peak := 0.0
		for i := range huffSteps {
			peak = max(peak, huffSteps*(Fallen(q, float64(i+1)/huffSteps)-Fallen(q, float64(i)/huffSteps)))
		}
		if math.Abs(peak-peaks[q]) > 1e-9 {
			t.Errorf("quartile %d: peak %g of the mean, want %g", q+1, peak, peaks[q])
		}
	}
}

// Huff 1967: 30, 36, 19 and 15 % of storms; on evenly spread ranks the count
// is exact to one rank.
func TestQuartileShares(t *testing.T) {
	const ranks = 10000
	var count [4]int
	last := 0
	for i := range ranks {
		q := quartileOf((float64(i) + 0.5) / ranks)
		if q < last {
			t.Fatalf("a longer storm has an earlier quartile at rank %d", i)
		}
		last = q
		count[q]++
	}
	for q, want := range [4]int{3000, 3600, 1900, 1500} {
		if d := count[q] - want; d < -1 || d > 1 {
			t.Errorf("quartile %d: %d of %d, want %d", q+1, count[q], ranks, want)
		}
	}
}
