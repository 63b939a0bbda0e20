package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/soil"
)

// fault says what is wrong with the answer to a question among all that were
// given, by the readers of the field file.
func (a *interview) fault(q question) error { return a.among(q, len(questions)) }

// among is the fault of a question's answer beside the first n answers: a later one
// has not been asked yet, and is no one's fault.
func (a *interview) among(q question, n int) error {
	text := a.text(q.flag)
	switch q.flag {
	case "texture":
		return a.textureFault(text)
	case "sand", "clay":
		return a.shareFault(q.flag, text)
	case "organic-matter":
		x, err := unit.Parse(words(text, usualOrganic), unit.Percent)
		if err == nil && !(x >= 0 && x <= 20) {
			err = fmt.Errorf("found %q; allowed 0 to 20 %%", text)
		}
		return err
	}
	if text == "" {
		return nil
	}
	var about []error
	for _, f := range site.Faults(a.draft(n).Write(io.Discard)) {
		if f.Key == q.key || strings.HasPrefix(f.Key, q.key+"[") {
			about = append(about, errors.New(f.Text))
		}
	}
	return errors.Join(about...)
}

// textureFault: a class, or measured, which the flags need not say.
func (a *interview) textureFault(text string) error {
	if text == "" {
		return nil
	}
	shares := a.text("sand") != "" || a.text("clay") != ""
	switch {
	case text == measured:
		return nil
	case shares:
		return fmt.Errorf("found %q beside sand and clay; give the class, or sand and clay", text)
	}
	_, _, err := site.TextureMiddle(text)
	return err
}

// shareFault: sand and clay go together.
func (a *interview) shareFault(flag, text string) error {
	other := map[string]string{"sand": "clay", "clay": "sand"}[flag]
	if text == "" {
		if a.text(other) != "" || a.text("texture") == measured {
			return errors.New("missing; give sand and clay, in percent")
		}
		return nil
	}
	x, err := unit.Parse(text, unit.Percent)
	if err != nil {
		return err
	}
	beside, err := unit.Parse(words(a.text(other), "0"), unit.Percent)
	switch {
	case !(x >= 0 && x <= 100):
		return fmt.Errorf("found %q; allowed 0 to 100 %%", text)
	case err == nil && x+beside > 100 && beside <= 100:
		return fmt.Errorf("found %q, which makes %.4g %% of sand and clay; allowed 100 %% at most", text, x+beside)
	}
	return nil
}

// draft is the field file of the first n answers. Soil that cannot be read yet is
// the usual one's, which its own question tells.
func (a *interview) draft(n int) site.Draft {
	d := site.Draft{Answers: map[string]string{}, Schema: schemaFile}
	for _, q := range questions[:n] {
		if text := a.text(q.flag); text != "" && q.key != "" {
			d.Answers[q.key] = text
		}
	}
	k, _ := site.Lookup("soil.restrictive_layer")
	if a.survey != nil {
		a.surveyed(&d, k)
		return d
	}
	sand, clay, note := a.texture()
	organic, err := unit.Parse(words(a.text("organic-matter"), usualOrganic), unit.Percent)
	if err != nil {
		organic = math.NaN()
	}
	if a.text("organic-matter") == "" {
		note += fmt.Sprintf("\norganic matter of the topsoil %s: assumed", usualOrganic)
	}
	depth, err := unit.Parse(words(d.Answers[k.Path], k.LeftOut), unit.Length)
	if err != nil || !(depth > 0) {
		depth, _ = unit.Parse(k.LeftOut, unit.Length)
	}
	d.Horizons, d.SoilNote = site.Uniform(sand, clay, organic, depth), note
	return d
}

// surveyed takes the soil from a survey's component. The dense layer is the one that
// it tells, unless answered; where it tells none its last horizon goes on to the
// depth that is assumed.
func (a *interview) surveyed(d *site.Draft, restrictive site.Key) {
	s := a.survey
	notes := append([]string{"a survey's representative values, of a map unit, not measured on this field"}, s.Notes...)
	if d.Answers[restrictive.Path] == "" && !math.IsNaN(s.Restrictive) {
		d.Answers[restrictive.Path] = fmt.Sprintf("%.4g m", s.Restrictive)
		notes = append(notes, fmt.Sprintf("restrictive layer at %.4g m: from the survey's horizons", s.Restrictive))
	}
	d.Horizons = append([]soil.Horizon(nil), s.Horizons...)
	depth, err := unit.Parse(words(d.Answers[restrictive.Path], restrictive.LeftOut), unit.Length)
	if last := &d.Horizons[len(d.Horizons)-1]; err == nil && last.Bottom < depth {
		notes = append(notes, fmt.Sprintf("the survey ends at %.4g m: its last horizon was continued to %.4g m", last.Bottom, depth))
		last.Bottom = depth
	}
	if s.Invented {
		d.Answers["invented"] = "true"
	}
	d.SoilNote = strings.Join(notes, "\n")
}

// texture is the answered sand and clay, percent, with where they come from.
func (a *interview) texture() (sand, clay float64, note string) {
	sand, errSand := unit.Parse(a.text("sand"), unit.Percent)
	clay, errClay := unit.Parse(a.text("clay"), unit.Percent)
	if errSand == nil && errClay == nil {
		return sand, clay, "sand and clay as given, the same from top to bottom: describe each horizon where you know more"
	}
	class := a.text("texture")
	sand, clay, err := site.TextureMiddle(class)
	if err == nil {
		return sand, clay, strings.ToLower(class) + ": the middle of the class (Saxton and Rawls 2006, table 3), the same from top to bottom"
	}
	if sand, clay, err = site.TextureMiddle(usualTexture); err != nil {
		panic(err) // the program's own
	}
	return sand, clay, usualTexture + ": ASSUMED, nobody told the texture (the middle of the class, Saxton and Rawls 2006, table 3)"
}
