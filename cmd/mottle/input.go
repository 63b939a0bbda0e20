package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"math"
	"os"
	"strings"

	"mottle/sim/compare"
	"mottle/sim/site"
	"mottle/sim/unit"
	"mottle/weather"
)

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
		return site.Field{}, source{}, "", badInput(missing(err))
	}
	f, err := site.ReadField(name, bytes.NewReader(data))
	return f, sourceOf(name, data), string(data), badInput(err)
}

// missing says in one line what a file lacks.
func missing(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return fmt.Errorf("%s: %v", path.Path, path.Err)
	}
	return err
}

// Demo weather: forty years of the invented climate, a fifth wetter than its
// table, from a fixed seed.
const (
	demoYears  = 40
	demoStart  = 1981
	demoWetter = 1.2
	demoSeed   = 1
)

func demoWeather() *weather.Series {
	return weather.Invent(weather.DemoClimate().Wetter(demoWetter), weather.NewDate(demoStart, 1, 1), demoYears, demoSeed)
}

// readWeather reads a weather file, or invents the demo's when no name is given.
func readWeather(name string) (*weather.Series, *weather.Report, source, error) {
	if name == "" {
		s := demoWeather()
		var b bytes.Buffer
		if err := s.WritePlain(&b); err != nil {
			return nil, nil, source{}, err
		}
		return s, nil, sourceOf("invented by the weather generator", b.Bytes()), nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, nil, source{}, badInput(missing(err))
	}
	s, report, err := weather.Read(name, bytes.NewReader(data))
	return s, report, sourceOf(name, data), badInput(err)
}

// override puts the flags' depth and spacing in place of the field file's.
func override(f *site.Field, depth, spacing string) error {
	if depth == "" && spacing == "" {
		return nil
	}
	if f.Tile == nil {
		return badInput(errors.New("--depth, --spacing: the field file says tile: none; describe the tile there"))
	}
	tile := *f.Tile
	f.Tile = &tile
	var faults []error
	set := func(flag, text, key string, to *float64) {
		if text == "" {
			return
		}
		if flag == "--spacing" && strings.EqualFold(text, "none") {
			*to = math.Inf(1)
		} else if x, err := unit.Parse(text, unit.Length); err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", flag, err))
			return
		} else {
			*to = x
		}
		f.Assumed = without(f.Assumed, key)
	}
	set("--depth", depth, "tile.depth", &tile.Depth)
	set("--spacing", spacing, "tile.spacing", &tile.Spacing)
	if len(faults) == 0 {
		if err := f.Validate(); err != nil {
			faults = append(faults, err)
		}
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

// period reads --from and --to: a year or a date.
func period(from, to string) (compare.Period, error) {
	var p compare.Period
	var faults []error
	read := func(flag, text string, month, day int) weather.Date {
		if text == "" {
			return 0
		}
		if d, err := weather.ParseDate(text); err == nil {
			return d
		}
		year := 0
		if _, err := fmt.Sscanf(text, "%d", &year); err != nil || len(text) != 4 {
			faults = append(faults, fmt.Errorf("%s: found %q; allowed a year (1991) or a date (1991-04-01)", flag, text))
			return 0
		}
		return weather.NewDate(year, month, day)
	}
	p.From, p.To = read("--from", from, 1, 1), read("--to", to, 12, 31)
	if p.From != 0 && p.To != 0 && p.To < p.From {
		faults = append(faults, fmt.Errorf("--to: found %v, before --from %v", p.To, p.From))
	}
	return p, badInput(errors.Join(faults...))
}
