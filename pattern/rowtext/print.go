package rowtext

import (
	"strconv"
	"strings"

	"bypeg/pattern"
)

// Print writes runs as a row: "k3, p2, k3", always with counts. Expand reads it back
// into the same runs where neighbours differ and every stitch leaves one loop for
// one; stitches that Expand does not read are written by their short names.
func Print(runs []Run) string {
	var b strings.Builder
	b.Grow(5 * len(runs))
	for i, r := range runs {
		if i > 0 {
			b.WriteString(", ")
		}
		name, behind := r.Stitch.Short(), ""
		if r.Stitch == pattern.SlipFront {
			// Rows have the count right behind sl and the place of the yarn last.
			name, behind = pattern.Slip.Short(), " wyif"
		}
		b.WriteString(name)
		b.WriteString(strconv.Itoa(r.Count))
		b.WriteString(behind)
	}
	return b.String()
}
