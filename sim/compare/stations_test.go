package compare

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"mottle/sim/site"
	"mottle/weather"
)

// collection is the folder of real station series beside the checkout.
const collection = "../../../shared/weather"

// series lists the real files of the collection that are read today; without it
// the test is skipped.
func realSeries(t *testing.T) []string {
	var files []string
	for _, pattern := range []string{"ghcnd-access/*.csv.gz", "derived/*access-wide.csv", "daymet/*.csv"} {
		found, err := filepath.Glob(filepath.Join(collection, pattern))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, found...)
	}
	if len(files) == 0 {
		t.Skip("no real station series in ../shared/weather")
	}
	sort.Strings(files)
	return files
}

func meetFile(t *testing.T, f site.Field, name string) (*site.Field, *weather.Series, *weather.Report) {
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	s, report, err := weather.Read(name, bytes.NewReader(data), weather.Pick{})
	if err != nil {
		t.Fatal(err)
	}
	f.Latitude, f.Elevation, f.ReadHour = math.NaN(), math.NaN(), math.NaN()
	met, series, err := Meet(f, Record{Series: s, Report: report}, Period{}, true)
	if err != nil {
		t.Fatal(err)
	}
	return met, series, report
}

func pick(r *Result, name string) Line {
	for _, l := range r.Lines {
		if l.Name == name {
			return l
		}
	}
	panic(name)
}

// Every real series runs with the demo's field: ledgers close, and a table of
// what came out is printed (go test -run RealSeries -v ./sim/compare).
//
// Bands are common practice and are reported, not asserted, except that no
// undrained field may stand saturated all year: that is the known fault of such
// models, not a climate. Runoff is the share of precipitation and run-on.
func TestRealSeries(t *testing.T) {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%-28s %5s %5s %6s | %-23s | %-22s | %6s %6s | %s\n", "series", "years", "compl", "mm/yr",
		"Apr-Jun saturated, worst", "drain mm  %   first", "P-ET", "runoff", "frost m, ET change")
	for _, name := range realSeries(t) {
		f, s, report := meetFile(t, site.Demo(), name)
		r, err := Run(context.Background(), f, s, Options{})
		if err != nil {
			t.Errorf("%s: %v", filepath.Base(name), err)
			continue
		}
		for twin, rec := range map[string]interface {
			WorstWater() float64
			WorstSalt() float64
		}{"as it lies": r.Pair.AsItLies.Ledger, "with tile": r.Pair.WithTile.Ledger} {
			if w, s := rec.WorstWater(), rec.WorstSalt(); w > 1e-6 || s > 1e-6 {
				t.Errorf("%s %s: ledgers off by %g mm and %g kg/ha a year", filepath.Base(name), twin, w, s)
			}
		}
		total := report.Total()
		wet, year, first := pick(r, "days_saturated_apr_jun"), pick(r, "days_saturated"), pick(r, "first_drain_flow")
		most := 0.0
		for _, d := range year.YearsAsItLies {
			most = math.Max(most, d)
		}
		if most >= 300 {
			t.Errorf("%s: undrained field saturated on %g days of a year", filepath.Base(name), most)
		}
		rain, et := pick(r, "precipitation"), pick(r, "evapotranspiration")
		runon := 0.0
		for _, q := range r.Pair.AsItLies.Days.Runon {
			runon += q / float64(s.Days()) * 365.25
		}
		fmt.Fprintf(&b, "%-28s %5d %4.0f%% %6.0f | %5.1f ->%5.1f, %4.0f d/yr   | %5.0f %4.1f%%  day %4.0f  | %6.0f %5.1f%% | %.2f, %+.0f mm\n",
			strings.TrimSuffix(strings.TrimSuffix(filepath.Base(name), ".gz"), ".csv"), len(r.Years),
			100*(1-float64(total.MissingPrecip)/float64(total.Days)), rain.AsItLies, wet.AsItLies, wet.WithTile, most,
			pick(r, "drain_outflow").WithTile, pick(r, "drain_share").WithTile, first.WithTile,
			rain.AsItLies-et.AsItLies, 100*pick(r, "surface_runoff").AsItLies/(rain.AsItLies+runon),
			pick(r, "deepest_frost").WithTile, et.Difference)
	}
	t.Log(b.String())
}

// The size of drain flow under Iowa's weather, for a poorly drained silty clay
// loam over till (testdata/fields/till.yaml): measured site-years of free drainage
// carried 22-42 % of precipitation in central Iowa, 14-43 % in the south-east,
// over half of it in March-July, half of a year's flow in 9-40 days.
func TestCredibleSize(t *testing.T) {
	data, err := os.ReadFile("../../testdata/fields/till.yaml")
	if err != nil {
		t.Fatal(err)
	}
	till, err := site.ReadField("till.yaml", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\n%-12s %7s %6s %6s %6s %8s %8s %8s %8s\n", "series", "spacing", "rain", "drain", "share", "Mar-Jul", "Aug-Sep", "half in", "top day")
	for _, name := range realSeries(t) {
		if !strings.Contains(name, "USC0013") {
			continue
		}
		for _, spacing := range []float64{18, 22, 27} {
			tile := *till.Tile
			tile.Spacing = spacing
			field := till
			field.Tile = &tile
			f, s, _ := meetFile(t, field, name)
			r, err := Run(context.Background(), f, s, Options{})
			if err != nil {
				t.Fatal(err)
			}
			rec := r.Pair.WithTile
			total, spring, late, half, top := 0.0, 0.0, 0.0, 0.0, 0.0
			for _, y := range rec.Years {
				days := append([]float64(nil), rec.Days.Drain[y.First:y.End]...)
				sum := 0.0
				for i, q := range days {
					sum += q
					top = math.Max(top, q)
					switch m := rec.Forcing.Month[y.First+i]; {
					case m >= 3 && m <= 7:
						spring += q
					case m == 8 || m == 9:
						late += q
					}
				}
				total += sum
				sort.Sort(sort.Reverse(sort.Float64Slice(days)))
				run, n := 0.0, 0
				for run < sum/2 {
					run += days[n]
					n++
				}
				half += float64(n) / float64(len(rec.Years))
			}
			share := pick(r, "drain_share").WithTile
			fmt.Fprintf(&b, "%-12s %5.0f m %6.0f %6.0f %5.1f%% %7.0f%% %7.0f%% %6.0f d %6.1f mm\n", filepath.Base(name)[:11], spacing,
				pick(r, "precipitation").AsItLies, pick(r, "drain_outflow").WithTile, share, 100*spring/total, 100*late/total, half, top)
			// The measured range of site-years, for the mean of thirty years.
			if share < 14 || share > 45 {
				t.Errorf("%s, %g m: drain flow %.1f %% of precipitation; measured 14-43 %%", filepath.Base(name), spacing, share)
			}
			if spring < total/2 {
				t.Errorf("%s, %g m: %.0f %% of drain flow in March-July; measured over half", filepath.Base(name), spacing, 100*spring/total)
			}
		}
	}
	t.Log(b.String())
}
