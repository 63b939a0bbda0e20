package sim

import "math"

// Measure is one figure of a year.
type Measure struct {
	Name  string // stable, for programs
	Label string // for people
	Unit  string
	// ByMedian measures are dates: over years the median counts, with "never
	// stopped" ranked first (-Inf) and "none" last (+Inf).
	ByMedian bool
	// Low and High name what -Inf and +Inf stand for.
	Low, High string
	of        func(r *Record, y YearSpan) float64
}

// Of computes the measure for a year of a record.
func (m Measure) Of(r *Record, y YearSpan) float64 { return m.of(r, y) }

const (
	saturatedHours = 12   // h within a day that make it saturated
	leastAir       = 0.10 // m3/m3
	flowing        = 0.1  // mm/d of drain flow that counts
	pause          = 7    // days without it
)

// Saturated says whether a day counts as saturated: the table within 0.30 m for
// more than 12 h, no ice in the top 0.30 m.
func (d *Days) Saturated(i int) bool {
	return d.WetHours[i] > saturatedHours && d.IceTop[i] < thawedLimit
}

// ShortAir says whether a day counts as one of short air: less than 0.10 m3/m3 of
// air in the top 0.30 m, no ice there.
func (d *Days) ShortAir(i int) bool { return d.Air[i] < leastAir && d.IceTop[i] < thawedLimit }

