package crop

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strings"
	"testing"
)

// sharing fails unless a table gives a percentage of the best yield, to rounding.
func sharing(t *testing.T, table PlantingTable, day int, percent float64, reach Reach) {
	t.Helper()
	got, where := table.Share(day)
	if math.Abs(100*got-percent) > 1e-9 || where != reach {
		t.Errorf("%s, day %d: %.6g %% (reach %d), want %g (%d)", table.Name, day, 100*got, where, percent, reach)
	}
}

func tableOf(t *testing.T, crop, name string) PlantingTable {
	t.Helper()
	table, err := PlantingTableOf(crop, name)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// dayOf reads "05-18".
func dayOf(t *testing.T, text string) int {
	t.Helper()
	month, day, _ := strings.Cut(text, "-")
	return yearDay(int(number(t, month)), int(number(t, day)))
}

// Every row of the published tables, testdata/planting-date.csv, on its first and
// last day, with the status that its source column begins with; and as many rows
// here as there.
func TestPlantingTables(t *testing.T) {
	f, err := os.Open("testdata/planting-date.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	statuses := map[string]Status{"READ": Read, "FROM MEMORY": FromMemory, "INTERPOLATED": Interpolated, "EXTRAPOLATED at the same rate": Interpolated, "INTERPOLATED between read anchors": Interpolated}
	joined := map[string]string{ // sets listed apart that are one table here
		"Iowa, older guide":                   "Iowa, older guide, late planting",
		"Iowa, older guide, 32,000 plants/ac": "Iowa, older guide, late planting",
		"Iowa, Benson 1990":                   "Iowa, older guide, late planting",
		"Minnesota, Lamberton long-term":      "Minnesota, working curve",
	}
	listed := 0
	for _, line := range lines[1:] {
		listed++
		name := line[1]
		if joined[name] != "" {
			name = joined[name]
		}
		table := tableOf(t, line[0], name)
		from, to, percent := dayOf(t, line[2]), dayOf(t, line[3]), number(t, line[4])
		word, _, _ := strings.Cut(line[5], ":")
		found := false
		for _, r := range table.Rows {
			if r.From == from && r.To == to {
				found = true
				if r.Percent != percent || r.Status != statuses[word] {
					t.Errorf("%s, %s: %g %% (%s), listed %g (%s)", name, line[2], r.Percent, r.Status, percent, line[5])
				}
			}
		}
		if !found {
			t.Errorf("%s %s-%s: no row", name, line[2], line[3])
		}
		sharing(t, table, to, percent, Tabled)
	}
	here := 0
	for _, name := range Names() {
		for _, table := range PlantingTables(name) {
			here += len(table.Rows)
			for i, r := range table.Rows {
				if r.From > r.To || i > 0 && r.From < table.Rows[i-1].To || table.Source == "" {
					t.Errorf("%s: row %d out of order, or no source", table.Name, i)
				}
			}
		}
	}
	if here != listed {
		t.Errorf("%d rows here, %d listed", here, listed)
	}
}

// M10: the corn tables between their dates (Minnesota extension, read; lines between
// dates recomputed), printed to 0.1 %.
func TestPlantingBetweenDates(t *testing.T) {
	var in struct{ Dates []string }
	var out struct {
		Three []float64 `json:"three_sites"`
		Long  []float64 `json:"lamberton"`
	}
	worked(t, "M10", &in, &out)
	if len(in.Dates) != 3 {
		t.Fatalf("case M10 has changed: %+v", in)
	}
	for i, date := range in.Dates {
		day := dayOf(t, date)
		sharing(t, tableOf(t, "corn", "Minnesota, three sites 2009-2011"), day, out.Three[i], Tabled)
		sharing(t, tableOf(t, "corn", ""), day, out.Long[i], Tabled)
	}
}

// Steps, the gaps between them, and dates beyond: by the rules of the table's type,
// from the figures listed.
func TestPlantingSteps(t *testing.T) {
	guide := tableOf(t, "corn", "Iowa, 35,000 plants/ac, newer guide")
	sharing(t, guide, yearDay(4, 1), 100, Early)
	sharing(t, guide, yearDay(4, 28), 100, Tabled)
	sharing(t, guide, yearDay(5, 5), 100, Tabled) // a shared end is the earlier step's
	sharing(t, guide, yearDay(5, 6), 96, Tabled)
	sharing(t, guide, yearDay(6, 15), 54, Tabled)
	sharing(t, guide, yearDay(6, 16), 54, Held)
	late := tableOf(t, "corn", "Iowa, older guide, late planting")
	sharing(t, late, yearDay(6, 9), 0, Unknown)
	sharing(t, late, yearDay(6, 15), 68, Tabled)
	sharing(t, late, yearDay(6, 18), 68-16*3.0/9, Tabled) // 15 to 24 June
	sharing(t, late, yearDay(7, 2), 30-22.0/3, RunOn)     // 28 June to 1 July
	corn := tableOf(t, "corn", "")
	sharing(t, corn, yearDay(4, 10), 99, Early)
	sharing(t, corn, yearDay(6, 14), 62, RunOn) // 7 points in 5 days
	if got, _ := corn.Share(250); got != 0 {
		t.Errorf("corn planted in September: %g", got)
	}
	soy := tableOf(t, "soybean", "")
	sharing(t, soy, yearDay(5, 3), 100, Tabled)
	sharing(t, soy, yearDay(6, 5), 90-4, Tabled) // one point a day
	central := tableOf(t, "soybean", "Iowa, central, 1994-1996")
	sharing(t, central, yearDay(5, 23), 96, Tabled) // half of 15 to 31 May
	sharing(t, central, yearDay(6, 20), 92, Held)
	wheat := tableOf(t, "spring wheat", "")
	sharing(t, wheat, yearDay(4, 10), 100, Early)
	sharing(t, wheat, yearDay(5, 31), 70, RunOn)
}

// A crop without a table has no answer, and says so by type; an unknown name lists
// what there is.
func TestNoPlantingTable(t *testing.T) {
	for _, name := range []string{"winter wheat", "sugar beet", "alfalfa", "grass"} {
		var none *NoRelation
		if _, err := PlantingTableOf(name, ""); !errors.As(err, &none) || none.Crop != name || none.Loss != "planting date" {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err := PlantingTableOf("soybean", "Ohio")
	if want := `soybean, yield and planting date: found "Ohio"; allowed: Minnesota, working curve; Iowa, central, 1994-1996`; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}
