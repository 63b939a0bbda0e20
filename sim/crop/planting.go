package crop

// PlantingTable is a published table of yield by planting date. The same one holds
// with and without tile: only the date differs.
type PlantingTable struct {
	Name   string
	Source string
	Rows   []PlantingRow // by date
	// Tail tables begin late in the season and say nothing of earlier dates; others
	// begin on the plateau of early planting.
	Tail bool
}

// PlantingRow is the yield of planting between two days of a common year, both
// included. Rows of one day are points on a line, longer ones steps.
type PlantingRow struct {
	From, To int
	Percent  float64 // of the best yield
	Status   Status
}

// Reach says where in its table a date was found.
type Reach int

// The reaches.
const (
	Tabled  Reach = iota // in the table
	Early                // before it, on its plateau: the first figure holds, since early is no gain
	RunOn                // past it, on the line through its last two points
	Held                 // past it, where its last row is a step: that figure, surely too high
	Unknown              // before the dates that a table of late planting covers
)

// PlantingTables are the published tables of a crop, the default one first; none is
// a crop without one.
func PlantingTables(crop string) []PlantingTable { return plantingTables[crop] }

// PlantingTableOf finds a crop's table by name, the default one for "". The error is
// NoRelation or names the tables that there are.
func PlantingTableOf(crop, name string) (PlantingTable, error) {
	return choose(plantingTables[crop], crop, "planting date", name, func(t PlantingTable) string { return t.Name })
}

// Share is the share of the best yield, 0 to 1, of planting on a day of a common
// year: between rows on a straight line, within one its figure, where the last day
// of a row and the first of the next are one the earlier row's (assumption). With
// Unknown the share is 0 and no answer.
func (t *PlantingTable) Share(day int) (float64, Reach) {
	first, last := t.Rows[0], t.Rows[len(t.Rows)-1]
	switch {
	case day < first.From && t.Tail:
		return 0, Unknown
	case day < first.From:
		return first.share(), Early
	case day > last.To && last.From < last.To:
		return last.share(), Held
	case day > last.To:
		return max(0, between(t.Rows[len(t.Rows)-2], last, day)), RunOn
	}
	for i, r := range t.Rows {
		if day > r.To {
			continue
		}
		if day >= r.From {
			return r.share(), Tabled
		}
		return between(t.Rows[i-1], r, day), Tabled
	}
	return last.share(), Tabled // not reached: day is at most last.To
}

// share of the best yield: no date has more than the plateau.
func (r PlantingRow) share() float64 { return min(r.Percent, 100) / 100 }

// between is the line from the end of a row through the start of the next.
func between(a, b PlantingRow, day int) float64 {
	x := float64(day-a.To) / float64(b.From-a.To)
	return a.share() + (b.share()-a.share())*x
}
