package soil

// TextureClass names the USDA texture class of sand and clay percentages
// (Soil Survey Manual, 2017, chapter 3; from memory).
func TextureClass(sand, clay float64) string {
	silt := 100 - sand - clay
	switch {
	case silt+1.5*clay < 15:
		return "sand"
	case silt+1.5*clay >= 15 && silt+2*clay < 30:
		return "loamy sand"
	case clay >= 7 && clay < 20 && sand > 52 && silt+2*clay >= 30, clay < 7 && silt < 50 && silt+2*clay >= 30:
		return "sandy loam"
	case clay >= 7 && clay < 27 && silt >= 28 && silt < 50 && sand <= 52:
		return "loam"
	case silt >= 50 && clay >= 12 && clay < 27, silt >= 50 && silt < 80 && clay < 12:
		return "silt loam"
	case silt >= 80 && clay < 12:
		return "silt"
	case clay >= 20 && clay < 35 && silt < 28 && sand > 45:
		return "sandy clay loam"
	case clay >= 27 && clay < 40 && sand > 20 && sand <= 45:
		return "clay loam"
	case clay >= 27 && clay < 40 && sand <= 20:
		return "silty clay loam"
	case clay >= 35 && sand > 45:
		return "sandy clay"
	case clay >= 40 && silt >= 40:
		return "silty clay"
	}
	return "clay"
}

// coarseTexture tells Johansen's coarse soils from fine ones: sands and sandy
// loams.
func coarseTexture(class string) bool {
	return class == "sand" || class == "loamy sand" || class == "sandy loam"
}
