package look

import (
	"fmt"

	"bypeg/pattern/safetext"
)

// TooSmall says what a screen needs, in as many words as fit into width cells.
func TooSmall(needsWidth, needsHeight, width int) string {
	size := fmt.Sprintf("%d x %d", needsWidth, needsHeight)
	for _, says := range []string{"too small: needs " + size, "needs " + size, size} {
		if safetext.Width(says) <= width {
			return says
		}
	}
	return ""
}
