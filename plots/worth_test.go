package plots

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"mottle/sim/worth"
)

func TestWorthFiguresInBothSystems(t *testing.T) {
	r := invent(t, 40)
	names := []string{"days-saturated", "planting-dates", "calendar-median", "calendar-wettest", "extra-income", "payback", "map-npv", "map-saturated", "yield-losses", "root-zone-salt"}
	units := map[string][2]string{"extra-income": {"USD/ha", "USD/ac"}, "payback": {"USD/ha", "USD/ac"}, "map-npv": {"tile (m)", "tile (ft)"}, "map-saturated": {"laterals (m)", "laterals (ft)"}}
	for i, us := range []bool{false, true} {
		figures, err := WorthFigures(r, us)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range figures {
			got = append(got, f.Name)
			d := parse(t, f.SVG)
			if d.attributes["role"] != "img" || d.title != f.Title || len(f.PNG) == 0 {
				t.Errorf("%s: role %q and title %q, %d bytes of PNG", f.Name, d.attributes["role"], d.title, len(f.PNG))
			}
			for _, want := range []string{f.Title, "INVENTED FIELD AND WEATHER", "Field (INVENTED)"} {
				if !strings.Contains(d.text, want) {
					t.Errorf("%s: %q is missing", f.Name, want)
				}
			}
			if u, ok := units[f.Name]; ok && (!strings.Contains(d.text, u[i]) || strings.Contains(d.text, u[1-i])) {
				t.Errorf("%s, US %v: want %q and no %q", f.Name, us, u[i], u[1-i])
			}
		}
		if !slices.Equal(got, names) {
			t.Errorf("figures %q, want %q", got, names)
		}
	}
}

func TestWorthSaysWhatIsMissing(t *testing.T) {
	for want, spoil := range map[string]func(r *worth.Result){
		"no comparison":              func(r *worth.Result) { r.Compare = nil },
		"complete calendar years":    func(r *worth.Result) { r.Years = nil },
		"a season of each twin":      func(r *worth.Result) { r.WithTile = r.WithTile[1:] },
		`no measure "days_saturated`: func(r *worth.Result) { c := *r.Compare; c.Lines = nil; r.Compare = &c },
	} {
		r := invent(t, 3)
		spoil(r)
		if _, err := WorthPage(r, false); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("page: %v, want an error with %q", err, want)
		}
		if _, err := WorthFigures(r, false); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("figures: %v, want an error with %q", err, want)
		}
	}
}

// Rows are as wide as their head; a season's yield and losses add up to 1, for what
// causes leave multiplies and the loss is parted among them (crop.Attribute).
func TestWorthTables(t *testing.T) {
	r := invent(t, 10)
	rows := map[string]int{"seasons.csv": 20, "income.csv": 10, "bill.csv": 5, "money.csv": 14, "trials.csv": 3, "futures.csv": 101 + 4 + 31*5 + 6, "map.csv": 30}
	tables := WorthTables(r)
	if len(tables) != len(rows) {
		t.Fatalf("%d tables, want %d", len(tables), len(rows))
	}
	for name, table := range tables {
		if n := len(table) - 1; n != rows[name] {
			t.Errorf("%s: %d rows, want %d", name, n, rows[name])
		}
		for i, row := range table {
			if len(row) != len(table[0]) {
				t.Errorf("%s: row %d has %d cells, its head %d", name, i, len(row), len(table[0]))
			}
			if slices.Contains(row, "NaN") {
				t.Errorf("%s: row %d: %v", name, i, row)
			}
		}
	}
	head := tables["seasons.csv"][0]
	for _, row := range tables["seasons.csv"][1:] {
		sum := 0.0
		for i, name := range head {
			if name == "yield_share" || strings.HasPrefix(name, "lost_") {
				v, err := strconv.ParseFloat(row[i], 64)
				if err != nil {
					t.Fatal(err)
				}
				sum += v
			}
		}
		if math.Abs(sum-1) > 1e-6 { // eight digits are written
			t.Errorf("season %v: yield and losses add up to %g", row[:2], sum)
		}
	}
	best := 0
	for _, row := range tables["map.csv"] {
		if row[4] == "best" {
			best++
		}
	}
	if best != 1 {
		t.Errorf("%d designs are the best", best)
	}
}

// Steps of the maps have zero at an edge, hold every value, and are six at most on
// each side.
func TestClassesHoldEveryValue(t *testing.T) {
	for _, c := range [][]float64{{-3, 5}, {2561, -2500}, {500, 900}, {-900, -500}, {0, 0}, {7}, {1e-3, 2e5}, {-1, 1e6}} {
		got := classesOf([][]float64{c, {math.NaN()}}, func(v float64) float64 { return v }, true)
		for _, v := range c {
			if k := int(math.Floor(v / got.step)); k < got.low || k >= got.high {
				t.Errorf("%v: %g lies outside of %+v", c, v, got)
			}
			_ = got.shade(v) // finds a shade, or panics
		}
		if got.high-got.low > 7 {
			t.Errorf("%v: %d steps", c, got.high-got.low)
		}
	}
}

// A place among cells, by hand: their middles at a half, ways between linear.
func TestPlace(t *testing.T) {
	cells := []float64{10, 20, 40}
	for v, want := range map[float64]float64{10: 0.5, 20.1: 1.5, 30: 2, 40: 2.5, 15: 1} {
		if got := place(cells, v); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g: %g, want %g", v, got, want)
		}
	}
	for _, v := range []float64{5, 60} {
		if got := place(cells, v); !math.IsNaN(got) {
			t.Errorf("%g: %g, want none", v, got)
		}
	}
}

// Type 7 of Hyndman and Fan (1996): of 1, 2, 4, 8 the median is 3, the 5 % quantile
// 1 + 0.15*(2-1).
func TestQuantileOfAscending(t *testing.T) {
	for p, want := range map[float64]float64{0: 1, 0.05: 1.15, 0.5: 3, 1: 8} {
		if got := quantile([]float64{1, 2, 4, 8}, p); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g: %g, want %g", p, got, want)
		}
	}
}

func TestDayOfYear(t *testing.T) {
	for day, want := range map[int]string{1: "1 Jan", 31: "31 Jan", 60: "1 Mar", 121: "1 May", 365: "31 Dec"} {
		if got := dayOfYear(day); got != want {
			t.Errorf("%d: %q, want %q", day, got, want)
		}
	}
}
