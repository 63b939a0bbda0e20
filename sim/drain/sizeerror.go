package drain

import "fmt"

// Misfit is the reason why no trade size fits a duty.
type Misfit int

// The reasons.
const (
	TooMuchFlow Misfit = iota + 1 // the largest size does not carry the flow
	TooFlat                       // sizes that suit the flow run too slowly to keep clean
	TooSteep                      // sizes that carry the flow run too fast for the soil
)

// SizeError says why no trade size fits a duty, and at what grade one would.
type SizeError struct {
	Misfit Misfit
	Duty   Duty
	Found  Size    // smallest that carries the flow; for too much flow the largest of all
	Grade  float64 // nearest at which a size fits, to three digits, m/m; 0 if there is none
	There  Size    // that fits at Grade
}

func (e *SizeError) Error() string {
	mm, grade := 1e3*e.Found.Diameter, 100*e.Duty.Grade
	lay := "divide the area among several pipes"
	if e.Grade > 0 {
		lay = fmt.Sprintf("lay %.0f mm pipe at %.3g %%", 1e3*e.There.Diameter, 100*e.Grade)
		if e.Grade < e.Duty.Grade {
			lay += " with drops between"
		}
	}
	switch e.Misfit {
	case TooFlat:
		return fmt.Sprintf("drain: pipe: found a grade of %.3g %%, at which %.0f mm pipe runs full at %.2g m/s, allowed %.2g m/s and more: %s, or keep fine soil out and allow less",
			grade, mm, e.Found.Velocity, e.Duty.LeastVelocity, lay)
	case TooSteep:
		return fmt.Sprintf("drain: pipe: found a grade of %.3g %%, at which %.0f mm pipe runs full at %.2g m/s, allowed up to %.2g m/s in this soil: %s, or protect its joints and allow more",
			grade, mm, e.Found.Velocity, e.Duty.MostVelocity, lay)
	}
	return fmt.Sprintf("drain: pipe: found %.4g L/s from %.4g ha, allowed up to %.4g L/s in the largest pipe, %.0f mm at %.3g %%: lead %.3g ha to it, or %s",
		1e3*e.Duty.Flow(), e.Duty.Area/1e4, 1e3*e.Found.Discharge, mm, grade, PipeAreaServed(e.Found.Discharge, e.Duty.Coefficient)/1e4, lay)
}
