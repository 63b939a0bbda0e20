package proof

import (
	"encoding/json"
	"fmt"
	"math"

	"mottle/sim/column"
	"mottle/sim/crop"
	"mottle/sim/salt"
	"mottle/soil"
)

// worked reads a worked example of crop-money-checks.csv into its inputs and
// results; a case that is missing is a fault of the build.
func worked(name string, inputs, expected any) {
	for _, r := range table("crop-money-checks.csv") {
		if r["case"] != name {
			continue
		}
		for text, into := range map[string]any{r["inputs_json"]: inputs, r["expected_json"]: expected} {
			if err := json.Unmarshal([]byte(text), into); err != nil {
				panic(fmt.Errorf("case %s: %w", name, err))
			}
		}
		return
	}
	panic(fmt.Errorf("no case %s", name))
}

// saltLeachingFraction irrigates a root zone in excess of what its roots take up,
// until the salt that leaves is that which comes: FAO-29's example by quarters.
func saltLeachingFraction() ([]Check, error) {
	const (
		roots = 1.0 // m, depth of the root zone
		etc   = 1.0 // m/yr
		cells = 40
		years = 30
	)
	var in struct {
		ECw, LF float64
		Uptake  []float64
	}
	var out struct {
		Quarters []float64 `json:"EC_soil_water"`
		Mean     float64
		ECe      float64
	}
	worked("M15", &in, &out)
	rate := etc / (1 - in.LF) / 365 * perDay
	g := column.Uniform(roots, cells)
	loam := flowTable(classCurve("loam", soil.AirEntry))
	c := column.New(g, filled(loam, g), 2)
	c.Base = column.Base{Kind: column.BaseGravity}
	quarter := cells / len(in.Uptake)
	for i := range c.Uptake {
		c.Uptake[i] = etc / 365 * perDay * in.Uptake[i/quarter] / float64(quarter)
	}
	b := newBriny(c, 0)
	b.fill(in.ECw)
	for range years * 365 {
		if err := b.step(rate, in.ECw); err != nil {
			return nil, err
		}
	}
	leaves := b.flux.BaseOut / salt.PerEC / c.Through[cells]
	ece, water := 0.0, 0.0
	for i := range cells {
		ece += b.salt.ECe(i, g.Dz[i], salt.PasteWater(loam.Theta(-soil.Suction33kPa), loam.ThetaS)) / cells
		water += b.salt.Mass[i] / (c.Water[i] * g.Dz[i]) / salt.PerEC / cells
	}
	last := out.Quarters[len(out.Quarters)-1]
	return []Check{
		{ID: "M15", What: "root zone irrigated to a leaching fraction: EC of what drains, ECw/LF", Source: "FAO-29 example (from memory), salt balance", Status: Computed, Unit: "dS/m",
			Expected: last, Got: leaves, Tolerance: 0.01 * last, Why: "1 %: the steady balance is exact, thirty years replace the water of the root zone a dozen times"},
		{ID: "M15", What: "root zone irrigated to a leaching fraction: mean EC of the soil water", Source: "FAO-29 example (from memory)", Status: Memory, Unit: "dS/m",
			Expected: out.Mean, Got: water, Report: true, Low: 0.8 * out.Mean, High: 1.2 * out.Mean,
			Note: "the example passes water on unmixed; the column's dispersivity of 0.2 m carries salt back up a root zone of 1 m"},
		{ID: "M15", What: "root zone irrigated to a leaching fraction: mean ECe", Source: "FAO-29 example (from memory)", Status: Memory, Unit: "dS/m",
			Expected: out.ECe, Got: ece, Report: true, Low: 0.8 * out.ECe, High: 1.2 * out.ECe,
			Note: "the example takes half of the soil water's EC, because a paste holds twice the water of the field soil; the column fills its own pores, which hold 1.7 times as much, and has the higher EC of the row above"},
	}, nil
}

