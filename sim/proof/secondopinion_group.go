package proof

import (
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"

	"mottle/sim/column"
)

// opinion names the other code beside every row.
const opinion = "general BDF integrator of SciPy on the same equations, testdata/second-opinion/solve.py"

// secondOpinionGroup runs one wet spring of the drained column against the same
// equations solved by a general-purpose integrator: with the steps of every run,
// and with steps a sixteenth as coarse, which must come nearer.
func secondOpinionGroup(ctx context.Context) ([]Check, error) {
	s, err := readSpring()
	if err != nil {
		return nil, err
	}
	other, err := readSpringResult()
	if err != nil {
		return nil, err
	}
	if len(other.drain) != len(s.SinkMM) {
		return nil, fmt.Errorf("second-opinion/result.csv: %d days, the input has %d: run solve.py again", len(other.drain), len(s.SinkMM))
	}
	return opinions(ctx, s, other)
}

// opinions compares a spring under both settings with what the other code found.
func opinions(ctx context.Context, s *spring, other *springDays) ([]Check, error) {
	fine := column.DefaultSettings()
	fine.Target, fine.Tolerance, fine.Volume, fine.Iterated = fine.Target/16, fine.Tolerance/16, fine.Volume/16, true
	var checks []Check
	for _, c := range []struct {
		name string
		set  column.Settings
		part float64 // of the tolerance
		why  string
	}{
		{"default steps", column.DefaultSettings(), 1, ""},
		{"steps a sixteenth as coarse", fine, 0.25, "; a quarter of that, for steps a sixteenth as coarse in a scheme of first order at least"},
	} {
		own, err := s.run(ctx, c.set)
		if err != nil {
			return nil, err
		}
		for _, k := range springChecks(own, other) {
			k.ID = "second-opinion/" + k.ID + ", " + c.name
			k.Source, k.Status = opinion, Second
			k.Tolerance *= c.part
			k.Why += c.why
			checks = append(checks, k)
		}
	}
	return checks, nil
}

// springChecks compares two springs. Tolerances stood before the first run: they
// are those of the step's own aims (0.2 mm of drain flow, column.Settings), of the
// reference pack for a drained column (1 %), and of the grid.
func springChecks(own, other *springDays) []Check {
	sum := func(x []float64) float64 {
		t := 0.0
		for _, v := range x {
			t += v
		}
		return t
	}
	total := func(id, what string, a, b []float64, tolerance float64, why string) Check {
		return Check{ID: id, What: what, Unit: "mm", Expected: sum(b), Got: sum(a), Tolerance: tolerance, Why: why}
	}
	gap := func(id, what, unit string, a, b []float64, rms, largest float64, why string) []Check {
		square, most := 0.0, 0.0
		for i := range a {
			d := a[i] - b[i]
			square += d * d
			most = math.Max(most, math.Abs(d))
		}
		return []Check{
			{ID: id + " rms", What: what + ", root mean square of the daily gaps", Unit: unit, Got: math.Sqrt(square / float64(len(a))), Tolerance: rms, Why: why},
			{ID: id + " largest", What: what + ", largest daily gap", Unit: unit, Got: most, Tolerance: largest, Why: why},
		}
	}
	checks := []Check{
		total("drain", "drain flow of the spring", own.drain, other.drain, 0.01*sum(other.drain), "1 %, as for the drained column of the reference cases"),
		total("runoff", "surface runoff of the spring", own.runoff, other.runoff, 0.01*sum(other.drain), "what the drain may lack runs off"),
		total("seepage", "seepage of the spring", own.base, other.base, 0.01*sum(other.base), "1 %, as for the drain"),
	}
	checks = append(checks, gap("daily drain", "drain flow", "mm/d", own.drain, other.drain, 0.2, 0.6, "a step aims at 0.2 mm of drain flow, and a wet day takes two or three")...)
	checks = append(checks, gap("daily runoff", "surface runoff", "mm/d", own.runoff, other.runoff, 0.3, 1.5, "errors of the drain and the pond together")...)
	checks = append(checks, gap("pond", "water standing at the day's end", "mm", own.pond, other.pond, 0.3, 1, "what a few steps of 0.2 mm leave standing")...)
	return append(checks, gap("table", "water table at the day's end", "m", own.table, other.table, 0.02, 0.10, "0.2 mm over 0.03 of drainable pores is 0.007 m, and the table is read between cell middles; one cell at most, 0.10 m")...)
}

// readSpringResult reads what the other code found.
func readSpringResult() (*springDays, error) {
	f, err := values.Open("values/second-opinion/result.csv")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	d := &springDays{}
	for i, line := range rows[1:] {
		for j, to := range []*[]float64{&d.drain, &d.runoff, &d.base, &d.pond, &d.table} {
			x, err := strconv.ParseFloat(line[j+1], 64)
			if err != nil {
				return nil, fmt.Errorf("second-opinion/result.csv: day %d: %w", i+1, err)
			}
			*to = append(*to, x)
		}
	}
	return d, nil
}
