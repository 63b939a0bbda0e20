package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"mottle/sim"
	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/sim/unit"
)

// number writes a value to JSON: what is no number is null, what stands for
// something is said in words.
type number struct {
	value     float64
	low, high string // what -Inf and +Inf stand for
}

func (n number) MarshalJSON() ([]byte, error) {
	switch {
	case math.IsNaN(n.value):
		return []byte("null"), nil
	case math.IsInf(n.value, 1) && n.high != "":
		return json.Marshal(n.high)
	case math.IsInf(n.value, -1) && n.low != "":
		return json.Marshal(n.low)
	case math.IsInf(n.value, 0):
		return []byte("null"), nil
	}
	return json.Marshal(n.value)
}

// measureView is a line of the result, in the units asked for.
type measureView struct {
	Name       string `json:"name"`
	Label      string `json:"-"` // stands in the help of the measures
	Unit       string `json:"unit"`
	AsItLies   number `json:"as_it_lies"`
	WithTile   number `json:"with_tile"`
	Difference number `json:"difference"`
	Low        number `json:"low"`
	High       number `json:"high"`
	Noise      number `json:"noise"`
	Resolved   bool   `json:"resolved"`
}

// rangeView is the range of a measure's difference, of a date that of the date
// with tile; its unit is the measure's.
type rangeView struct {
	Measure string `json:"measure"`
	Over    string `json:"over"`
	Low     number `json:"low"`
	High    number `json:"high"`
}

type yearView struct {
	Year       int    `json:"year"`
	Name       string `json:"name"`
	Unit       string `json:"unit"`
	AsItLies   number `json:"as_it_lies"`
	WithTile   number `json:"with_tile"`
	Difference number `json:"difference"`
}

type fieldView struct {
	Name     string `json:"name"`
	Place    string `json:"place,omitempty"`
	Invented bool   `json:"invented"`
	Tile     string `json:"tile"`
	Old      string `json:"old_tile,omitempty"`
	Soil     string `json:"soil"`
	Input    source `json:"input"`
}

type weatherView struct {
	Layout        string  `json:"layout"`
	Station       string  `json:"station"`
	Invented      bool    `json:"invented"`
	From          string  `json:"from"`
	To            string  `json:"to"`
	CompleteYears int     `json:"complete_years"`
	DaysFilled    int     `json:"days_filled"`
	Precipitation float64 `json:"precipitation_mm_per_year"`
	Input         source  `json:"input"`
	Hourly        *source `json:"hourly_input,omitempty"`
}

// view is a result ready to be shown.
type view struct {
	Field       fieldView         `json:"field"`
	Weather     weatherView       `json:"weather"`
	Measures    []measureView     `json:"measures"`
	Ranges      []rangeView       `json:"ranges"`
	Yearly      []yearView        `json:"yearly"`
	Ledger      map[string]number `json:"ledger"`
	Assumptions []site.Assumption `json:"assumptions"`
	Spinup      sim.Spinup        `json:"spinup"`
	Cost        costView          `json:"cost"`
	Version     string            `json:"version"`

	result *compare.Result
	units  unit.System
}

type costView struct {
	FieldYears float64 `json:"field_years"`
	CPUSeconds float64 `json:"cpu_seconds"`
}

func newView(r *compare.Result, u unit.System, field source, weather weatherSources, cpu float64) *view {
	f := r.Field
	v := &view{result: r, units: u, Assumptions: f.Assumed, Spinup: r.Pair.Spinup,
		Cost: costView{r.FieldYears, cpu}, Version: version()}
	v.Field = fieldView{Name: f.Name, Place: f.Place, Invented: f.Invented, Tile: describe(f.Tile, u), Soil: soilWords(f), Input: field}
	if f.Old != nil {
		v.Field.Old = describe(f.Old, u)
	}
	s := r.Series
	filled, rain := 0, 0.0
	for i, m := range s.Marks {
		if filledMark(m) {
			filled++
		}
		rain += s.Precip[i]
	}
	v.Weather = weatherView{Layout: s.Layout, Station: stationWords(s.Station.ID, s.Station.Name), Invented: s.Invented,
		From: s.Start.String(), To: s.Last().String(), CompleteYears: len(r.Years), DaysFilled: filled,
		Precipitation: rain / float64(s.Days()) * 365.25, Input: weather.Daily, Hourly: weather.Hourly}
	for _, l := range r.Lines {
		// Depth below ground and dates have no offset; temperatures are not among the
		// measures, so values and differences convert alike.
		scale := func(x float64) number {
			y, _ := u.Difference(x, l.Unit)
			return number{y, l.Measure.Low, l.Measure.High}
		}
		_, name := u.Difference(0, l.Unit)
		v.Measures = append(v.Measures, measureView{l.Name, l.Label, name, scale(l.AsItLies), scale(l.WithTile),
			scale(l.Difference), scale(l.Low), scale(l.High), scale(l.Noise), l.Resolved})
		for i, y := range r.Years {
			d := l.YearsWithTile[i] - l.YearsAsItLies[i]
			if math.IsInf(d, 0) {
				d = math.NaN()
			}
			v.Yearly = append(v.Yearly, yearView{y, l.Name, name, scale(l.YearsAsItLies[i]), scale(l.YearsWithTile[i]), scale(d)})
		}
		for _, g := range r.Ranges {
			if g.Measure == l.Name {
				v.Ranges = append(v.Ranges, rangeView{g.Measure, g.Over, scale(g.Low), scale(g.High)})
			}
		}
	}
	v.Ledger = map[string]number{}
	for twin, rec := range map[string]*sim.Record{"as_it_lies": r.Pair.AsItLies, "with_tile": r.Pair.WithTile} {
		v.Ledger[twin+"_water_error_mm_per_year"] = number{value: rec.Ledger.WorstWater()}
		v.Ledger[twin+"_salt_error_kg_per_ha_per_year"] = number{value: rec.Ledger.WorstSalt()}
	}
	return v
}

func (v *view) writeJSON(w io.Writer) error {
	return indented(v)(w)
}

func describe(t *site.Tile, u unit.System) string {
	switch {
	case t == nil || math.IsInf(t.Spacing, 1):
		return "none"
	}
	s := fmt.Sprintf("%s deep, %s apart, %s pipe", u.Format(t.Depth, "m"), u.Format(t.Spacing, "m"), u.Format(t.Diameter*1000, "mm"))
	if !math.IsInf(t.Coefficient, 1) {
		s += ", outlet " + u.Format(t.Coefficient*86400*1000, "mm/d")
	}
	if len(t.Weir) > 0 {
		s += ", with a weir"
	}
	return s
}
