package safetext

import "strings"

// Nearest is the candidate that word was most likely meant to be, for "did you mean",
// or "" where none is near: more than a third of the letters would have to change.
// Letter case does not count, two letters swapped count as one change, and of equally
// near candidates the first is taken.
func Nearest(word string, candidates []string) string {
	w := []rune(strings.ToLower(word[:min(len(word), 256)]))
	best, bestAt := "", len(w)
	for _, candidate := range candidates {
		c := []rune(strings.ToLower(candidate))
		far := max(1, max(len(w), len(c))/3)
		if len(w)-len(c) > far || len(c)-len(w) > far {
			continue
		}
		if d := distance(w, c); d < bestAt && d <= far {
			best, bestAt = candidate, d
		}
	}
	return best
}

// distance is how many letters must be put in, left out, changed or swapped with
// their neighbour to make b of a.
func distance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			change := 1
			if a[i] == b[j] {
				change = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+change)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
