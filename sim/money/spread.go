package money

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Spread is a quantity known from a low to a high value with a likely one between.
type Spread struct{ Low, Middle, High float64 }

// Validate returns an error unless low <= middle <= high, all finite.
func (s Spread) Validate() error {
	if !(s.Low <= s.Middle && s.Middle <= s.High) || math.IsInf(s.High-s.Low, 0) {
		return fmt.Errorf("money: spread: found low %g, middle %g, high %g; allowed numbers in this order", s.Low, s.Middle, s.High)
	}
	return nil
}

// Shape is how likely the values of a spread are.
type Shape int

// The shapes.
const (
	// Triangular rises from low to its peak, the middle, and falls to high.
	Triangular Shape = iota
	// Uniform has every value from low to high alike; the middle has no part in it.
	Uniform
	// Lognormal has the middle as its median, low as its 5 % and high as its 95 %
	// quantile: normal in the logarithm, with a width of its own on either side.
	// Prices that cannot fall below 0 but may double are such.
	Lognormal
)

// normal95 is the 95 % quantile of the standard normal distribution.
const normal95 = 1.6448536269514722

// Quantile is the value of the spread below which the share p of a shape lies.
// NaN unless the spread is valid, p is 0 to 1 and, for Lognormal, low is above 0.
func (s Spread) Quantile(shape Shape, p float64) float64 {
	if s.Validate() != nil || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	switch width := s.High - s.Low; shape {
	case Triangular:
		if width == 0 {
			return s.Low
		}
		if peak := (s.Middle - s.Low) / width; p < peak {
			return s.Low + math.Sqrt(p*width*(s.Middle-s.Low))
		}
		return s.High - math.Sqrt((1-p)*width*(s.High-s.Middle))
	case Uniform:
		return s.Low + p*width
	case Lognormal:
		if !(s.Low > 0) {
			return math.NaN()
		}
		end := s.High
		if p < 0.5 {
			end = s.Low
		}
		// |z|/1.645 of the way, in the logarithm, to the end on its side.
		z := math.Sqrt2 * math.Erfinv(math.Abs(2*p-1))
		if end == s.Middle {
			return s.Middle
		}
		return s.Middle * math.Pow(end/s.Middle, z/normal95)
	}
	return math.NaN()
}

// Draw is a value of the spread at random. It takes one number from the source
// whatever the shape, so that the same seed gives the same draws.
func (s Spread) Draw(shape Shape, rng *rand.Rand) float64 {
	const cells = 1 << 52
	return s.Quantile(shape, (float64(rng.Uint64N(cells))+0.5)/cells) // never 0 or 1
}
