package proof

import (
	"context"
	"fmt"

	"mottle/sim/crop"
)

// cropYield holds what wet, dry and late years leave of a yield, and how the losses
// are shared out.
func cropYield(ctx context.Context) ([]Check, error) {
	return inTurn(ctx, cropUptake, cropRoots, cropPlanting, cropExcessWater, cropStressIndex, cropTrial, cropDrought, cropFlood, cropFloodLoss, cropLosses)
}

const (
	rounding = 1e-9 // of sums of a few decimals
	digits   = "half a unit of the last digit printed"
)

// cropUptake holds corn's uptake factor at seven suctions.
func cropUptake() ([]Check, error) {
	var in struct {
		Points [][2]float64 `json:"points_h_cm_Tp_mm_d"`
	}
	var out struct{ Alpha []float64 }
	worked("M01", &in, &out)
	var checks []Check
	for i, p := range in.Points {
		wet, dry := corn().Uptake(-p[0]/100, p[1])
		checks = append(checks, Check{ID: "M01", What: fmt.Sprintf("corn: uptake factor at %g cm and %g mm/d", p[0], p[1]),
			Source: "Feddes, Kowalik and Zaradny 1978, set of Wesseling 1991 (from memory), recomputed", Status: Computed, Unit: "-",
			Expected: out.Alpha[i], Got: 1 - wet - dry, Tolerance: 5.1e-5, Why: digits})
	}
	return checks, nil
}

// cropRoots grows corn's roots over the heat of 75 days.
func cropRoots() ([]Check, error) {
	var in struct {
		Max  float64 `json:"root_max_m"`
		Full int     `json:"days_to_max"`
		Day  []int
	}
	var out struct {
		Depth []float64 `json:"depth_m"`
	}
	worked("M09", &in, &out)
	k := corn()
	k.RootMax = in.Max
	const low, high, table = 14, 30, 3 // C and m: even heat, no water near
	s := crop.Stand{Kind: k, Need: float64(in.Full) * k.HeatUnits(low, high) / k.Full, Stage: crop.Planted}
	var checks []Check
	for day, i := 1, 0; i < len(in.Day); day++ {
		s.Day(120+day, low, high, crop.Ground{WaterTable: table})
		if day == in.Day[i] {
			checks = append(checks, Check{ID: "M09", What: fmt.Sprintf("corn: depth of roots on day %d of %d", day, in.Full),
				Source: "Borg and Grimes 1986 (from memory), recomputed", Status: Computed, Unit: "m",
				Expected: out.Depth[i], Got: s.RootDepth, Tolerance: 1e-4, Why: "a unit of the last digit: the last, 1.49994, is printed 1.5"})
			i++
		}
	}
	return checks, nil
}

// cropPlanting reads both long tables of corn between their dates.
func cropPlanting() ([]Check, error) {
	var in struct{ Dates []string }
	var out struct {
		Three []float64 `json:"three_sites"`
		Long  []float64 `json:"lamberton"`
	}
	worked("M10", &in, &out)
	var checks []Check
	for _, set := range []struct {
		name string
		want []float64
	}{{"Minnesota, three sites 2009-2011", out.Three}, {"Minnesota, Lamberton 1988-2003", out.Long}} {
		table, err := crop.PlantingTableOf("corn", set.name)
		if err != nil {
			return nil, err
		}
		for i, date := range in.Dates {
			var month, day int
			if _, err := fmt.Sscanf(date, "%d-%d", &month, &day); err != nil {
				return nil, fmt.Errorf("M10: date %q: %w", date, err)
			}
			share, reach := table.Share([...]int{5: 120, 6: 151}[month] + day)
			if reach != crop.Tabled {
				return nil, fmt.Errorf("M10: %s lies beyond the table %s", date, set.name)
			}
			checks = append(checks, Check{ID: "M10", What: fmt.Sprintf("corn planted on %s: yield, share of best (%s)", date, set.name),
				Source: "University of Minnesota Extension, planting date table (read); lines between dates", Status: Computed, Unit: "%",
				Expected: set.want[i], Got: 100 * share, Tolerance: rounding, Why: "whole percents on dates five days apart are exact to a tenth"})
		}
	}
	return checks, nil
}

// cropExcessWater sums ten days of a water table.
func cropExcessWater() ([]Check, error) {
	var in struct {
		Table []float64 `json:"water_table_cm_below_surface"`
	}
	var out struct {
		Sum float64 `json:"SEW30_cm_days"`
	}
	worked("M02", &in, &out)
	var d crop.StressDays
	for _, x := range in.Table {
		d.Add(crop.Flowering, x/100)
	}
	return []Check{{ID: "M02", What: "excess-water sum of ten days, one of them ponded", Source: "Sieben 1964, definition; a pond counts as a table at the ground", Status: Computed, Unit: "cm-d",
		Expected: out.Sum, Got: d.Sum(), Tolerance: rounding, Why: "whole centimetres: rounding; were ponds to add depth the sum would be 126"}}, nil
}

