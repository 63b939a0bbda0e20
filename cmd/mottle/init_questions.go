package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"mottle/sim/site"
	"mottle/soil"
)

// question is one that init asks, of a flag and, but for the soil's, of a key of
// the field file.
type question struct {
	flag, key string
	ask       string
	fallback  string // what an empty answer means; "" for what the key's default is
}

// questions in the order of asking: what decides the answer and can be known.
var questions = []question{
	{flag: "name", key: "name", ask: "name of the field", fallback: "none"},
	{flag: "latitude", key: "latitude", ask: "latitude, as 46.5 deg"},
	{flag: "elevation", key: "elevation", ask: "elevation, as 300 m"},
	{flag: "texture", ask: "texture class of the soil (" + strings.Join(site.Textures(), ", ") + "), or measured for sand and clay", fallback: usualTexture},
	{flag: "sand", ask: "sand, percent of the fine earth, as 20 %", fallback: "from the texture class"},
	{flag: "clay", ask: "clay, percent, as 30 %", fallback: "from the texture class"},
	{flag: "organic-matter", ask: "organic matter of the topsoil, percent (a soil test tells)", fallback: usualOrganic},
	{flag: "restrictive", key: "soil.restrictive_layer", ask: "depth of the dense layer where the auger stops"},
	{flag: "outside-level", key: "groundwater.outside_level", ask: "depth of the water in a nearby well or ditch in late summer"},
	{flag: "standing-water", key: "surface.standing_water", ask: "depth of water that stands before it runs off"},
	{flag: "depth", key: "tile.depth", ask: "depth of the tile, to the centre of the pipe, as 3.5 ft"},
	{flag: "spacing", key: "tile.spacing", ask: "spacing of the tile, as 50 ft"},
	{flag: "diameter", key: "tile.diameter", ask: "diameter of the tile, as 4 in"},
	{flag: "coefficient", key: "tile.drainage_coefficient", ask: "drainage coefficient, what the outlet can carry, as 0.5 in/d"},
	{flag: "crop", key: "crop", ask: "crop, or crops by year with commas between"},
}

// A usual soil of wet cropland, said to be assumed in the file.
const (
	usualTexture = "silty clay loam"
	usualOrganic = "4 %"
	measured     = "measured"
)

// leftOut is what an empty answer means.
func (q question) leftOut() string {
	if q.fallback != "" {
		return q.fallback
	}
	k, _ := site.Lookup(q.key)
	return strings.Replace(k.LeftOut, "weather's", "the weather file's", 1)
}

func (q question) usage() string { return fmt.Sprintf("%s; left out: %s", q.ask, q.leftOut()) }

// interview gathers answers by flag; "" is an empty one.
type interview struct {
	typed  map[string]*string
	survey *soil.Survey // the soil of a survey's table; nil for none
}

func (a *interview) text(flag string) string { return strings.TrimSpace(*a.typed[flag]) }

// answers checks the flags and, in a terminal, asks for the rest. The faults of all
// flags are reported together.
func (a *interview) answers(in io.Reader, prompt io.Writer, terminal bool) (site.Draft, error) {
	var faults []error
	for _, q := range questions {
		if a.survey != nil && ofSoil(q) {
			if text := a.text(q.flag); text != "" {
				faults = append(faults, fmt.Errorf("--%s: found %q beside --soil; a survey's table tells it", q.flag, text))
			}
			continue
		}
		if err := a.fault(q); err != nil {
			faults = append(faults, fmt.Errorf("--%s: %w", q.flag, err))
		}
	}
	if err := errors.Join(faults...); err != nil {
		return site.Draft{}, badInput(err)
	}
	if terminal {
		if err := a.ask(bufio.NewScanner(in), prompt); err != nil {
			return site.Draft{}, badInput(err)
		}
	}
	return a.draft(len(questions)), nil
}

// ask puts the questions whose flag was not given, each until its answer can stand
// in the file.
func (a *interview) ask(in *bufio.Scanner, prompt io.Writer) error {
	fmt.Fprintln(prompt, "Answers carry their units. An empty one takes what stands in brackets.")
	for i, q := range questions {
		if a.text(q.flag) != "" || !a.asked(q) {
			continue
		}
		fallback := q.leftOut()
		if q.flag == "sand" || q.flag == "clay" {
			fallback = "needed"
		}
		for {
			fmt.Fprintf(prompt, "%s [%s]: ", strings.ToUpper(q.ask[:1])+q.ask[1:], fallback)
			if !in.Scan() {
				fmt.Fprintln(prompt)
				return errors.Join(errors.New("the answers ended before the last question; nothing was written"), in.Err())
			}
			*a.typed[q.flag] = in.Text()
			err := a.among(q, i+1)
			if err == nil {
				break
			}
			fmt.Fprintf(prompt, "  %v\n", err)
		}
	}
	return nil
}

// ofSoil says whether a question asks for what a survey's table tells.
func ofSoil(q question) bool {
	return q.flag == "texture" || q.flag == "sand" || q.flag == "clay" || q.flag == "organic-matter"
}

// asked says whether a question is put: sand and clay only where they were
// measured, the class only where they are not given.
func (a *interview) asked(q question) bool {
	if a.survey != nil && ofSoil(q) {
		return false
	}
	switch q.flag {
	case "texture":
		return a.text("sand") == "" && a.text("clay") == ""
	case "sand", "clay":
		return a.text("texture") == measured || a.text("sand") != "" || a.text("clay") != ""
	}
	return true
}
