package main

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"mottle/sim/basin"
	"mottle/weather"
)

// basinTable is a file of rows; rows calls put with its head and then with each row.
type basinTable struct {
	name string
	rows func(put func(cells ...string))
}

// mostDailyRows of daily.csv: of a larger basin it holds the outlet alone.
const mostDailyRows = 500_000

// basinTables are the tidy tables of a basin, SI.
func basinTables(r *basin.Result) []basinTable {
	part := basin.Parts()
	each := func(do func(s *basin.Outcome, n *basin.Node)) {
		for k := range r.Scenarios {
			s := &r.Scenarios[k]
			for i := range s.Nodes {
				do(s, &s.Nodes[i])
			}
		}
	}
	return []basinTable{
		{"nodes.csv", func(put func(...string)) {
			put("scenario", "node", "area_ha", "year", "surface_mm", "drain_mm", "seepage_mm", "peak_m3_s", "peak_date", "peak_spring_m3_s", "peak_rest_m3_s", "low_7_days_m3_s")
			each(func(s *basin.Outcome, n *basin.Node) {
				for i, year := range r.Years {
					put(s.Name, n.Name, number6(n.Area/1e4), strconv.Itoa(year), number6(n.Yearly[i][0]), number6(n.Yearly[i][1]), number6(n.Yearly[i][2]),
						number6(n.Peaks.Year[i]), n.Peaks.On[i].String(), number6(n.Peaks.Spring[i]), number6(n.Peaks.Rest[i]), number6(n.Lows[i]))
				}
			})
		}},
		{"monthly.csv", func(put func(...string)) {
			put("scenario", "node", "month", "part", "mean_mm")
			each(func(s *basin.Outcome, n *basin.Node) {
				for m := range n.Monthly {
					for c, x := range n.Monthly[m] {
						put(s.Name, n.Name, strconv.Itoa(m+1), part[c], number6(x))
					}
				}
			})
		}},
		{"daily.csv", func(put func(...string)) {
			put("scenario", "node", "date", "surface_m3_s", "drain_m3_s", "seepage_m3_s")
			each(func(s *basin.Outcome, n *basin.Node) {
				if n.Name != basin.Outlet && len(n.Daily)*len(s.Nodes)*len(r.Scenarios) > mostDailyRows {
					return
				}
				for d, q := range n.Daily {
					put(s.Name, n.Name, (r.First + weather.Date(d)).String(), number6(q[0]), number6(q[1]), number6(q[2]))
				}
			})
		}},
		{"floods.csv", func(put func(...string)) {
			put("scenario", "node", "return_period_years", "flow_m3_s", "low_m3_s", "high_m3_s", "change_percent", "change_low_percent", "change_high_percent")
			each(func(s *basin.Outcome, n *basin.Node) {
				for i, f := range n.Floods {
					change := []string{"", "", ""}
					if i < len(n.Changes) {
						c := n.Changes[i]
						change = []string{number6(c.Percent), number6(c.Low), number6(c.High)}
					}
					put(append([]string{s.Name, n.Name, fmt.Sprint(f.Years), number6(f.Flow), number6(f.Low), number6(f.High)}, change...)...)
				}
			})
		}},
		{"duration.csv", func(put func(...string)) {
			put("scenario", "node", "exceeded_share_of_days", "flow_m3_s")
			each(func(s *basin.Outcome, n *basin.Node) {
				for i, q := range n.Duration {
					put(s.Name, n.Name, number6(basin.Exceeded[i]), number6(q))
				}
			})
		}},
		{"regime.csv", func(put func(...string)) {
			put("scenario", "node", "flashiness", "base_flow_share", "centre_of_volume_day_of_year")
			each(func(s *basin.Outcome, n *basin.Node) {
				put(s.Name, n.Name, number6(n.Flashiness), number6(n.BaseShare), number6(n.Centre))
			})
		}},
		{"curve.csv", func(put func(...string)) {
			put("conductivity_factor", "share_asked", "share_drained", "days_saturated", "surface_mm", "drain_mm", "seepage_mm", "mean_peak_m3_s", "flashiness")
			for _, p := range points(r) {
				var year [3]float64
				for _, y := range p.Yearly {
					for c, x := range y {
						year[c] += x / float64(len(p.Yearly))
					}
				}
				put(number6(p.factor), number6(p.Share), number6(p.Drained), number6(p.Saturated), number6(year[0]), number6(year[1]), number6(year[2]), number6(mean(p.Peaks.Year)), number6(p.Flashiness))
			}
		}},
		{"events.csv", func(put func(...string)) {
			put("event", "scenario", "time", "surface_m3_s", "drain_m3_s", "seepage_m3_s")
			for k, day := range largestEvents(r) {
				for _, s := range r.Scenarios {
					hours := s.Nodes[len(s.Nodes)-1].Hourly
					for h := max(0, 24*(day-2)); h < min(len(hours), 24*(day+8)); h++ {
						q := hours[h]
						put(strconv.Itoa(k+1), s.Name, fmt.Sprintf("%vT%02d:00", r.First+weather.Date(h/24), h%24), number6(q[0]), number6(q[1]), number6(q[2]))
					}
				}
			}
		}},
		{"units.csv", func(put func(...string)) {
			put("scenario", "unit", "drained", "days_saturated", "surface_runoff_mm", "drain_outflow_mm", "all_outflow_mm", "salt_drained_kg_ha", "peak_hour_mm_h")
			for _, s := range r.Scenarios {
				for i, u := range s.Units {
					put(s.Name, r.Basin.Units[i].ID, strconv.FormatBool(u.Drained), number6(u.Saturated), number6(u.Runoff), number6(u.Drain), number6(u.Outflow), number6(u.Salt), number6(u.PeakHour))
				}
			}
		}},
	}
}

// bandPoint is a point of the curve with the factor on conductivity that it was run at.
type bandPoint struct {
	basin.Point
	factor float64
}

// points are the curve's and those of its bands.
func points(r *basin.Result) []bandPoint {
	var list []bandPoint
	for _, p := range r.Curve {
		list = append(list, bandPoint{p, 1})
	}
	for _, b := range r.Bands {
		for _, p := range b.Curve {
			list = append(list, bandPoint{p, b.Factor})
		}
	}
	return list
}

// largestEvents are the days, counted from the record's first, of the five largest
// hours of different years at the outlet under the first scenario.
func largestEvents(r *basin.Result) []int {
	peaks := r.Scenarios[0].Nodes[len(r.Scenarios[0].Nodes)-1].Peaks
	order := make([]int, len(peaks.Year))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(peaks.Year[b], peaks.Year[a]) })
	var days []int
	for _, i := range order[:min(5, len(order))] {
		days = append(days, int(peaks.On[i]-r.First))
	}
	return days
}
