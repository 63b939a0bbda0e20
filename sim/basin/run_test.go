package basin

import (
	"bytes"
	"context"
	"io"
	"math"
	"slices"
	"sync"
	"testing"

	"mottle/sim/compare"
	"mottle/weather"
)

// memory is a shelf that lasts as long as a test.
type memory struct {
	sync.Mutex
	held map[string][]byte
	puts int
}

func (m *memory) Get(key string) (io.ReadCloser, bool) {
	m.Lock()
	defer m.Unlock()
	data, ok := m.held[key]
	return io.NopCloser(bytes.NewReader(data)), ok
}

func (m *memory) Put(key string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	m.Lock()
	defer m.Unlock()
	if m.held == nil {
		m.held = map[string][]byte{}
	}
	m.held[key] = b.Bytes()
	m.puts++
	return nil
}

// inventedRecord of the demo's climate.
func inventedRecord(years int) compare.Record {
	return compare.Record{Series: weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), years, 1)}
}

func runDemo(t *testing.T, b *Basin, shelf Shelf, years int) *Result {
	t.Helper()
	r, err := Run(context.Background(), b, Options{Shelf: shelf, Record: inventedRecord(years)})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// All water that leaves the land comes out or is on its way: to 1e-6 mm over the basin.
// A second run finds every kind on the shelf and gives the same.
func TestWaterIsKept(t *testing.T) {
	shelf := &memory{}
	r := runDemo(t, Demo(), shelf, 3)
	for _, s := range r.Scenarios {
		if math.Abs(s.Error) > 1e-6 {
			t.Errorf("%s: %g mm are lost", s.Name, s.Error)
		}
		for _, n := range s.Nodes {
			for _, p := range n.Peaks.Year {
				if !(p >= 0) {
					t.Errorf("%s, %s: peak %g", s.Name, n.Name, p)
				}
			}
		}
	}
	ran := shelf.puts
	if ran != r.Kinds {
		t.Errorf("%d kinds were run, of %d", ran, r.Kinds)
	}
	again := runDemo(t, Demo(), shelf, 3)
	if shelf.puts != ran {
		t.Errorf("%d kinds were run again", shelf.puts-ran)
	}
	a, b := r.Scenarios[1].Nodes, again.Scenarios[1].Nodes
	for i := range a {
		if !slices.Equal(a[i].Peaks.Year, b[i].Peaks.Year) {
			t.Errorf("%s: peaks differ between runs", a[i].Name)
		}
	}
}

// The order of rows changes nothing, and a unit cut in ten changes nothing but rounding.
func TestRowsAndParts(t *testing.T) {
	shelf := &memory{}
	whole := runDemo(t, Demo(), shelf, 2)

	turned := Demo()
	slices.Reverse(turned.Units)
	slices.Reverse(turned.Reaches)
	back := runDemo(t, turned, shelf, 2)

	cut := Demo()
	var units []Unit
	for _, u := range cut.Units {
		received := slices.ContainsFunc(cut.Units, func(v Unit) bool { return v.To == u.ID })
		if received {
			units = append(units, u)
			continue
		}
		for k := range 10 {
			part := u
			part.ID += "-part-" + string(rune('a'+k))
			part.Area /= 10
			units = append(units, part)
		}
	}
	cut.Units = units
	cut.Scenarios, whole.Scenarios = cut.Scenarios[:1], whole.Scenarios[:1] // others name units
	parts := runDemo(t, cut, shelf, 2)

	for i, n := range whole.Scenarios[0].Nodes {
		j := slices.IndexFunc(back.Scenarios[0].Nodes, func(m Node) bool { return m.Name == n.Name })
		if !slices.Equal(n.Daily, back.Scenarios[0].Nodes[j].Daily) {
			t.Errorf("%s: rows in another order change the flow", n.Name)
		}
		m := parts.Scenarios[0].Nodes[i]
		for d := range n.Daily {
			for c := range n.Daily[d] {
				if x, y := n.Daily[d][c], m.Daily[d][c]; math.Abs(x-y) > 1e-9*math.Max(x, 1e-9) {
					t.Fatalf("%s, day %d: %g whole, %g in parts", n.Name, d, x, y)
				}
			}
		}
	}
}

// A unit alone at the outlet, without a way, gives its field's own flow.
func TestUnitAlone(t *testing.T) {
	b := Demo()
	u := b.Units[0]
	for _, v := range b.Units {
		if v.Tile != nil {
			u = v
		}
	}
	u.To, u.Length = Outlet, 0
	alone := *b
	alone.Units, alone.Reaches, alone.Scenarios = []Unit{u}, nil, []Scenario{{Name: "today"}}
	r := runDemo(t, &alone, &memory{}, 2)

	f, err := b.Field(&u)
	if err != nil {
		t.Fatal(err)
	}
	met, s, err := compare.Meet(f, inventedRecord(2), compare.Period{}, false)
	if err != nil {
		t.Fatal(err)
	}
	c, err := compare.Run(context.Background(), met, s, compare.Options{})
	if err != nil {
		t.Fatal(err)
	}
	days := c.Pair.WithTile.Days
	n := r.Scenarios[0].Nodes[0]
	for d := range days.Runoff {
		for c, mm := range []float64{days.Runoff[d], days.Drain[d]} {
			want := mm / 1000 * u.Area / 86400
			if got := n.Daily[d][c]; math.Abs(got-want) > 1e-12*math.Max(want, 1) {
				t.Fatalf("day %d, %s: %g m3/s, the field's own %g", d, Parts()[c], got, want)
			}
		}
	}
}
