package heat

import "math"

// StefanDepth is the depth of frost, m, that a freezing index of the surface
// (C-d below 0 C) brings about in soil of frozen conductivity k (W/m/K) and latent
// heat (J/m3), where neither warmth in the soil nor its heat capacity counts
// (Stefan 1891). Both count, and air is not the surface, so that it is an upper
// bound under bare ground, and far too much under snow.
func StefanDepth(k, index, latent float64) float64 {
	const day = 86400
	return math.Sqrt(2 * k * index * day / latent)
}

// StefanDepthUnder is StefanDepth where a cover of some thermal resistance
// (m2 K/W), such as snow, lies on the ground (the layered form).
func StefanDepthUnder(resistance, k, index, latent float64) float64 {
	bare := StefanDepth(k, index, latent)
	return math.Sqrt(k*k*resistance*resistance+bare*bare) - k*resistance
}
