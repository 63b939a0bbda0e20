package washoff

// Load is what a depth of water (m) carries off at a concentration (mg/L), kg/m2: 1 mm at
// 1 mg/L is 0.01 kg/ha.
func Load(depth, concentration float64) float64 { return depth * concentration * 1e-3 }
