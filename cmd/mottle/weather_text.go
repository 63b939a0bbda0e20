package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"mottle/sim/unit"
)

// Lists on the screen end after so many; the JSON has all.
const (
	gapsShown     = 5
	suspectsShown = 20
)

// recordWidth is where lines are broken, characters.
const recordWidth = 80

// writeText prints a section for each record, then what sets them side by side.
func (v *weatherResult) writeText(w io.Writer) error {
	var b bytes.Buffer
	for i := range v.Records {
		if i > 0 {
			fmt.Fprintln(&b)
		}
		v.Records[i].write(&b)
	}
	for _, o := range v.Overlap {
		o.write(&b)
	}
	if v.Fill != nil {
		v.Fill.write(&b)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// line writes a name and a text beside it, broken where it is long.
func line(b *bytes.Buffer, name, text string) {
	const indent = 11
	first := strings.Split(wrap(text, recordWidth-indent, ""), "\n")
	for i, l := range first {
		if i > 0 {
			name = ""
		}
		fmt.Fprintf(b, "%-*s%s\n", indent, name, l)
	}
}

func (v *recordView) write(b *bytes.Buffer) {
	name := stationWords(v.Station, v.Name)
	fmt.Fprintln(b, title(name, v.Input.Name, v.Invented))
	line(b, "place", v.place())
	line(b, "period", fmt.Sprintf("%s to %s, %s, %s", v.From, v.To, count(v.Days, "day"), v.Layout))
	reading := fmt.Sprintf("hour %.4g", v.ReadHour.value)
	if v.ReadAssumed != "" {
		reading += ", assumed: " + v.ReadAssumed
	}
	line(b, "read at", reading)
	if len(v.Slips) == 0 {
		line(b, "units", "nothing points to another unit")
	}
	for _, s := range v.found.Slips {
		line(b, "UNITS", s.String())
	}
	writeMap(b, v.Years, v.found.Complete, v.Days)
	v.writeClimate(b)
	v.writeFindings(b)
}

// place is where the station stands, as far as is known.
func (v *recordView) place() string {
	side := func(x float64, positive, negative string) string {
		if x < 0 {
			positive = negative
		}
		return fmt.Sprintf("%.4g %s", math.Abs(x), positive)
	}
	var parts []string
	if x := v.Latitude.value; !math.IsNaN(x) {
		parts = append(parts, side(x, "N", "S"))
	}
	if x := v.Longitude.value; !math.IsNaN(x) {
		parts = append(parts, side(x, "E", "W"))
	}
	if x := v.Elevation.Value.value; !math.IsNaN(x) {
		parts = append(parts, fmt.Sprintf("%.0f %s", x, v.Elevation.Unit))
	}
	if len(parts) == 0 {
		return "not known"
	}
	return strings.Join(parts, ", ")
}

// writeClimate prints what kind of weather it was.
func (v *recordView) writeClimate(b *bytes.Buffer) {
	var list []string
	for _, e := range v.Extremes {
		times := ""
		if e.Times > 1 {
			times = fmt.Sprintf(" first of %d,", e.Times)
		}
		list = append(list, fmt.Sprintf("%s %s %v,%s %s", e.Kind, shortName(e.Element), e.quantity, times, e.Date))
	}
	line(b, "extremes", strings.Join(list, "; "))
	full := 0
	for _, x := range v.AnnualPrecip {
		if !math.IsNaN(x.value) {
			full++
		}
	}
	rain := "no year has 350 days of precipitation"
	if full > 0 {
		rain = fmt.Sprintf("%v of precipitation a year, mean of %s with 350 days or more", v.MeanPrecip, count(full, "year"))
	}
	line(b, "rain", rain)
	if p := v.Trend.P.value; math.IsNaN(p) {
		line(b, "trend", "of precipitation not given, fewer than 10 such years")
	} else {
		chance := fmt.Sprintf("p %.2g", p)
		if p < 0.001 {
			chance = "p below 0.001"
		}
		line(b, "trend", fmt.Sprintf("of precipitation %s %s a decade, %s: %s", signed(v.Trend.Slope.Value.value, v.Trend.Slope.Unit), v.Trend.Slope.Unit, chance, trendMethod))
	}
	if s := v.WetDays; s != nil {
		line(b, "wet days", fmt.Sprintf("%.0f a year before %d, %.0f from then on, p %.1g (Pettitt 1979): a change of observer, gauge or rule for small amounts?", s.Before, s.Year, s.After, s.P))
	}
	v.writeWinters(b)
	demand := "cannot be computed"
	if !math.IsNaN(v.Demand.PerYear.Value.value) {
		demand = fmt.Sprintf("by %s, %v a year", v.Demand.Method, v.Demand.PerYear)
	}
	if len(v.Demand.Assumed) > 0 {
		demand += ": " + strings.Join(v.Demand.Assumed, "; ")
	}
	line(b, "reference evapotranspiration", "")
	line(b, "", demand)
}

// writeWinters prints the freezing index of each winter.
func (v *recordView) writeWinters(b *bytes.Buffer) {
	if len(v.FreezingIndex) == 0 {
		line(b, "frost", "no winter is in the record from October to April")
		return
	}
	design := ""
	if !math.IsNaN(v.Design.Value.value) {
		kind := "coldest"
		if v.DesignWinters >= 30 {
			kind = "mean of the three coldest"
		}
		design = fmt.Sprintf("; %s of the last %d known %v", kind, v.DesignWinters, v.Design)
	}
	line(b, "frost", fmt.Sprintf("freezing index by winter, named by its first year, %s%s", v.Design.Unit, design))
	var cells []string
	for _, w := range v.FreezingIndex {
		x := "-"
		if !math.IsNaN(w.Value.value) {
			x = fmt.Sprintf("%.0f", w.Value.value)
		}
		cells = append(cells, fmt.Sprintf("%d %4s", w.Begins, x))
	}
	const perLine = 6
	for len(cells) > 0 {
		n := min(perLine, len(cells))
		fmt.Fprintf(b, "%11s%s\n", "", strings.Join(cells[:n], "  "))
		cells = cells[n:]
	}
}

// writeFindings prints gaps, counts and values that look wrong.
func (v *recordView) writeFindings(b *bytes.Buffer) {
	if n := len(v.Gaps); n == 0 {
		line(b, "gaps", "none")
	} else {
		var list []string
		for _, g := range v.Gaps[:min(gapsShown, n)] {
			list = append(list, fmt.Sprintf("%s %s from %s", shortName(g.Element), count(g.Days, "day"), g.From))
		}
		line(b, "gaps", fmt.Sprintf("%d, the longest: %s", n, strings.Join(list, "; ")))
	}
	line(b, "reading", v.counted())
	for _, n := range v.Notes {
		line(b, "", n)
	}
	v.writeSuspects(b)
}

// counted is what reading counted, without zeros.
func (v *recordView) counted() string {
	c := v.Counts
	var list []string
	for _, x := range []struct {
		n          int
		word, what string
	}{
		{c.Absent, "day", "without a row"}, {c.Rejected, "value", "rejected by the agency's own check"},
		{c.OutOfRange, "value", "that cannot be true, set missing"}, {c.Contradictory, "day", "with Tmax below Tmin"},
		{c.OutOfOrder, "row", "out of order"}, {c.Duplicates, "row", "repeated"},
		{c.Trace, "day", "with a trace of precipitation"}, {c.Spread, "day", "with a share of a total of several days"},
		{c.CalendarFilled, "day", "that a 365-day calendar leaves out, filled"},
	} {
		if x.n > 0 {
			list = append(list, count(x.n, x.word)+" "+x.what)
		}
	}
	if len(list) == 0 {
		return fmt.Sprintf("%s, nothing to mend", count(c.Rows, "row"))
	}
	return count(c.Rows, "row") + "; " + strings.Join(list, "; ")
}

// writeSuspects prints the first values that look wrong.
func (v *recordView) writeSuspects(b *bytes.Buffer) {
	n := len(v.Suspects)
	words := "none found"
	if n > 0 {
		words = fmt.Sprintf("%s that may be wrong, thresholds of Durre et al. (2010), from memory", count(n, "value"))
	}
	if v.units == unit.US && n > 0 {
		words += "; reasons in C and mm"
	}
	line(b, "suspect", words)
	for i, s := range v.Suspects {
		if i == suspectsShown {
			fmt.Fprintf(b, "%11sand %d more: --format json\n", "", n-i)
			break
		}
		line(b, "", fmt.Sprintf("%s %s %v: %s", s.Date, shortName(s.Element), s.quantity, s.Reason))
	}
	for _, u := range v.Untested {
		line(b, "", "not tested: "+u)
	}
}

func (o *overlapView) write(b *bytes.Buffer) {
	fmt.Fprintf(b, "\n%s less %s", o.First, o.Second)
	if o.From == "" {
		fmt.Fprintln(b, ": no day in common")
		return
	}
	fmt.Fprintf(b, ", %s to %s\n", o.From, o.To)
	for _, e := range o.Elements {
		text := "no day that both know"
		if e.Days > 0 {
			text = fmt.Sprintf("%s, mean difference %s %s", count(e.Days, "day"), signed(e.Difference.Value.value, e.Difference.Unit), e.Difference.Unit)
			if e.Element == "precipitation" {
				text = fmt.Sprintf("%s, ratio of totals %.3f", count(e.Days, "day"), e.Ratio.value)
			}
			text += fmt.Sprintf(", correlation %.2f", e.Correlation.value)
		}
		line(b, shortName(e.Element), text)
	}
}

func (f *fillView) write(b *bytes.Buffer) {
	fmt.Fprintf(b, "\nfilled from %s (%s)\n", f.Neighbour.Name, f.Station)
	rows := [][]string{{"", "filled", "left", "compared", "bias", "mean abs. error", "correlation"}}
	for _, e := range f.Elements {
		r := []string{shortName(e.Element), count(e.Filled, "day"), count(e.Left, "day"), count(e.Compared, "day"), "-", "-", "-"}
		if e.Compared > 0 {
			r[4] = signed(e.Bias.Value.value, e.Bias.Unit) + " " + e.Bias.Unit
			r[5] = e.MAE.String()
			r[6] = fmt.Sprintf("%.2f", e.Correlation.value)
		}
		rows = append(rows, r)
	}
	writeTable(b, rows, 1)
	fmt.Fprintln(b, wrap("Precipitation by the normal ratio, temperature by the mean difference, of each calendar month with 85 common days or more. Skill: each month of a year estimated without its own days.", recordWidth, ""))
}
