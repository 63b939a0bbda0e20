package proof

import (
	"fmt"
	"io"
	"strings"

	"mottle/weather"
)

// Write prints the report as text.
func (r *ColdReport) Write(w io.Writer) error {
	var b strings.Builder
	b.WriteString("Soil temperature under sod against soil temperature simulated with defaults and the simulated snow pack; nothing was fitted.\n")
	b.WriteString("One loam for all stations. Bias simulated less measured, C; root mean square error after the stroke.\n")
	for _, n := range r.Notes {
		b.WriteString(n + "\n")
	}
	for part := range winterParts {
		fmt.Fprintf(&b, "\n%-40s", winterNames[part])
		for _, z := range weather.SoilDepths {
			fmt.Fprintf(&b, " %8.0f cm ", z*100)
		}
		b.WriteString("\n")
		for _, run := range r.Runs {
			fmt.Fprintf(&b, "%-28s %-11s", run.Station, run.Exposure)
			for _, e := range run.Errors[part] {
				if e.N == 0 {
					fmt.Fprintf(&b, " %11s", "-")
					continue
				}
				fmt.Fprintf(&b, " %+5.1f /%4.1f", e.Bias, e.RMSE)
			}
			b.WriteString("\n")
		}
		for _, e := range exposures {
			depth, days := r.FrostError(e.Name, part)
			fmt.Fprintf(&b, "%-10s median RMSE %.1f C at 5-20 cm (wanted below 2.0), %.1f C at 50-100 cm (below 1.2); median error of deepest frost %.0f cm (15)",
				e.Name, r.RMSE(e.Name, part, 0.05, 0.20), r.RMSE(e.Name, part, 0.50, 1.00), depth*100)
			if part == lateWinter {
				fmt.Fprintf(&b, ", of the last frozen day %.0f d", days)
			}
			b.WriteString("; median bias")
			for k := range weather.SoilDepths {
				fmt.Fprintf(&b, " %+.1f", r.Bias(e.Name, part, k))
			}
			b.WriteString("\n")
		}
	}
	b.WriteString("\nDeepest frost between probes, cm, and last frozen day: measured, simulated\n")
	for _, run := range r.Runs {
		for _, f := range run.Winters {
			if f.Measured == 0 && f.Simulated == 0 {
				continue
			}
			more := " "
			if f.Beyond {
				more = "+" // at least
			}
			fmt.Fprintf(&b, "%-28s %-10s %d %-18s %4.0f%s %4.0f", run.Station, run.Exposure, f.Year, winterNames[f.Part], f.Measured*100, more, f.Simulated*100)
			if f.Part == lateWinter {
				fmt.Fprintf(&b, "   %s  %s", dayOrNone(f.Last), dayOrNone(f.SimulatedLast))
			}
			b.WriteString("\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func dayOrNone(d weather.Date) string {
	if d == 0 {
		return "none      "
	}
	return d.String()
}
