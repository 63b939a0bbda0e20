package trial

import (
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/soil"
)

// horizon reads one layer with its form.
func horizon(h *site.Section) Horizon {
	l := Horizon{
		Bottom: h.Required("to", unit.Length), ThetaS: h.Required("theta_s", unit.Fraction), ThetaR: or(h, "theta_r", unit.Fraction, 0),
		Sand: or(h, "sand", unit.Percent, 40), Organic: or(h, "organic_matter", unit.Percent, 1), ECe: or(h, "ece", unit.Salinity, 0),
	}
	for _, key := range []string{"sand", "organic_matter"} {
		if x, ok := known(h, key, unit.Percent); ok && (x < 0 || x > 100) {
			h.Fault(key, "found %.4g %%; allowed 0 to 100 %%", x)
		}
	}
	atLeast(h, "ece", l.ECe, 0, "0 dS/m")
	if l.ThetaR >= l.ThetaS {
		h.Fault("theta_r", "found %.4g; allowed less than theta_s, %.4g", l.ThetaR, l.ThetaS)
	}
	ksat := positive(h, "ksat", unit.Conductivity)
	switch h.Choice("form", []string{"van genuchten", "brooks-corey", "exponential", "haverkamp"}, "", "") {
	case "van genuchten":
		n := h.Required("n", unit.Number)
		if n <= 1 {
			h.Fault("n", "found %.4g; allowed more than 1", n)
		}
		entry := or(h, "air_entry", unit.Length, 0)
		atLeast(h, "air_entry", entry, 0, "0 cm")
		l.Form = soil.Curve{ThetaR: l.ThetaR, ThetaS: l.ThetaS, Alpha: positive(h, "alpha", unit.InverseLength), N: n,
			L: or(h, "l", unit.Number, 0.5), Entry: entry, KMatrix: ksat}
	case "brooks-corey":
		l.Form = soil.BrooksCorey{ThetaR: l.ThetaR, ThetaS: l.ThetaS, Entry: positive(h, "air_entry", unit.Length), Lambda: positive(h, "lambda", unit.Number), Ksat: ksat}
	case "exponential":
		l.Form = soil.Exponential{ThetaR: l.ThetaR, ThetaS: l.ThetaS, Alpha: positive(h, "alpha", unit.InverseLength), Ksat: ksat}
	case "haverkamp":
		l.Form = soil.Haverkamp{ThetaR: l.ThetaR, ThetaS: l.ThetaS, A: positive(h, "a", unit.Number), B: positive(h, "b", unit.Number), Log: h.Yes("log"),
			Ksat: ksat, KA: positive(h, "ka", unit.Number), KB: positive(h, "kb", unit.Number)}
	default:
		if !h.Has("form") {
			h.Fault("form", "missing; allowed van genuchten, brooks-corey, exponential, haverkamp")
		}
	}
	h.End()
	return l
}
