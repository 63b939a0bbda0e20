// Package money says what drain tile costs and what it is worth: present value,
// rate of return, payback and break-even of a series of yearly flows; an
// itemised bill of a system with the prices behind it, each with its range,
// year, source and how well it is known; and draws from such ranges and from
// the years of a record.
//
// Money is in US dollars (USD), of one purchasing power: with real flows belongs
// a real rate ([RealRate]), with nominal flows a nominal one. Lengths, areas and
// volumes are in SI units; crops are priced by the bushel, as they are quoted.
// Rates and shares are fractions: 0.05 is 5 % a year.
// The outlay falls at time 0 and every later flow at the end of its year. A
// function given an argument outside its stated range returns NaN unless it says
// otherwise.
package money
