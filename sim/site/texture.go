package site

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mottle/sim/unit"
	"mottle/soil"
)

// classes are the textures that Saxton and Rawls (2006, Soil Sci. Soc. Am. J.
// 70:1569, table 3) give for the middle of each class, percent.
var classes = []struct {
	name       string
	sand, clay float64
}{
	{"sand", 88, 5}, {"loamy sand", 80, 5}, {"sandy loam", 65, 10}, {"loam", 40, 20}, {"silt loam", 20, 15}, {"silt", 10, 5},
	{"sandy clay loam", 60, 25}, {"clay loam", 30, 35}, {"silty clay loam", 10, 35}, {"silty clay", 10, 45}, {"sandy clay", 50, 40}, {"clay", 25, 50},
}

// Textures lists the texture classes from sand to clay.
func Textures() []string {
	names := make([]string, len(classes))
	for i, c := range classes {
		names[i] = c.name
	}
	return names
}

// TextureMiddle is the sand and clay, percent, that stand for a texture class. The
// error says what was found and lists the classes.
func TextureMiddle(class string) (sand, clay float64, err error) {
	class = strings.ToLower(strings.TrimSpace(class))
	i := slices.Index(Textures(), class)
	if i < 0 {
		mend := ""
		if near := unit.Nearest(class, Textures()); near != "" {
			mend = fmt.Sprintf(": did you mean %q?", near)
		}
		return 0, 0, fmt.Errorf("found %.80q; allowed %s%s", class, strings.Join(Textures(), ", "), mend)
	}
	return classes[i].sand, classes[i].clay, nil
}

// topsoil is the depth of the ploughed layer, m (common practice).
const topsoil = 0.25

// Uniform is the profile of one texture (percent) from the surface to a depth, m:
// topsoil with its organic matter (percent), and subsoil with the reader's default.
func Uniform(sand, clay, organic, depth float64) []soil.Horizon {
	layer := func(name string, top, bottom float64) soil.Horizon {
		h := soil.NewHorizon(top, bottom)
		h.Name, h.Sand, h.Clay = name, sand, clay
		return h
	}
	top := layer("topsoil", 0, math.Min(topsoil, depth))
	top.Organic = organic
	if depth <= topsoil {
		return []soil.Horizon{top}
	}
	return []soil.Horizon{top, layer("subsoil", topsoil, depth)}
}
