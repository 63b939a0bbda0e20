package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/weather"
)

// input is everything that a comparison starts from.
type input struct {
	field          *site.Field
	series         *weather.Series
	units          unit.System
	fieldSource    source
	weatherSources weatherSources
	fieldText      string
}

// readInput reads flags, field and weather and brings them together. Every
// fault of any of them is reported.
func readInput(cmd *cobra.Command, name string, o compareFlags) (*input, error) {
	var faults []error
	note := func(err error) bool {
		if err != nil {
			faults = append(faults, err)
		}
		return err == nil
	}
	note(filled(cmd, "weather", "station", "hourly", "out", "depth", "spacing", "from", "to"))
	units, err := system(o.Units)
	note(err)
	note(format(o.Format))
	span, err := period(o.From, o.To)
	spanRead := note(err)
	tile, err := readTileFlags(o)
	tileRead := note(err)
	field, fieldSource, fieldText, err := readField(name)
	if note(err) {
		if tileRead {
			note(tile.override(&field, o))
		}
		if name != "" && o.Weather == "" && !field.Invented {
			note(badInput(errors.New("--weather: missing; a real field needs real weather (for an invented record: mottle weather invent)")))
		}
	}
	if name == "" { // the demo lies where its weather was read
		field.Latitude, field.Elevation, field.ReadHour = site.Unknown, site.Unknown, site.Unknown
	}
	rec, weatherSources, err := o.recordFlags.read()
	if note(err) && spanRead {
		note(within(rec.Series, span))
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	in := &input{units: units, fieldSource: fieldSource, weatherSources: weatherSources, fieldText: fieldText}
	if in.field, in.series, err = compare.Meet(field, rec, span, o.FillGaps); err != nil {
		if o.Weather != "" {
			err = fmt.Errorf("%s: %w", o.Weather, err)
		}
		if gap := (*compare.GapError)(nil); errors.As(err, &gap) {
			err = fmt.Errorf("%w\nor fill them all, from the nearest year, with --fill-gaps", err)
		}
		return nil, badInput(err)
	}
	return in, nil
}

// source is an input with what is needed to know it again.
type source struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

func sourceOf(name string, data []byte) source {
	sum := sha256.Sum256(data)
	return source{Name: name, SHA256: hex.EncodeToString(sum[:])}
}

// readField reads a field file, or the demo when no name is given.
func readField(name string) (site.Field, source, string, error) {
	if name == "" {
		text := site.DemoFile()
		return site.Demo(), sourceOf("the embedded demo", []byte(text)), text, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return site.Field{}, source{}, "", badInput(ofFile(err))
	}
	f, err := site.ReadField(name, bytes.NewReader(data))
	return f, sourceOf(name, data), string(data), badInput(err)
}

// ofFile says of an error of the file system which file and what is wrong, and
// leaves out the call that found it.
func ofFile(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return fmt.Errorf("%s: %w", path.Path, path.Err)
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return fmt.Errorf("%s: %w", link.New, link.Err)
	}
	return err
}
