package proof

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strconv"

	"mottle/weather"
)

// fieldRecords are the measured days of drained plots: flow and rain, mm/d, and
// the depth of the water table, m. A day that was not measured is not there.
type fieldRecords struct {
	flow  map[string]map[weather.Date]float64 // by site and plot
	rain  map[string]map[weather.Date]float64 // by site
	table map[string]map[weather.Date]float64 // by site and well
}

// plotKey names a plot or well of a site.
func plotKey(site, plot string) string { return site + " " + plot }

// readFieldRecords reads the daily files of the collection.
func readFieldRecords(dir fs.FS) (*fieldRecords, error) {
	r := &fieldRecords{flow: map[string]map[weather.Date]float64{}, rain: map[string]map[weather.Date]float64{}, table: map[string]map[weather.Date]float64{}}
	put := func(m map[string]map[weather.Date]float64, key string, d weather.Date, x float64) {
		if m[key] == nil {
			m[key] = map[weather.Date]float64{}
		}
		m[key][d] = x
	}
	err := eachRow(dir, "drain_flow_daily.csv.gz", func(c cells) error {
		d, flow, rain := c.date("date"), c.number("flow_mm"), c.number("precip_on_site_mm")
		if !math.IsNaN(flow) {
			put(r.flow, plotKey(c.text("site"), c.text("plot")), d, flow)
		}
		if !math.IsNaN(rain) {
			put(r.rain, c.text("site"), d, rain)
		}
		return c.err()
	})
	if err != nil {
		return nil, err
	}
	// The older file of rain serves the site that has no column of its own there.
	own := r.rain
	r.rain = map[string]map[weather.Date]float64{}
	err = eachRow(dir, "rain_daily.csv.gz", func(c cells) error {
		if site := c.text("site"); own[site] == nil {
			put(r.rain, site, c.date("date"), c.number("precip_mm"))
		}
		return c.err()
	})
	if err != nil {
		return nil, err
	}
	for site, days := range own {
		r.rain[site] = days
	}
	err = eachRow(dir, "water_table_daily.csv.gz", func(c cells) error {
		put(r.table, plotKey(c.text("site"), c.text("well")), c.date("date"), c.number("wt_depth_cm")/100)
		return c.err()
	})
	return r, err
}

// cells is one row under its header; faults gather.
type cells struct {
	file   string
	line   int
	column map[string]int
	row    []string
	faults *[]error
}

func (c cells) text(column string) string {
	i, ok := c.column[column]
	if !ok {
		*c.faults = append(*c.faults, fmt.Errorf("%s: no column %q", c.file, column))
		return ""
	}
	return c.row[i]
}

// number of a column, NaN when blank.
func (c cells) number(column string) float64 {
	text := c.text(column)
	if text == "" {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		*c.faults = append(*c.faults, fmt.Errorf("%s:%d: column %q: found %q; allowed a number", c.file, c.line, column, text))
	}
	return x
}

func (c cells) date(column string) weather.Date {
	d, err := weather.ParseDate(c.text(column))
	if err != nil {
		*c.faults = append(*c.faults, fmt.Errorf("%s:%d: column %q: %w", c.file, c.line, column, err))
	}
	return d
}

func (c cells) err() error { return errors.Join(*c.faults...) }

// eachRow walks over the rows of a gzip-compressed table.
func eachRow(dir fs.FS, name string, do func(cells) error) error {
	file, err := dir.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	unpacked, err := gzip.NewReader(file)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	r := csv.NewReader(unpacked)
	head, err := r.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	c := cells{file: name, column: map[string]int{}, faults: new([]error)}
	for i, h := range head {
		c.column[h] = i
	}
	for {
		if c.row, err = r.Read(); err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		c.line, _ = r.FieldPos(0)
		if err := do(c); err != nil {
			return err
		}
	}
}
