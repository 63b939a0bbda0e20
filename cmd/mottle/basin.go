package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"

	"github.com/spf13/cobra"

	"mottle/plots"
	"mottle/sim/basin"
	"mottle/sim/unit"
)

// basinFlags are the command's options.
type basinFlags struct {
	recordFlags
	Out      string `json:"-"`
	Kinds    string `json:"-"`
	Units    string `json:"units"`
	Format   string `json:"-"`
	FillGaps bool   `json:"fill_gaps"`
	Curve    bool   `json:"curve"`
}

func newBasin() *cobra.Command {
	var o basinFlags
	cmd := &cobra.Command{
		Use:   "basin [basin.yaml]",
		Short: "Sum and route land units to an outlet, and show what scenarios change",
		Long: `Basin reads a list of land units (CSV or GeoJSON), their soils, reaches and weather,
finds like units and runs each kind once, carries surface, drain and seepage water
hour by hour through the reaches, and holds every scenario against the first: peaks
and floods, yearly and monthly volume, flow duration, flashiness, low flow. What an
outlet at its limit would do to the fields' own water tables is not simulated.
Without a file the invented demo basin is run.

Finished kinds are kept in --kinds (in the output folder when not named), so that a
run that was broken off goes on where it stopped. --out writes a page with the answers
that people ask for, figures, nodes.csv, daily.csv (of a large basin the outlet
alone), monthly.csv, floods.csv, duration.csv, regime.csv, events.csv (the hours of
the five largest), curve.csv, units.csv, units.geojson, basin.json and run.json. The
keys and columns are listed by: mottle help basin-files`,
		Example: `  mottle basin
  mottle basin --out basin/ --units us
  mottle basin county.yaml --weather station.csv --out basin/`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return runBasin(cmd, fileName(args), o) },
	}
	f := cmd.Flags()
	o.recordFlags.add(cmd)
	f.StringVar(&o.Out, "out", "", "`folder` for tables, GeoJSON and manifest")
	f.StringVar(&o.Kinds, "kinds", "", "`folder` of finished kinds of land, to go on from and to add to")
	f.StringVar(&o.Units, "units", "si", "units shown: si or us")
	f.StringVar(&o.Format, "format", "text", "what is printed: text or json")
	f.BoolVar(&o.FillGaps, "fill-gaps", false, "fill long gaps of the weather too, from the nearest year")
	f.BoolVar(&o.Curve, "curve", true, "also run the drained share from 0 to 100 %, the wettest land first")
	return cmd
}

// newBasinFiles is the topic on the files of a basin.
func newBasinFiles() *cobra.Command {
	return &cobra.Command{Use: "basin-files", Short: "The keys of a basin file and the columns of its tables", Args: noArgs,
		Long: basin.Keys + "\n" + basin.Columns}
}

func runBasin(cmd *cobra.Command, name string, o basinFlags) error {
	units, errUnits := system(o.Units)
	if err := errors.Join(filled(cmd, "weather", "station", "hourly", "out", "kinds"), errUnits, format(o.Format)); err != nil {
		return badInput(err)
	}
	b, from, err := readBasin(name)
	rec, sources, errRecord := o.recordFlags.read()
	if err := errors.Join(err, errRecord); err != nil {
		return err
	}
	if name != "" && o.Weather == "" && !b.Invented && wantsRecord(b) {
		return badInput(errors.New("--weather: missing; a real basin needs real weather, here or under stations"))
	}
	shelf, done, err := openShelf(o)
	if err != nil {
		return err
	}
	defer done()
	tell, wipe := stages()
	options := basin.Options{Shelf: shelf, Record: rec, LongGaps: o.FillGaps}
	if tell != nil {
		options.Progress = func(what string, done, total int) { tell(what, float64(done), float64(total)) }
	}
	if o.Curve {
		for share := 0; share <= 100; share += 10 {
			options.Shares = append(options.Shares, float64(share)/100)
		}
		options.Factors = []float64{0.4, 2.5} // as compare tries conductivity
	}
	r, err := basin.Run(cmd.Context(), b, options)
	wipe()
	if err != nil {
		return badInput(err)
	}
	if o.Out != "" {
		if err := writeBasin(o.Out, r, o, units, from, sources); err != nil {
			return err
		}
	}
	if o.Format == "json" {
		return indented(basinView(r))(cmd.OutOrStdout())
	}
	_, err = cmd.OutOrStdout().Write(basinText(r, units))
	return err
}

// wantsRecord says whether the basin leaves a record to the command line.
func wantsRecord(b *basin.Basin) bool {
	for _, s := range b.Stations {
		if !s.Demo {
			return false
		}
	}
	return true
}

