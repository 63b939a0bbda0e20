package crop

// Phase is the part of a season by which yield answers to water: those of the
// stress-day index (Evans and Skaggs) and of FAO-33 (Doorenbos and Kassam 1979).
type Phase int

// The phases, in order.
const (
	NoPhase         Phase = iota // no crop stands
	Establishment                // planting to a tenth of the ground covered
	EarlyVegetative              // the first half of what is left to full cover
	LateVegetative               // the second half
	Flowering                    // about full cover
	YieldFormation               // until leaves turn
	Maturation                   // until the crop is ripe
)

// flowers is flowering as a share of flowering and yield formation: 15-20 of 50-65
// days of corn (FAO-33, from memory), taken for every crop (assumption).
const flowers = 0.30

// Phase of an annual that has had a share of its heat. FAO-33's establishment ends
// at about the tenth of cover at which FAO-56's initial stage does, and flowering
// begins at full cover; the halves of the vegetative phase are an assumption.
func (k Kind) Phase(share float64) Phase {
	switch {
	case share < k.Cover:
		return Establishment
	case share < (k.Cover+k.Full)/2:
		return EarlyVegetative
	case share < k.Full:
		return LateVegetative
	case share < k.Full+flowers*(k.Late-k.Full):
		return Flowering
	case share < k.Late:
		return YieldFormation
	}
	return Maturation
}

// Phase of the stand. A perennial is grazed or cut before it flowers: it is in late
// vegetative growth all year.
func (s *Stand) Phase() Phase {
	switch {
	case s.Kind.Perennial:
		return LateVegetative
	case !s.Season():
		return NoPhase
	}
	return s.Kind.Phase(s.Units / s.Need)
}