// saltLoad drains water of one EC through a lateral.
func saltLoad() ([]Check, error) {
	var in struct {
		Flow float64 `json:"flow_mm"`
		EC   float64 `json:"EC_dS_m"`
	}
	var out struct {
		Load float64 `json:"kg_ha"`
	}
	worked("M16", &in, &out)
	c := drained(flowTable(classCurve("loam", soil.AirEntry)), 2, 40, 1, 20, 1.2, 0.6)
	b := newBriny(c, 0)
	b.fill(in.EC)
	ran := 0.0
	for ran < in.Flow/1000 {
		if err := b.step(5*mmPerDay, in.EC); err != nil {
			return nil, err
		}
		for _, q := range c.Out[0] {
			ran += q
		}
	}
	load := b.since.Laterals * 1e4 * in.Flow / 1000 / ran // to the flow of the case
	return []Check{{ID: "M16", What: "salt in 100 mm of drain flow at 2 dS/m", Source: "640 mg/L to the dS/m, Handbook 60 and FAO-29 (from memory)", Status: Computed, Unit: "kg/ha",
		Expected: out.Load, Got: load, Tolerance: 0.1, Why: "tolerance of the case; a column of one EC under water of that EC keeps it"}}, nil
}

// saltYearly keeps the account of one mixed layer.
func saltYearly() ([]Check, error) {
	var in struct {
		Water  float64 `json:"layer_water_mm"`
		C0     float64 `json:"C0_dS_m"`
		Rain   float64 `json:"rain_mm"`
		RainEC float64 `json:"rain_EC"`
		Rise   float64 `json:"rise_mm"`
		RiseEC float64 `json:"rise_EC"`
		Down   float64 `json:"downward_mm"`
	}
	var out struct {
		Years  []float64 `json:"C_by_year"`
		Steady float64   `json:"steady_C"`
	}
	worked("M33", &in, &out)
	// The layer is one cell over a reservoir of the rising water, thick enough that
	// nothing disperses out of it; what percolates leaves the layer sideways, because
	// a day's flux through its lower edge has one direction.
	const (
		days      = 365
		reservoir = 1e7 // m
	)
	m := func(mm float64) float64 { return mm / 1000 / days }
	day := salt.Water{Dz: []float64{in.Water / 1000, reservoir}, Content: []float64{1, 1},
		Through: []float64{m(in.Rain), -m(in.Rise), -m(in.Rise)}, Out: [][]float64{{m(in.Down), 0}},
		Arrived: m(in.Rain) * in.RainEC * salt.PerEC, BaseEC: in.RiseEC}
	layer := salt.New(2)
	layer.SetECe(0, in.C0, day.Dz[0], 1)
	layer.SetECe(1, in.RiseEC, reservoir, 1)
	ec := func() float64 { return layer.ECe(0, day.Dz[0], 1) }

	var checks []Check
	x := in.Down / in.Water
	for year, want := range out.Years {
		for range days {
			layer.Day(day)
		}
		gap := want - out.Steady
		checks = append(checks, Check{ID: "M33", What: fmt.Sprintf("one mixed layer, EC after year %d", year+1), Source: "salt balance by years, midpoint rule", Status: Computed, Unit: "dS/m",
			Expected: want, Got: ec(), Tolerance: float64(year+1) * (x*x*x/12*1.1 + x*x/2/days) * gap,
			Why: "yearly midpoint against daily steps: (D/W)^3/12 (a tenth more for the next order) and (D/W)^2/730 of the distance to steady, each year"})
	}
	for range 60 * days {
		layer.Day(day)
	}
	return append(checks, Check{ID: "M33", What: "one mixed layer, steady EC", Source: "salt that comes over water that percolates", Status: Computed, Unit: "dS/m",
		Expected: out.Steady, Got: ec(), Tolerance: 6e-5, Why: "printed to four decimals"}), nil
}

