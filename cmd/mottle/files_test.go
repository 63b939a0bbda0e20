package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"mottle/sim/site"
)

// table reads a CSV file by the names of its columns; every row is as long as the
// header.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		entry := map[string]string{}
		for i, cell := range row {
			entry[rows[0][i]] = cell
		}
		out = append(out, entry)
	}
	return out
}

// TestOutFolder: the files of a run agree with each other and can be read by the
// readers of their formats.
func TestOutFolder(t *testing.T) {
	dir := t.TempDir()
	text := output(t, "compare", "--central", "--from", "1983", "--to", "1984", "--format", "json", "--out", dir)
	result := readResult(t, text)

	// yearly.csv: the yearly values of the JSON, with 8 digits.
	yearly := table(t, filepath.Join(dir, "yearly.csv"))
	if len(yearly) != len(result.Yearly) {
		t.Errorf("yearly.csv: %d rows, the JSON has %d", len(yearly), len(result.Yearly))
	}
	for i, y := range result.Yearly {
		row := yearly[i]
		if row["year"] != strconv.Itoa(y.Year) || row["measure"] != y.Name || row["unit"] != y.Unit {
			t.Errorf("yearly.csv: row %v beside %+v", row, y)
		}
		for column, want := range map[string]any{"as_it_lies": y.AsItLies, "with_tile": y.WithTile} {
			if word, ok := want.(string); ok && row[column] != word {
				t.Errorf("yearly.csv: %s %d %s: %q, want %q", y.Name, y.Year, column, row[column], word)
			} else if x, ok := want.(float64); ok && math.Abs(number64(t, row[column])-x) > 1e-7*math.Abs(x) {
				t.Errorf("yearly.csv: %s %d %s: %s, want %g", y.Name, y.Year, column, row[column], x)
			}
		}
	}

	// daily.csv: every day of two years for both twins, 1984 being a leap year;
	// its days add up to the year's value within their rounding to 0.0005 mm.
	daily := table(t, filepath.Join(dir, "daily.csv"))
	if want := 2 * (365 + 366); len(daily) != want {
		t.Fatalf("daily.csv: %d rows, want %d", len(daily), want)
	}
	sums := map[string]float64{}
	for _, row := range daily {
		for column, cell := range row {
			if column != "date" && column != "twin" {
				sums[row["date"][:4]+row["twin"]+column] += number64(t, cell)
			}
		}
	}
	for column, measure := range map[string]string{"drain_outflow_mm": "drain_outflow", "surface_runoff_mm": "surface_runoff", "seepage_out_mm": "seepage_out"} {
		for _, y := range result.Yearly {
			if y.Name != measure {
				continue
			}
			for twin, want := range map[string]any{"as_it_lies": y.AsItLies, "with_tile": y.WithTile} {
				got := sums[fmt.Sprint(y.Year)+twin+column]
				if math.Abs(got-want.(float64)) > 366*0.0005 {
					t.Errorf("%s of %d, %s: days add up to %g mm, the year says %g", measure, y.Year, twin, got, want)
				}
			}
		}
	}

	// run.json: inputs by value and hash, settings, and the result as printed.
	data, err := os.ReadFile(filepath.Join(dir, "run.json"))
	if err != nil {
		t.Fatal(err)
	}
	var m struct {
		Command, Version, Go, Platform string
		Flags                          map[string]any
		Field, Weather                 source
		FieldText                      string          `json:"field_text"`
		StormSeed                      *uint64         `json:"storm_seed"`
		StormDraw                      *int            `json:"storm_draw"`
		Result                         json.RawMessage `json:"result"`
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&m); err != nil {
		t.Fatal(err)
	}
	if m.Command != "compare" || m.Version == "" || m.Go == "" || m.Platform == "" || m.StormSeed == nil || m.StormDraw == nil {
		t.Errorf("run.json: %s", data[:min(len(data), 400)])
	}
	if m.Field != sourceOf("the embedded demo", []byte(site.DemoFile())) || m.FieldText != site.DemoFile() || len(m.Weather.SHA256) != 64 {
		t.Errorf("run.json: field %+v, weather %+v", m.Field, m.Weather)
	}
	if m.Flags["from"] != "1983" || m.Flags["to"] != "1984" || m.Flags["central"] != true {
		t.Errorf("run.json: flags %v", m.Flags)
	}
	var printed, kept bytes.Buffer
	if err := errors.Join(json.Compact(&printed, []byte(text)), json.Compact(&kept, m.Result)); err != nil {
		t.Fatal(err)
	}
	if printed.String() != kept.String() {
		t.Error("run.json: the result differs from the one printed")
	}

	figures, err := filepath.Glob(filepath.Join(dir, "*.png"))
	if err != nil || len(figures) != 6 {
		t.Fatalf("%d PNG files, want 6", len(figures))
	}
	for _, name := range figures {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := png.Decode(bytes.NewReader(data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		wellFormed(t, name[:len(name)-len(".png")]+".svg")
	}
}

// wellFormed reads XML to its end.
func wellFormed(t *testing.T, name string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for d := xml.NewDecoder(f); ; {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
}

func number64(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		t.Fatalf("found %q where a number should stand", text)
	}
	return x
}