// Measures lists the yearly measures, in the order of tables.
func Measures() []Measure {
	sum := func(pick func(d *Days) []float64) func(*Record, YearSpan) float64 {
		return func(r *Record, y YearSpan) float64 {
			t := 0.0
			for _, x := range pick(r.Days)[y.First:y.End] {
				t += x
			}
			return t
		}
	}
	count := func(is func(r *Record, i int) bool) func(*Record, YearSpan) float64 {
		return func(r *Record, y YearSpan) float64 {
			t := 0.0
			for i := y.First; i < y.End; i++ {
				if is(r, i) {
					t++
				}
			}
			return t
		}
	}
	largest := func(pick func(d *Days) []float64, in func(month uint8) bool) func(*Record, YearSpan) float64 {
		return func(r *Record, y YearSpan) float64 {
			t := 0.0
			for i := y.First; i < y.End; i++ {
				if in(r.Forcing.Month[i]) {
					t = math.Max(t, pick(r.Days)[i])
				}
			}
			return t
		}
	}
	always := func(uint8) bool { return true }
	spring := func(m uint8) bool { return m >= 3 && m <= 5 }
	rest := func(m uint8) bool { return m < 3 || m > 5 }
	add := func(fs ...func(*Record, YearSpan) float64) func(*Record, YearSpan) float64 {
		return func(r *Record, y YearSpan) float64 {
			t := 0.0
			for _, f := range fs {
				t += f(r, y)
			}
			return t
		}
	}
	precipitation := sum(func(d *Days) []float64 { return d.Precipitation })
	drain := sum(func(d *Days) []float64 { return d.Drain })
	ditch := sum(func(d *Days) []float64 { return d.Ditch })
	runoff := sum(func(d *Days) []float64 { return d.Runoff })
	seepage := sum(func(d *Days) []float64 { return d.SeepageOut })
	letIn := sum(func(d *Days) []float64 { return d.LetIn })
	peakHour := func(d *Days) []float64 { return d.PeakHour }

	return []Measure{
		{Name: "days_saturated", Label: "days saturated", Unit: "d",
			of: count(func(r *Record, i int) bool { return r.Days.Saturated(i) })},
		{Name: "days_saturated_apr_jun", Label: "days saturated, April-June", Unit: "d",
			of: count(func(r *Record, i int) bool {
				return r.Days.Saturated(i) && r.Forcing.Month[i] >= 4 && r.Forcing.Month[i] <= 6
			})},
		{Name: "days_saturated_season", Label: "days saturated, crop season", Unit: "d",
			of: count(func(r *Record, i int) bool { return r.Days.Saturated(i) && r.Days.Season[i] })},
		{Name: "days_frozen_topsoil", Label: "days with ice in the top 0.30 m", Unit: "d",
			of: count(func(r *Record, i int) bool { return r.Days.IceTop[i] >= thawedLimit })},
		{Name: "short_air_days", Label: "short-air days", Unit: "d",
			of: count(func(r *Record, i int) bool { return r.Days.ShortAir(i) })},
		{Name: "excess_water_sum", Label: "excess-water sum, crop season", Unit: "cm-d", of: excessWater},
		{Name: "longest_wet_spell", Label: "longest wet spell, crop season", Unit: "d", of: longestWetSpell},
		{Name: "fieldwork_days_spring", Label: "fieldwork days, 1 April - 15 June", Unit: "d",
			of: count(func(r *Record, i int) bool {
				d := r.Forcing.YearDay[i]
				return r.Days.Bears[i] && d >= 91 && d <= 166
			})},
		{Name: "planting_day", Label: "planting date (median)", Unit: "day of year", ByMedian: true, Low: "no annual crop", High: "not planted", of: plantingDay},
		{Name: "drain_outflow", Label: "drain outflow", Unit: "mm", of: drain},
		{Name: "drain_share", Label: "drain outflow, share of precipitation", Unit: "%",
			of: func(r *Record, y YearSpan) float64 {
				p := precipitation(r, y)
				if p == 0 {
					return 0
				}
				return 100 * drain(r, y) / p
			}},
		{Name: "surface_runoff", Label: "surface runoff", Unit: "mm", of: runoff},
		{Name: "edge_flow", Label: "edge flow: runoff and drain", Unit: "mm", of: add(drain, runoff)},
		{Name: "lateral_outflow", Label: "slow lateral outflow to a ditch", Unit: "mm", of: ditch},
		{Name: "seepage_out", Label: "seepage out", Unit: "mm", of: seepage},
		{Name: "water_let_in", Label: "water let in through the base", Unit: "mm", of: letIn},
		{Name: "all_outflow", Label: "all outflow, less water let in", Unit: "mm",
			of: func(r *Record, y YearSpan) float64 {
				return add(drain, ditch, runoff, seepage)(r, y) - letIn(r, y)
			}},
		{Name: "evapotranspiration", Label: "evapotranspiration", Unit: "mm",
			of: add(sum(func(d *Days) []float64 { return d.Transpiration }), sum(func(d *Days) []float64 { return d.Evaporation }))},
		{Name: "precipitation", Label: "precipitation", Unit: "mm", of: precipitation},
		{Name: "run_on", Label: "run-on from the land above", Unit: "mm", of: sum(func(d *Days) []float64 { return d.Runon })},
		{Name: "snow_blown_off", Label: "snow blown off", Unit: "mm", of: sum(func(d *Days) []float64 { return d.BlownOff })},
		{Name: "storage_change", Label: "water stored, change over the year", Unit: "mm",
			of: func(r *Record, y YearSpan) float64 {
				before := r.Begun
				if y.First > 0 {
					before = r.Days.Storage[y.First-1]
				}
				return r.Days.Storage[y.End-1] - before
			}},
		{Name: "peak_hour", Label: "peak flow, hour", Unit: "mm/h", of: largest(peakHour, always)},
		{Name: "peak_hour_spring", Label: "peak flow, hour, March-May", Unit: "mm/h", of: largest(peakHour, spring)},
		{Name: "peak_hour_rest", Label: "peak flow, hour, rest of the year", Unit: "mm/h", of: largest(peakHour, rest)},
		{Name: "peak_day", Label: "peak flow, day", Unit: "mm/d",
			of: func(r *Record, y YearSpan) float64 {
				t := 0.0
				for i := y.First; i < y.End; i++ {
					t = math.Max(t, r.Days.Drain[i]+r.Days.Runoff[i])
				}
				return t
			}},
		{Name: "first_drain_flow", Label: "first drain flow (median)", Unit: "day of year", ByMedian: true, Low: "never stopped", High: "none", of: firstDrainFlow},
		{Name: "frost_out", Label: "frost out (median)", Unit: "day of year", ByMedian: true, Low: "no frost", High: "not within the year", of: frostOut},
		{Name: "deepest_frost", Label: "deepest frost", Unit: "m", of: largest(func(d *Days) []float64 { return d.Frost }, func(m uint8) bool { return m <= 7 })},
		{Name: "root_zone_ece", Label: "root-zone ECe, crop season", Unit: "dS/m", of: seasonMean(func(d *Days) []float64 { return d.RootECe })},
		{Name: "salinity_index", Label: "salinity-risk index", Unit: "", of: seasonMean(func(d *Days) []float64 { return d.SaltIndex })},
		{Name: "salt_drained", Label: "salt leaving by the drain", Unit: "kg/ha", of: sum(func(d *Days) []float64 { return d.SaltDrained })},
	}
}