// cropStressIndex carries a season of corn through both lines.
func cropStressIndex() ([]Check, error) {
	var in struct {
		Stage crop.StressDays `json:"SEW30_by_stage"`
	}
	var out struct {
		SDI   float64
		Yield float64 `json:"YR_pct"`
		Older float64 `json:"older_form_YR_pct"`
	}
	worked("M03", &in, &out)
	line, err := crop.WetLineOf("corn", "")
	if err != nil {
		return nil, err
	}
	ohio, err := crop.WetLineOf("corn", "Ohio")
	if err != nil {
		return nil, err
	}
	index := line.Index(in.Stage)
	const half = 5e-4
	return []Check{
		{ID: "M03", What: "corn: stress-day index of a season", Source: "Hiler 1969; factors of Evans, Skaggs and Sneed 1990 (from memory), recomputed", Status: Computed, Unit: "cm-d", Expected: out.SDI, Got: index, Tolerance: half, Why: digits},
		{ID: "M03", What: "corn: yield of that season", Source: "Evans, Skaggs and Sneed 1991 (from memory), recomputed", Status: Computed, Unit: "%", Expected: out.Yield, Got: 100 * line.Yield(index), Tolerance: half, Why: digits},
		{ID: "M03", What: "corn: yield of that season, older Ohio form", Source: "Hardjoamidjojo, Skaggs and Schwab 1982 (from memory), recomputed; the same factors under both", Status: Computed, Unit: "%",
			Expected: out.Older, Got: 100 * ohio.Yield(ohio.Index(in.Stage)), Tolerance: half, Why: digits},
	}, nil
}

// cropTrial derives susceptibility from a plot trial.
func cropTrial() ([]Check, error) {
	var in struct {
		Best float64    `json:"Y_unstressed"`
		Each [5]float64 `json:"Y_stressed_by_stage"`
	}
	var out struct{ CS, Normalised []float64 }
	worked("M04", &in, &out)
	cs := crop.TrialSusceptibility(in.Best, in.Each)
	n := cs.Normalised()
	var checks []Check
	for j := range cs {
		for _, c := range []struct {
			what      string
			want, got float64
		}{{"susceptibility", out.CS[j], cs[j]}, {"normalised susceptibility", out.Normalised[j], n[j]}} {
			checks = append(checks, Check{ID: "M04", What: fmt.Sprintf("%s from a trial, stage %d", c.what, j+1), Source: "Hiler 1969, definition; invented trial, recomputed", Status: Computed, Unit: "-",
				Expected: c.want, Got: c.got, Tolerance: 5.1e-5, Why: digits})
		}
	}
	return checks, nil
}

// cropDrought holds the season's and the stages' form of FAO-33 for corn.
func cropDrought() ([]Check, error) {
	var season struct {
		ETa float64 `json:"ETa_mm"`
		ETm float64 `json:"ETm_mm"`
	}
	var stages struct {
		Ratio [4]float64 `json:"ETa_over_ETm"`
	}
	var out, byStage struct {
		Yield float64 `json:"Ya_over_Ym"`
	}
	worked("M05", &season, &out)
	worked("M06", &stages, &byStage)
	ky, err := crop.KyOf("corn")
	if err != nil {
		return nil, err
	}
	var water, parts crop.Thirst
	for j, p := range []crop.Phase{crop.LateVegetative, crop.Flowering, crop.YieldFormation, crop.Maturation} {
		water.Add(p, season.ETm/4, (season.ETm-season.ETa)/4)
		parts.Add(p, 1, 1-stages.Ratio[j])
	}
	product, err := ky.StageYield(parts.Stages())
	if err != nil {
		return nil, err
	}
	return []Check{
		{ID: "M05", What: "corn: yield at four fifths of its water, by the season", Source: "FAO-33 (Doorenbos and Kassam 1979; Ky from memory), recomputed", Status: Computed, Unit: "-", Expected: out.Yield, Got: ky.SeasonYield(water.Season()), Tolerance: rounding, Why: "exact decimals: rounding"},
		{ID: "M06", What: "corn: yield of four dry stages, their product", Source: "FAO-33 (stage Ky from memory); the product is common practice; recomputed", Status: Computed, Unit: "-", Expected: byStage.Yield, Got: product, Tolerance: rounding, Why: "exact decimals: rounding"},
	}, nil
}

// cropLosses multiplies four factors and shares out what they cost.
func cropLosses() ([]Check, error) {
	var in struct {
		Planting, Wet, Dry, Salt float64
		Potential                float64 `json:"potential_bu_ac"`
	}
	var out struct {
		Product float64
		Yield   float64 `json:"yield_bu_ac"`
	}
	worked("M11", &in, &out)
	yield, lost, err := crop.Attribute(crop.Shares{crop.Late: in.Planting, crop.Wet: in.Wet, crop.Dry: in.Dry, crop.Salt: in.Salt})
	if err != nil {
		return nil, err
	}
	sum := 0.0
	for _, x := range lost {
		sum += x
	}
	return []Check{
		{ID: "M11", What: "corn: share of the best yield after late, wet, dry and salt", Source: "factors multiplied: common practice; recomputed", Status: Computed, Unit: "-", Expected: out.Product, Got: yield, Tolerance: rounding, Why: "exact decimals: rounding"},
		{ID: "M11", What: "corn: yield of a best one of 200 bu/ac", Source: "the same", Status: Computed, Unit: "bu/ac", Expected: out.Yield, Got: in.Potential * yield, Tolerance: 0.0051, Why: digits},
		{ID: "M11", What: "corn: losses shared out to the four causes, their sum", Source: "the parts add up to what is missing of 1, an identity", Status: Computed, Unit: "-", Expected: 1 - out.Product, Got: sum, Tolerance: rounding, Why: "rounding"},
	}, nil
}
