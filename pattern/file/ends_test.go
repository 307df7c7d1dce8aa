package file

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern/safetext"
)

// TestAFrameThatEndsOnARidgeIsToldHowToEndAlike asks what a maker asks whose top does
// not look like the bottom. Arithmetic: a frame of knit and purl rows in turn is alike
// at both ends only with an odd number of rows; a knit row closes it, and so does a
// frame that begins and ends with a purl row.
func TestAFrameThatEndsOnARidgeIsToldHowToEndAlike(t *testing.T) {
	zone := func(name string, border bool, rows string, times int) string {
		return fmt.Sprintf("[[zone]]\nname = %q\nborder = %v\nrows = [%s]\ntimes = %d\n", name, border, rows, times)
	}
	cases := []struct {
		name  string
		zones string
		rows  int
		alike bool
	}{
		{"120 rows, the last one a purl row", zone("frame", true, `"k", "p"`, 60), 120, false},
		{"one knit row more", zone("frame", true, `"k", "p"`, 60) + zone("set-up", true, `"k"`, 1), 121, true},
		{
			"both ends begin and end with a purl row, 4 ridges each",
			zone("bottom border", true, `"p", "k", "p", "k", "p", "k", "p"`, 1) + zone("field", false, `"k"`, 10) +
				zone("top border", true, `"p", "k", "p", "k", "p", "k", "p"`, 1), 24, true,
		},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, found := mustLoad(t, "pattern = 1\npegs = 20\n"+c.zones)
			assert.Equal(t, c.rows, p.Grid.Rows())
			warnings := found.Of(safetext.Warning)
			if c.alike {
				assert.Empty(t, warnings)
				return
			}
			if assert.NotEmpty(t, warnings) {
				last := warnings[len(warnings)-1]
				assert.Contains(t, last.Message, "the ends are not alike")
				assert.Contains(t, last.Hint, "one knit row")
			}
		})
	}
	p, _ := mustLoad(t, "pattern = 1\npegs = 20\n"+cases[2].zones)
	assert.Equal(t, 4, p.RidgesIn(0))
	assert.Equal(t, 4, p.RidgesIn(2))
}
