package drain

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

const (
	secondsPerDay = 86400.0
	mmPerDay      = 1e-3 / secondsPerDay // m/s
	perDay        = 1 / secondsPerDay    // m/d in m/s

	// sixDigits is the rounding of the computed tables: half a unit of the
	// sixth digit is at most 5e-6 of the value.
	sixDigits = 5.1e-6
)

// row is one line of a table of check values, by column name.
type row struct {
	t      *testing.T
	line   int
	fields map[string]string
}

// num returns a column as a number; "inf" is +Inf.
func (r row) num(column string) float64 {
	r.t.Helper()
	text, ok := r.fields[column]
	if !ok {
		r.t.Fatalf("no column %q", column)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		r.t.Fatalf("line %d: column %q: %v", r.line, column, err)
	}
	return v
}

// table reads the reference values of a name and insists on the number of rows.
func table(t *testing.T, name string, rows int) []row {
	t.Helper()
	f, err := os.Open("../proof/values/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines)-1 != rows {
		t.Fatalf("%s: %d rows, expected %d", name, len(lines)-1, rows)
	}
	var table []row
	for i, line := range lines[1:] {
		r := row{t, i + 2, map[string]string{}}
		for j, column := range lines[0] {
			r.fields[column] = line[j]
		}
		table = append(table, r)
	}
	return table
}

// near fails unless got is within the relative tolerance of want.
func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g of it", what, got, want, relative)
	}
}
