package soil

import "math"

// Form is a pair of soil functions of pressure head h (m): water content (m3/m3)
// and conductivity (m/s).
type Form interface {
	Theta(h float64) float64
	K(h float64) float64
}

// NewFormTable tabulates any form.
func NewFormTable(f Form) (*Table, error) { return NewTable(f.Theta, f.K) }

// BrooksCorey is the soil of Brooks and Corey (1964): S = (h/he)^-lambda beyond
// the air entry, K = Ks S^(2/lambda+3).
type BrooksCorey struct {
	ThetaR, ThetaS float64 // m3/m3
	Entry          float64 // air-entry suction, m
	Lambda         float64 // pore-size index, -
	Ksat           float64 // m/s
}

// Theta is the water content at pressure head h (m).
func (f BrooksCorey) Theta(h float64) float64 {
	return f.ThetaR + (f.ThetaS-f.ThetaR)*f.saturation(h)
}

// K is the conductivity at pressure head h (m), m/s.
func (f BrooksCorey) K(h float64) float64 {
	return f.Ksat * math.Pow(f.saturation(h), 2/f.Lambda+3)
}

func (f BrooksCorey) saturation(h float64) float64 {
	if -h <= f.Entry {
		return 1
	}
	return math.Pow(-h/f.Entry, -f.Lambda)
}

// Exponential is Gardner's (1958) soil, K = Ks exp(alpha h), with a water content
// of the same shape, for which Richards' equation is linear (Srivastava and Yeh
// 1991).
type Exponential struct {
	ThetaR, ThetaS float64 // m3/m3
	Alpha          float64 // 1/m
	Ksat           float64 // m/s
}

// Theta is the water content at pressure head h (m).
func (f Exponential) Theta(h float64) float64 {
	return f.ThetaR + (f.ThetaS-f.ThetaR)*math.Exp(f.Alpha*math.Min(h, 0))
}

// K is the conductivity at pressure head h (m), m/s.
func (f Exponential) K(h float64) float64 { return f.Ksat * math.Exp(f.Alpha*math.Min(h, 0)) }

// Haverkamp is the fitted form of Haverkamp et al. (1977), with suction s in cm:
// S = a/(a+s^b), K = Ks A/(A+s^g). Log puts ln s in place of s in S, from s = 1 cm
// on, as for Yolo light clay.
type Haverkamp struct {
	ThetaR, ThetaS float64 // m3/m3
	A, B           float64 // of the water content: a in cm^b, b
	Log            bool
	Ksat           float64 // m/s
	KA, KB         float64 // of the conductivity: A in cm^g, g
}

// Theta is the water content at pressure head h (m).
func (f Haverkamp) Theta(h float64) float64 {
	s := -100 * math.Min(h, 0)
	if f.Log {
		s = math.Log(math.Max(s, 1))
	}
	return f.ThetaR + (f.ThetaS-f.ThetaR)*f.A/(f.A+math.Pow(s, f.B))
}

// K is the conductivity at pressure head h (m), m/s.
func (f Haverkamp) K(h float64) float64 {
	return f.Ksat * f.KA / (f.KA + math.Pow(-100*math.Min(h, 0), f.KB))
}