// saltReclamation leaches a saline layer, beside Hoffman's rule.
func saltReclamation() ([]Check, error) {
	var in struct {
		Depth float64 `json:"depth_m"`
		From  float64 `json:"ECe_from"`
		To    float64 `json:"ECe_to"`
	}
	var out struct {
		Continuous   float64 `json:"water_m_continuous"`
		Intermittent float64 `json:"water_m_intermittent"`
	}
	worked("M20", &in, &out)
	const cells = 24
	g := column.Uniform(2*in.Depth, cells)
	loam := flowTable(classCurve("loam", soil.AirEntry))
	c := column.New(g, filled(loam, g), 2)
	c.Base = column.Base{Kind: column.BaseGravity}
	b := newBriny(c, 0)
	for i := range cells {
		b.salt.SetECe(i, in.From, g.Dz[i], salt.PasteWater(loam.Theta(-soil.Suction33kPa), loam.ThetaS))
	}
	applied := 0.0
	for mean := in.From; mean > in.To; {
		if err := b.step(20*mmPerDay, 0); err != nil {
			return nil, err
		}
		applied += 20e-3
		mean = 0
		for i := range cells / 2 {
			mean += b.salt.ECe(i, g.Dz[i], salt.PasteWater(loam.Theta(-soil.Suction33kPa), loam.ThetaS)) / (cells / 2)
		}
		if applied > 10 {
			return nil, fmt.Errorf("10 m of water did not leach the layer: ECe %.3g dS/m", mean)
		}
	}
	return []Check{{ID: "M20", What: "water that leaches 0.6 m of loam from ECe 12 to 4 dS/m, sprinkled", Source: "Hoffman 1980, k 0.1 (by turns) to 0.3 (ponded) (from memory)", Status: Practice, Unit: "m",
		Expected: out.Intermittent, Got: applied, Report: true, Low: out.Intermittent, High: out.Continuous, Note: "20 mm/d of fresh water, saline below too"}}, nil
}

// saltYield compares the yields that salt leaves.
func saltYield() ([]Check, error) {
	const file, source = "salt-tolerance.csv", "Maas and Hoffman 1977 (constants from memory), two straight lines"
	var checks []Check
	grown := map[string]string{"corn (grain)": "corn", "soybean": "soybean", "wheat": "spring wheat"}
	kinds := map[string]crop.Kind{}
	for i, r := range table(file) {
		a, slope := r.num("threshold_ECe_dS_m"), r.num("slope_pct_per_dS_m")
		kind := crop.Kind{SaltThreshold: a, SaltSlope: slope}
		if name, ok := grown[r["crop"]]; ok { // the product's own constants
			var err error
			if kind, err = crop.Named(name); err != nil {
				return nil, err
			}
		}
		kinds[r["crop"]] = kind
		for _, p := range []struct {
			column string
			yield  float64
		}{{"ECe_at_90pct", 90}, {"ECe_at_75pct", 75}, {"ECe_at_50pct", 50}, {"ECe_at_0pct", 0}} {
			checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("%s: yield at ECe %s dS/m", r["crop"], r[p.column]), Source: source, Status: Computed, Unit: "%",
				Expected: p.yield, Got: 100 * kind.SaltYield(r.num(p.column)), Tolerance: slope * 0.0051, Why: "ECe printed to 0.01 dS/m, times the slope"})
		}
	}
	var in struct {
		Crops []string
		ECe   float64
	}
	var out struct {
		Yield []float64 `json:"yield_pct"`
	}
	worked("M12", &in, &out)
	listed := map[string]string{"corn": "corn (grain)", "barley": "barley (grain)"}
	for i, name := range in.Crops {
		row := name
		if other, ok := listed[name]; ok {
			row = other
		}
		kind, ok := kinds[row]
		if !ok {
			return nil, fmt.Errorf("no salt tolerance of %q", name)
		}
		checks = append(checks, Check{ID: "M12", What: fmt.Sprintf("%s: yield at ECe %g dS/m", name, in.ECe), Source: source, Status: Computed, Unit: "%",
			Expected: out.Yield[i], Got: 100 * kind.SaltYield(in.ECe), Tolerance: 0.01, Why: "tolerance of the case"})
	}
	return checks, nil
}

// saltUnits reports the salt to the dS/m.
func saltUnits() ([]Check, error) {
	const file = "salt-classes.csv"
	for i, r := range table(file) {
		if r["class"] == "factor below 5 dS/m" {
			want := r.num("low")
			return []Check{{ID: fileRow(file, i), What: "dissolved solids to the dS/m", Source: "Handbook 60, FAO-29", Status: Memory, Unit: "mg/L",
				Expected: want, Got: 1000 * salt.PerEC, Report: true, Low: want - 0.5, High: math.Nextafter(want+0.5, 0), Note: "below 5 dS/m; sulfate waters run to 800"}}, nil
		}
	}
	return nil, fmt.Errorf("%s: no factor below 5 dS/m", file)
}
