package plots

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var themed = regexp.MustCompile(`var\(--([a-z0-9-]+),#[0-9A-F]{6}\)`)

// Figures of a page take every colour from the style sheet, which has it for light
// and for dark.
func TestFiguresFollowTheScheme(t *testing.T) {
	light, dark := scheme(t, 0), scheme(t, 1)
	text := pageOf(t, invent(t, 40), false)
	_, body, _ := strings.Cut(text, "</style>")
	for _, m := range themed.FindAllStringSubmatch(body, -1) {
		if light[m[1]] == nil || dark[m[1]] == nil {
			t.Fatalf("colour %q is not in both schemes", m[1])
		}
	}
	if left := regexp.MustCompile(`(fill|stroke):#[0-9A-Fa-f]+`).FindAllString(body, 3); left != nil {
		t.Errorf("colours of no scheme: %q", left)
	}
}

// scheme reads the colours of the style sheet's n-th :root block.
func scheme(t *testing.T, n int) map[string][]float64 {
	t.Helper()
	block, _, _ := strings.Cut(strings.Split(pageStyle, ":root {")[n+1], "}")
	colours := map[string][]float64{}
	for _, m := range regexp.MustCompile(`--([a-z0-9-]+): #(..)(..)(..);`).FindAllStringSubmatch(block, -1) {
		for _, hex := range m[2:] {
			v, err := strconv.ParseUint(hex, 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			colours[m[1]] = append(colours[m[1]], float64(v)/255)
		}
	}
	return colours
}

// Letters stand out from their ground by 4.5 to 1 (WCAG 2.2, success criterion 1.4.3,
// level AA), in light and in dark.
func TestContrastOfTheSchemes(t *testing.T) {
	luminance := func(c []float64) float64 {
		y := 0.0
		for i, w := range []float64{0.2126, 0.7152, 0.0722} {
			v := c[i] / 12.92
			if c[i] > 0.04045 {
				v = math.Pow((c[i]+0.055)/1.055, 2.4)
			}
			y += w * v
		}
		return y
	}
	for n := range 2 {
		colours := scheme(t, n)
		pairs := [][2]string{{"ink", "paper"}, {"ink", "ground"}, {"soft", "paper"}, {"soft", "ground"}, {"link", "paper"}, {"link", "ground"}, {"ink", "pale-slate"}, {"paper", "ink"}}
		for i := range gains {
			pairs = append(pairs, [2]string{"ink", fmt.Sprintf("gain-%d", i+1)}, [2]string{"ink", fmt.Sprintf("harm-%d", i+1)})
		}
		for _, p := range pairs {
			a, b := luminance(colours[p[0]]), luminance(colours[p[1]])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < 4.5 {
				t.Errorf("scheme %d: %s on %s %.2f to 1", n, p[0], p[1], ratio)
			}
		}
	}
	// The light scheme's shades are those of figures in files.
	light := scheme(t, 0)
	for c, name := range inks {
		want := []float64{float64(c.R) / 255, float64(c.G) / 255, float64(c.B) / 255}
		if !slices.Equal(light[name], want) {
			t.Errorf("%s is %v on the page, %v in files", name, light[name], want)
		}
	}
}
