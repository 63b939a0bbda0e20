package proof

import "mottle/sim/snow"

// halfSnow is the daily mean (C) at which precipitation turns from snow to rain, found
// by letting it fall.
func halfSnow() float64 {
	cold, warm := -10.0, 10.0
	for range 40 {
		mid := (cold + warm) / 2
		var p snow.Pack
		if p.Day(snow.Default(), snow.Sheltered, mid, 0.01, 0).Rain > 0 {
			warm = mid
		} else {
			cold = mid
		}
	}
	return warm
}

// snowRanges place the threshold between snow and rain, the melt of a day one degree
// above freezing and the water that a wet pack holds among published values.
func snowRanges() ([]Check, error) {
	const half = "daily mean at which half falls as snow"
	warm := halfSnow()
	threshold := func(id, source string, status Status, expected, low, high float64, note string) Check {
		return Check{ID: id, What: half, Source: source, Status: status, Unit: "C",
			Expected: expected, Got: warm, Report: true, Low: low, High: high, Note: note}
	}
	p := snowOf(300)
	melt := p.Day(snow.Default(), snow.Sheltered, 1, 0, 0).Melt / perMillimetre
	factor := func(id, source string, expected, low, high float64, note string) Check {
		return Check{ID: id, What: "melt a degree above freezing", Source: source, Status: Memory, Unit: "mm/C-d",
			Expected: expected, Got: melt, Report: true, Low: low, High: high, Note: note}
	}
	soaked := snowOf(300)
	soaked.Day(snow.Default(), snow.Sheltered, 2, 0.05, 0)
	logistic := listedRow("S01c").num("expected")
	const atNinety = 1.376 // C, the same curve at 90 % humidity
	ramp := listedRow("S03")
	const (
		oneStep      = "the product takes one threshold, snow at or below it and rain above"
		lowest, most = -1.0, 2.5 // C, of the stations
	)
	return []Check{
		{ID: "S01, stations", What: half, Source: "Ye, Cohen and Rawlins 2012: critical air temperature of 547 stations of northern Eurasia", Status: Published, Unit: "C",
			Expected: (lowest + most) / 2, Got: warm, Tolerance: (most - lowest) / 2, Why: "the stations lie between -1.0 and 2.5 C; the threshold stands for one of them"},
		threshold("S01c, range", "Jennings et al. 2018: hemispheric mean and the range of most stations", Memory, 1.0, -0.4, 2.4,
			oneStep),
		threshold("S01c, logistic", listedRow("S01c")["source"], Published, logistic, atNinety, logistic,
			oneStep+"; the range is that of 90 to 80 % humidity, and saturated air has half its snow at 0.74 C"),
		threshold("S02, half", listedRow("S02a")["source"], Memory, 2.28, 0, 6,
			oneStep+"; both fall between 0 and 6 C, half of each higher than the hemisphere's mean of 1.0 C"),
		threshold("S03, middle", ramp["source"], Memory, 1.1, -1.1, 3.3, oneStep+"; the ramp gives half at the expected value"),
		factor("S04a, range", "NEH 630 chapter 11, degree-day factors", 2.74, 1.6, 6.0, "4 suits bare cropland; 2.74 is for when nothing is known"),
		factor("S04a, rain-free", "EM 1110-2-1406, rain-free melt in the open", 2.75, 1.8, 3.7, "4 suits bare cropland, late in the season"),
		{ID: "3.3, held", What: "liquid that a rained-on pack holds, share of its water", Source: "drained snow 2-5 %, fresh snow up to 10 %", Status: Memory, Unit: "%",
			Expected: 3.5, Got: 100 * soaked.Liquid / soaked.SWE, Report: true, Low: 2, High: 10, Note: "the pack holds 5 %, the upper end of drained snow"},
	}, nil
}
