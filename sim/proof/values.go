package proof

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
)

// values are the reference values, each file with its sources and statuses in
// its own columns or in README.md beside it.
//
//go:embed values
var values embed.FS

// row is a line of a table of reference values, by column name.
type row map[string]string

// table reads a file of values; a missing or broken one is a fault of the build.
func table(name string) []row {
	f, err := values.Open("values/" + name)
	if err != nil {
		panic(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	if err != nil {
		panic(fmt.Errorf("%s: %w", name, err))
	}
	rows := make([]row, len(all)-1)
	for i, line := range all[1:] {
		rows[i] = row{}
		for j, cell := range line {
			rows[i][all[0][j]] = cell
		}
	}
	return rows
}

// num is a number of a row.
func (r row) num(column string) float64 {
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic(fmt.Errorf("column %q: %w", column, err))
	}
	return x
}
