package unit

import "strings"

// Nearest returns the allowed word that is most like the one found, for "did
// you mean", or "" when none is near: one that differs in its case only, that
// begins with the word found, or that differs in no more than half of its
// letters.
func Nearest(found string, allowed []string) string {
	lower := strings.ToLower(found)
	best, least := "", len(found)/2+1
	for _, word := range allowed {
		known := strings.ToLower(word)
		if known == lower || len(found) >= 3 && strings.HasPrefix(known, lower) {
			return word
		}
		if d := distance(lower, known); d < least {
			best, least = word, d
		}
	}
	return best
}

// distance counts the insertions, deletions, replacements and exchanges of two
// neighbours that part two words (Damerau 1964, no letter touched twice).
func distance(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range len(a) {
		row[0] = i + 1
		for j := range len(b) {
			replace := last[j]
			if a[i] != b[j] {
				replace++
			}
			row[j+1] = min(replace, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
