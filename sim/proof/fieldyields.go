package proof

import (
	"context"
	"encoding/csv"
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"mottle/sim/crop"
	"mottle/sim/drain"
	"mottle/sim/worth"
	"mottle/weather"
)

// yieldSite is the site whose yields were weighed with and without tile.
const yieldSite = "SERF_IA"

// undrained is the system without tile.
const undrained = "undrained"

// YieldYear is a crop's yield in one year under one system: measured, and what the
// relations leave of the best yield on the simulated field.
type YieldYear struct {
	Year      int
	Crop      string
	System    string
	Measured  float64 // kg/ha, mean of the plots
	Plots     int
	Simulated float64 // share of the best yield
}

// yields runs the site's systems and the ground without tile with each crop every
// year, as on the plots, where both stand side by side.
func yields(ctx context.Context, dir fs.FS, m *measuredSite, series *weather.Series, reading *weather.Report) ([]YieldYear, error) {
	type key struct {
		crop, system string
		year         int
	}
	sum, n := map[key]float64{}, map[key]int{}
	words := map[string]string{"soy": "soybean", "corn": "corn",
		"free drainage": "free", "controlled drainage": "controlled", "shallow drainage": "shallow", "no drainage": undrained}
	text, err := fs.ReadFile(dir, "yields.csv")
	if err != nil {
		return nil, err
	}
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("yields.csv: %w", err)
	}
	for i, row := range rows[1:] {
		if row[1] != yieldSite {
			continue
		}
		year, err := strconv.Atoi(row[3])
		if err != nil {
			return nil, fmt.Errorf("yields.csv:%d: column year: %w", i+2, err)
		}
		weight, err := strconv.ParseFloat(row[6], 64)
		if err != nil {
			continue // not weighed
		}
		k := key{words[strings.TrimSpace(row[5])], words[strings.TrimSpace(row[4])], year}
		sum[k] += weight
		n[k]++
	}
	var out []YieldYear
	for _, name := range []string{"corn", "soybean"} {
		kind, err := crop.Named(name)
		if err != nil {
			return nil, err
		}
		for _, d := range append([]drainSystem{{kind: undrained}}, m.systems...) {
			sys := d
			if d.kind == undrained {
				sys = m.systems[0]
			}
			f, err := m.field(sys)
			if err != nil {
				return nil, err
			}
			f.Rotation = []crop.Kind{kind}
			if d.kind == "controlled" {
				f.Tile.Weir = drain.CommonCalendar()
			}
			met, s, err := m.meet(f, series, reading)
			if err != nil {
				return nil, err
			}
			if d.kind == undrained {
				met.Tile = nil
			}
			run, _, err := runDrained(ctx, met, s)
			if err != nil {
				return nil, fmt.Errorf("%s, %s, %s: %w", m.code, d.kind, name, err)
			}
			seasons, err := worth.Seasons(run, met.Rotation)
			if err != nil {
				return nil, err
			}
			for _, season := range seasons {
				k := key{name, d.kind, season.Year}
				if n[k] > 0 {
					out = append(out, YieldYear{season.Year, name, d.kind, sum[k] / float64(n[k]), n[k], season.Yield.Share})
				}
			}
		}
	}
	return out, nil
}

// writeYields prints yields without tile, under shallow and controlled tile, against
// free drainage of the same year.
func (r *FieldReport) writeYields(b *strings.Builder) {
	if len(r.Yields) == 0 {
		return
	}
	fmt.Fprintf(b, "\nYield at %s against free drainage of the same year, %%: measured (simulated); nothing fitted, each crop every year\n", yieldSite)
	systems := []string{undrained, "shallow", "controlled"}
	fmt.Fprintf(b, "%-9s %4s %12s", "crop", "year", "free kg/ha")
	for _, s := range systems {
		fmt.Fprintf(b, " %16s", s)
	}
	b.WriteString("\n")
	for _, name := range []string{"corn", "soybean"} {
		table := map[int]map[string]YieldYear{}
		first, last := 9999, 0
		for _, y := range r.Yields {
			if y.Crop != name {
				continue
			}
			if table[y.Year] == nil {
				table[y.Year] = map[string]YieldYear{}
			}
			table[y.Year][y.System] = y
			first, last = min(first, y.Year), max(last, y.Year)
		}
		measured, simulated, years := map[string]float64{}, map[string]float64{}, map[string]int{}
		for year := first; year <= last; year++ {
			free, ok := table[year]["free"]
			if !ok {
				continue
			}
			fmt.Fprintf(b, "%-9s %4d %12.0f", name, year, free.Measured)
			for _, s := range systems {
				y, ok := table[year][s]
				if !ok {
					fmt.Fprintf(b, " %16s", "-")
					continue
				}
				got, model := 100*(y.Measured/free.Measured-1), 100*(y.Simulated/free.Simulated-1)
				measured[s] += got
				simulated[s] += model
				years[s]++
				fmt.Fprintf(b, " %+8.0f (%+4.0f) ", got, model)
			}
			b.WriteString("\n")
		}
		fmt.Fprintf(b, "%-9s %4s %12s", name, "mean", "")
		for _, s := range systems {
			k := float64(years[s])
			fmt.Fprintf(b, " %+8.0f (%+4.0f) ", measured[s]/k, simulated[s]/k)
		}
		b.WriteString("\n")
	}
}
