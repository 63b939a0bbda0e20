package trial_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/sim/trial"
)

const sound = `horizons:
  - {to: 40 cm, form: exponential, theta_s: 0.4, ksat: 1 m/d, alpha: 5 1/m}
  - {to: 1 m, form: van genuchten, theta_r: 0.05, theta_s: 0.4, ksat: 1 m/d, alpha: 5 1/m, n: 1.5}
grid: {cells: 20}
initial: {water_table: 40 cm}
top:
  - {until: 1 h, rain: 5 mm/h}
  - {evaporation: 3 mm/d, driest: -150 m}
base: {kind: gravity}
times: [1 h, 1 d]
`

// Every fault is said with its line; where a value is at fault, what follows from
// it is not.
func TestFaults(t *testing.T) {
	for _, test := range []struct {
		name, old, new string
		want           []string
	}{
		{"sound", "", "", nil},
		{"unknown key", "alpha: 5 1/m}", "alpha: 5 1/m, alfa: 3}", []string{`case.yaml:2: horizons[0].alfa: found a key that is not known: did you mean "alpha"?`}},
		{"unit", "ksat: 1 m/d, alpha: 5 1/m}", "ksat: 1 m, alpha: 5 1/m}", []string{`case.yaml:2: horizons[0].ksat: found "1 m"; allowed a rate`}},
		{"key of another form", "exponential", "brooks-corey", []string{"horizons[0].air_entry: missing", "horizons[0].lambda: missing", "horizons[0].alpha: found a key that is not known"}},
		{"unknown form", "exponential", "clay", []string{`horizons[0].form: found "clay"; allowed van genuchten, brooks-corey, exponential, haverkamp`, "horizons[0].alpha: found a key"}},
		{"order of layers", "to: 1 m,", "to: 30 cm,", []string{"case.yaml:3: horizons[1].to: found 0.3 m; allowed more than 0.4 m"}},
		{"cells across a layer", "cells: 20", "cells: 7", []string{"case.yaml:2: horizons[0].to: found 0.4 m, which lies within one of the 7 cells"}},
		{"no grid", "grid: {cells: 20}\n", "", []string{"grid.cells: missing"}},
		{"half a cell", "cells: 20", "cells: 2.5", []string{"case.yaml:4: grid.cells: found 2.5; allowed a whole number"}},
		{"two initial states", "water_table: 40 cm", "water_table: 40 cm, head: -1 m", []string{"case.yaml:5: initial.head: found beside water_table"}},
		{"water beyond the pores", "water_table: 40 cm", "water: 0.5", []string{"case.yaml:5: initial.water: found 0.5; allowed more than 0 and up to 0.4"}},
		{"one head", "water_table: 40 cm", "heads: [{depth: 0 m, head: -1 m}]", []string{"case.yaml:5: initial.heads: found 1; allowed two or more"}},
		{"frost without a surface", "water_table: 40 cm", "water_table: 40 cm, temperature: 5 C", []string{"case.yaml:7: top[0].surface: missing", "case.yaml:8: top[1].surface: missing"}},
		{"surface without frost", "rain: 5 mm/h", "rain: 5 mm/h, surface: -3 C", []string{"case.yaml:7: top[0].surface: found without initial.temperature"}},
		{"period without end", "until: 1 h, ", "", []string{"case.yaml:7: top[0].until: missing"}},
		{"end of the last period", "{evaporation", "{until: 2 h, evaporation", []string{"case.yaml:8: top[1].until: found in the last period"}},
		{"negative rain", "rain: 5 mm/h", "rain: -5 mm/h", []string{"case.yaml:7: top[0].rain: found"}},
		{"driest above zero", "driest: -150 m", "driest: 150 m", []string{"case.yaml:8: top[1].driest: found 150 m; allowed a head below 0"}},
		{"driest with rain", "rain: 5 mm/h", "rain: 5 mm/h, driest: -1 m", []string{"case.yaml:7: top[0].driest: found a key that is not known"}},
		{"base", "kind: gravity", "kind: head", []string{"case.yaml:9: base.head: missing"}},
		{"times", "[1 h, 1 d]", "[1 d, 1 h]", []string{"case.yaml:10: times: found times that do not rise"}},
		{"a time without unit", "[1 h, 1 d]", "[1 h, 24]", []string{`case.yaml:10: times[1]: found "24"; allowed a time`}},
		{"drain below the column", "times:", "drain: {depth: 2 m, spacing: 10 m, radius: 5 mm}\ntimes:", []string{"case.yaml:10: drain.depth: found 2 m; allowed less than the column's 1 m"}},
		{"not keys", sound, "[]", []string{"case.yaml:1: found a list; allowed keys with values"}},
		{"nothing", sound, "", []string{"case.yaml: found nothing; allowed at least horizons, grid"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			text := strings.Replace(sound, test.old, test.new, 1)
			_, err := trial.Read("case.yaml", strings.NewReader(text))
			var got []string
			if err != nil {
				got = strings.Split(err.Error(), "\n")
			}
			begins := func(want, got string) bool { return strings.Contains(got, want) }
			if len(got) != len(test.want) {
				t.Fatalf("found %d faults, expected %d:\n%s", len(got), len(test.want), strings.Join(got, "\n"))
			}
			for i, want := range test.want {
				if !begins(want, got[i]) {
					t.Error(cmp.Diff(want, got[i]))
				}
			}
		})
	}
}
