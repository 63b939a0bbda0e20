package proof

import (
	"fmt"
	"io"
	"strings"
)

// Write prints the report as text.
func (r *FieldReport) Write(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Measured drain flow against drain flow simulated with defaults; nothing was fitted to a plot.\n\n")
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "  %s\n", n)
	}
	b.WriteString("  NSE Nash and Sutcliffe (1970), KGE Gupta et al. (2009), both 1 at best; bias simulated over measured, %\n")
	b.WriteString("  controlled plots run under a calendar of common practice, for their own is not known\n")
	for s := range seasons {
		fmt.Fprintf(&b, "\n%-24s %-30s   %-30s   as recorded\n", seasonNames[s], "daily, screened", "monthly, screened")
		fmt.Fprintf(&b, "%-24s %6s %6s %7s %6s    %6s %6s %8s   %10s %10s %7s\n", "plot", "NSE", "KGE", "bias %", "days", "NSE", "KGE", "months", "daily NSE", "monthly", "bias %")
		for _, p := range r.Plots {
			d, m := p.Daily[s], p.Monthly[s]
			fmt.Fprintf(&b, "%-8s%-4s%-12s %6.2f %6.2f %+7.0f %6d    %6.2f %6.2f %8d   %10.2f %10.2f %+7.0f\n", p.Site, p.Plot, p.System,
				d.NSE, d.KGE, d.Bias(), d.N, m.NSE, m.KGE, m.N, p.DailyRaw[s].NSE, p.MonthlyRaw[s].NSE, p.DailyRaw[s].Bias())
		}
		daily, monthly, bias := r.Medians(s)
		fmt.Fprintf(&b, "median of freely drained plots: daily NSE %.2f, monthly NSE %.2f, bias %+.0f %%\n", daily, monthly, bias)
	}
	fmt.Fprintf(&b, "median bias of whole years, freely drained: %+.0f %%\n", r.YearlyBias())

	b.WriteString("all plots of a site together, whatever their system (edges leak), bias all year, April-November:")
	for _, m := range measuredSites() {
		fmt.Fprintf(&b, " %s %+.0f %+.0f %%;", m.code, r.SiteBias(m.code, AllYear), r.SiteBias(m.code, GrowingTime))
	}
	b.WriteString("\n\nReplicate plots against each other (the ceiling)\n")
	for _, c := range r.Ceilings {
		fmt.Fprintf(&b, "%-8s%-12s %3s by %-3s daily NSE %.2f, monthly %.2f\n", c.Site, c.System, c.Plots[0], c.Plots[1], c.Daily.NSE, c.Monthly.NSE)
	}
	r.writeYears(&b)
	r.writeMonths(&b)
	r.writeTables(&b)
	r.writeYields(&b)
	fmt.Fprintf(&b, "\nlargest closing error of a year: %.1g mm\n", r.WorstWater())
	_, err := io.WriteString(w, b.String())
	return err
}

// writeYears prints outflow by year, on the days measured.
func (r *FieldReport) writeYears(b *strings.Builder) {
	b.WriteString("\nOutflow by year on the days measured, mm and % of the year's rain; simulated evapotranspiration, runoff and net seepage of the year\n")
	fmt.Fprintf(b, "%-24s %4s %5s %6s %15s %15s %7s %6s %6s %6s\n", "plot", "year", "days", "rain", "measured", "simulated", "bias %", "ET", "runoff", "seeped")
	for _, p := range r.Plots {
		for _, y := range p.Years {
			if y.Days == 0 {
				continue
			}
			mark := ""
			if !y.Whole {
				mark = " (not counted)"
			}
			fmt.Fprintf(b, "%-8s%-4s%-12s %4d %5d %6.0f %8.0f %4.0f %% %8.0f %4.0f %% %+7.0f %6.0f %6.0f %6.0f%s\n", p.Site, p.Plot, p.System, y.Year, y.Days, y.Rain,
				y.Measured, 100*y.Measured/y.Rain, y.Simulated, 100*y.Simulated/y.Rain, 100*(y.Simulated/y.Measured-1),
				y.Transpired, y.Runoff, y.Seeped, mark)
		}
	}
}

// writeMonths prints the pattern over the year.
func (r *FieldReport) writeMonths(b *strings.Builder) {
	b.WriteString("\nMean flow by month on the days measured, screened, mm a month of 30 days: measured over simulated\n")
	for _, p := range r.Plots {
		measured, simulated := "", ""
		for _, m := range p.Months {
			if m.Days == 0 {
				measured, simulated = measured+"     -", simulated+"     -"
				continue
			}
			measured += fmt.Sprintf(" %5.0f", 30*m.Measured/float64(m.Days))
			simulated += fmt.Sprintf(" %5.0f", 30*m.Simulated/float64(m.Days))
		}
		fmt.Fprintf(b, "%-8s%-4s%-12s%s\n%-24s%s\n", p.Site, p.Plot, p.System, measured, "", simulated)
	}
}

// writeTables prints days with the water table near the surface.
func (r *FieldReport) writeTables(b *strings.Builder) {
	b.WriteString("\nDays with the water table above a depth, on days a well was read: measured, simulated\n")
	for _, p := range r.Plots {
		for _, t := range p.TableDays {
			fmt.Fprintf(b, "%-8s%-4s%-12s above %.2f m: %4d, %4d of %d\n", p.Site, p.Plot, p.System, t.Depth, t.Measured, t.Simulated, t.Days)
		}
	}
}
