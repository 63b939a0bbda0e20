package main

import (
	"math"

	"mottle/sim/unit"
	"mottle/weather"
)

// fillView says what was filled from a neighbour and how well that does.
type fillView struct {
	Neighbour source       `json:"neighbour"`
	Station   string       `json:"neighbour_station"`
	Elements  []filledView `json:"elements"`
	Notes     []fillNote   `json:"notes"`
	units     unit.System
}

type fillNote struct {
	Element string `json:"element"`
	From    string `json:"from"`
	Days    int    `json:"days"`
	Rule    string `json:"rule"`
}

// filledView is an element: days filled and left, and the skill on days known.
type filledView struct {
	Element     string   `json:"element"`
	Filled      int      `json:"days_filled"`
	Left        int      `json:"days_left"`
	Compared    int      `json:"days_compared"`
	Bias        quantity `json:"bias"`
	MAE         quantity `json:"mean_absolute_error"`
	Correlation number   `json:"correlation"`
}

func newFillView(before, after *weather.Series, notes []weather.FillNote, skill weather.NeighbourSkill, from source, units unit.System) *fillView {
	v := &fillView{Neighbour: from, Station: stationWords(skill.Station.ID, skill.Station.Name), units: units}
	for _, n := range notes {
		v.Notes = append(v.Notes, fillNote{n.Element, n.First.String(), n.Days, n.Rule})
	}
	missing := func(s *weather.Series) (n [3]int) {
		for k, values := range [][]float64{s.Tmin, s.Tmax, s.Precip} {
			for _, x := range values {
				if math.IsNaN(x) {
					n[k]++
				}
			}
		}
		return n
	}
	was, is := missing(before), missing(after)
	for k, e := range skill.Elements {
		v.Elements = append(v.Elements, filledView{e.Element, was[k] - is[k], is[k], e.Days,
			differenceOf(e.Bias, e.Unit, units), differenceOf(e.MAE, e.Unit, units), number{value: e.Correlation}})
	}
	return v
}
