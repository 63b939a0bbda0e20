// Package soil turns horizons into hydraulic and thermal properties.
//
// In go what a person knows of each horizon (texture, organic matter, density,
// or measured values); out come a retention curve, a conductivity curve, the
// ECe to start from and the thermal constants, each with the published relation
// it was derived by. Two relations from texture stand to choose from, and their
// disagreement is told; a US soil survey's table of horizons is read as it comes.
// Depths are metres below the surface, pressure heads metres
// of water (negative when unsaturated), conductivities m/s.
package soil
