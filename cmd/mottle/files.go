package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"

	"mottle/plots"
	"mottle/sim"
	"mottle/sim/compare"
	"mottle/weather"
)

// runManifest is run.json: every input and setting needed to repeat the run.
type runManifest struct {
	Command   string       `json:"command"`
	Version   string       `json:"version"`
	Go        string       `json:"go"`
	Platform  string       `json:"platform"`
	Flags     compareFlags `json:"flags"`
	Field     source       `json:"field"`
	FieldText string       `json:"field_text"`
	Weather   source       `json:"weather"`
	StormSeed uint64       `json:"storm_seed"`
	StormDraw int          `json:"storm_draw"`
	Result    *view        `json:"result"`
}

func manifest(v *view, o compareFlags, fieldText string) runManifest {
	return runManifest{Command: "compare", Version: v.Version, Go: runtime.Version(), Platform: runtime.GOOS + "/" + runtime.GOARCH,
		Flags: o, Field: v.Field.Input, FieldText: fieldText, Weather: v.Weather.Input,
		StormSeed: v.result.Field.Storms.Seed, StormDraw: v.result.Field.Storms.Draw, Result: v}
}

// writeFolder writes the files of a comparison, each whole or not at all.
func writeFolder(dir string, r *compare.Result, v *view, m runManifest, figures []plots.Figure) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return ofFile(err)
	}
	write := func(name string, content func(w io.Writer) error) error {
		return writeWhole(filepath.Join(dir, name), content)
	}
	if err := write("yearly.csv", v.writeYearly); err != nil {
		return err
	}
	if err := write("daily.csv", func(w io.Writer) error { return writeDaily(w, r) }); err != nil {
		return err
	}
	if err := writeFigures(write, figures); err != nil {
		return err
	}
	return write("run.json", indented(m))
}

// writeFigures writes every figure in both formats.
func writeFigures(write func(name string, content func(io.Writer) error) error, figures []plots.Figure) error {
	for _, f := range figures {
		if err := errors.Join(write(f.Name+".svg", plain(f.SVG)), write(f.Name+".png", plain(f.PNG))); err != nil {
			return err
		}
	}
	return nil
}

// plain is the content of a file that is ready.
func plain(data []byte) func(io.Writer) error {
	return func(w io.Writer) error { _, err := w.Write(data); return err }
}

// indented is the content of a file of JSON.
func indented(x any) func(io.Writer) error {
	return func(w io.Writer) error {
		e := json.NewEncoder(w)
		e.SetIndent("", " ")
		return e.Encode(x)
	}
}

// writeWhole writes a file beside its place and moves it there when it is
// complete.
func writeWhole(name string, content func(w io.Writer) error) error {
	tmp, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return ofFile(err)
	}
	defer os.Remove(tmp.Name())
	w := bufio.NewWriterSize(tmp, 1<<16)
	if err := content(w); err != nil {
		tmp.Close()
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := w.Flush(); err != nil {
		tmp.Close()
		return ofFile(err)
	}
	if err := tmp.Chmod(0o644); err != nil {
		tmp.Close()
		return ofFile(err)
	}
	if err := tmp.Close(); err != nil {
		return ofFile(err)
	}
	if err := os.Rename(tmp.Name(), name); err != nil {
		return ofFile(err)
	}
	return nil
}

// writeYearly is one row for each year and measure.
func (v *view) writeYearly(w io.Writer) error {
	fmt.Fprintln(w, "year,measure,unit,as_it_lies,with_tile,difference")
	for _, y := range v.Yearly {
		fmt.Fprintf(w, "%d,%s,%s,%s,%s,%s\n", y.Year, y.Name, y.Unit, csvNumber(y.AsItLies), csvNumber(y.WithTile), csvNumber(y.Difference))
	}
	return nil
}

// csvNumber is a number, or the word for what stands in its place, or nothing.
func csvNumber(n number) string {
	switch {
	case math.IsNaN(n.value):
		return ""
	case math.IsInf(n.value, 0):
		return words(map[bool]string{true: n.high, false: n.low}[n.value > 0], "")
	}
	return strconv.FormatFloat(n.value, 'g', 8, 64)
}

// dailyColumns are the columns of daily.csv, always SI, with their decimals.
var dailyColumns = []struct {
	name     string
	decimals int
	of       func(d *sim.Days) []float64
}{
	{"precipitation_mm", 2, func(d *sim.Days) []float64 { return d.Precipitation }},
	{"run_on_mm", 3, func(d *sim.Days) []float64 { return d.Runon }},
	{"transpiration_mm", 3, func(d *sim.Days) []float64 { return d.Transpiration }},
	{"evaporation_mm", 3, func(d *sim.Days) []float64 { return d.Evaporation }},
	{"drain_outflow_mm", 3, func(d *sim.Days) []float64 { return d.Drain }},
	{"ditch_outflow_mm", 3, func(d *sim.Days) []float64 { return d.Ditch }},
	{"surface_runoff_mm", 3, func(d *sim.Days) []float64 { return d.Runoff }},
	{"seepage_out_mm", 3, func(d *sim.Days) []float64 { return d.SeepageOut }},
	{"water_let_in_mm", 3, func(d *sim.Days) []float64 { return d.LetIn }},
	{"snow_blown_off_mm", 3, func(d *sim.Days) []float64 { return d.BlownOff }},
	{"storage_mm", 2, func(d *sim.Days) []float64 { return d.Storage }},
	{"pond_mm", 2, func(d *sim.Days) []float64 { return d.Pond }},
	{"snow_water_mm", 2, func(d *sim.Days) []float64 { return d.Snow }},
	{"snow_depth_m", 3, func(d *sim.Days) []float64 { return d.SnowDepth }},
	{"water_table_m", 3, func(d *sim.Days) []float64 { return d.Table }},
	{"wet_hours_h", 1, func(d *sim.Days) []float64 { return d.WetHours }},
	{"air_filled_m3_m3", 4, func(d *sim.Days) []float64 { return d.Air }},
	{"frost_depth_m", 3, func(d *sim.Days) []float64 { return d.Frost }},
	{"peak_hour_mm_h", 3, func(d *sim.Days) []float64 { return d.PeakHour }},
	{"root_zone_ece_dS_m", 3, func(d *sim.Days) []float64 { return d.RootECe }},
	{"salt_drained_kg_ha", 3, func(d *sim.Days) []float64 { return d.SaltDrained }},
}

// writeDaily is one row for each day and twin, in SI units.
func writeDaily(w io.Writer, r *compare.Result) error {
	row := append(make([]byte, 0, 512), "date,twin"...)
	for _, c := range dailyColumns {
		row = append(append(row, ','), c.name...)
	}
	row = append(row, ",fieldwork_day,crop_season\n"...)
	if _, err := w.Write(row); err != nil {
		return err
	}
	for _, twin := range []struct {
		name string
		days *sim.Days
	}{{"as_it_lies", r.Pair.AsItLies.Days}, {"with_tile", r.Pair.WithTile.Days}} {
		for i := range twin.days.Precipitation {
			row = append(row[:0], (r.Series.Start + weather.Date(i)).String()...)
			row = append(append(row, ','), twin.name...)
			for _, c := range dailyColumns {
				row = strconv.AppendFloat(append(row, ','), c.of(twin.days)[i], 'f', c.decimals, 64)
			}
			row = append(row, ',', bit(twin.days.Bears[i]), ',', bit(twin.days.Season[i]), '\n')
			if _, err := w.Write(row); err != nil {
				return err
			}
		}
	}
	return nil
}

func bit(b bool) byte {
	if b {
		return '1'
	}
	return '0'
}
