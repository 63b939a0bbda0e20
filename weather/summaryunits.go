package weather

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// system is a set of systems of units that values may be in. Older exports in
// metric units kept the archive's tenths of mm and of C.
type system uint8

const (
	inTenths system = 1 << iota
	inMetric
	inStandard
	anySystem = inTenths | inMetric | inStandard
)

// systems are the single ones with their scales and the names of their units.
var systems = [...]struct {
	system
	scales                      *[ghcnElements]ghcnScale
	name, temperature, rainfall string
}{
	{inTenths, &tenthsScale, "tenths of metric units", "tenths of C", "tenths of mm"},
	{inMetric, &metricScale, "metric units", "C", "mm"},
	{inStandard, &standardScale, "standard units", "F", "inches"},
}

// narrow keeps those of a set that an observation leaves, all when it leaves none.
func (s *system) narrow(left system) {
	if *s&left != 0 {
		*s &= left
	}
}

// within keeps the systems in which a test holds.
func within(test func(*[ghcnElements]ghcnScale) bool) (left system) {
	for _, one := range systems {
		if test(one.scales) {
			left |= one.system
		}
	}
	return left
}

// chosen are the systems that a choice of units allows.
func (u Units) chosen() system {
	return [...]system{UnitsFromValues: anySystem, Metric: inTenths | inMetric, Standard: inStandard}[u]
}

// Bounds of what values tell of their units; common practice for farmed land.
const (
	fewestDays       = 350  // of which a year's climate is judged
	fewestTells      = 20   // days whose written digits tell the units
	coolestSummer    = 10.0 // C, 98 % of the maxima are below it nowhere
	smallestSwing    = 15.0 // C, between 98 % of the maxima and 2 % of the minima
	rareShare        = 0.02
	daysAYear        = 365.25
	standardDecimals = 2 // written in inches
	metricDecimals   = 1 // written in mm and in C; F and tenths are whole
)

// tellUnits tells the units of an export that does not state them, element by
// element, and returns their scales with a note on why; after a fault nil. The
// values of an element leave one system or several: those in which at most one in
// a hundred cannot be true; of these, those with the swing of a year's temperature
// and the sum of a year's precipitation of farmed land; of these, those that write
// so many decimals (GHCN-Daily documentation for exports: mm and C to 0.1, inches
// to 0.01, F whole). A choice of units outweighs all but the first.
func tellUnits(days []ghcnDay, decimals [ghcnElements]int, choice Units, f *faults) (scales *[ghcnElements]ghcnScale, note string) {
	if len(days) == 0 {
		return &metricScale, "" // a file without rows is refused elsewhere
	}
	warm, wet := newSample(days, elementTmax, elementTmin), newSample(days, elementPrecip)
	if len(warm.first)+len(warm.second)+len(wet.first) == 0 {
		return &metricScale, "" // likewise one without values
	}
	possibleT, temperature := warm.temperatureIn(max(decimals[elementTmax], decimals[elementTmin]))
	possibleP, rainfall := wet.rainfallIn(decimals[elementPrecip])
	evidence := fmt.Sprintf("TMAX and TMIN of %s look like %s, PRCP of %s like %s",
		warm.span(), temperature.units(true), wet.span(), rainfall.units(false))
	if t, p := temperature&choice.chosen(), rainfall&choice.chosen(); t != 0 && p != 0 && t&p == 0 {
		f.add(Fault{Found: "mixed units", Allowed: "one system of units", Mend: evidence + "; export the station again in one"})
		return nil, ""
	}
	told, how, mend := temperature&rainfall, "", "choose with --weather-units metric or --weather-units standard"
	if choice != UnitsFromValues {
		allowed := possibleT & possibleP & choice.chosen()
		how = ", as chosen"
		switch likely := told & allowed; {
		case likely == 0: // neither do the values speak for tenths
			told = allowed &^ inTenths
		case likely == inTenths && allowed != inTenths && len(days) < fewestDays: // only the digits do
			told, mend = allowed, "if they are C and mm, write them with a decimal point"
		default:
			told = likely
			told.narrow(inMetric | inStandard)
		}
		if told == 0 {
			f.add(Fault{Found: "units other than " + choice.String(), Allowed: "those chosen", Mend: evidence + "; leave --weather-units out or choose the other"})
			return nil, ""
		}
	}
	for _, one := range systems {
		if told == one.system {
			oddOptional(days, one.scales, f)
			return one.scales, fmt.Sprintf("the file states no units; taken as %s%s: %s", one.name, how, evidence)
		}
	}
	if temperature == 0 || rainfall == 0 {
		mend = "is the temperature in K, or a code for missing left in?"
	}
	f.add(Fault{Found: "no units", Allowed: "values that tell their units", Mend: evidence + "; " + mend})
	return nil, ""
}

