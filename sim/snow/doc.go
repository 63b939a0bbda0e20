// Package snow keeps one snow pack on a plot, as one layer, day by day:
// snowfall kept or blown off, melt from above and below, liquid water held,
// refrozen or let through, settling, and the insulation that the pack gives
// the ground.
//
// Water is in metres of liquid water throughout, temperature in C, density in
// kg/m3, a day is the step. Each day closes exactly, to rounding:
//
//	precipitation = change of [Pack].SWE + Outflow + BlownOff
package snow
