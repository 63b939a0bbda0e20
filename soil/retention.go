package soil

import (
	"fmt"
	"math"
)

// AirEntry is the suction (m) below which no air enters. A plain van Genuchten
// conductivity with n < 2 falls infinitely steeply at saturation; a small air
// entry of 0.01-0.02 m removes that (Vogel et al. 2001, Adv. Water Resour.
// 24:133; closed form of Ippisch et al. 2006, from memory). It doubles the time
// to ponding on loam, so it is part of the model and not a numerical detail.
const AirEntry = 0.02

// Curve is a van Genuchten-Mualem soil, with an optional second set of pores
// for structure: roots, cracks and worm holes that empty within half a metre of
// suction and carry most of the water near saturation. The two are added, for
// retention after Durner (1994, Water Resour. Res. 30:211), for conductivity
// after Ross and Smettem (1993, Soil Sci. Soc. Am. J. 57:26).
type Curve struct {
	ThetaR, ThetaS float64 // residual and saturated water content, m3/m3
	Alpha, N, L    float64 // van Genuchten's alpha (1/m), n, and Mualem's l of the matrix
	Entry          float64 // air-entry suction, m
	KMatrix        float64 // saturated conductivity of the matrix, m/s
	OvenDry        bool    // residual water is gone when the soil is oven-dry

	Structure  float64 // pore space of the structure, m3/m3; 0 for none
	AlphaS, NS float64 // its van Genuchten parameters (1/m, -)
	KStructure float64 // its part of the saturated conductivity, m/s
}

// Beyond dryFrom (m of suction) residual water falls with the logarithm of
// suction, to nothing at ovenDry (Fayer and Simmons 1995, Water Resour. Res.
// 31:1233, from memory). Without that a steep curve has no capacity left at its dry
// end, and a sand whose surface has dried cannot be wetted again.
const (
	dryFrom = 10.0
	ovenDry = 1e5
)

// residual water at suction s, m3/m3.
func (c Curve) residual(s float64) float64 {
	if !c.OvenDry || s <= dryFrom {
		return c.ThetaR
	}
	return c.ThetaR * math.Max(0, 1-math.Log(s/dryFrom)/math.Log(ovenDry/dryFrom))
}

// Ksat is the saturated conductivity, matrix and structure together, m/s.
func (c Curve) Ksat() float64 { return c.KMatrix + c.KStructure }

// saturation is van Genuchten's Se = [1+(alpha s)^n]^-m at suction s.
func saturation(s, alpha, n float64) float64 {
	return math.Pow(1+math.Pow(alpha*s, n), -(1 - 1/n))
}

// Theta is the water content at pressure head h (m).
func (c Curve) Theta(h float64) float64 {
	s := -h
	if s <= 0 {
		return c.ThetaS
	}
	matrix := 1.0
	if s > c.Entry {
		matrix = saturation(s, c.Alpha, c.N)
		if c.Entry > 0 {
			matrix /= saturation(c.Entry, c.Alpha, c.N)
		}
	}
	r := c.residual(s)
	theta := r + (c.ThetaS-r-c.Structure)*matrix
	if c.Structure > 0 {
		theta += c.Structure * saturation(s, c.AlphaS, c.NS)
	}
	return theta
}

// K is the conductivity at pressure head h (m), m/s.
func (c Curve) K(h float64) float64 {
	s := -h
	if s <= 0 {
		return c.Ksat()
	}
	k := c.KMatrix
	if s > c.Entry {
		k *= mualem(s, c.Alpha, c.N, c.L, c.Entry)
	}
	if c.KStructure > 0 {
		k += c.KStructure * mualem(s, c.AlphaS, c.NS, 0.5, 0)
	}
	return k
}

// mualem is Kr of van Genuchten (1980) in the air-entry form of Ippisch et al.
// (2006). 1 - Se^(1/m) = y/(1+y), y = (alpha s)^n, keeps all digits near
// saturation.
func mualem(s, alpha, n, l, entry float64) float64 {
	m := 1 - 1/n
	open := func(s float64) float64 { // 1 - (1 - Se^(1/m))^m
		y := math.Pow(alpha*s, n)
		return -math.Expm1(m * math.Log(y/(1+y)))
	}
	se, norm := saturation(s, alpha, n), 1.0
	if entry > 0 {
		se /= saturation(entry, alpha, n)
		norm = open(entry)
	}
	r := open(s) / norm
	return math.Pow(se, l) * r * r
}

// fitTwoPoints finds alpha and n of a curve that starts at thetaS, passes
// exactly through theta33 at 33 kPa and theta1500 at 1500 kPa and ends at
// thetaR. The root in n is bracketed; an error says that no such curve exists.
func fitTwoPoints(thetaR, thetaS, theta33, theta1500, entry float64) (alpha, n float64, err error) {
	if !(thetaR < theta1500 && theta1500 < theta33 && theta33 < thetaS) {
		return 0, 0, fmt.Errorf("water contents must fall with suction: saturation %.3f, 33 kPa %.3f, 1500 kPa %.3f", thetaS, theta33, theta1500)
	}
	alphaFor := func(n float64) float64 { // so that theta(33 kPa) fits, for this n
		lo, hi := math.Log(1e-5), math.Log(1e3)
		for range 80 {
			mid := (lo + hi) / 2
			c := Curve{ThetaR: thetaR, ThetaS: thetaS, Alpha: math.Exp(mid), N: n, Entry: entry, OvenDry: true}
			if c.Theta(-Suction33kPa) > theta33 {
				lo = mid
			} else {
				hi = mid
			}
		}
		return math.Exp((lo + hi) / 2)
	}
	miss := func(n float64) float64 {
		c := Curve{ThetaR: thetaR, ThetaS: thetaS, Alpha: alphaFor(n), N: n, Entry: entry, OvenDry: true}
		return c.Theta(-Suction1500kPa) - theta1500
	}
	lo, hi := 1.01, 4.0 // a larger n drains more between the two suctions
	if miss(lo) < 0 || miss(hi) > 0 {
		return 0, 0, fmt.Errorf("no van Genuchten curve passes through saturation %.3f, 33 kPa %.3f and 1500 kPa %.3f", thetaS, theta33, theta1500)
	}
	for range 60 {
		mid := (lo + hi) / 2
		if miss(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	n = (lo + hi) / 2
	return alphaFor(n), n, nil
}
