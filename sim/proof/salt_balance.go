package proof

import (
	"encoding/json"
	"fmt"

	"mottle/sim/column"
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

// rootZone is a metre of loam irrigated evenly in excess of what its roots take up,
// until the salt that leaves is that which comes.
type rootZone struct {
	leaves float64 // EC of the water that drains, dS/m
	water  float64 // mean EC of the soil water, dS/m
	ece    float64 // mean ECe, dS/m
}

// irrigate brings a root zone to its steady state under applied water (m/yr) of an
// EC (dS/m) and uptake (m/yr) by the shares of equal layers, from the top.
func irrigate(applied, ec, taken float64, shares []float64) (rootZone, error) {
	const (
		roots = 1.0 // m, depth of the root zone
		cells = 40
		years = 30
	)
	g := column.Uniform(roots, cells)
	loam := flowTable(classCurve("loam", soil.AirEntry))
	c := column.New(g, filled(loam, g), 2)
	c.Base = column.Base{Kind: column.BaseGravity}
	layer := cells / len(shares)
	for i := range c.Uptake {
		c.Uptake[i] = taken / 365 * perDay * shares[i/layer] / float64(layer)
	}
	b := newBriny(c, 0)
	b.fill(ec)
	for range years * 365 {
		if err := b.step(applied/365*perDay, ec); err != nil {
			return rootZone{}, err
		}
	}
	z := rootZone{leaves: b.flux.BaseOut / salt.PerEC / c.Through[cells]}
	for i := range cells {
		z.ece += b.salt.ECe(i, g.Dz[i], salt.PasteWater(loam.Theta(-soil.Suction33kPa), loam.ThetaS)) / cells
		z.water += b.salt.Mass[i] / (c.Water[i] * g.Dz[i]) / salt.PerEC / cells
	}
	return z, nil
}

// saltLeachingFraction runs FAO-29's example by quarters.
func saltLeachingFraction() ([]Check, error) {
	var in struct {
		ECw, LF float64
		ET      float64 `json:"ET_mm"`
		Uptake  []float64
	}
	var out struct {
		Quarters []float64 `json:"EC_soil_water"`
		Mean     float64
		ECe      float64
	}
	worked("M15", &in, &out)
	z, err := irrigate(in.ET/1000/(1-in.LF), in.ECw, in.ET/1000, in.Uptake)
	if err != nil {
		return nil, err
	}
	last := out.Quarters[len(out.Quarters)-1]
	return []Check{
		{ID: "M15", What: "root zone irrigated to a leaching fraction: EC of what drains, ECw/LF", Source: "FAO-29 example (from memory), salt balance", Status: Computed, Unit: "dS/m",
			Expected: last, Got: z.leaves, Tolerance: 0.01 * last, Why: "1 %: the steady balance is exact, thirty years replace the water of the root zone a dozen times"},
		{ID: "M15", What: "root zone irrigated to a leaching fraction: mean EC of the soil water", Source: "FAO-29 example (from memory)", Status: Memory, Unit: "dS/m",
			Expected: out.Mean, Got: z.water, Report: true, Low: 0.8 * out.Mean, High: 1.2 * out.Mean,
			Note: "the example passes water on unmixed; the column's dispersivity of 0.2 m carries salt back up a root zone of 1 m"},
		{ID: "M15", What: "root zone irrigated to a leaching fraction: mean ECe", Source: "FAO-29 example (from memory)", Status: Memory, Unit: "dS/m",
			Expected: out.ECe, Got: z.ece, Report: true, Low: 0.8 * out.ECe, High: 1.2 * out.ECe,
			Note: "the example takes half of the soil water's EC, because a paste holds twice the water of the field soil; the column fills its own pores, which hold 1.7 times as much, and has the higher EC of the row above"},
	}, nil
}

// saltLeachingNeed irrigates maize with the water that FAO-29's example finds for
// 90 % of its yield, and for all of it.
func saltLeachingNeed() ([]Check, error) {
	var in struct {
		ECw    float64
		Some   float64 `json:"ECe_90"`
		All    float64 `json:"ECe_100"`
		Uptake float64 `json:"ET_mm"`
	}
	var out struct {
		Water float64 `json:"water_90_mm"`
		Share float64 `json:"LR_100"`
	}
	worked("M14", &in, &out)
	const source = "Rhoades 1974, FAO-29 equation 9 and its maize example (from memory)"
	var checks []Check
	for _, c := range []struct{ yield, ece, water, digits float64 }{
		{90, in.Some, out.Water / 1000, 1e-6},
		{100, in.All, in.Uptake / 1000 / (1 - out.Share), 0.000051 / out.Share},
	} {
		z, err := irrigate(c.water, in.ECw, in.Uptake/1000, []float64{0.4, 0.3, 0.2, 0.1})
		if err != nil {
			return nil, err
		}
		want := 5*c.ece - in.ECw // the water that drains where LR = ECw/(5 ECe - ECw)
		name := fmt.Sprintf("maize irrigated for %g %% of its yield by the leaching requirement: ", c.yield)
		checks = append(checks,
			Check{ID: "M14", What: name + "EC of what drains, 5 ECe - ECw", Source: source, Status: Computed, Unit: "dS/m",
				Expected: want, Got: z.leaves, Tolerance: (0.001 + c.digits) * want, Why: "0.1 %: the steady balance is exact, and thirty years replace the water of the root zone seven times or more; digits of the case"},
			Check{ID: "M14", What: name + "mean ECe", Source: source, Status: Memory, Unit: "dS/m",
				Expected: c.ece, Got: z.ece, Report: true, Low: 0.8 * c.ece, High: 1.2 * c.ece,
				Note: "the rule halves the EC of a soil water that passes on unmixed, as in the rows of M15"})
	}
	return checks, nil
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
