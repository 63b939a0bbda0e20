package soil

import (
	"fmt"
	"math"
	"strings"
)

// Relation is a published way from texture to water content and conductivity.
type Relation int

// The relations. Saxton and Rawls (2006) knows organic matter and density. Cosby
// et al. (1984) was fitted to other samples, is as continuous in texture and tells
// where air enters, which decides how much water a tile can take; the class tables
// that could stand beside it jump from class to class.
const (
	SaxtonRawls2006 Relation = iota
	Cosby1984
)

// relations are the words of field files and commands, with the citation.
var relations = [...]struct{ word, cited string }{
	SaxtonRawls2006: {"saxton-rawls", "Saxton and Rawls 2006"},
	Cosby1984:       {"cosby", "Cosby et al. 1984"},
}

// Relations lists all of them.
func Relations() []Relation { return []Relation{SaxtonRawls2006, Cosby1984} }

// String is the word of field files and commands, "saxton-rawls" or "cosby".
func (r Relation) String() string { return relations[r].word }

// Cited names the publication, "Saxton and Rawls 2006".
func (r Relation) Cited() string { return relations[r].cited }

// ParseRelation reads a relation's word. The error lists what is allowed.
func ParseRelation(word string) (Relation, error) {
	var allowed []string
	for _, r := range Relations() {
		if strings.EqualFold(word, r.String()) {
			return r, nil
		}
		allowed = append(allowed, r.String())
	}
	return 0, fmt.Errorf("found %.80q; allowed %s", word, strings.Join(allowed, " or "))
}

// points are what a relation gives for one horizon.
type points struct {
	thetaS, theta33, theta1500 float64 // m3/m3
	bulk                       float64 // Mg/m3
	ksat                       float64 // of the matrix, m/s
	alpha, n                   float64 // of its own curve, 0 when it has none
}

// points evaluates the relation for mass fractions of sand and clay, organic
// matter in percent and a bulk density (Mg/m3), NaN for the relation's own.
func (r Relation) points(sand, clay, organic, bulk float64) points {
	if r == Cosby1984 {
		p := NewCosby(sand, clay)
		if given(bulk) {
			p = p.AtDensity(bulk)
		}
		alpha, n := p.shape()
		return points{p.ThetaS, p.Theta(Suction33kPa), p.Theta(Suction1500kPa), ParticleDensity * (1 - p.ThetaS), p.Ksat, alpha, n}
	}
	p := NewSaxtonRawls(sand, clay, math.Min(organic, saxtonOrganic))
	if given(bulk) {
		p = p.AtDensity(bulk)
	}
	return points{thetaS: p.ThetaS, theta33: p.Theta33, theta1500: p.Theta1500, bulk: p.BulkDensity, ksat: p.Ksat}
}

// Interval runs from Low to High.
type Interval struct{ Low, High float64 }

func (i *Interval) take(x float64) { i.Low, i.High = math.Min(i.Low, x), math.Max(i.High, x) }

// Spread is how far the relations lie apart on one horizon.
type Spread struct {
	Saturated    Interval // water content at saturation, m3/m3
	OneMetre     Interval // at 1 m suction, m3/m3
	WiltingPoint Interval // at 1500 kPa, m3/m3
	Drainable    Interval // between saturation and 1 m suction, m3/m3
	Ksat         Interval // of the whole soil, m/s
}

// Disagreement derives a horizon by every relation and returns the spread, none
// where a value was measured; between given points of retention that of the form of
// the curve is left. Errors are those of Derive.
func Disagreement(h Horizon) (Spread, error) {
	none := Interval{math.Inf(1), math.Inf(-1)}
	s := Spread{none, none, none, none, none}
	for _, h.Relation = range Relations() {
		m, err := Derive(h)
		if err != nil {
			return Spread{}, fmt.Errorf("%s: %w", h.Relation.Cited(), err)
		}
		s.Saturated.take(m.Curve.ThetaS)
		s.OneMetre.take(m.FieldCapacity)
		s.WiltingPoint.take(m.WiltingPoint)
		s.Drainable.take(m.Curve.ThetaS - m.FieldCapacity)
		s.Ksat.take(m.Ksat)
	}
	return s, nil
}
