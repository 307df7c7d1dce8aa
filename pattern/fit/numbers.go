package fit

import (
	"math"
	"strconv"
	"strings"
)

// decimal reads a number with a point or a comma, but no comma that may stand for
// thousands.
func decimal(s string) (float64, bool) {
	if _, after, ok := strings.Cut(s, ","); ok && len(after) == 3 {
		return 0, false
	}
	x, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	return x, err == nil && !math.IsInf(x, 0) && !math.IsNaN(x) && x >= 0
}
