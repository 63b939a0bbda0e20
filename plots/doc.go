// Package plots draws the figures of a comparison, a soil, a weather record, a decision
// and a basin, as SVG for pages and as PNG for the rest, and lays out the decision's
// page. It reads results and computes nothing but where ink goes:
// sorting, plotting positions, sums of a year's days.
//
// One look for all figures: the field as it lies is rust, solid lines, full
// circles and wide bars; the field with tile is slate, dashed lines, open squares
// and narrow bars, so that the twins part without colour too. Other colours are
// those of Okabe and Ito (2008), with hatches. Depth grows downward.
package plots
