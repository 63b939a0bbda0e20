package drain

import "math"

// KirkhamFactor returns the geometry factor g of ponded flow to drains
// (Kirkham 1957), dimensionless,
//
//	g = 2 ln{tan[pi(2b-r)/(4h)] / tan[pi r/(4h)]}
//	  + 2 sum_{m>=1} ln{ [cosh cm + cos(pi r/2h)] / [cosh cm - cos(pi r/2h)]
//	                   * [cosh cm - cos(pi(2b-r)/2h)] / [cosh cm + cos(pi(2b-r)/2h)] }
//
// with c = pi L/(2h), depth b of the drain's centre, its radius r, depth h of
// the barrier and spacing L, all m. Terms fall as e^(-cm); the sum stops when
// one is below 1e-16 of g. For h = +Inf the images close into
// g = 2 ln{sinh[pi(2b-r)/L] / sinh[pi r/L]}.
// NaN unless 0 < r < b <= h and L > 2r.
func KirkhamFactor(drainCentreDepth, radius, barrierDepth, spacing float64) float64 {
	b, r, h, l := drainCentreDepth, radius, barrierDepth, spacing
	if !positive(r, b-r, l-2*r) || !(h >= b) || math.IsInf(b, 1) {
		return math.NaN()
	}
	if math.IsInf(h, 1) {
		return 2 * (logSinh(math.Pi*(2*b-r)/l) - logSinh(math.Pi*r/l))
	}
	g := 2 * math.Log(math.Tan(math.Pi*(2*b-r)/(4*h))/math.Tan(math.Pi*r/(4*h)))
	cosNear, cosFar := math.Cos(math.Pi*r/(2*h)), math.Cos(math.Pi*(2*b-r)/(2*h))
	for m := 1.0; ; m++ {
		cosh := math.Cosh(math.Pi * l / (2 * h) * m)
		// ln[(cosh+a)/(cosh-a)] = 2 atanh(a/cosh) keeps the digits of small terms.
		term := 4 * (math.Atanh(cosNear/cosh) - math.Atanh(cosFar/cosh))
		g += term
		if term <= 1e-16*g {
			return g
		}
	}
}

// logSinh is ln(sinh x) for x > 0, without overflow.
func logSinh(x float64) float64 {
	return x + math.Log(-math.Expm1(-2*x)/2)
}

// KirkhamPonded returns the steady flux to drains below a wholly saturated
// soil with water standing on it, m/s over the drained area,
//
//	q = 4 pi K (t + b - r) / (g L)
//
// (Kirkham 1957) with conductivity K, m/s, depth of ponded water t, depth b of
// the drain's centre, radius r, depth h of the barrier and spacing L, m, and g
// of [KirkhamFactor], which depends on geometry alone and can be kept by who
// calls often. NaN for t < 0 and outside the range of g.
func KirkhamPonded(k, pondDepth, drainCentreDepth, radius, barrierDepth, spacing float64) float64 {
	if !(pondDepth >= 0) {
		return math.NaN()
	}
	g := KirkhamFactor(drainCentreDepth, radius, barrierDepth, spacing)
	return 4 * math.Pi * k * (pondDepth + drainCentreDepth - radius) / (g * spacing)
}
