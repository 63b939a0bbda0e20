package money

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"testing"
)

// rows reads a table by column name and insists on the number of its rows.
func rows(t *testing.T, name string, count int) []map[string]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines)-1 != count {
		t.Fatalf("%s: %d rows, expected %d", name, len(lines)-1, count)
	}
	table := make([]map[string]string, count)
	for i, line := range lines[1:] {
		table[i] = map[string]string{}
		for j, column := range lines[0] {
			table[i][column] = line[j]
		}
	}
	return table
}

// worked reads a worked case: inputs and expected values, recomputed from the
// published forms.
func worked(t *testing.T, name string, inputs, expected any) {
	t.Helper()
	for _, r := range rows(t, "../proof/values/crop-money-checks.csv", 34) {
		if r["case"] != name {
			continue
		}
		for text, into := range map[string]any{r["inputs_json"]: inputs, r["expected_json"]: expected} {
			if err := json.Unmarshal([]byte(text), into); err != nil {
				t.Fatalf("case %s: %v", name, err)
			}
		}
		return
	}
	t.Fatalf("no case %s", name)
}

// near fails unless got lies within the tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %.2g", what, got, want, tolerance)
	}
}

const acre = 4046.8564224 // m2
