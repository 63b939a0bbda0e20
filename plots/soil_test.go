package plots

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"mottle/soil"
)

// inventedGround is a made-up soil of n layers of 0.15 m, over what stops water.
func inventedGround(t *testing.T, n int) Profile {
	t.Helper()
	p := Profile{Name: "Nowhere", Source: "made up", Invented: true, Facts: "Poorly drained.", Restrictive: 0.15 * float64(n)}
	for _, r := range soil.Relations() {
		var horizons []soil.Horizon
		for i := range n {
			h := soil.NewHorizon(0.15*float64(i), 0.15*float64(i+1))
			h.Name, h.Relation = "H"+string(rune('A'+i)), r
			h.Sand, h.Clay, h.BulkDensity = 10+float64(45*i/n), 15+float64(7*i%30), 1.3
			horizons = append(horizons, h)
		}
		m, err := soil.DeriveProfile(horizons)
		if err != nil {
			t.Fatal(err)
		}
		p.Materials, p.Other = p.Other, m
	}
	return p
}

// Every figure names its units in both systems, stands alone as SVG, and keeps its
// rim free in PNG, with few horizons and with many.
func TestSoilFigures(t *testing.T) {
	shows := []struct{ name, si, us string }{
		{"soil-profile", "depth (m)", "depth (ft)"},
		{"soil-retention", "suction (m of water)", "suction (ft of water)"},
		{"soil-conductivity", "conductivity (m/d)", "conductivity (in/h)"},
		{"soil-drainable", "water drained (mm)", "water drained (in)"},
	}
	for _, n := range []int{1, 12} {
		p := inventedGround(t, n)
		for _, us := range []bool{false, true} {
			figures, err := Soil(p, us)
			if err != nil {
				t.Fatal(err)
			}
			for i, f := range figures {
				d := parse(t, f.SVG)
				want := shows[i].si
				if us {
					want = shows[i].us
				}
				for _, w := range []string{want, f.Title, "INVENTED SOIL", "Soil (INVENTED): Nowhere, from made up", "Saxton and Rawls 2006"} {
					if f.Name != shows[i].name || !strings.Contains(d.text, w) {
						t.Errorf("%s, %d horizons, US %v: %q is missing from:\n%s", f.Name, n, us, w, d.text)
					}
				}
				rimFree(t, f)
			}
			if !strings.Contains(parse(t, figures[3].SVG).text, "by Cosby et al. 1984 it would be") {
				t.Errorf("the drained water lacks the other relation")
			}
		}
	}
	if _, err := Soil(Profile{}, false); err == nil {
		t.Error("a soil without horizons: no error")
	}
}

// A soil without a layer that stops water, and of a given curve alone, is drawn too.
func TestSoilFiguresOfLittle(t *testing.T) {
	h := soil.NewHorizon(0, 1)
	h.ThetaR, h.ThetaS, h.Alpha, h.N, h.Ksat = 0.05, 0.45, 2, 1.4, 1e-6
	m, err := soil.Derive(h)
	if err != nil {
		t.Fatal(err)
	}
	figures, err := Soil(Profile{Name: "x", Source: "y", Restrictive: math.NaN(), Materials: []soil.Material{m}}, false)
	if err != nil {
		t.Fatal(err)
	}
	text := parse(t, figures[0].SVG).text
	again, err := Soil(Profile{Name: "x", Source: "y", Restrictive: math.NaN(), Materials: []soil.Material{m}}, false)
	if d := cmp.Diff(figures, again); err != nil || d != "" {
		t.Errorf("drawn twice: %v, differs: %v", err, d != "")
	}
	if !strings.Contains(text, "texture not given") || strings.Contains(text, "stops water") || strings.Contains(text, "NaN") || strings.Contains(text, "INVENTED") {
		t.Errorf("profile says:\n%s", text)
	}
}

// rimFree fails where ink reaches the outermost pixels: something is cut off.
func rimFree(t *testing.T, f Figure) {
	t.Helper()
	m, err := png.Decode(bytes.NewReader(f.PNG))
	if err != nil {
		t.Fatalf("%s: %v", f.Name, err)
	}
	const rim = 8
	b := m.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			if x >= rim && y >= rim && x < b.Dx()-rim && y < b.Dy()-rim {
				continue
			}
			if c := color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA); c != white {
				t.Fatalf("%s: ink %v at %d,%d on the rim", f.Name, c, x, y)
			}
		}
	}
}
