package proof

import (
	"fmt"
	"math"
	"strconv"

	"mottle/sim/storm"
)

const huff = "Huff 1990, Illinois State Water Survey Circular 173, medians at a point (numbers from memory)"

// huffChecks hold the shape of a storm against what the published quartiles say
// of it. The table itself is from memory, so its entries are reported, and only
// what was derived from it by the reference pack is checked.
func huffChecks() []Check {
	// Rain in each quarter of the storm, %, and the heaviest 5 % step over the mean.
	quarters := [4][4]float64{{60, 22, 10, 8}, {22, 48, 21, 9}, {15, 23, 47, 15}, {13, 15, 23, 49}}
	peaks := [4]float64{3.4, 2.4, 2.6, 2.6}
	rows := table("watershed-huff-median.csv")
	var checks []Check
	for q := range quarters {
		gap, peak, before := 0.0, 0.0, 0.0
		for _, r := range rows {
			got := 100 * storm.Fallen(q, r.num("pct_duration")/100)
			gap = math.Max(gap, math.Abs(got-r.num(fmt.Sprintf("q%d_pct_rain", q+1))))
			peak = math.Max(peak, (got-before)/5)
			before = got
		}
		checks = append(checks, Check{
			ID: fmt.Sprintf("watershed-huff-median.csv:q%d", q+1), What: fmt.Sprintf("quartile %d: largest gap of %d steps of the mass curve", q+1, len(rows)),
			Source: huff, Status: Memory, Unit: "% of rain", Got: gap, Report: true, Low: 0, High: 1e-9,
			Note: "the table is from memory: this row shows that it was copied whole, not that it is right",
		})
		for i, want := range quarters[q] {
			got := 100 * (storm.Fallen(q, float64(i+1)/4) - storm.Fallen(q, float64(i)/4))
			checks = append(checks, Check{
				ID: fmt.Sprintf("watershed-huff-median.csv:q%d/quarter %d", q+1, i+1), What: fmt.Sprintf("quartile %d: rain in quarter %d of the storm", q+1, i+1),
				Source: huff, Status: Computed, Unit: "%", Expected: want, Got: got, Tolerance: 1e-9, Why: "whole per cents at steps of the table",
			})
		}
		checks = append(checks, Check{
			ID: fmt.Sprintf("watershed-huff-median.csv:q%d/peak", q+1), What: fmt.Sprintf("quartile %d: heaviest 5 %% step over the mean", q+1),
			Source: huff, Status: Computed, Unit: "-", Expected: peaks[q], Got: peak, Tolerance: 1e-9, Why: "a ratio of whole per cents",
		})
	}
	return checks
}

// designShape is a nested 24 h design storm of watershed-storm-shapes.csv.
type designShape struct{ hour, share []float64 }

func readDesignShape(name string) designShape {
	var d designShape
	for _, r := range table("watershed-storm-shapes.csv") {
		d.hour = append(d.hour, r.num("hour"))
		d.share = append(d.share, r.num(name))
	}
	return d
}

// at is the share fallen by an hour, linear between entries.
func (d designShape) at(hour float64) float64 {
	for i := 1; i < len(d.hour); i++ {
		if hour <= d.hour[i] {
			return d.share[i-1] + (d.share[i]-d.share[i-1])*(hour-d.hour[i-1])/(d.hour[i]-d.hour[i-1])
		}
	}
	return 1
}

// most is the largest share that falls within a span of hours. On a curve of
// straight pieces the worst span begins or ends at an entry.
func (d designShape) most(span float64) float64 {
	m := 0.0
	for _, h := range d.hour {
		for _, from := range []float64{h, h - span} {
			if from >= 0 && from+span <= 24 {
				m = math.Max(m, d.at(from+span)-d.at(from))
			}
		}
	}
	return m
}

// designReports hold the drawn storms of a great summer day against the nested
// design storms, which bound what one day's rain does in its worst hours.
func designReports() ([]Check, error) {
	const days = 400 // equally likely storms of the same depth
	const depth = 150.0
	daily := make([]float64, days)
	for i := range daily {
		daily[i] = depth
	}
	hours := make([]float64, 24*days)
	if err := storm.Hourly(hours, daily, func(int) int { return 7 }, storm.Default()); err != nil {
		return nil, err
	}
	var checks []Check
	for _, span := range []int{1, 3, 6, 12} {
		mean := 0.0
		for d := range days {
			day, worst := hours[24*d:24*d+24], 0.0
			for h := 0; h+span <= 24; h++ {
				sum := 0.0
				for _, mm := range day[h : h+span] {
					sum += mm
				}
				worst = math.Max(worst, sum)
			}
			mean += worst / depth / days
		}
		low, high := math.Inf(1), 0.0
		for _, name := range []string{"type_I", "type_IA", "type_II", "type_III"} {
			m := readDesignShape(name).most(float64(span))
			low, high = math.Min(low, m), math.Max(high, m)
		}
		checks = append(checks, Check{
			ID: "watershed-storm-shapes.csv:" + strconv.Itoa(span) + " h", What: fmt.Sprintf("share of a great summer day in its worst %d h, mean of %d drawn storms", span, days),
			Source: "SCS 24-h design storms I, IA, II, III (from memory)", Status: Memory, Unit: "-", Got: mean, Report: true, Low: low, High: high,
			Note: "July, 150 mm in a day. " + designNote(span),
		})
	}
	return checks, nil
}

// designNote says what to expect of a span.
func designNote(span int) string {
	if span >= 3 {
		return "Above where the day is drawn as one storm, without the showers that fill the rest of a real 24 h: great days come out more concentrated over 3 to 12 h than the design storms"
	}
	return "A design storm nests the worst minutes to hours of one return period, so it is an upper case for one hour; the draws keep a storm of this depth to 25 mm/h on average"
}
