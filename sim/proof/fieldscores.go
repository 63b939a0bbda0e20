package proof

import (
	"mottle/sim"
	"mottle/weather"
)

// Season is a part of the year.
type Season int

// The seasons: scores of frozen months say as much about meters as about drains.
const (
	AllYear     Season = iota
	GrowingTime        // April to November
	Winter             // December to March
	seasons
)

var seasonNames = [seasons]string{"all year", "April-November", "December-March"}

func (s Season) holds(month int) bool {
	growing := month >= 4 && month <= 11
	return s == AllYear || (s == GrowingTime) == growing
}

// PlotScore is one plot.
type PlotScore struct {
	Site, Plot, System string
	// Daily and Monthly scores by season, screened and as recorded. Flows in mm/d;
	// a month counts with at least 25 days measured, over those days.
	Daily, Monthly       [seasons]Scores
	DailyRaw, MonthlyRaw [seasons]Scores
	Years                []YearScore
	Months               [12]MonthScore // screened
	TableDays            []TableScore   // where a well was read
	WorstWater           float64        // closing error of a year, mm
	Forgotten            bool           // whether the spin-up forgot its start
	days                 []flowDay
}

// YearScore is drain flow of a year over the days measured and not screened out, mm.
type YearScore struct {
	Year                       int
	Days                       int
	Rain, Measured, Simulated  float64 // rain of the whole year, as simulated
	Transpired, Runoff, Seeped float64 // simulated, of the whole year; seepage less what was let in
	Whole                      bool    // enough days for its bias to count
}

// MonthScore is drain flow of a calendar month over all years, mm on the days
// measured.
type MonthScore struct {
	Days                int
	Measured, Simulated float64
}

// TableScore counts days with the water table above a depth, on days read.
type TableScore struct {
	Depth               float64 // m
	Measured, Simulated int
	Days                int
}

// Ceiling is how well one plot of a set-up predicts another, daily, screened.
type Ceiling struct {
	Site, System string
	Plots        [2]string
	Daily        Scores
	Monthly      Scores
}

// flowDay is a day measured.
type flowDay struct {
	date                weather.Date
	measured, simulated float64
	screened            bool
}

// hold sets the simulation against the plot's flow.
func (p *PlotScore) hold(r *sim.Record, flow map[weather.Date]float64, m measuredSite) {
	start := r.Forcing.Start
	for d := m.from; d <= m.to; d++ {
		q, ok := flow[d]
		if !ok {
			continue
		}
		p.days = append(p.days, flowDay{d, q, r.Days.Drain[d-start], !sound(p.Site, p.Plot, d)})
	}
	for s := range seasons {
		p.Daily[s], p.Monthly[s] = p.scores(s, true)
		p.DailyRaw[s], p.MonthlyRaw[s] = p.scores(s, false)
	}
	for _, day := range p.days {
		if day.screened {
			continue
		}
		_, month, _ := day.date.Civil()
		m := &p.Months[month-1]
		m.Days++
		m.Measured += day.measured
		m.Simulated += day.simulated
	}
	for _, y := range r.Years {
		if y.Year < m.from.Year() {
			continue
		}
		p.Years = append(p.Years, p.year(r, y))
	}
}

// wholeYear is the number of sound days that make a year's sum count: as many as
// April to November has.
const wholeYear = 240

// year adds up one calendar year.
func (p *PlotScore) year(r *sim.Record, y sim.YearSpan) YearScore {
	s := YearScore{Year: y.Year}
	for _, day := range p.days {
		if day.date.Year() == y.Year && !day.screened {
			s.Days++
			s.Measured += day.measured
			s.Simulated += day.simulated
		}
	}
	s.Whole = s.Days >= wholeYear
	for i := y.First; i < y.End; i++ {
		d := r.Days
		s.Rain += d.Precipitation[i]
		s.Transpired += d.Transpiration[i] + d.Evaporation[i]
		s.Runoff += d.Runoff[i]
		s.Seeped += d.SeepageOut[i] - d.LetIn[i]
	}
	return s
}

// leastDays of a month that make it count.
const leastDays = 25

// scores of a season, by day and by month.
func (p *PlotScore) scores(s Season, screened bool) (daily, monthly Scores) {
	var a, b []float64
	byMonth := map[int]*[3]float64{}
	var order []int
	for _, day := range p.days {
		_, month, _ := day.date.Civil()
		if !s.holds(month) || screened && day.screened {
			continue
		}
		a, b = append(a, day.measured), append(b, day.simulated)
		k := monthOf(day.date)
		if byMonth[k] == nil {
			byMonth[k] = new([3]float64)
			order = append(order, k)
		}
		byMonth[k][0]++
		byMonth[k][1] += day.measured
		byMonth[k][2] += day.simulated
	}
	var ma, mb []float64
	for _, k := range order {
		if m := byMonth[k]; m[0] >= leastDays {
			ma, mb = append(ma, m[1]), append(mb, m[2])
		}
	}
	return score(a, b), score(ma, mb)
}

// holdTable counts wet days against a well.
func (p *PlotScore) holdTable(r *sim.Record, well map[weather.Date]float64) {
	for _, depth := range []float64{0.30, 0.60, 0.90} {
		t := TableScore{Depth: depth}
		for i, z := range r.Days.Table {
			read, ok := well[r.Forcing.Start+weather.Date(i)]
			if !ok {
				continue
			}
			t.Days++
			if read < depth {
				t.Measured++
			}
			if z < depth {
				t.Simulated++
			}
		}
		if t.Days > 0 {
			p.TableDays = append(p.TableDays, t)
		}
	}
}

// ceilings scores each plot of a set-up against the first.
func ceilings(plots []PlotScore) []Ceiling {
	var out []Ceiling
	for i := range plots {
		for j := range plots[:i] {
			other := map[weather.Date]float64{}
			for _, day := range plots[i].days {
				if !day.screened {
					other[day.date] = day.measured
				}
			}
			pair := PlotScore{}
			for _, day := range plots[j].days {
				if x, ok := other[day.date]; ok && !day.screened {
					pair.days = append(pair.days, flowDay{day.date, day.measured, x, false})
				}
			}
			c := Ceiling{Site: plots[i].Site, System: plots[i].System, Plots: [2]string{plots[j].Plot, plots[i].Plot}}
			c.Daily, c.Monthly = pair.scores(AllYear, true)
			out = append(out, c)
		}
	}
	return out
}
