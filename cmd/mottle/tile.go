package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"mottle/sim/site"
	"mottle/sim/unit"
)

// tileFlags are --depth and --spacing, m; NaN what was not given, +Inf no tile.
type tileFlags struct{ depth, spacing float64 }

// readTileFlags reads both flags and reports the faults of both.
func readTileFlags(o compareFlags) (tileFlags, error) {
	var faults []error
	read := func(flag, text string) float64 {
		if text == "" {
			return math.NaN()
		}
		x, err := unit.Parse(text, unit.Length)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", flag, err))
		}
		return x
	}
	t := tileFlags{depth: read("--depth", o.Depth), spacing: math.Inf(1)}
	if o.Spacing != "none" {
		t.spacing = read("--spacing", o.Spacing)
	}
	return t, badInput(errors.Join(faults...))
}

// override puts the flags' depth and spacing in place of the field file's. The
// faults that this makes are said of the flags, with what was typed.
func (t tileFlags) override(f *site.Field, o compareFlags) error {
	if o.Depth == "" && o.Spacing == "" {
		return nil
	}
	if f.Tile == nil {
		return badInput(errors.New("--depth, --spacing: the field file says tile: none; describe the tile there"))
	}
	tile := *f.Tile
	f.Tile = &tile
	set := func(to *float64, x float64, key string) {
		if !math.IsNaN(x) {
			*to = x
			f.Assumed = without(f.Assumed, key)
		}
	}
	set(&tile.Depth, t.depth, "tile.depth")
	set(&tile.Spacing, t.spacing, "tile.spacing")
	err := f.Validate()
	if err == nil {
		return nil
	}
	var faults []error
	for line := range strings.SplitSeq(err.Error(), "\n") {
		if text, ok := strings.CutPrefix(line, "tile.depth: "); ok {
			line = fmt.Sprintf("--depth %q: %s", o.Depth, text)
		} else if text, ok := strings.CutPrefix(line, "tile.spacing: "); ok {
			line = fmt.Sprintf("--spacing %q: %s", o.Spacing, text)
		}
		faults = append(faults, errors.New(line))
	}
	return badInput(errors.Join(faults...))
}

func without(list []site.Assumption, key string) []site.Assumption {
	var kept []site.Assumption
	for _, a := range list {
		if a.Key != key {
			kept = append(kept, a)
		}
	}
	return kept
}
