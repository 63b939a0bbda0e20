package proof

import (
	"fmt"

	"mottle/sim/crop"
)

// coefficientRows compute the rows on crop coefficients and heat units (C).
var coefficientRows = map[string]func(given) float64{
	"C02a": func(in given) float64 { return stages(in, crop.Growing) },
	"C02b": func(in given) float64 { return stages(in, crop.Ripening) },
	"C03b": func(in given) float64 { return crop.SurfaceReduction(in["De"], in["REW"], in["TEW"]) },
	"C03c": func(in given) float64 { return crop.Cover(in["Kcb"], in["Kcmax"], in["h_m"]) },
	"C06a": fahrenheitDays,
	"C06b": fahrenheitDays,
	"C06c": fahrenheitDays,
	"C06d": fahrenheitDays,
	"C06e": func(in given) float64 { return cornUnits(in["Tmin_C"], in["Tmax_C"]) },
	"C06g": func(in given) float64 { return cornUnits(in["Tmin_C"], in["Tmax_C"]) },
}

// stages is the coefficient of a stand whose heat units are the days of the four
// stages.
func stages(in given, stage crop.Stage) float64 {
	cover := in["Lini"]
	full := cover + in["Ldev"]
	late := full + in["Lmid"]
	end := late + in["Llate"]
	s := crop.Stand{Stage: stage, Need: end, Units: in["day"], Kind: crop.Kind{
		KcbStart: in["Kcini"], KcbMid: in["Kcmid"], KcbEnd: in["Kcend"],
		Cover: cover / end, Full: full / end, Late: late / end,
	}}
	return s.Kcb(0)
}

// corn is the product's corn.
func corn() crop.Kind {
	k, err := crop.Named("corn")
	if err != nil {
		panic(err)
	}
	return k
}

const degree = 1.8 // F per C

// cornMaturity holds the heat that corn takes from planting to maturity against the
// stage table of a medium hybrid.
func cornMaturity() (Check, error) {
	const file, stage = "atmosphere-corn-gdd.csv", "full maturity"
	for _, r := range table(file) {
		if r["stage"] == stage {
			return Check{ID: file + ":" + stage, What: "heat units of corn, planting to maturity", Status: Published, Unit: "C-d",
				Source:   "High Plains Regional Climate Center, corn stage table, medium hybrids",
				Expected: r.num("GDD_F_medium") / degree, Got: corn().Maturity, Tolerance: 0.5, Why: "whole units are kept"}, nil
		}
	}
	return Check{}, fmt.Errorf("%s: no row %q", file, stage)
}

// cornUnits are the heat units of a day of corn, C-d.
func cornUnits(tmin, tmax float64) float64 { return corn().HeatUnits(tmin, tmax) }

// fahrenheitDays are those of a day in F, F-d.
func fahrenheitDays(in given) float64 {
	return degree * cornUnits((in["Tmin_F"]-32)/degree, (in["Tmax_F"]-32)/degree)
}
