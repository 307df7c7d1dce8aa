package fit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

func TestLoomsAreReadInTheirOrder(t *testing.T) {
	got, found := Looms("looms.toml", []byte(`looms = 1
[window] # by the canal
pegs = 24
spacing = "1/2 in"
["far door"]
pegs = 41
stitches = 8
rows = 11
over = "5 cm"
`))
	require.Empty(t, found)
	assert.Equal(t, []OwnedLoom{
		{Name: "window", Loom: pattern.Loom{Pegs: 24, SpacingMM: 12.7}, Spacing: "1/2 in"},
		{Name: "far door", Loom: pattern.Loom{Pegs: 41}, Gauge: pattern.Gauge{Stitches: 16, Rows: 22}},
	}, got)
}

func TestLoomsSayWhatToWrite(t *testing.T) {
	for _, c := range []struct{ name, text, want, hint string }{
		{"nothing", "", "f:1:1: this is no looms file: it does not begin with looms = 1", "write looms = 1 as the first line"},
		{"no loom", "looms = 1\n", "f:1:1: there is no loom in the file", "write [window], or what the loom is called, and below it pegs = 24"},
		{"no pegs", "looms = 1\n[a]\n", `f:2:2: the loom "a" does not say how many pegs it has`, "write pegs = 24, or how many it has, below its name"},
		{"no number of pegs", "looms = 1\n[a]\npegs = 0\n", "f:3:8: pegs is a whole number from 1 to 4000", "write it like pegs = 24"},
		{"a key that is none", "looms = 1\n[a]\npegs = 4\nspaces = 3\n", `f:4:1: a loom has no key "spaces"`, "its keys are pegs, spacing, stitches, rows, over"},
		{"nearly a key", "looms = 1\n[a]\npegs = 4\nspacin = 3\n", `f:4:1: a loom has no key "spacin"`, "did you mean spacing?"},
		{"no unit", "looms = 1\n[a]\npegs = 4\nspacing = '3'\n", `f:4:11: spacing: "3" has no unit: write 3 cm, 3 mm or 3 in`, ""},
		{"no length", "looms = 1\n[a]\npegs = 4\nspacing = 3\n", `f:4:11: spacing takes a length in quotes; this is a whole number`, `write it like spacing = "1/2 in"`},
		{"a figure over nothing", "looms = 1\n[a]\npegs = 4\nrows = 3\n", "f:4:8: the loom does not say over which length its rows were counted", `add over = "10 cm", or over = "4 in"`},
		{"no figure", "looms = 1\n[a]\npegs = 4\nover = '10 cm'\nrows = -3\n", "f:5:8: rows is a number above 0", "leave the key out where nobody measured it"},
		{"an absurd gauge", "looms = 1\n[a]\npegs = 4\nover = '1 mm'\nrows = 300\n", "f:5:8: 30000 rows in 10 cm is no gauge of knitted fabric", "count over a relaxed swatch, and check over"},
		{"twice", "looms = 1\n[a]\npegs = 4\n['a\u200b']\npegs = 4\n", `f:4:2: there are two looms called "a"`, "give each a name of its own"},
		{"another version", "looms = 2\n[a]\npegs = 4\n", "f:1:9: this program reads looms = 1 and no other", "write looms = 1, or look for a newer version of this program"},
		{"a key in no loom", "looms = 1\npegs = 4\n[a]\npegs = 4\n", `f:2:1: "pegs" stands in no loom`, "write [window], or what the loom is called, above its keys"},
		{"no TOML", "looms = 1\n[a\n", "f:2:3: the header should end with ] here", ""},
		{"too much", "looms = 1\n#" + strings.Repeat("x", 256<<10), "f:1:1: the file is larger than the 256 KiB a loom list may have", "check that this is a loom list file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, found := Looms("f", []byte(c.text))
			assert.Empty(t, got)
			require.Len(t, found, 1)
			assert.Equal(t, c.want, found[0].Error())
			assert.Equal(t, c.hint, found[0].Hint)
		})
	}
}

func FuzzLooms(f *testing.F) {
	f.Add("looms = 1\n[window]\npegs = 24\nspacing = '1/2 in'\nrows = 3\nover = '1 cm'\n")
	f.Add("looms = 2\npegs = 0\n[a]\n[b]\nstitches = nan\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, found := Looms("f", []byte(text))
		assert.Equal(t, len(found) > 0, len(got) == 0)
		for _, l := range got {
			assert.True(t, l.Loom.Pegs >= 1 && l.Loom.Pegs <= pattern.MaxPegs)
			assert.True(t, l.Gauge.Rows >= 0 && l.Loom.SpacingMM >= 0)
		}
	})
}
