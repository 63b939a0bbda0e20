package plots

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"mottle/sim/money"
	"mottle/sim/worth"
)

// table is a file of rows under a head.
type table struct {
	name string
	rows [][]string
}

// WorthTables are the numbers of a decision by name of their file, a row for each case
// under a head of names with their units, all SI: seasons.csv, income.csv, bill.csv,
// money.csv, trials.csv, futures.csv and map.csv, the last two only of a result that
// has futures and designs. Losses and shares are of the best yield, 0-1. A cell without a value is
// empty; "inf" stands for what never comes or has no limit. The claims of the page
// name the files.
func WorthTables(r *worth.Result) map[string][][]string {
	tables := []table{seasonRows(r), incomeRows(r), billRows(r), moneyRows(r), trialRows(r)}
	if r.Futures != nil {
		tables = append(tables, futureRows(r))
	}
	if r.Map != nil {
		tables = append(tables, mapRows(r.Map))
	}
	files := map[string][][]string{}
	for _, t := range tables {
		files[t.name] = t.rows
	}
	return files
}

// cellOf writes a number.
func cellOf(x float64) string {
	switch {
	case math.IsNaN(x):
		return ""
	case math.IsInf(x, 1):
		return "inf"
	case math.IsInf(x, -1):
		return "-inf"
	}
	return strconv.FormatFloat(x, 'g', 8, 64)
}

// dayCell writes a day of the year, of which 0 is none.
func dayCell(day int) string {
	if day == 0 {
		return ""
	}
	return strconv.Itoa(day)
}

func seasonRows(r *worth.Result) table {
	t := table{"seasons.csv", [][]string{{"year", "twin", "crop", "bears_day_of_year", "planted_day_of_year", "stands_drowned", "ripe_day_of_year", "harvest_fieldwork_d",
		"saturated_d", "saturated_apr_jun_d", "under_water_d", "ece_dS_per_m", "yield_share"}}}
	for _, c := range causes {
		t.rows[0] = append(t.rows[0], "lost_"+strings.ReplaceAll(c.String(), " ", "_"))
	}
	t.rows[0] = append(t.rows[0], "no_relation_for", "beyond_relation")
	for i := range r.AsItLies {
		for twin, s := range []worth.Season{r.AsItLies[i], r.WithTile[i]} {
			harvest := ""
			if s.Harvest >= 0 {
				harvest = strconv.Itoa(s.Harvest)
			}
			cells := []string{strconv.Itoa(s.Year), []string{lies.name, tiled.name}[twin], s.Crop, dayCell(s.Bears), dayCell(s.Planted), strconv.Itoa(s.Drowned), dayCell(s.Ripe), harvest,
				strconv.Itoa(s.Saturated), strconv.Itoa(s.SaturatedSpring), strconv.Itoa(s.UnderWater), cellOf(s.ECe), cellOf(s.Yield.Share)}
			for _, c := range causes {
				cells = append(cells, cellOf(s.Yield.Lost[c]))
			}
			t.rows = append(t.rows, append(cells, strings.Join(s.Yield.Without, "; "), strings.Join(s.Yield.Beyond, "; ")))
		}
	}
	return t
}

func incomeRows(r *worth.Result) table {
	t := table{"income.csv", [][]string{{"year", "crop", "extra_income_USD_per_ha"}}}
	for i, x := range r.Income {
		t.rows = append(t.rows, []string{strconv.Itoa(r.Years[i]), r.WithTile[i].Crop, cellOf(x)})
	}
	return t
}

func billRows(r *worth.Result) table {
	t := table{"bill.csv", [][]string{{"due", "item", "diameter_m", "quantity", "unit", "unit_cost_USD", "cost_USD"}}}
	for _, part := range []struct {
		due  string
		bill money.Bill
	}{{"once", r.Bill}, {"each year", r.Upkeep}} {
		for _, l := range part.bill {
			diameter := ""
			if l.Diameter > 0 {
				diameter = cellOf(l.Diameter)
			}
			t.rows = append(t.rows, []string{part.due, l.Item, diameter, cellOf(l.Quantity), l.Unit, cellOf(l.UnitCost), cellOf(l.Cost())})
		}
	}
	return t
}