// excessWater is the sum of (0.30 m - table) over the season's days (Sieben
// 1964; Wesseling 1974), cm-d.
func excessWater(r *Record, y YearSpan) float64 {
	t := 0.0
	for i := y.First; i < y.End; i++ {
		if r.Days.Season[i] && r.Days.IceTop[i] < thawedLimit {
			t += 100 * math.Max(0, topsoilDepth-r.Days.Table[i])
		}
	}
	return t
}

func longestWetSpell(r *Record, y YearSpan) float64 {
	longest, run := 0, 0
	for i := y.First; i < y.End; i++ {
		if r.Days.Season[i] && r.Days.Saturated(i) {
			run++
		} else {
			run = 0
		}
		longest = max(longest, run)
	}
	return float64(longest)
}

func plantingDay(r *Record, y YearSpan) float64 {
	if r.Days.Season[y.First+100] && r.Days.Planted[y.First+100] == 0 {
		return math.Inf(-1) // perennial
	}
	if d := r.Days.Planted[y.End-1]; d > 0 {
		return d
	}
	return math.Inf(1)
}

// seasonMean is the mean over the season's days.
func seasonMean(pick func(d *Days) []float64) func(*Record, YearSpan) float64 {
	return func(r *Record, y YearSpan) float64 {
		t, n := 0.0, 0
		for i := y.First; i < y.End; i++ {
			if r.Days.Season[i] {
				t += pick(r.Days)[i]
				n++
			}
		}
		return t / float64(n)
	}
}

// firstDrainFlow is the first day of the year with drain flow after at least a
// week without, sought until mid-year: that is the winter's pause. A drain that
// ran in those months without such a pause never stopped; one that did not run by
// then may begin later in the year, or not at all.
func firstDrainFlow(r *Record, y YearSpan) float64 {
	dry := 0
	for i := max(0, y.First-pause); i < y.First; i++ {
		if r.Days.Drain[i] <= flowing {
			dry++
		} else {
			dry = 0
		}
	}
	ran := false
	for i := y.First; i < y.End; i++ {
		if ran && r.Forcing.Month[i] > 6 {
			return math.Inf(-1)
		}
		switch {
		case r.Days.Drain[i] <= flowing:
			dry++
		case dry >= pause:
			return float64(r.Forcing.YearDay[i])
		default:
			dry, ran = 0, true
		}
	}
	if ran {
		return math.Inf(-1)
	}
	return math.Inf(1)
}

// frostOut is the first day after the deepest frost of January to July on which
// every layer above 2 m is thawed.
func frostOut(r *Record, y YearSpan) float64 {
	deepest, at := 0.0, -1
	for i := y.First; i < y.End && r.Forcing.Month[i] <= 7; i++ {
		if r.Days.Frost[i] > deepest {
			deepest, at = r.Days.Frost[i], i
		}
	}
	if at < 0 {
		return math.Inf(-1)
	}
	for i := at; i < y.End; i++ {
		if r.Days.Ice[i] < thawedLimit {
			return float64(r.Forcing.YearDay[i])
		}
	}
	return math.Inf(1)
}
