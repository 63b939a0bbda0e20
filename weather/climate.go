package weather

// Climate is what the weather generator needs to know of a place.
type Climate struct {
	Name      string
	Latitude  float64 // deg, north positive
	Elevation float64 // m
	Invented  bool    // the parameters were made up, not fitted to a record
	Months    [12]ClimateMonth
}

// ClimateMonth holds the generator's parameters of one month (Richardson 1981).
type ClimateMonth struct {
	WetAfterDry, WetAfterWet float64 // probability of a wet day after a dry and after a wet one
	Shape, Scale             float64 // of the gamma distribution of wet-day amounts; scale in mm

	TmaxDry, TmaxWet, TmaxSD    float64 // C
	Tmin, TminSD                float64 // C, the same on dry and wet days
	SolarDry, SolarWet, SolarSD float64 // MJ/m2/d
}

// WetFraction returns the long-run share of wet days, PWD/(1 - PWW + PWD).
func (m ClimateMonth) WetFraction() float64 {
	return m.WetAfterDry / (1 - m.WetAfterWet + m.WetAfterDry)
}

// DemoClimate returns an invented climate near 47 N with hard winters and most of
// its rain in early summer: about 650 mm and 98 wet days a year, mean 5.5 C. It is
// the climate of no place.
func DemoClimate() Climate {
	return Climate{
		Name: "invented cold-winter plain", Latitude: 46.9, Elevation: 300, Invented: true,
		Months: [12]ClimateMonth{
			{0.20, 0.35, 0.90, 2.667, -7.5, -6.5, 7.0, -18.0, 8.0, 6.3, 4.6, 1.7},
			{0.19, 0.34, 0.88, 2.841, -4.5, -4.0, 6.8, -15.2, 7.8, 10.0, 7.2, 2.5},
			{0.20, 0.37, 0.80, 5.000, 3.0, 1.2, 6.6, -7.6, 6.8, 14.6, 9.8, 3.6},
			{0.23, 0.42, 0.78, 7.179, 13.2, 9.2, 6.4, -0.2, 4.8, 19.3, 11.8, 4.9},
			{0.27, 0.45, 0.76, 10.26, 21.0, 17.0, 5.4, 6.6, 4.5, 23.4, 14.6, 5.6},
			{0.30, 0.46, 0.72, 14.17, 26.0, 22.6, 4.3, 12.4, 3.8, 25.6, 17.0, 5.6},
			{0.26, 0.38, 0.72, 14.72, 28.8, 26.0, 3.7, 15.0, 3.3, 25.7, 18.4, 4.8},
			{0.24, 0.37, 0.70, 14.00, 27.8, 25.2, 3.9, 13.6, 3.7, 21.8, 15.6, 4.6},
			{0.23, 0.40, 0.72, 11.94, 22.4, 18.6, 5.2, 7.8, 4.6, 16.4, 10.6, 4.1},
			{0.20, 0.39, 0.76, 8.421, 14.0, 10.2, 6.0, 1.2, 4.7, 10.7, 6.6, 3.1},
			{0.19, 0.36, 0.80, 5.250, 3.6, 1.4, 6.6, -6.6, 5.9, 6.7, 4.4, 2.0},
			{0.20, 0.36, 0.88, 2.955, -4.8, -4.4, 6.8, -14.4, 7.5, 5.2, 3.7, 1.4},
		},
	}
}

// Wetter returns the climate with every wet day's rain multiplied by factor.
func (c Climate) Wetter(factor float64) Climate {
	for i := range c.Months {
		c.Months[i].Scale *= factor
	}
	return c
}