// oddOptional adds a fault where snow or wind is in another system than the
// elements that told it.
func oddOptional(days []ghcnDay, scales *[ghcnElements]ghcnScale, f *faults) {
	for _, o := range [...]struct {
		ghcnElement
		usual float64 // 98 % of the days are below it; common practice for farmed land
		unit  string
	}{{elementWind, 20, "m/s"}, {elementSnowDepth, 3, "m"}} {
		values := newSample(days, o.ghcnElement).first
		if len(values) < fewestTells {
			continue
		}
		if high := scales[o.ghcnElement].of(values[len(values)-1-int(rareShare*float64(len(values)))]); high > o.usual {
			f.add(Fault{Column: ghcnNames[o.ghcnElement], Found: fmt.Sprintf("%.3g %s on one day in fifty", high, o.unit),
				Allowed: fmt.Sprintf("up to %g", o.usual), Mend: "the elements are in mixed units; export the station again in one"})
		}
	}
}

// units names the units of a set, for temperature or for rainfall.
func (s system) units(temperature bool) string {
	var out []string
	for _, one := range systems {
		switch {
		case s&one.system == 0:
		case temperature:
			out = append(out, one.temperature)
		default:
			out = append(out, one.rainfall)
		}
	}
	return cmp.Or(strings.Join(out, " or "), "no known unit")
}

// sample holds the usable values of one or two elements, as the file gives them.
type sample struct {
	first, second []float64 // sorted
	wet           int       // of the first, above zero
	sum           float64   // of the first
}

// newSample gathers values that are not missing and not failed by the agency.
func newSample(days []ghcnDay, elements ...ghcnElement) sample {
	var s sample
	for k, e := range elements {
		into := [...]*[]float64{&s.first, &s.second}[k]
		for i := range days {
			if x := days[i].values[e]; x.quality == 0 && !math.IsNaN(x.v) {
				*into = append(*into, x.v)
			}
		}
		slices.Sort(*into)
	}
	for _, v := range s.first {
		s.sum += v
		if v > 0 {
			s.wet++
		}
	}
	return s
}

// span writes the range of the values.
func (s sample) span() string {
	all := slices.Concat(s.first, s.second)
	if len(all) == 0 {
		return "no value"
	}
	return fmt.Sprintf("%g to %g", slices.Min(all), slices.Max(all))
}

// possible keeps the systems in which at most one value in a hundred cannot be true.
func (s sample) possible(e ghcnElement, l limit) system {
	return within(func(scales *[ghcnElements]ghcnScale) bool {
		beyond := 0
		for _, values := range [...][]float64{s.first, s.second} {
			for _, v := range values {
				if !l.within(scales[e].of(v)) {
					beyond++
				}
			}
		}
		return float64(beyond) <= mostSlips*float64(len(s.first)+len(s.second))
	})
}

// temperatureIn tells in which systems maxima and minima can be, and are likely.
func (s sample) temperatureIn(decimals int) (possible, likely system) {
	possible = s.possible(elementTmax, temperatureLimit)
	likely = possible
	if n, m := len(s.first), len(s.second); min(n, m) >= fewestDays {
		high, low := s.first[n-1-int(rareShare*float64(n))], s.second[int(rareShare*float64(m))]
		likely.narrow(within(func(scales *[ghcnElements]ghcnScale) bool {
			summer, winter := scales[elementTmax].of(high), scales[elementTmin].of(low)
			return summer >= coolestSummer && summer-winter >= smallestSwing
		}))
	}
	switch {
	case decimals >= metricDecimals:
		likely.narrow(inMetric)
	case len(s.first)+len(s.second) >= fewestTells:
		likely.narrow(inTenths | inStandard)
	}
	return possible, likely
}

// rainfallIn tells in which systems precipitation can be, and is likely.
func (s sample) rainfallIn(decimals int) (possible, likely system) {
	possible = s.possible(elementPrecip, precipLimit)
	likely = possible
	if n := len(s.first); n >= fewestDays {
		likely.narrow(within(func(scales *[ghcnElements]ghcnScale) bool {
			year := scales[elementPrecip].of(s.sum) / float64(n) * daysAYear
			return year >= driestYear && year <= wettestYear
		}))
	}
	switch told := s.wet >= fewestTells; {
	case decimals == standardDecimals:
		likely.narrow(inStandard)
	case decimals == metricDecimals && told:
		likely.narrow(inMetric)
	case decimals == metricDecimals:
		likely.narrow(inMetric | inStandard)
	case decimals == 0 && told:
		likely.narrow(inTenths)
	}
	return possible, likely
}
