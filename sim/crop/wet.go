package crop

// shallow is the depth of the water table (m) above which its days count.
const shallow = 0.30

// ExcessWater is a day's part of SEW30, the excess-water sum (Sieben 1964;
// Wesseling 1974), cm-d, from the day's mean depth of the water table, m. Water
// above the ground counts as a table at the ground: a pond adds no more.
func ExcessWater(table float64) float64 { return 100 * max(0, shallow-max(table, 0)) }

// Stages of the stress-day index: establishment, early vegetative, late vegetative,
// flowering, yield formation with ripening.
const wetStages = 5

// StressDays is the excess-water sum of each stage, cm-d.
type StressDays [wetStages]float64

// Add adds a day with the mean depth of the water table, m. Days without a crop do
// not count, those of ripening count with yield formation, the last stage of the
// index.
func (d *StressDays) Add(p Phase, table float64) {
	if p != NoPhase {
		d[min(p, YieldFormation)-Establishment] += ExcessWater(table)
	}
}

// Sum is the excess-water sum of the season, SEW30, cm-d.
func (d *StressDays) Sum() float64 {
	sum := 0.0
	for _, x := range d {
		sum += x
	}
	return sum
}

// Susceptibility is what stress in each stage weighs in the index.
type Susceptibility [wetStages]float64

// TrialSusceptibility is the crop's factors CS from a plot trial: the share of the
// unstressed yield that stress in one stage alone has cost (Hiler 1969). Yields in
// any unit, the unstressed one above 0.
func TrialSusceptibility(unstressed float64, stressed [wetStages]float64) Susceptibility {
	var s Susceptibility
	for j, y := range stressed {
		s[j] = (unstressed - y) / unstressed
	}
	return s
}

// Normalised factors NCS sum to 1 (Evans and Skaggs), so that those of several
// trials can be laid beside each other. The sum must not be 0.
func (s Susceptibility) Normalised() Susceptibility {
	sum := 0.0
	for _, x := range s {
		sum += x
	}
	for j := range s {
		s[j] /= sum
	}
	return s
}

// WetLine is a line of yield over the stress-day index. Slope and factors belong
// together: the lines of one crop disagree, and are to be shown, not averaged.
type WetLine struct {
	Name             string
	Intercept, Slope float64 // %, % per cm-d
	Factors          Susceptibility
	Source           string
	Status           Status // of the line
	FactorStatus     Status // of the factors
}

// The factors of Evans, Skaggs and Sneed (1990) for corn: from memory, to be
// verified before they are quoted; they sum to 0.99.
var cornFactors = Susceptibility{0.16, 0.18, 0.38, 0.21, 0.06}

// evenFactors stand in where published ones could not be read (assumption).
var evenFactors = Susceptibility{1, 1, 1, 1, 1}.Normalised()

var wetLines = map[string][]WetLine{
	"corn": {
		{Name: "Evans, Skaggs and Sneed", Intercept: 100, Slope: 0.71, Factors: cornFactors, Status: FromMemory, FactorStatus: FromMemory,
			Source: "Evans, Skaggs and Sneed 1991, Trans. ASAE 34; factors 1990, Trans. ASAE 33"},
		// Its own factors are not known: those of the default stand in (assumption).
		{Name: "Ohio", Intercept: 103, Slope: 0.42, Factors: cornFactors, Status: FromMemory, FactorStatus: Assumed,
			Source: "Hardjoamidjojo, Skaggs and Schwab 1982, Trans. ASAE 25"},
	},
	"soybean": {
		// Published factors exist (Evans et al. 1990) but could not be read.
		{Name: "Evans, Skaggs and Sneed", Intercept: 100, Slope: 0.65, Factors: evenFactors, Status: FromMemory, FactorStatus: Assumed,
			Source: "Evans, Skaggs and Sneed 1991, Trans. ASAE 34; equal factors"},
	},
}

// WetLines are the lines of a crop, the default first; none is a crop without a
// published one.
func WetLines(crop string) []WetLine { return wetLines[crop] }

// WetLineOf finds a crop's line by name, the default one for "". The error is
// NoRelation or names the lines that there are.
func WetLineOf(crop, name string) (WetLine, error) {
	return choose(wetLines[crop], crop, "excess water", name, func(l WetLine) string { return l.Name })
}

// Index is the stress-day index SDI of a season (Hiler 1969), cm-d.
func (l *WetLine) Index(d StressDays) float64 {
	sum := 0.0
	for j, x := range d {
		sum += l.Factors[j] * x
	}
	return sum
}

// Yield is the share of the yield left at an index, held to 0 and 1.
func (l *WetLine) Yield(index float64) float64 {
	return min(1, max(0, (l.Intercept-l.Slope*index)/100))
}
