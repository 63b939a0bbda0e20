package proof

// Groups lists the processes in the order of a day, then what holds the whole.
func Groups() []Group {
	return []Group{
		{"atmosphere", atmosphere},
		{"snow", snowfall},
		{"heat", heatGroup},
		{"soil", soilGroup},
		{"column", columnGroup},
		{"drain", drainGroup},
		{"runoff", runoffGroup},
		{"salt", saltGroup},
		{"crop", cropYield},
		{"money", moneyChecks},
		{"routing", routing},
		{"floods", floods},
		{"second opinion", secondOpinionGroup},
		{"watershed evidence", watershedEvidence},
		{"rules of thumb", thumbGroup},
	}
}
