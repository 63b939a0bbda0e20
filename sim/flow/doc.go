// Package flow holds formulas for water that leaves a piece of land: so far the
// curve number's runoff from a storm.
//
// The column does not use them: it infiltrates by physics. They say what decades
// of gauged fields would have led one to expect, so that the column's runoff can
// be held against it. Metres throughout.
package flow
