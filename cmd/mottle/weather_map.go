package main

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"mottle/weather"
)

// mapColumns is the widest that the map of completeness gets, characters: with its
// labels it stays within 80.
const mapColumns = 60

// mapSigns are what a cell of the map says, from the most of the days on.
var mapSigns = []struct {
	least float64
	sign  byte
}{{0.99, '#'}, {0.95, '+'}, {0.80, '-'}, {1e-9, '.'}}

// mapKey explains them.
const mapKey = "# 99 % of the days and more, + from 95 %, - from 80 %, . less, blank none"

func mapSign(share float64) byte {
	for _, s := range mapSigns {
		if share >= s.least {
			return s.sign
		}
	}
	return ' '
}

// shortName is an element as tables and maps name it.
func shortName(element string) string {
	switch element {
	case "precipitation":
		return "precip"
	case "vapour pressure":
		return "vapour"
	case "snow depth":
		return "snow"
	}
	return element
}

// writeMap draws a cell for each element and year, wider where there are few years,
// or for each group of years where there are more than mapColumns.
func writeMap(b *bytes.Buffer, years []int, elements []weather.Completeness, days int) {
	group := (len(years) + mapColumns - 1) / mapColumns
	cells := (len(years) + group - 1) / group
	wide := min(4, mapColumns/cells)
	title := "days with a value, by year"
	if group > 1 {
		title = fmt.Sprintf("days with a value, by groups of %d years", group)
	}
	fmt.Fprintf(b, "%s\n%15s%s\n", title, "", mapYears(years, group, wide))
	for _, e := range elements {
		fmt.Fprintf(b, "%-6s %5.1f %% ", shortName(e.Element), 100*float64(e.Days)/float64(days))
		var row strings.Builder
		for k := 0; k < len(e.Share); k += group {
			sum, n := 0.0, 0
			for _, v := range e.Share[k:min(k+group, len(e.Share))] {
				sum += v
				n++
			}
			row.WriteString(strings.Repeat(string(mapSign(sum/float64(n))), wide))
		}
		fmt.Fprintln(b, strings.TrimRight(row.String(), " "))
	}
	fmt.Fprintln(b, wrap(mapKey, 80, "  "))
}

// mapYears is the line of years above the map, each over the cell that it begins.
func mapYears(years []int, group, wide int) string {
	line := []byte(strings.Repeat(" ", (len(years)/group+1)*wide+4))
	free := 0
	for k := 0; k < len(years); k += group {
		round := years[k]%5 == 0 || k == 0
		if group > 1 { // the cell that holds a year which ends in 0
			round = (years[k]+group-1)/10 != (years[k]-1)/10 || k == 0
		}
		if at := k / group * wide; round && at >= free && at+4 <= len(line) {
			copy(line[at:], strconv.Itoa(years[k]))
			free = at + 6
		}
	}
	return strings.TrimRight(string(line), " ")
}