func trialRows(r *worth.Result) table {
	t := table{"trials.csv", [][]string{{"place", "crop", "gain_low", "gain_high", "npv_low_USD_per_ha", "npv_high_USD_per_ha"}}}
	for _, trial := range r.Trials {
		for _, name := range slices.Sorted(maps.Keys(trial.Gain)) {
			ends := trial.Gain[name]
			t.rows = append(t.rows, []string{trial.Place, name, cellOf(ends[0]), cellOf(ends[1]), cellOf(trial.Low), cellOf(trial.High)})
		}
	}
	return t
}

func moneyRows(r *worth.Result) table {
	m := r.Money
	t := table{"money.csv", [][]string{{"quantity", "value", "unit"}}}
	add := func(name string, x float64, unit string) { t.rows = append(t.rows, []string{name, cellOf(x), unit}) }
	if tile := r.Field.Tile; tile != nil {
		add("tile_depth", tile.Depth, "m")
		add("tile_spacing", tile.Spacing, "m")
	}
	add("outlay", m.Outlay, "USD")
	add("outlay_by_area", m.PerArea, "USD/ha")
	add("yield_gain", r.Gain(), "of the yield without tile")
	add("extra_income", m.Income, "USD/ha a year")
	add("yearly_cost", m.YearlyCost, "USD/ha a year")
	add("npv", m.NPV, "USD/ha")
	add("internal_rate", m.Rate, "1 a year")
	add("payback_simple", m.Simple.Years, "years")
	add("payback_discounted", m.Discounted.Years, "years")
	add("break_even_gain", m.BreakEvenGain, "t/ha")
	add("break_even_price", m.BreakEvenPrice, "USD/t")
	add("doing_nothing", m.DoingNothing, "USD/ha a year")
	return t
}

func futureRows(r *worth.Result) table {
	f := r.Futures
	t := table{"futures.csv", [][]string{{"quantity", "input", "year", "quantile", "value", "unit"}}}
	add := func(quantity, input string, year int, q, x float64, unit string) {
		t.rows = append(t.rows, []string{quantity, input, dayCell(year), cellOf(q), cellOf(x), unit})
	}
	life, none := r.Money.Discounted.Within, math.NaN()
	for i := range 101 {
		q := float64(i) / 100
		add("npv", "", life, q, quantile(f.NPV, q), "USD/ha")
	}
	for _, c := range f.Pays {
		add("paid_back", "", c.Within, none, c.Share, "share of futures")
	}
	for _, y := range f.Fan {
		for _, q := range []struct{ at, x float64 }{{0.05, y.Q05}, {0.25, y.Q25}, {0.5, y.Median}, {0.75, y.Q75}, {0.95, y.Q95}} {
			t.rows = append(t.rows, []string{"running_sum", "", strconv.Itoa(y.Year), cellOf(q.at), cellOf(q.x), "USD/ha"})
		}
	}
	for _, s := range f.Inputs {
		add("npv_in_lower_third", s.Input, life, 0.5, s.Low, "USD/ha")
		add("npv_in_upper_third", s.Input, life, 0.5, s.High, "USD/ha")
	}
	return t
}

func mapRows(m *worth.Map) table {
	t := table{"map.csv", [][]string{{"depth_m", "spacing_m", "npv_USD_per_ha", "saturated_d", "mark"}}}
	for i, depth := range m.Depths {
		for k, spacing := range m.Spacings {
			here := func(d worth.Design) bool { return d.Depth == depth && d.Spacing == spacing }
			mark := ""
			switch {
			case here(m.Best):
				mark = "best"
			case slices.ContainsFunc(m.Flat, here):
				mark = "as good"
			}
			t.rows = append(t.rows, []string{cellOf(depth), cellOf(spacing), cellOf(m.NPV[i][k]), cellOf(m.Saturated[i][k]), mark})
		}
	}
	return t
}
