package weather

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// table reads a CSV file of the reference values as rows keyed by column.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "sim", "proof", "values", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = r[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// TestGeneratorMatrices holds the residuals' matrices, and what follows from them,
// against the rows W01-W03 of the reference values (Richardson 1981; Richardson &
// Wright 1984; Katz 1977), within the tolerance of the row. Package proof holds what
// comes out of Invent against the same rows.
func TestGeneratorMatrices(t *testing.T) {
	s := stationary()
	june := ClimateMonth{WetAfterDry: 0.30, WetAfterWet: 0.46, Shape: 0.72, Scale: 10.2 / 0.72}
	got := map[string]float64{
		"W01a": residualA[0][0],
		"W01b": residualA[2][0],
		"W01c": residualB[2][1],
		"W02a": s[0][0],
		"W02b": correlation(s, 0, 1),
		"W02c": correlation(s, 0, 2),
		"W02d": correlation(s, 1, 2),
		"W02e": product(residualA, s)[0][0] / s[0][0],
		"W03b": monthlySD(june, 30),
	}
	held := 0
	for _, r := range table(t, "atmosphere-checks.csv") {
		g, ok := got[r["id"]]
		if !ok {
			continue
		}
		held++
		want, err := strconv.ParseFloat(r["expected"], 64)
		if err != nil {
			t.Fatal(err)
		}
		tolerance, err := strconv.ParseFloat(r["tolerance"], 64)
		if err != nil || tolerance <= 0 {
			t.Fatalf("%s: tolerance %q", r["id"], r["tolerance"])
		}
		if !(math.Abs(g-want) <= tolerance) {
			t.Errorf("%s %s = %v %s, want %v within %v (%s)", r["id"], r["quantity"], g, r["unit"], want, tolerance, r["source"])
		}
	}
	if held != len(got) {
		t.Errorf("%d of %d rows found", held, len(got))
	}
}
