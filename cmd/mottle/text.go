package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"
)

// hidden measures are in the files and the JSON but not on the screen: the
// header says the rain, and the parts of edge flow have lines of their own.
var hidden = map[string]bool{"precipitation": true, "edge_flow": true, "days_saturated_season": true}

// shownRanges are the measures whose ranges the screen shows.
var shownRanges = []string{"days_saturated_apr_jun", "drain_outflow", "all_outflow", "peak_hour", "frost_out"}

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
	mark := ""
	if v.Field.Invented {
		mark = " - INVENTED"
	}
	fmt.Fprintf(b, "%s%s\n", v.Field.Name, mark)
	fmt.Fprintf(b, "soil     %s\n", v.Field.Soil)
	fmt.Fprintf(b, "tile     %s\n", v.Field.Tile)
	if v.Field.Old != "" {
		fmt.Fprintf(b, "as it lies the field has old tile: %s\n", v.Field.Old)
	}
	weather := v.Weather.Layout
	if v.Weather.Station != "" {
		weather += ", " + v.Weather.Station
	}
	if v.Weather.Invented {
		weather += " - INVENTED"
	}
	rain, per := v.units.Value(v.Weather.Precipitation, "mm")
	fmt.Fprintf(b, "weather  %s\n", weather)
	fmt.Fprintf(b, "         %s to %s, %d complete years, %s %s of precipitation a year, %d days filled\n",
		v.Weather.From, v.Weather.To, v.Weather.CompleteYears, digits(rain, per), per, v.Weather.DaysFilled)
	fmt.Fprintf(b, "start    forgotten after %d passes of the first year\n\n", v.Spinup.Passes)
}

func (v *view) table(b *bytes.Buffer) {
	t := tabwriter.NewWriter(b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "mean of years\t\tas it lies\twith tile\tdifference\t90 % interval\t")
	for _, m := range v.Measures {
		if hidden[m.Name] {
			continue
		}
		show := func(n number) string { return shown(n, m.Unit) }
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
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t\n", m.Label, shortUnit(m.Unit), show(m.AsItLies), show(m.WithTile), difference, interval)
	}
	t.Flush()
	fmt.Fprintln(b, "~0: the difference is no larger than its change under perturbed time steps")
}

// rangeTable shows how far the difference moves over what nobody measured.
func (v *view) rangeTable(b *bytes.Buffer) {
	if len(v.Ranges) == 0 {
		return
	}
	fmt.Fprintln(b, "\nThe difference over what nobody measured (frost out: the date with tile)")
	t := tabwriter.NewWriter(b, 0, 0, 2, ' ', tabwriter.AlignRight)
	row := []string{"tried over"}
	for _, name := range shownRanges {
		for _, m := range v.Measures {
			if m.Name == name {
				head := strings.SplitN(m.Label, "(", 2)[0]
				head = strings.ReplaceAll(head, ", less water let in", "")
				if u := shortUnit(m.Unit); u != "" {
					head = strings.TrimSpace(head) + ", " + u
				}
				row = append(row, head)
			}
		}
	}
	fmt.Fprintln(t, strings.Join(row, "\t")+"\t")
	var overs []string
	cell := map[string]string{}
	for _, r := range v.Ranges {
		if r.Measure == shownRanges[0] {
			overs = append(overs, r.Over)
		}
		show := signed
		if r.Of == "with_tile" {
			show = func(x float64, u string) string { return shown(number{value: x, low: r.Low.low, high: r.Low.high}, u) }
		}
		cell[r.Over+r.Measure] = show(r.Low.value, r.Unit) + " to " + show(r.High.value, r.Unit)
	}
	for _, over := range overs {
		row := []string{over}
		for _, name := range shownRanges {
			row = append(row, cell[over+name])
		}
		fmt.Fprintln(t, strings.Join(row, "\t")+"\t")
	}
	t.Flush()
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

func (v *view) assumed(b *bytes.Buffer) {
	fmt.Fprintf(b, "assumed or filled:")
	for i, a := range v.Assumptions {
		sep := ";"
		if i == 0 {
			sep = ""
		}
		fmt.Fprintf(b, "%s %s %s", sep, a.Key, a.Value)
	}
	fmt.Fprintf(b, "\n(reasons: --format json)\nBefore digging: wetland determination, drainage law, outlet rights, utilities, trench safety.\n")
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

// digits: whole mm and days with one decimal where they are small.
func digits(x float64, u string) string {
	switch {
	case u == "in" || u == "in/d" || u == "in/h" || u == "m" || u == "dS/m" || u == "":
		return fmt.Sprintf("%.2f", x)
	case math.Abs(x) >= 100:
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.1f", x)
}

func signed(x float64, u string) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "-"
	}
	s := digits(x, u)
	if x > 0 {
		s = "+" + s
	}
	if u == "day of year" {
		return fmt.Sprintf("%+.0f d", x)
	}
	return s
}

func shortUnit(u string) string {
	if u == "day of year" {
		return ""
	}
	return u
}
