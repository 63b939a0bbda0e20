package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// hidden measures are in the files and the JSON but not on the screen: the
// header says the rain, and the parts of edge flow have lines of their own.
var hidden = map[string]bool{"precipitation": true, "edge_flow": true, "storage_change": true, "lateral_outflow": true, "days_saturated_season": true}

// shownRanges are the measures whose ranges the screen shows, with their heads;
// dates are those with tile.
var shownRanges = []struct{ measure, head, more string }{
	{"days_saturated_apr_jun", "days saturated,", "April-June"},
	{"drain_outflow", "", "drain outflow"},
	{"all_outflow", "", "all outflow"},
	{"peak_hour", "peak flow,", "hour"},
	{"frost_out", "frost out", "with tile"},
}

// quiet assumptions repeat a default of no consequence to the answer; they are
// in the JSON only. So are the features that nobody stated, "none".
var quiet = map[string]bool{
	"groundwater.kind": true, "evapotranspiration.method": true, "storms.seed": true, "storms.draw": true,
}

// textWidth is where paragraphs are broken, characters.
const textWidth = 110

// writeText prints the result in under a screen.
func (v *view) writeText(w io.Writer) error {
	var b bytes.Buffer
	v.header(&b)
	v.table(&b)
	v.rangeTable(&b)
	v.ledgerLine(&b)
	v.assumed(&b)
	_, err := w.Write(b.Bytes())
	return err
}

func (v *view) header(b *bytes.Buffer) {
	fmt.Fprintln(b, title(v.Field.Name, v.Field.Input.Name, v.Field.Invented))
	fmt.Fprintf(b, "soil     %s\n", v.Field.Soil)
	fmt.Fprintf(b, "tile     %s\n", v.Field.Tile)
	if v.Field.Old != "" {
		fmt.Fprintf(b, "as it lies the field has old tile: %s\n", v.Field.Old)
	}
	weather := v.Weather.Layout
	switch {
	case v.Weather.Invented: // by a station of no place
		weather += " - INVENTED"
	case v.Weather.Station != "":
		weather += ", " + v.Weather.Station
	}
	rain, per := v.units.Value(v.Weather.Precipitation, "mm")
	fmt.Fprintf(b, "weather  %s\n", weather)
	fmt.Fprintf(b, "         %s to %s, %s, %s %s of precipitation a year, %s filled\n",
		v.Weather.From, v.Weather.To, count(v.Weather.CompleteYears, "complete year"), digits(rain, per), per, count(v.Weather.DaysFilled, "day"))
	fmt.Fprintf(b, "start    forgotten after %d passes of the first year\n\n", v.Spinup.Passes)
}

func (v *view) table(b *bytes.Buffer) {
	rows := [][]string{{"mean of years", "", "as it lies", "with tile", "difference", "90 % interval"}}
	for _, m := range v.Measures {
		if hidden[m.Name] {
			continue
		}
		difference, interval := "-", "-"
		if !math.IsNaN(m.Difference.value) {
			difference = signed(m.Difference.value, m.Unit)
			if !m.Resolved && m.Difference.value != 0 {
				difference = "~0" // no larger than the run's own noise
			}
			if !math.IsNaN(m.Low.value) {
				interval = signed(m.Low.value, m.Unit) + " to " + signed(m.High.value, m.Unit)
			}
		}
		rows = append(rows, []string{m.Label, shortUnit(m.Unit), shown(m.AsItLies, m.Unit), shown(m.WithTile, m.Unit), difference, interval})
	}
	writeTable(b, rows, 1)
	fmt.Fprintln(b, "~0: the difference is no larger than its change under perturbed time steps")
}

// rangeTable shows how far the difference moves over what nobody measured.
func (v *view) rangeTable(b *bytes.Buffer) {
	if len(v.Ranges) == 0 {
		return
	}
	units := map[string]string{}
	for _, m := range v.Measures {
		units[m.Name] = m.Unit
	}
	var overs []string
	cells := map[[2]string]string{}
	for _, r := range v.Ranges {
		if r.Measure == shownRanges[0].measure {
			overs = append(overs, r.Over)
		}
		low, high := signed(r.Low.value, units[r.Measure]), signed(r.High.value, units[r.Measure])
		if units[r.Measure] == "day of year" {
			low, high = shown(r.Low, units[r.Measure]), shown(r.High, units[r.Measure])
		}
		cells[[2]string{r.Over, r.Measure}] = low + " to " + high
	}
	rows := [][]string{{"the difference over"}, {"what nobody measured"}}
	for _, m := range shownRanges {
		more := m.more
		if u := shortUnit(units[m.measure]); u != "" {
			more += ", " + u
		}
		rows[0], rows[1] = append(rows[0], m.head), append(rows[1], more)
	}
	for _, over := range overs {
		row := []string{over}
		for _, m := range shownRanges {
			row = append(row, cells[[2]string{over, m.measure}])
		}
		rows = append(rows, row)
	}
	fmt.Fprintln(b)
	writeTable(b, rows, 1)
}

func (v *view) ledgerLine(b *bytes.Buffer) {
	worst := func(suffix string) float64 {
		x := 0.0
		for _, twin := range []string{"as_it_lies", "with_tile"} {
			x = math.Max(x, v.Ledger[twin+suffix].value)
		}
		return x
	}
	fmt.Fprintf(b, "\nledgers close: water within %.1g mm a year, salt within %.1g kg/ha a year (both twins, worst year)\n",
		worst("_water_error_mm_per_year"), worst("_salt_error_kg_per_ha_per_year"))
}

// assumed lists what was assumed or filled and matters to the answer.
func (v *view) assumed(b *bytes.Buffer) {
	var list []string
	for _, a := range v.Assumptions {
		if a.Value != "none" && !quiet[a.Key] {
			list = append(list, a.Key+" "+a.Value)
		}
	}
	if len(list) > 0 {
		fmt.Fprintln(b, wrap("assumed or filled: "+strings.Join(list, "; "), textWidth, "  "))
	}
	fmt.Fprintf(b, "(all, with reasons: --format json)\nBefore digging: wetland determination, drainage law, outlet rights, utilities, trench safety.\n")
}

// shown writes a value with the digits its unit deserves.
func shown(n number, u string) string {
	switch {
	case math.IsNaN(n.value):
		return "-"
	case math.IsInf(n.value, 1):
		return words(n.high, "none")
	case math.IsInf(n.value, -1):
		return words(n.low, "none")
	case u == "day of year":
		return dayWords(n.value)
	}
	return digits(n.value, u)
}

func words(w, otherwise string) string {
	if w == "" {
		return otherwise
	}
	return w
}

// digits: whole numbers from 100 on, decimals below, as many as the unit deserves.
func digits(x float64, u string) string {
	decimals := 1
	switch u {
	case "in", "in/d", "in/h", "m", "ft", "dS/m", "":
		decimals = 2
	case "day of year":
		decimals = 0
	default:
		if math.Abs(x) >= 100 {
			decimals = 0
		}
	}
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-") // nothing has no sign
	}
	return s
}

// signed writes a difference with its sign, one of dates in days.
func signed(x float64, u string) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "-"
	}
	s := digits(x, u)
	if strings.Trim(s, "0.") != "" && x > 0 {
		s = "+" + s
	}
	if u == "day of year" {
		s += " d"
	}
	return s
}

func shortUnit(u string) string {
	if u == "day of year" {
		return ""
	}
	return u
}
