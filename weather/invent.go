package weather

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// The residuals x = (Tmax, Tmin, solar) follow x(t) = A x(t-1) + B e(t) with e
// standard normal (Richardson 1981); values of Richardson & Wright (1984, USDA
// ARS-8), means over 31 stations of the United States.
var (
	residualA = [3][3]float64{
		{0.567, 0.086, -0.002},
		{0.253, 0.504, -0.050},
		{-0.006, -0.039, 0.244},
	}
	residualB = [3][3]float64{
		{0.781, 0, 0},
		{0.328, 0.637, 0},
		{0.238, -0.341, 0.873},
	}
)

// leastRange keeps Tmin this far below Tmax, C. The correlation of the residuals,
// 0.63, is too low for a continental winter, so that without it Tmin would pass
// Tmax on about 2 days in 100.
const leastRange = 1.0

// inventedLayout is the Layout of a generated series.
const inventedLayout = "invented by the weather generator"

// Invent makes a series of whole years from a start date on, after Richardson
// (1981): a two-state Markov chain of wet and dry days, gamma-distributed amounts,
// and correlated residuals of temperature and radiation. The same seed gives the
// same weather. The chain and the amounts change by month; means and standard
// deviations run from the middle of one month to the next along straight lines
// that keep the mean of each month. Tmin stays at least 1 C below Tmax, radiation
// between 0.05 Ra and the clear sky. The method gives too little variance from year
// to year, too few long spells and too few record cold days.
func Invent(c Climate, start Date, years int, seed uint64) *Series {
	y, m, d := start.Civil()
	n := int(NewDate(y+years, m, d) - start)
	s := &Series{
		Station:  Station{ID: "INVENTED", Name: c.Name, Latitude: c.Latitude, Longitude: math.NaN(), Elevation: c.Elevation, ReadHour: 24},
		Layout:   inventedLayout,
		Invented: true,
		Start:    start,
		Tmin:     make([]float64, n), Tmax: make([]float64, n), Precip: make([]float64, n), Solar: make([]float64, n),
		Marks: make([]Mark, n),
	}
	curves := newCurves(c)
	const stream = 0x6d6f74746c65 // any constant; it parts these numbers from others of the seed
	source := rand.NewPCG(seed, stream)
	random := rand.New(source)
	wet := false
	var x [3]float64
	for i := range n {
		day := s.Date(i)
		_, month, _ := day.Civil()
		p := &c.Months[month-1]
		chance := p.WetAfterDry
		if wet {
			chance = p.WetAfterWet
		}
		if wet = random.Float64() < chance; wet {
			amount := distuv.Gamma{Alpha: p.Shape, Beta: 1 / p.Scale, Src: source}
			s.Precip[i] = amount.Rand()
		}
		x = nextResiduals(x, [3]float64{random.NormFloat64(), random.NormFloat64(), random.NormFloat64()})
		v := curves.on(day)
		tmax, solar := v.TmaxDry, v.SolarDry
		if wet {
			tmax, solar = v.TmaxWet, v.SolarWet
		}
		s.Tmax[i] = tmax + v.TmaxSD*x[0]
		s.Tmin[i] = min(v.Tmin+v.TminSD*x[1], s.Tmax[i]-leastRange)
		ra := ExtraterrestrialRadiation(c.Latitude, day.DayOfYear())
		s.Solar[i] = max(0.05*ra, min(solar+v.SolarSD*x[2], ClearSky(ra, c.Elevation)))
	}
	return s
}

// nextResiduals returns A x + B e.
func nextResiduals(x, e [3]float64) (next [3]float64) {
	for i := range next {
		for j := range x {
			next[i] += residualA[i][j]*x[j] + residualB[i][j]*e[j]
		}
	}
	return next
}
