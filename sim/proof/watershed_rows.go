package proof

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"mottle/sim"
	"mottle/sim/flood"
	"mottle/soil"
)

const robinson = "Robinson 1990"

// soilEvidence is the sign of the change by soil: peaks of the field and flashiness.
func soilEvidence(runs map[string]*landRun) ([]Check, error) {
	tight, permeable, drier, free := runs["tight"], runs["permeable"], runs["permeable, drier"], runs["permeable, free"]
	var checks []Check
	for _, s := range []struct {
		id        string
		run       *landRun
		low, high float64 // of the peak, %
		why       string
	}{
		{"tight", tight, -67, 0, "tile empties the topsoil between rains, so that less runs over a full one. To x 1/3 as the review has it"},
		{"permeable", permeable, 0, 200, "to x 3 as the review has it. Where the ground stands full for much of the year rain runs over it as it lies, and tile ends that; " +
			"its own flow through deep ground is slow. The abstract says nothing of how wet the measured fields stood"},
		{"permeable, drier", drier, 0, 200, "the resistance that stands in for an unknown one holds the water up here too: the sign hangs on how wet the ground stands, not on the soil alone; see the next row and the search"},
	} {
		days, _ := s.run.yearly("days_saturated")
		saturated := stat.Mean(days, nil)
		peak, words, err := s.run.change("peak_hour", "mm/h")
		if err != nil {
			return nil, err
		}
		checks = append(checks, evidence("peak, field", robinson).report("peak, field/"+s.id, "yearly peak hour: change with tile, "+s.id, "%", peak, s.low, s.high, fmt.Sprintf("%s, %.0f days a year saturated as it lies; %s", words, saturated, s.why)))
	}
	was, is := free.peakHours()
	checks = append(checks, evidence("peak, field", robinson).report("peak, field/permeable, free", "yearly peak hour: change with tile, permeable, free", "mm/h",
		stat.Mean(is, nil)-stat.Mean(was, nil), resolvedRise, slices.Max(free.asItLies.Forcing.Rain),
		fmt.Sprintf("%s, mean of %d yearly values %.3g to %.3g mm/h; from what counts as a rise to the hardest hour of rain. No per cent, since next to nothing may run off as it lies; "+
			"tile brings to the edge what would else go down", free.name, len(was), stat.Mean(was, nil), stat.Mean(is, nil))))
	for _, s := range []struct {
		id        string
		run       *landRun
		low, high float64
	}{{"low K", tight, -100, 0}, {"high K", drier, 0, 200}} {
		was, is, err := s.run.flashiness()
		if err != nil {
			return nil, err
		}
		checks = append(checks, evidence("peak, storm size", "Sloan").report("flashiness/"+s.id, "flashiness of daily edge flow: change with tile, "+s.id, "%", 100*(is/was-1), s.low, s.high,
			fmt.Sprintf("%s, Richards-Baker index %.2f to %.2f, base flow below the field not counted, without which land as it lies is flashier", s.run.name, was, is)))
	}
	runoff, words, err := tight.change("surface_runoff", "mm")
	if err != nil {
		return nil, err
	}
	return append(checks, evidence("surface runoff", "Bengtson et al. 1995").report("surface runoff", "yearly surface runoff: change with tile, tight", "%", runoff, -65, -33,
		words+"; 33 and 35 % on the plots, 65 % from memory of a wet western watershed. It falls further than measured where runoff is of a full topsoil alone: nothing here "+
			"crusts, seals or cracks, a burst within the hour is spread over it, and the invented climate has fewer great storms than those places")), nil
}

// flashiness is the Richards-Baker index of the daily edge flow of both twins.
func (r *landRun) flashiness() (was, is float64, err error) {
	a, b := edge(r.asItLies), edge(r.withTile)
	if was, err = flood.Flashiness(a[0], a); err != nil {
		return 0, 0, fmt.Errorf("%s, as it lies: %w", r.name, err)
	}
	if is, err = flood.Flashiness(b[0], b); err != nil {
		return 0, 0, fmt.Errorf("%s, with tile: %w", r.name, err)
	}
	return was, is, nil
}

// drainShare is the drain's share of the edge flow in a span of months, %, and both
// flows, mm/yr.
func (r *landRun) drainShare(from, to uint8) (share, drain, all float64) {
	d := r.withTile.Days
	for i, m := range r.withTile.Forcing.Month {
		if m >= from && m <= to {
			drain += d.Drain[i] / landYears
			all += (d.Drain[i] + d.Runoff[i]) / landYears
		}
	}
	return 100 * drain / all, drain, all
}

