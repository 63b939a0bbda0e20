package plots

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"mottle/sim/compare"
	"mottle/sim/unit"
)

// subject is what the figures are about.
type subject struct {
	r     *compare.Result
	units unit.System
}

// line finds a measure of the comparison.
func (s subject) line(name string) (compare.Line, error) {
	for _, l := range s.r.Lines {
		if l.Name == name {
			return l, nil
		}
	}
	return compare.Line{}, fmt.Errorf("figures: the result holds no measure %q", name)
}

// value turns a value into the units of the axes.
func (s subject) value(x float64, si string) float64 {
	v, _ := s.units.Value(x, si)
	return v
}

// values turns a series into the units of the axes.
func (s subject) values(x []float64, si string) []float64 {
	y := make([]float64, len(x))
	for i, v := range x {
		y[i] = s.value(v, si)
	}
	return y
}

// unit names the unit of the axes.
func (s subject) unit(si string) string {
	_, u := s.units.Value(0, si)
	return u
}

// verdict says what a measure's line comes to; what names its mean.
func (s subject) verdict(what string, l compare.Line) string {
	u := " " + s.unit(l.Unit)
	d, _ := s.units.Difference(l.Difference, l.Unit)
	low, _ := s.units.Difference(l.Low, l.Unit)
	high, _ := s.units.Difference(l.High, l.Unit)
	text := fmt.Sprintf("%s of %s: %s%s as it lies, %s%s with tile. Difference %s%s",
		what, count(len(l.YearsAsItLies), "year"), short(s.value(l.AsItLies, l.Unit)), u, short(s.value(l.WithTile, l.Unit)), u, signed(d), u)
	switch {
	case !l.Resolved:
		return text + ", not larger than the noise of the simulation."
	case math.IsNaN(l.Low) || math.IsNaN(l.High):
		return text + ", too few years for an interval."
	}
	return fmt.Sprintf("%s, 90 %% interval %s to %s.", text, signed(low), signed(high))
}

// source says where and under what weather, for the foot of a figure.
func (s subject) source() string {
	f, w := s.r.Field, s.r.Series
	text := "Field" + invented(f.Invented) + ": " + f.Name
	if f.Place != "" {
		text += ", " + f.Place
	}
	text += ". Weather" + invented(w.Invented) + ": " + w.Layout
	if name := strings.TrimSpace(w.Station.Name); name != "" {
		text += ", " + name
	}
	text += ", " + strconv.Itoa(s.r.Years[0])
	if last := s.r.Years[len(s.r.Years)-1]; last != s.r.Years[0] {
		text += "–" + strconv.Itoa(last)
	}
	return text + ". Simulated day by day with Mottle, not measured."
}

func invented(is bool) string {
	if is {
		return " (INVENTED)"
	}
	return ""
}

// stamp is the warning at the head of a figure that shows no real field or no
// real weather, "" when both are.
func (s subject) stamp() string {
	switch f, w := s.r.Field.Invented, s.r.Series.Invented; {
	case f && w:
		return "INVENTED FIELD AND WEATHER"
	case f:
		return "INVENTED FIELD"
	case w:
		return "INVENTED WEATHER"
	}
	return ""
}

// short writes a number with the digits that a reader can use.
func short(x float64) string {
	text := ""
	switch a := math.Abs(x); {
	case a >= 99.95:
		text = fmt.Sprintf("%.0f", x)
	case a >= 0.995:
		text = fmt.Sprintf("%.1f", x)
	case a >= 0.095:
		text = fmt.Sprintf("%.2f", x)
	default:
		text = fmt.Sprintf("%.2g", x)
	}
	return strings.Replace(text, "-", "−", 1)
}

// signed is short with its sign, for differences.
func signed(x float64) string {
	if x > 0 {
		return "+" + short(x)
	}
	return short(x)
}

// count writes a number of things.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
