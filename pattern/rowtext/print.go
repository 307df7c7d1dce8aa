package rowtext

import "strings"

// Print writes runs as a row: "k3, p2, k3", always with counts. Read on as many pegs
// they are the same runs where neighbours differ.
func Print(runs []Run) string {
	var b strings.Builder
	b.Grow(5 * len(runs))
	for i, r := range runs {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(shortName(r.Stitch, r.Count))
	}
	return b.String()
}
