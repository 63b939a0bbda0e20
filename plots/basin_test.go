package plots

import (
	"bytes"
	"context"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/plot/vg"

	"mottle/sim/basin"
	"mottle/sim/compare"
	"mottle/sim/flood"
	"mottle/weather"
)

// shelf keeps the kinds of a basin as long as a test.
type shelf struct {
	sync.Mutex
	held map[string][]byte
}

func (m *shelf) Get(key string) (io.ReadCloser, bool) {
	m.Lock()
	defer m.Unlock()
	data, ok := m.held[key]
	return io.NopCloser(bytes.NewReader(data)), ok
}

func (m *shelf) Put(key string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	m.Lock()
	defer m.Unlock()
	m.held[key] = b.Bytes()
	return nil
}

// demoBasin is the invented basin under four invented years, run once for all tests.
var demoBasin = sync.OnceValues(func() (*basin.Result, error) {
	record := compare.Record{Series: weather.Invent(weather.DemoClimate().Wetter(1.2), weather.NewDate(1981, 1, 1), 4, 1)}
	land := basin.Demo()
	land.Scenarios = land.Scenarios[:3] // today, none, all: few kinds of land
	return basin.Run(context.Background(), land, basin.Options{Shelf: &shelf{held: map[string][]byte{}}, Record: record, Shares: []float64{0, 0.5, 1}})
})

// demoResult is a copy of which a test may change the basin and the scenarios.
func demoResult(t *testing.T) *basin.Result {
	t.Helper()
	r, err := demoBasin()
	if err != nil {
		t.Fatal(err)
	}
	own, land := *r, *r.Basin
	own.Basin, own.Scenarios = &land, slices.Clone(r.Scenarios)
	land.Units = slices.Clone(land.Units)
	return &own
}

var basinNames = []string{"flood-frequency", "hydrograph-pairs", "drained-share", "duration", "map", "monthly"}

func names(figures []Figure) []string {
	var list []string
	for _, f := range figures {
		list = append(list, f.Name)
	}
	return list
}

// Every figure can be read as a picture and marks the basin as invented.
func TestBasinFigures(t *testing.T) {
	figures, err := BasinFigures(demoResult(t), false)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(names(figures), basinNames) {
		t.Errorf("figures %v, want %v", names(figures), basinNames)
	}
	for _, f := range figures {
		if _, err := png.DecodeConfig(bytes.NewReader(f.PNG)); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
		svg := string(f.SVG)
		for _, bad := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(svg, bad) {
				t.Errorf("%s holds %q", f.Name, bad)
			}
		}
		if !strings.Contains(svg, "INVENTED BASIN") {
			t.Errorf("%s does not say that the basin is invented", f.Name)
		}
	}
}

