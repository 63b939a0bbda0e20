package flow

import (
	"fmt"
	"math"
)

// Channel is a wide channel of rectangular section.
type Channel struct {
	Length float64 // m
	Width  float64 // m
	Slope  float64 // of the bed, m/m
	N      float64 // Manning's n
}

// wideBeta is the speed of a flood wave over that of the water in a wide channel
// under Manning's equation, 5/3.
const wideBeta = 5. / 3

// Wave is a flood wave at its reference flow.
type Wave struct {
	Celerity float64 // m/s
	UnitFlow float64 // reference flow over the water's width, m2/s
	Slope    float64 // m/m
}

// Wave is the wave of the channel at a reference flow (m3/s), usually between base
// flow and peak: depth (Q n / (B s^0.5))^(3/5), the hydraulic radius being the depth.
func (c Channel) Wave(flow float64) (Wave, error) {
	if err := firstOf(positive("reference flow, m3/s", flow), positive("width, m", c.Width), positive("slope, m/m", c.Slope), positive("Manning's n", c.N)); err != nil {
		return Wave{}, err
	}
	unit := flow / c.Width
	depth := math.Pow(unit*c.N/math.Sqrt(c.Slope), 0.6)
	return Wave{wideBeta * unit / depth, unit, c.Slope}, nil
}

// Spread is the length (m) over which the wave diffuses, q / (s c): the diffusion
// number of a reach is this over its length.
func (w Wave) Spread() float64 { return w.UnitFlow / (w.Slope * w.Celerity) }

// NewMuskingumCunge routes the wave down length (m), cut into the given number of
// reaches, or into the fewest that keep every coefficient from being negative when
// reaches is 0 (Cunge 1969; Ponce 1989; from memory). With a = c dt and b = q/(s c)
// a reach may be |a-b| to a+b long; when the length cannot be cut so, or was not, it
// is a [StabilityError]. The coefficients stay those of the reference flow, so
// volume is kept.
func NewMuskingumCunge(w Wave, length float64, reaches int, dt float64) (*Muskingum, error) {
	if err := firstOf(positive("celerity, m/s", w.Celerity), positive("flow per width, m2/s", w.UnitFlow), positive("slope, m/m", w.Slope),
		positive("length, m", length), within("reaches", float64(reaches), 0, 1e6, "0 picks the fewest"), positive("step, s", dt)); err != nil {
		return nil, err
	}
	moved, spread := w.Celerity*dt, w.Spread()
	shortest, longest := math.Abs(moved-spread), moved+spread
	const rounding = 1e-12
	if reaches == 0 {
		reaches = int(math.Max(1, math.Ceil(length/longest*(1-rounding))))
	}
	one := length / float64(reaches)
	if one < shortest*(1-rounding) || one > longest*(1+rounding) {
		e := &StabilityError{"Muskingum-Cunge", "length of a reach, m", one, shortest, longest, reaches, ""}
		switch {
		case one > longest:
			e.Suggestion = fmt.Sprintf("cut it into at least %.0f", math.Ceil(length/longest))
		case length >= shortest:
			e.Suggestion = fmt.Sprintf("cut it into at most %.0f", math.Floor(length/shortest))
		case moved > spread:
			e.Suggestion = fmt.Sprintf("the wave passes it within the step: shorten the step to at most %.6g s, or leave the reach out", (length+spread)/w.Celerity)
		default:
			e.Suggestion = "the wave spreads further than it is long: join it with the next, or route it as a store"
		}
		return nil, e
	}
	// Ponce's C0, C1, C2 are C1, C2, C3 here.
	return &Muskingum{CungeCoefficients(moved/one, spread/one), make([]float64, reaches+1), dt}, nil
}
