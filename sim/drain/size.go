package drain

import (
	"errors"
	"fmt"
	"math"
)

// Greatest velocities of a full pipe, m/s, that wash no soil in at joints and
// openings laid without protection, by the soil around it: 3.5, 5, 6 and 7 ft/s
// (NRCS National Engineering Handbook 650 chapter 14, ASAE EP480; from memory).
const (
	VelocityMostSand          = 1.0668 // sand and sandy loam
	VelocityMostSilt          = 1.524  // silt and silt loam
	VelocityMostSiltyClayLoam = 1.8288
	VelocityMostClay          = 2.1336 // clay and clay loam
)

// tradeSizes are the inside diameters of corrugated drain tube, in.
var tradeSizes = [...]float64{3, 4, 5, 6, 8, 10, 12, 15, 18}

// TradeDiameters lists the inside diameters in which corrugated drain tube is
// sold, m, ascending: 3, 4, 5, 6, 8, 10, 12, 15 and 18 in. Metric sizes (75, 100
// mm ...) go by the same names.
func TradeDiameters() []float64 {
	diameters := make([]float64, len(tradeSizes))
	for i, inches := range tradeSizes {
		diameters[i] = inches * 0.0254
	}
	return diameters
}

// Duty is what a pipe has to do.
type Duty struct {
	Area          float64 // drained through it, m2
	Coefficient   float64 // drainage coefficient, m/s over the area
	Grade         float64 // at which it is laid, m/m
	LeastVelocity float64 // of the full pipe, m/s: [VelocityCleanWater] or [VelocityFineSand]
	MostVelocity  float64 // of the full pipe, m/s: VelocityMostSand ... by soil; +Inf for no bound
}

// Flow that the pipe has to carry, m3/s.
func (d Duty) Flow() float64 { return d.Area * d.Coefficient }

// Validate returns every fault of the duty, joined, or nil.
func (d Duty) Validate() error {
	var faults []error
	for _, q := range []struct {
		name  string
		value float64
		unit  string
	}{
		{"area", d.Area, "m2"},
		{"drainage coefficient", d.Coefficient, "m/s"},
		{"grade", d.Grade, "m/m"},
	} {
		if !positive(q.value) || math.IsInf(q.value, 1) {
			faults = append(faults, fmt.Errorf("drain: pipe: %s: found %g %s, allowed above 0", q.name, q.value, q.unit))
		}
	}
	if !(d.LeastVelocity >= 0 && d.LeastVelocity < d.MostVelocity) {
		faults = append(faults, fmt.Errorf("drain: pipe: velocity: found least %g and most %g m/s, allowed 0 and more, the least below the most",
			d.LeastVelocity, d.MostVelocity))
	}
	return errors.Join(faults...)
}

// Size is a pipe of a trade size at the grade of its duty.
type Size struct {
	Diameter  float64 // inside, m
	Discharge float64 // running full, m3/s
	Velocity  float64 // running full, m/s
}

// size is a pipe at the duty's grade.
func (d Duty) size(diameter float64) Size {
	q := ManningFullPipe(diameter, d.Grade)
	return Size{Diameter: diameter, Discharge: q, Velocity: q / (math.Pi * diameter * diameter / 4)}
}

// SizePipe is the smallest trade size that carries the duty's flow running full
// (Manning) at its grade, with its full velocity within bounds. Where that size
// would run too slowly a larger one may stand for it, as in the tables of least
// grades (ASAE EP480), provided that the flow half fills it: half full a pipe runs
// as fast as full. The error is a [*SizeError] where no size fits, otherwise
// what is at fault with the duty.
func SizePipe(d Duty) (Size, error) {
	if err := d.Validate(); err != nil {
		return Size{}, err
	}
	s, misfit := d.fit()
	if misfit == 0 {
		return s, nil
	}
	grade, at := d.nearestGrade()
	return Size{}, &SizeError{Misfit: misfit, Duty: d, Found: s, Grade: grade, There: at}
}

// fit finds the size, or the reason why there is none and the smallest size that
// carries the flow, the largest of all if none does.
func (d Duty) fit() (Size, Misfit) {
	var smallest, s Size
	for _, diameter := range TradeDiameters() {
		s = d.size(diameter)
		switch {
		case s.Discharge < d.Flow():
			continue
		case smallest.Diameter == 0:
			smallest = s
		case s.Discharge > 2*d.Flow():
			continue
		}
		if s.Velocity >= d.LeastVelocity && s.Velocity <= d.MostVelocity {
			return s, 0
		}
	}
	switch {
	case smallest.Diameter == 0:
		return s, TooMuchFlow
	case smallest.Velocity < d.LeastVelocity:
		return smallest, TooFlat
	}
	return smallest, TooSteep
}

// nearestGrade finds the grade nearest to the duty's, in ratio and to three digits, at
// which a size fits, and that size; 0 if there is none. Fits begin and end where a
// size carries the flow or reaches a velocity.
func (d Duty) nearestGrade() (float64, Size) {
	const above, below = 1.006, 0.994 // further in than three digits round
	var best Duty
	var fits Size
	for _, diameter := range TradeDiameters() {
		n, full := ManningN(diameter), 4*d.Flow()/(math.Pi*diameter*diameter)
		for _, grade := range []float64{
			above * MinimumGrade(diameter, n, full),
			above * MinimumGrade(diameter, n, d.LeastVelocity),
			below * MinimumGrade(diameter, n, d.MostVelocity),
		} {
			if !positive(grade) || math.IsInf(grade, 1) {
				continue
			}
			try := d
			digit := math.Pow(10, math.Floor(math.Log10(grade))-2)
			try.Grade = math.Round(grade/digit) * digit
			if s, misfit := try.fit(); misfit == 0 && (best.Grade == 0 || d.farther(best.Grade, try.Grade)) {
				best, fits = try, s
			}
		}
	}
	return best.Grade, fits
}

// farther says whether grade a lies farther from the duty's than grade b, in ratio.
func (d Duty) farther(a, b float64) bool {
	return math.Abs(math.Log(a/d.Grade)) > math.Abs(math.Log(b/d.Grade))
}
