package flow

import "math"

// Abstraction is the share of the potential retention that is wetted before any
// runoff begins: 0.20 in the curve number's handbook (NRCS, National Engineering
// Handbook 630, chapter 10; from memory).
const Abstraction = 0.20

// LowAbstraction is the share that later studies of gauged storms prefer, to be
// used with numbers converted by [AtLowAbstraction] (Hawkins et al. 2009; from memory).
const LowAbstraction = 0.05

// Retention is the potential retention S (m) of a curve number, 1 to 100:
// S = 25.4 mm (1000/CN - 10).
func Retention(cn float64) float64 { return 0.0254 * (1000/cn - 10) }

// CurveNumberRunoff is the runoff (m) of a storm of the given rain (m):
// Q = (P - Ia)^2 / (P - Ia + S) above Ia = abstraction S, else nothing (NRCS,
// National Engineering Handbook 630, chapter 10; from memory).
func CurveNumberRunoff(rain, cn, abstraction float64) float64 {
	s := Retention(cn)
	excess := rain - abstraction*s
	if excess <= 0 {
		return 0
	}
	return excess * excess / (excess + s)
}

// CurveNumberOf is the number that makes the given runoff of the given rain (m)
// with Ia = 0.20 S: S = 5 (P + 2 Q - sqrt(4 Q^2 + 5 P Q)), the root of the
// equation above that leaves Ia < P. Without runoff it is the number at which
// runoff would just begin; 100 is the most.
func CurveNumberOf(rain, runoff float64) float64 {
	s := 5 * (rain + 2*runoff - math.Sqrt(4*runoff*runoff+5*rain*runoff))
	return 1000 / (10 + math.Max(s, 0)/0.0254)
}

// DryCurveNumber is the number of the same land on dry ground, from that of the
// middle state: CN / (2.281 - 0.01281 CN) (Hawkins et al. 1985; from memory, within
// 2 of the handbook's table).
func DryCurveNumber(cn float64) float64 { return cn / (2.281 - 0.01281*cn) }

// WetCurveNumber is the number on wet ground: CN / (0.427 + 0.00573 CN) (Hawkins
// et al. 1985; from memory, within 2 of the handbook's table).
func WetCurveNumber(cn float64) float64 { return cn / (0.427 + 0.00573*cn) }

// AtLowAbstraction converts a number of Ia = 0.20 S to that of Ia = 0.05 S, from
// S05 = 1.33 S20^1.15 in inches (Hawkins et al. 2009; from memory).
func AtLowAbstraction(cn float64) float64 {
	return 100 / (1.879*math.Pow(100/cn-1, 1.15) + 1)
}