// readBasin reads a basin file with what it names beside it, or the demo.
func readBasin(name string) (*basin.Basin, source, error) {
	if name == "" {
		return basin.Demo(), sourceOf("the embedded demo basin", basin.DemoFile("basin.yaml")), nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, source{}, badInput(ofFile(err))
	}
	b, err := basin.Read(name, bytes.NewReader(data), func(path string) (io.ReadCloser, error) {
		if !filepath.IsAbs(path) {
			path = filepath.Join(filepath.Dir(name), path)
		}
		f, err := os.Open(path)
		if err != nil {
			return nil, ofFile(err)
		}
		return f, nil
	})
	return b, sourceOf(name, data), badInput(err)
}

// folderShelf keeps kinds as files of a folder.
type folderShelf string

func (s folderShelf) path(key string) string { return filepath.Join(string(s), key+".kind") }

// Get opens a kind; files are moved into place whole, so that one that is there is whole.
func (s folderShelf) Get(key string) (io.ReadCloser, bool) {
	f, err := os.Open(s.path(key))
	return f, err == nil
}

// Put writes a kind whole.
func (s folderShelf) Put(key string, write func(io.Writer) error) error {
	return writeWhole(s.path(key), write)
}

// openShelf makes the folder of kinds: the one named, one in the output folder, or one
// that goes when the run is done.
func openShelf(o basinFlags) (folderShelf, func(), error) {
	dir := o.Kinds
	switch {
	case dir != "":
	case o.Out != "":
		dir = filepath.Join(o.Out, "kinds")
	default:
		tmp, err := os.MkdirTemp("", "mottle-kinds-")
		if err != nil {
			return "", nil, ofFile(err)
		}
		return folderShelf(tmp), func() { os.RemoveAll(tmp) }, nil
	}
	return folderShelf(dir), func() {}, ofFile(os.MkdirAll(dir, 0o755))
}

// writeBasin writes page, figures, tables, GeoJSON and manifest, each whole or not at
// all.
func writeBasin(dir string, r *basin.Result, o basinFlags, u unit.System, from source, weather weatherSources) error {
	page, err := plots.BasinPage(r, u == unit.US)
	if err != nil {
		return err
	}
	figures, err := plots.BasinFigures(r, u == unit.US)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return ofFile(err)
	}
	write := func(name string, content func(io.Writer) error) error {
		return writeWhole(filepath.Join(dir, name), content)
	}
	faults := []error{write("page.html", plain(page)), writeFigures(write, figures)}
	for _, t := range basinTables(r) {
		faults = append(faults, write(t.name, func(w io.Writer) error {
			c := csv.NewWriter(w)
			t.rows(func(cells ...string) {
				if err := c.Write(cells); err != nil {
					faults = append(faults, err)
				}
			})
			c.Flush()
			return c.Error()
		}))
	}
	faults = append(faults, write("units.geojson", func(w io.Writer) error { return r.Basin.WriteGeoJSON(w, unitResults(r)) }))
	faults = append(faults, write("basin.json", indented(basinView(r))), write("run.json", indented(map[string]any{
		"command": "basin", "version": version(), "go": runtime.Version(), "platform": runtime.GOOS + "/" + runtime.GOARCH,
		"flags": o, "basin": from, "weather": weather.Daily, "hourly": weather.Hourly,
		"assumptions": r.Basin.Assumed, "notes": append(append([]string(nil), r.Basin.Notes...), r.Notes...)})))
	return errors.Join(faults...)
}

// unitResults joins to every unit what the scenarios give it.
func unitResults(r *basin.Result) func(i int) []basin.Property {
	return func(i int) []basin.Property {
		var list []basin.Property
		for _, s := range r.Scenarios {
			u := s.Units[i]
			list = append(list, basin.Property{Name: s.Name + ": drained", Value: u.Drained},
				basin.Property{Name: s.Name + ": days_saturated", Value: u.Saturated},
				basin.Property{Name: s.Name + ": surface_runoff_mm", Value: u.Runoff},
				basin.Property{Name: s.Name + ": drain_outflow_mm", Value: u.Drain},
				basin.Property{Name: s.Name + ": all_outflow_mm", Value: u.Outflow},
				basin.Property{Name: s.Name + ": peak_hour_mm_h", Value: u.PeakHour})
		}
		return list
	}
}