// TestWriteBasin writes figures and pages for the eye into the folder that MOTTLE_PAGES
// names.
func TestWriteBasin(t *testing.T) {
	dir := os.Getenv("MOTTLE_PAGES")
	if dir == "" {
		t.Skip("MOTTLE_PAGES names no folder")
	}
	for suffix, us := range map[string]bool{"si": false, "us": true} {
		figures, err := BasinFigures(demoResult(t), us)
		if err != nil {
			t.Fatal(err)
		}
		page, err := BasinPage(demoResult(t), us)
		if err != nil {
			t.Fatal(err)
		}
		files := map[string][]byte{"basin-" + suffix + ".html": page}
		for _, f := range figures {
			files["basin-"+f.Name+"-"+suffix+".png"] = f.PNG
		}
		for name, data := range files {
			if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// A cubic metre a second is 35.3147 cubic feet a second (NIST SP 811, appendix B.8: the
// cubic foot is 2.831 685 E-02 m3), to the digits given.
func TestBasinFlowUnits(t *testing.T) {
	w := watershed{us: true}
	if got := w.flow(2.831685e-2); math.Abs(got-1) > 1e-6 {
		t.Errorf("a cubic foot a second is %g cfs", got)
	}
	for us, want := range map[bool]string{false: "(m³/s)", true: "(cfs)"} {
		page, err := BasinPage(demoResult(t), us)
		if err != nil {
			t.Fatal(err)
		}
		other := map[bool]string{true: "(m³/s)", false: "(cfs)"}[us]
		if !bytes.Contains(page, []byte(want)) || bytes.Contains(page, []byte(other)) {
			t.Errorf("us %t: want flows in %s alone", us, want)
		}
	}
}

// Figures whose data are absent are left out, and the page stands without them.
func TestBasinWithout(t *testing.T) {
	r := demoResult(t)
	r.Scenarios, r.Curve = r.Scenarios[:1], nil
	figures, err := BasinFigures(r, false)
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"duration"}; !slices.Equal(names(figures), want) {
		t.Errorf("one scenario: figures %v, want %v", names(figures), want)
	}
	if _, err := BasinPage(r, false); err != nil {
		t.Error(err)
	}
	r = demoResult(t)
	for i := range r.Basin.Units {
		r.Basin.Units[i].Geometry = nil
	}
	if figures, err = BasinFigures(r, false); err != nil {
		t.Fatal(err)
	}
	if slices.Contains(names(figures), "map") || len(figures) != len(basinNames)-1 {
		t.Errorf("no outlines: figures %v, want all but the map", names(figures))
	}
	for _, bad := range []*basin.Result{nil, {}, {Basin: r.Basin, Years: r.Years}} {
		if _, err := BasinPage(bad, false); err == nil {
			t.Errorf("%+v: no error", bad)
		}
	}
}

// The word follows from the interval alone.
func TestDirections(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		low, high float64
		want      string
	}{{1, 9, rises}, {-9, -1, falls}, {-1, 9, unclear}, {0, 9, unclear}, {0, 0, steady}, {nan, 9, unclear}, {nan, nan, unclear}} {
		if got := direction(c.low, c.high); got != c.want {
			t.Errorf("interval %g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
	for _, c := range []struct {
		words []string
		want  string
	}{{nil, unclear}, {[]string{rises, rises}, rises}, {[]string{falls, falls}, falls}, {[]string{falls, rises}, depends}, {[]string{falls, unclear}, depends}, {[]string{unclear, unclear}, unclear}} {
		if got := directions(c.words...); got != c.want {
			t.Errorf("%v: %s, want %s", c.words, got, c.want)
		}
	}
}

// Student's t of 0.95 with 3 degrees of freedom is 2.353 (any table of it): differences
// of 1, 2, 3 and 2 about their mean of 2, with a standard error of 0.4082, reach from
// 1.039 to 2.961, and so from 5.197 to 14.803 % of a mean of 20 before. Tolerance: the
// table's third decimal.
func TestEffectOfYears(t *testing.T) {
	was := []float64{18, 19, 21, 22}
	is := []float64{19, 21, 24, 24}
	e := ofYears("flow", "mm", was, is)
	if e.word != rises || math.Abs(e.percent-10) > 1e-9 || math.Abs(e.low-5.197) > 0.005 || math.Abs(e.high-14.803) > 0.005 {
		t.Errorf("%s, %g %% (%g to %g), want rises, 10 %% (5.197 to 14.803)", e.word, e.percent, e.low, e.high)
	}
	if e = ofYears("flow", "mm", is, was); e.word != falls {
		t.Errorf("turned about: %s, want falls", e.word)
	}
	if e = ofYears("flow", "mm", was, []float64{19, 18, 22, 21}); e.word != unclear {
		t.Errorf("up and down: %s, want can't say", e.word)
	}
	if e = ofYears("flow", "mm", was[:1], is[:1]); e.word != unclear || e.interval() != "" {
		t.Errorf("one year: %s %q, want can't say without interval", e.word, e.interval())
	}
}

// A page of hand-made changes says what they say.
func TestBasinPageVerdicts(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		floods    string
	}{{2, 9, "floods would have risen"}, {-9, -2, "floods would have fallen"}, {-3, 3, "no one can say from this run which way floods"}} {
		r := demoResult(t)
		for k := range r.Scenarios {
			s := &r.Scenarios[k]
			s.Nodes = slices.Clone(s.Nodes)
			out := outlet(s)
			out.Changes = []flood.Change{{ReturnPeriod: 2, Was: 1, Is: 1, Percent: (c.low + c.high) / 2, Low: c.low, High: c.high}}
		}
		text, err := BasinPage(r, false)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(text), c.floods) {
			t.Errorf("interval %g to %g: the page does not say %q", c.low, c.high, c.floods)
		}
	}
}

// The part of the water that nitrate goes by is the drain's.
func TestBasinParts(t *testing.T) {
	p := basin.Parts()
	if p[surfacePart] != "surface" || p[drainPart] != "drain" || p[seepagePart] != "seepage" {
		t.Errorf("parts %v, want surface, drain, seepage", p)
	}
}

// A page runs nothing, fetches nothing, and names stay text.
func TestBasinPageStandsAlone(t *testing.T) {
	const evil = `<script>alert("x")</script><img src=x onerror='y'>&`
	r := demoResult(t)
	r.Basin.Name, r.Basin.Place = evil, evil
	r.Basin.Notes = []string{evil}
	for k := range r.Scenarios {
		r.Scenarios[k].Name = evil
	}
	b, err := BasinPage(r, true)
	if err != nil {
		t.Fatal(err)
	}
	text := string(b)
	if n := strings.Count(text, "&lt;script&gt;"); n < 10 {
		t.Errorf("the name stands %d times on the page, want 10 and more", n)
	}
	for _, bad := range []string{"<script", "<img", "onerror='y'>", "http://", "https://", "src=\"", "@import", "url(", "javascript:", "<iframe", "ZgotmplZ", "NaN", "%!"} {
		if strings.Contains(text, bad) {
			t.Errorf("found %q", bad)
		}
	}
	if !strings.Contains(text, "INVENTED BASIN") {
		t.Error("the page does not say that the basin is invented")
	}
}

// Whatever is invented is marked so, and nothing else.
func TestBasinStamp(t *testing.T) {
	recorded := map[string]basin.Station{"a": {Record: compare.Record{Series: &weather.Series{}}}}
	made := map[string]basin.Station{"a": {Record: compare.Record{Series: &weather.Series{Invented: true}}}}
	for _, c := range []struct {
		invented bool
		stations map[string]basin.Station
		want     string
	}{{true, made, "INVENTED BASIN AND WEATHER"}, {true, recorded, "INVENTED BASIN"}, {false, made, "INVENTED WEATHER"}, {false, recorded, ""}, {false, nil, ""}} {
		r := demoResult(t)
		r.Basin.Name, r.Basin.Place, r.Basin.Invented, r.Basin.Stations = "Basin", "", c.invented, c.stations
		if got := (watershed{r: r}).stamp(); got != c.want {
			t.Errorf("stamp %q, want %q", got, c.want)
		}
		page, err := BasinPage(r, false)
		if err != nil {
			t.Fatal(err)
		}
		if has := bytes.Contains(page, []byte("INVENTED")); has != (c.want != "") || !bytes.Contains(page, []byte(c.want)) {
			t.Errorf("the page with the stamp %q holds the word: %t", c.want, has)
		}
	}
}

// A hole stays empty and its outer ring full, whichever way the file runs them: the
// square of 2 by 2 with a hole of 1 by 1 has signed areas of opposite signs.
func TestOutlines(t *testing.T) {
	for _, hole := range []string{"[[0.5,0.5],[1.5,0.5],[1.5,1.5],[0.5,1.5],[0.5,0.5]]", "[[0.5,0.5],[0.5,1.5],[1.5,1.5],[1.5,0.5],[0.5,0.5]]"} {
		o, err := outlinesOf([]byte(`{"type":"Polygon","coordinates":[[[0,0],[2,0],[2,2],[0,2],[0,0]],` + hole + `]}`))
		if err != nil {
			t.Fatal(err)
		}
		var ring [2][][2]float64
		k := -1
		path := o.ringPath(func(p [2]float64) vg.Point { return vg.Point{X: vg.Length(p[0]), Y: vg.Length(p[1])} })
		for _, c := range path {
			if c.Type == vg.MoveComp {
				k++
			}
			if c.Type == vg.MoveComp || c.Type == vg.LineComp {
				ring[k] = append(ring[k], [2]float64{c.Pos.X.Points(), c.Pos.Y.Points()})
			}
		}
		if a, b := doubled(ring[0]), doubled(ring[1]); math.Abs(a-8) > 1e-9 || math.Abs(b+2) > 1e-9 {
			t.Errorf("twice the areas %g and %g, want 8 and -2", a, b)
		}
	}
}
