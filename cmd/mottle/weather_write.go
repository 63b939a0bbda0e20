package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"

	"mottle/plots"
	"mottle/sim/unit"
	"mottle/weather"
)

// ownInput refuses to write over a file that is read.
func ownInput(write string, inputs ...string) error {
	out, err := os.Stat(write)
	if err != nil {
		return nil // nothing is there
	}
	for _, name := range inputs {
		if in, err := os.Stat(name); err == nil && os.SameFile(in, out) {
			return badInput(fmt.Errorf("--write: found %q, which is read; allowed another file", write))
		}
	}
	return nil
}

// byCivilDay puts the extremes on their own days, at the hour of reading or at the
// usual one, which is not written down as if it were known.
func byCivilDay(s *weather.Series) *weather.Series {
	known := s.Station.ReadHour
	c := *s
	if math.IsNaN(known) {
		c.Station.ReadHour, _ = weather.AssumedReadHour(s.Station.ID)
	}
	shifted, _ := c.ByCivilDay()
	shifted.Station.ReadHour = known
	return shifted
}

// writeRecordFigures draws each record; several are told apart by their number.
func writeRecordFigures(dir string, records []record, units unit.System) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return ofFile(err)
	}
	for i, r := range records {
		f, err := plots.Record(r.found, units == unit.US)
		if err != nil {
			return err
		}
		name := f.Name
		if len(records) > 1 {
			name = fmt.Sprintf("%s-%d", name, i+1)
		}
		for ext, data := range map[string][]byte{".svg": f.SVG, ".png": f.PNG} {
			err := writeWhole(filepath.Join(dir, name+ext), func(w io.Writer) error { _, err := w.Write(data); return err })
			if err != nil {
				return err
			}
		}
	}
	return nil
}