// basinView is the result without the days, which stand in daily.csv.
func basinView(r *basin.Result) map[string]any {
	v := map[string]any{"name": r.Basin.Name, "invented": r.Basin.Invented, "years": r.Years, "kinds": r.Kinds, "notes": r.Notes}
	strip := func(n basin.Node) any {
		n.Daily, n.Hourly = nil, nil
		return tidy(n)
	}
	var scenarios []any
	for _, s := range r.Scenarios {
		var nodes []any
		for _, n := range s.Nodes {
			nodes = append(nodes, strip(n))
		}
		scenarios = append(scenarios, map[string]any{"name": s.Name, "drained_share": s.Share, "error_mm": s.Error, "units": tidy(s.Units), "nodes": nodes})
	}
	v["scenarios"] = scenarios
	var curve []any
	for _, p := range r.Curve {
		curve = append(curve, map[string]any{"share": p.Share, "drained": p.Drained, "days_saturated": tidy(p.Saturated), "outlet": strip(p.Node)})
	}
	v["curve"] = curve
	var bands []any
	for _, band := range r.Bands {
		for _, p := range band.Curve {
			bands = append(bands, map[string]any{"conductivity_factor": band.Factor, "share": p.Share, "drained": p.Drained, "days_saturated": tidy(p.Saturated), "outlet": strip(p.Node)})
		}
	}
	v["bands"] = bands
	return v
}

// number6 writes a value of a table.
func number6(x float64) string {
	if math.IsNaN(x) {
		return ""
	}
	return strconv.FormatFloat(x, 'g', 7, 64)
}

// basinText is the outlet's change under each scenario.
func basinText(r *basin.Result, u unit.System) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, title(r.Basin.Name, "", r.Basin.Invented))
	area := 0.0
	for _, x := range r.Basin.Units {
		area += x.Area
	}
	fmt.Fprintf(&b, "%s of %d kinds on %s, %d reaches, %s\n\n", count(len(r.Basin.Units), "unit"), r.Kinds, u.Format(area/1e4, "ha"), len(r.Basin.Reaches), count(len(r.Years), "year"))
	rows := [][]string{{"at the outlet", "drained", "surface", "drain", "seepage", "peak, mean year", "flashiness", "7-day low", "days saturated"},
		{"", "% of drainable", "mm/a", "mm/a", "mm/a", "mm/h", "", "L/s/ha", "d/a, land"}}
	for _, s := range r.Scenarios {
		n := s.Nodes[len(s.Nodes)-1]
		var year [3]float64
		for _, y := range n.Yearly {
			for c, x := range y {
				year[c] += x / float64(len(n.Yearly))
			}
		}
		saturated := 0.0
		for i, x := range s.Units {
			saturated += x.Saturated * r.Basin.Units[i].Area / area
		}
		rows = append(rows, []string{s.Name, fmt.Sprintf("%.0f", 100*s.Share), fmt.Sprintf("%.0f", year[0]), fmt.Sprintf("%.0f", year[1]), fmt.Sprintf("%.0f", year[2]),
			fmt.Sprintf("%.2f", mean(n.Peaks.Year)*3600/n.Area*1000), fmt.Sprintf("%.3f", n.Flashiness), fmt.Sprintf("%.4f", mean(n.Lows)*1000/(n.Area/1e4)), fmt.Sprintf("%.1f", saturated)})
	}
	writeTable(&b, rows, 1)
	if len(r.Scenarios) > 1 {
		fmt.Fprintf(&b, "\nlargest hour of the year at the outlet against %q, %% (90 %% interval)\n", r.Scenarios[0].Name)
		rows = [][]string{{"return period"}}
		for k, s := range r.Scenarios[1:] {
			for i, c := range s.Nodes[len(s.Nodes)-1].Changes {
				if k == 0 {
					rows[0] = append(rows[0], fmt.Sprintf("%g years", c.ReturnPeriod))
				}
				if i == 0 {
					rows = append(rows, []string{s.Name})
				}
				rows[len(rows)-1] = append(rows[len(rows)-1], fmt.Sprintf("%+.0f (%+.0f to %+.0f)", c.Percent, c.Low, c.High))
			}
		}
		if len(rows) > 1 {
			writeTable(&b, rows, 1)
		} else {
			fmt.Fprintln(&b, "the record has too few years for floods")
		}
	}
	worst := 0.0
	for _, s := range r.Scenarios {
		worst = math.Max(worst, math.Abs(s.Error))
	}
	fmt.Fprintf(&b, "\nwater is kept to %.0e mm over the basin (worst scenario)\n", worst)
	fmt.Fprintln(&b, wrap("Not simulated: what an outlet at its limit does to the fields' own water tables, channel works, water that stands in roads and bridges. Surface water of a unit that drains over another passes along its edge and does not soak into it.", textWidth, ""))
	for _, n := range append(append([]string(nil), r.Basin.Notes...), r.Notes...) {
		fmt.Fprintln(&b, wrap("note: "+n, textWidth, "  "))
	}
	fmt.Fprintln(&b, "Before digging: wetland determination, drainage law, outlet rights, utilities, trench safety.")
	return b.Bytes()
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}
