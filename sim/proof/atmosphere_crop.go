package proof

import (
	"fmt"

	"mottle/sim/crop"
)

// coefficientRows compute the rows on crop coefficients and heat units (C).
var coefficientRows = map[string]func(given) float64{
	"C01a": climateKc,
	"C01b": climateKc,
	"C03a": func(in given) float64 { return 1000 * crop.Evaporable(in["thetaFC"], in["thetaWP"], in["Ze_m"]) },
	"C03d": func(in given) float64 { // the ground shaded is that of row C03c, its crop 1.2 m tall
		exposed := 1 - crop.Cover(in["Kcb"], in["Kcmax"], 1.2)
		return crop.SurfaceEvaporation(in["Kr"], in["Kcmax"]-in["Kcb"], exposed*in["Kcmax"])
	},
	"C03e": func(in given) float64 {
		return crop.SurfaceEvaporation(in["Kr"], in["Kcmax"]-in["Kcb"], (1-in["fc"])*in["Kcmax"])
	},
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

// climateKc is the coefficient of a stand in the middle of its season, in a climate.
func climateKc(in given) float64 {
	s := crop.Stand{Stage: crop.Full, Need: 1, Units: 0.5,
		Climate: crop.ClimateAdjustment(crop.Dryness(in["u2"], in["RHmin"]), in["h_m"]),
		Kind:    crop.Kind{KcbMid: in["Kc_tab"], Cover: 0.1, Full: 0.4, Late: 0.8}}
	return s.Kcb(0)
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
