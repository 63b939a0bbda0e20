// Package sim runs one field through time: it composes weather, snow, heat,
// water, drains, crop and salt into a day, and a record of days into measures.
//
//	Forcing   the weather as the field meets it, shared by both twins
//	Plot      the ground: cells, horizons, drains, shared by all runs of a field
//	Engine    the state of one twin, and its Day
//	Record    what the days left behind: series, yearly measures, ledgers
//
// One day: heat through yesterday's snow and the soil, ice; snow and what
// reaches the ground; water in hourly steps when it rains, with drain, roots and
// evaporation; salt with the water; the crop. Depths m, time s, daily water mm.
package sim
