package plots

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/color"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/sim/compare"
)

// document is what a listener and a reader find in an SVG.
type document struct {
	attributes map[string]string // of the root
	title      string            // the root's first child, as SVG 1.1 section 5.4 asks
	text       string            // all text, a blank between pieces
}

// parse reads a whole SVG as XML 1.0 and fails the test where it is not one.
func parse(t *testing.T, svg []byte) document {
	t.Helper()
	d := document{attributes: map[string]string{}}
	var pieces []string
	dec := xml.NewDecoder(bytes.NewReader(svg))
	for elements, inTitle := 0, false; ; {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed XML: %v", err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			if elements == 0 {
				if e.Name.Local != "svg" || e.Name.Space != "http://www.w3.org/2000/svg" {
					t.Errorf("root is %v, want svg of the SVG namespace", e.Name)
				}
				for _, a := range e.Attr {
					d.attributes[a.Name.Local] = a.Value
				}
			}
			inTitle = elements == 1 && e.Name.Local == "title"
			elements++
		case xml.CharData:
			if inTitle {
				d.title += string(e)
				continue
			}
			pieces = append(pieces, strings.TrimSpace(string(e)))
		case xml.EndElement:
			inTitle = false
		}
	}
	d.text = strings.Join(strings.Fields(strings.Join(pieces, " ")), " ")
	return d
}

func TestCompareDrawsEveryFigureInBothSystems(t *testing.T) {
	r := result(t)
	shows := []struct {
		name   string
		si, us []string // what only the axes of that system say
	}{
		{"days-saturated", []string{"days"}, []string{"days"}},
		{"year-median", []string{"above it (m)", "(mm/d)"}, []string{"above it (ft)", "(in/d)"}},
		{"year-wettest", []string{"above it (m)", "(mm/d)"}, []string{"above it (ft)", "(in/d)"}},
		{"water-balance", []string{"depth (mm)"}, []string{"depth (in)"}},
		{"peak-flow", []string{"(mm/h)"}, []string{"(in/h)"}},
		{"root-zone-salt", []string{"(dS/m)"}, []string{"(dS/m)"}},
	}
	for _, us := range []bool{false, true} {
		figures := figures(t, us)
		if len(figures) != len(shows) {
			t.Fatalf("%d figures, want %d", len(figures), len(shows))
		}
		for i, f := range figures {
			if f.Name != shows[i].name {
				t.Errorf("figure %d is %q, want %q", i, f.Name, shows[i].name)
			}
			d := parse(t, f.SVG)
			if d.attributes["role"] != "img" || d.title != f.Title || f.Title == "" {
				t.Errorf("%s: role %q and title %q, want img and %q", f.Name, d.attributes["role"], d.title, f.Title)
			}
			want, other := shows[i].si, shows[i].us
			if us {
				want, other = other, want
			}
			want = append([]string{f.Title, lies.name, tiled.name, "INVENTED FIELD AND WEATHER", "Field (INVENTED): " + r.Field.Name,
				"Weather (INVENTED): " + r.Series.Layout, r.Series.Station.Name, "1981–1984"}, want...)
			for _, w := range want {
				if !strings.Contains(d.text, w) {
					t.Errorf("%s, US %v: %q is missing from the text:\n%s", f.Name, us, w, d.text)
				}
			}
			for _, o := range other {
				if !strings.Contains(strings.Join(want, "|"), o) && strings.Contains(d.text, o) {
					t.Errorf("%s, US %v: found %q of the other system", f.Name, us, o)
				}
			}
			if !bytes.Contains(f.SVG, []byte("font-family:Liberation Sans,Arial,Helvetica,sans-serif;")) || bytes.Contains(f.SVG, []byte("@font-face")) || bytes.Contains(f.SVG, []byte("href")) {
				t.Errorf("%s: want fonts with fallbacks, none embedded and nothing fetched", f.Name)
			}
		}
	}
}

// A figure of real data carries no stamp, and a stamp says what is invented.
func TestStampSaysWhatIsInvented(t *testing.T) {
	r := *result(t)
	f, w := *r.Field, *r.Series
	r.Field, r.Series = &f, &w
	for _, c := range []struct {
		field, weather bool
		stamp          string
	}{{true, true, "INVENTED FIELD AND WEATHER"}, {true, false, "INVENTED FIELD"}, {false, true, "INVENTED WEATHER"}, {false, false, ""}} {
		f.Invented, w.Invented = c.field, c.weather
		s := subject{r: &r}
		if s.stamp() != c.stamp {
			t.Errorf("stamp %q, want %q", s.stamp(), c.stamp)
		}
		if got := strings.Contains(s.source(), "INVENTED"); got != (c.field || c.weather) {
			t.Errorf("source %q with field %v and weather %v invented", s.source(), c.field, c.weather)
		}
	}
}

func TestPNGIsTwiceThePageAndWhole(t *testing.T) {
	for _, f := range figures(t, false) {
		m, err := png.Decode(bytes.NewReader(f.PNG))
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		// Two pixels to one of the SVG's size; its height is rounded to a pixel.
		attributes := parse(t, f.SVG).attributes
		for side, got := range map[string]int{"width": m.Bounds().Dx(), "height": m.Bounds().Dy()} {
			size, err := strconv.ParseFloat(attributes[side], 64)
			if err != nil || math.Abs(float64(got)-2*size) > 1 {
				t.Errorf("%s: %s %d pixels, want twice %q", f.Name, side, got, attributes[side])
			}
		}
		// Both twins' colours are there, and the rim is white: nothing is cut off.
		const rim = 8
		pixels := map[color.NRGBA]int{}
		for y := range m.Bounds().Dy() {
			for x := range m.Bounds().Dx() {
				c := color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA)
				pixels[c]++
				onRim := x < rim || y < rim || x >= m.Bounds().Dx()-rim || y >= m.Bounds().Dy()-rim
				if onRim && c != white {
					t.Fatalf("%s: ink %v at %d,%d on the rim", f.Name, c, x, y)
				}
			}
		}
		// A line of the 40 points of a key alone has a hundred pixels of full colour.
		for name, c := range map[string]color.NRGBA{"as it lies": rust, "with tile": slate} {
			if pixels[c] < 40 {
				t.Errorf("%s: %d pixels in the colour of %s", f.Name, pixels[c], name)
			}
		}
	}
}

func TestSameResultSameBytes(t *testing.T) {
	if d := cmp.Diff(figures(t, true), figures(t, true)); d != "" {
		t.Error(d)
	}
}

func TestCompareSaysWhatIsMissing(t *testing.T) {
	r := *result(t)
	r.Lines = nil
	if _, err := Compare(&r, false); err == nil || !strings.Contains(err.Error(), `"days_saturated"`) {
		t.Errorf("without measures: error %v, want one that names the measure", err)
	}
	if _, err := Compare(&compare.Result{}, false); err == nil || !strings.Contains(err.Error(), "complete calendar year") {
		t.Errorf("without years: error %v, want one that says so", err)
	}
}
