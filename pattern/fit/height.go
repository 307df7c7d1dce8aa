package fit

import (
	"fmt"
	"math"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// worthTelling is by how much a height may differ from the wished one in silence: sizes are
// told to the half centimetre.
const worthTelling = 0.25 * measure.Centimetre

// HeightsOf tells of the zones for which the file wishes a height that whole repeats don't
// meet: what was wished, and what it comes to.
func HeightsOf(l file.Layout, p *pattern.Pattern, s *Size) []string {
	var said []string
	for i, z := range l.Zones {
		is := s.Zones[i].Height.Likely
		if z.Height <= 0 || math.Abs(float64(is-z.Height)) < float64(worthTelling) {
			continue
		}
		said = append(said, fmt.Sprintf("%s was to be %s high: %d %ss, whole repeats, come to %s",
			quote(p.Zones[i].Name), z.Height, p.Zones[i].Rows(), p.Form.RowWord(), is))
	}
	return said
}
