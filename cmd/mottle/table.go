package main

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// columnGap parts the columns of a table.
const columnGap = "  "

// writeTable aligns rows of cells: the first columns, as many as left says, to
// the left, the others to the right.
func writeTable(b *bytes.Buffer, rows [][]string, left int) {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			if i > 0 {
				line.WriteString(columnGap)
			}
			blank := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i < left {
				line.WriteString(cell + blank)
			} else {
				line.WriteString(blank + cell)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}

// wrap breaks a text at blanks into lines of at most width characters, where its
// words allow; each but the first is indented.
func wrap(text string, width int, indent string) string {
	var b strings.Builder
	at := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case at == 0:
		case at+1+n > width:
			b.WriteString("\n" + indent)
			at = utf8.RuneCountInString(indent)
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	return b.String()
}
