package trial

import (
	"encoding/csv"
	"io"
	"strconv"
)

// Columns are those of the profiles, in SI units.
var Columns = []string{"time_s", "depth_m", "head_m", "water_m3_m3", "flux_m_s", "temperature_C", "ice_m3_m3", "ece_dS_m"}

// Writer writes states as CSV: a row for each cell, at its middle. The flux is
// the mean of those through its two edges; temperature is left empty without
// frost.
type Writer struct {
	csv *csv.Writer
	row []string
}

// NewWriter writes the names of the columns.
func NewWriter(w io.Writer) (*Writer, error) {
	t := &Writer{csv: csv.NewWriter(w), row: make([]string, len(Columns))}
	return t, t.csv.Write(Columns)
}

// Write writes one state.
func (t *Writer) Write(s State) error {
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 8, 64) }
	w := s.Water
	for i, z := range w.Grid.Mid {
		temperature := ""
		if s.Temperature != nil {
			temperature = number(s.Temperature[i])
		}
		t.row = append(t.row[:0], number(s.Time), number(z), number(w.H[i]), number(w.Water[i]), number((s.Flux[i]+s.Flux[i+1])/2),
			temperature, number(w.Ice[i]), number(s.Salt.ECe(i, w.Grid.Dz[i], w.Soil(i).ThetaS)))
		if err := t.csv.Write(t.row); err != nil {
			return err
		}
	}
	t.csv.Flush()
	return t.csv.Error()
}
