package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"strings"

	"mottle/soil"
)

// ground is a soil as it was read, from a field file or a survey's table.
type ground struct {
	Title       string
	From        string // the file
	Invented    bool
	Restrictive float64 // m; NaN when none is known
	Facts       string  // what a survey tells beside the horizons
	Horizons    []soil.Horizon
	Low, High   []soil.Horizon // a survey's own range, nil of a field file
	Notes       []string       // how the horizons were read
}

// relate sets the relation of every horizon.
func (g *ground) relate(r soil.Relation) {
	for i := range g.Horizons {
		g.Horizons[i].Relation = r
	}
}

// readGround reads either kind of file, told by its content, or the demo.
func readGround(name string, o soilFlags) (*ground, error) {
	if name != "" {
		f, err := os.Open(name)
		if err != nil {
			return nil, badInput(ofFile(err))
		}
		defer f.Close()
		text := bufio.NewReaderSize(f, 1<<16)
		if head, _ := text.Peek(1 << 16); soil.IsSurvey(head) || compressed(head) {
			s, err := soil.ReadSurvey(name, text, soil.SurveyPick{MapUnit: o.MapUnit, Component: o.Component})
			if err != nil {
				return nil, badInput(err)
			}
			return surveyGround(name, s), nil
		}
	}
	var faults []error
	for _, f := range []struct{ flag, value string }{{"--mapunit", o.MapUnit}, {"--component", o.Component}} {
		if f.value != "" {
			faults = append(faults, badInput(fmt.Errorf("%s: found %q; allowed beside a survey's table of horizons, a field file has one soil", f.flag, f.value)))
		}
	}
	f, source, _, err := readField(name)
	if err := errors.Join(append(faults, err)...); err != nil {
		return nil, err
	}
	return &ground{Title: title(f.Name, source.Name, f.Invented), From: source.Name, Invented: f.Invented,
		Restrictive: f.Restrictive, Horizons: f.Horizons}, nil
}

// compressed says whether a file is packed, which a field file never is: the reader of
// surveys unpacks it, or says what it is.
func compressed(head []byte) bool {
	return bytes.HasPrefix(head, []byte("\x1f\x8b")) || bytes.HasPrefix(head, []byte("PK\x03\x04"))
}

// surveyGround says what a survey tells of a soil beside its horizons.
func surveyGround(file string, s *soil.Survey) *ground {
	name := s.Component
	if name == "" {
		name = s.ComponentKey
	}
	var facts []string
	if s.Drainage != "" {
		facts = append(facts, s.Drainage)
	}
	if s.HydrologicGroup != "" {
		facts = append(facts, "hydrologic group "+s.HydrologicGroup)
	}
	if !math.IsNaN(s.Slope) {
		facts = append(facts, fmt.Sprintf("slope %g %%", s.Slope))
	}
	if !math.IsNaN(s.Percent) {
		facts = append(facts, fmt.Sprintf("%g %% of map unit %s", s.Percent, strings.TrimSpace(s.MapUnitKey+" "+s.MapUnit)))
	}
	notes := append([]string{"a survey's representative values, of a map unit, not measured on this field"}, s.Notes...)
	return &ground{Title: title(name, file, s.Invented), From: file, Invented: s.Invented, Restrictive: s.Restrictive,
		Facts: strings.Join(facts, "; "), Horizons: s.Horizons, Low: s.Low, High: s.High, Notes: notes}
}