// frozenEvidence is what drains pass while the ground is frozen, and when they run.
func frozenEvidence(r *landRun) []Check {
	kokulan := evidence("snowmelt", "Kokulan")
	share := func(id, what string, from, to uint8, low, high float64, why string) Check {
		got, drain, all := r.drainShare(from, to)
		return kokulan.report("snowmelt/"+id, "drain flow over edge flow, "+what, "%", got, low, high, fmt.Sprintf("%s, %.3g of %.3g mm a year; %s", r.name, drain, all, why))
	}
	_, early, _ := r.drainShare(3, 7)
	_, year, _ := r.drainShare(1, 12)
	return []Check{
		share("spring flood", "March and April", 3, 4, 0, 5, "none measured, taken as under a twentieth. Ice fills the pores that would carry the melt down, and what thaws first is the top"),
		share("year", "all year", 1, 12, 10, 25, "where above, the melt that runs off is a small part of the year: what the rest of the year gives the drains counts for more than on the measured ground"),
		share("summer", "May to August", 5, 8, 33, 100, "event flow measured; here all flow of these months"),
		evidence("timing", "Minnesota").report("timing", "drain flow of March to July over that of the year", "%", 100*early/year, 90, 100,
			fmt.Sprintf("%s, %.3g of %.3g mm a year. Where below, the autumn's rains pass the drains too, and ground that thaws late gives nothing in March", r.name, early, year)),
	}
}

// stormEvidence is the change by the size of the storm.
func stormEvidence(r *landRun) ([]Check, error) {
	sloan := evidence("peak, storm size", "Sloan")
	was, is := r.peakHours()
	p, err := flood.Compare(is, was)
	if err != nil {
		return nil, err
	}
	_, words, err := r.change("peak_hour", "mm/h")
	if err != nil {
		return nil, err
	}
	low, high := p.Interval(0.95)
	intake, hardest, err := r.intake()
	if err != nil {
		return nil, err
	}
	few := fmt.Sprintf("its topsoil takes in %.0f mm/h and the hardest hour of the record brings %.0f, so that water runs off where the ground is full and hardly ever for the rain's hardness", intake, hardest)
	checks := []Check{sloan.report("peak, storm size/yearly", "yearly peak hour: change with tile over the half-width of its 95 % interval", "-", p.Mean/((high-low)/2), -1, 1,
		words+"; within 1 is not significant. Two simulations against each other. Where it falls: "+few)}
	for _, s := range []struct {
		id, size string
		from, to float64 // mm/d
		low      float64
		high     float64
		why      string
	}{
		{"great", "60 mm/d and more", 60, math.Inf(1), -10, 10, "little is taken as a tenth. Where it falls by more: " + few + "; drained ground takes up tens of millimetres first, a good part of storms of this size"},
		{"middle", "20 to 60 mm/d", 20, 60, -67, 0, "a reduction by storm size and wetness; to x 1/3 as the review has it. Where it falls by more: " + few},
	} {
		a, b, n := r.afterRain(s.from, s.to)
		checks = append(checks, sloan.report("peak, storm size/"+s.id, "peak hour after rain of "+s.size+" on unfrozen ground: change with tile", "%", 100*(b/a-1), s.low, s.high,
			fmt.Sprintf("%s, mean of %d such days, %.3g to %.3g mm/h; %s", r.name, n, a, b, s.why)))
	}
	got, drain, all := r.drainShare(1, 12)
	checks = append(checks, evidence("tile share", "King").report("tile share", "drain flow over edge flow, all year", "%", got, 42, 47,
		fmt.Sprintf("%s, %.3g of %.3g mm a year; 42 and 47 %% of the discharge of watersheds, which are not all drained and have ground water besides: a field that is drained all over lies above", r.name, drain, all)))
	return checks, nil
}

// afterRain is the mean peak hour of the days with so much rain and the next, mm/h, on
// unfrozen ground of either twin, and their number.
func (r *landRun) afterRain(from, to float64) (was, is float64, n int) {
	a, b := r.asItLies.Days, r.withTile.Days
	peak := func(d *sim.Days, i int) float64 { return math.Max(d.PeakHour[i], d.PeakHour[i+1]) }
	for i, rain := range a.Precipitation[:len(a.Precipitation)-1] {
		if rain < from || rain >= to || a.IceTop[i] > 0 || b.IceTop[i] > 0 {
			continue
		}
		was += peak(a, i)
		is += peak(b, i)
		n++
	}
	return was / float64(n), is / float64(n), n
}

// intake is the conductivity of the topsoil and the rain of the hardest hour, mm/h.
func (r *landRun) intake() (topsoil, hardest float64, err error) {
	m, err := soil.Derive(r.field.Horizons[0])
	if err != nil {
		return 0, 0, err
	}
	return m.Curve.Ksat() * 3.6e6, slices.Max(r.asItLies.Forcing.Rain), nil
}
