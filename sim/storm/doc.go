// Package storm spreads daily rain over the hours of each day: it draws a
// storm's length by season, its place in the day at random, and one of Huff's
// median shapes, and keeps every millimetre.
//
// Daily totals cannot tell how hard it rained. The peaks that follow from one
// draw are one possibility; run several draws and report the band. Two fields
// that are to be compared share one hourly array.
package storm
