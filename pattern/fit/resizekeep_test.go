package fit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// What a design keeps when it is resized, beside its size.

// A border of a single peg would not hold an edge flat: common practice, no source.
func TestBordersNeverBecomeNarrowerThanTwoPegs(t *testing.T) {
	for sides, want := range map[string]int{"3": 2, "2": 2, "1": 1} {
		text := framed("pegs = 40\n"+gauge16, "sides = "+sides+"\nrows = ['k']\ntimes = 30")
		c := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 6, Rows: 8.25} })).Candidates[0]
		assert.Equal(t, want, c.Sides, "%s pegs were 6.25 mm each and would be 16.7 mm", sides)
	}
}

// Side rows are read on the new count too: one that takes two pegs a repeat stays even.
func TestSideRowsComeOutWhole(t *testing.T) {
	text := framed("pegs = 40\n"+gauge16, "sides = 4\nside_rows = ['*k1, p1; rep from * to end', '*p1, k1; rep from * to end']\nrows = ['k']\ntimes = 30")
	c := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 20, Rows: 27.5} })).Candidates[0]
	assert.Contains(t, []int{4, 6}, c.Sides, "5 pegs would be just as wide")
}

func TestAMotifStaysInTheMiddle(t *testing.T) {
	text := framed("pegs = 27\n"+gauge10+"[motif.boat]\nchart = '-----'\n", "sides = 3\nmotif = 'boat'")
	for _, c := range mustResize(t, text, asked(func(w *Wish) { w.Width = 40 * cm })).Candidates {
		assert.Equal(t, 1, c.Pegs%2, "5 pegs stand in the middle of an odd number")
	}
	placed := strings.Replace(text, "chart = '-----'", "chart = '-----'\nat = [2, 1]", 1)
	assert.Equal(t, 40, mustResize(t, placed, asked(func(w *Wish) { w.Width = 40 * cm })).Candidates[0].Pegs)
}

// A motif with a height stands in a field that may grow, and never grows lower than it.
func TestAFieldIsNeverLowerThanItsMotif(t *testing.T) {
	text := framed("pegs = 20\n"+gauge10+"[motif.mast]\nchart = '''\n"+strings.Repeat("-\n", 20)+"'''\nat = [5, 3]\n", "motif = 'mast'\nheight = '30 cm'")
	c := mustResize(t, text, asked(func(w *Wish) { w.Height = 8 * cm })).Candidates[0]
	assert.Equal(t, 22, c.Pattern.Zones[1].Rows(), "20 rows from the third on")
	c = mustResize(t, text, asked(func(w *Wish) { w.Height = 50 * cm })).Candidates[0]
	assert.InDelta(t, 50, c.Height.In(cm), 0.4)
}

// What one field gains by whole repeats the next makes up for.
func TestFieldsShareTheHeight(t *testing.T) {
	text := "pattern = 1\npegs = 20\n" + gauge10 +
		"[[zone]]\nname = 'a'\nrows = ['k', 'k', 'k', 'k', 'k', 'k', 'k']\ntimes = 8\n" +
		"[[zone]]\nname = 'b'\nrows = ['p']\ntimes = 50\n"
	for _, height := range []float64{80, 90, 93, 97, 100, 104, 110} {
		c := mustResize(t, text, asked(func(w *Wish) { w.Height = measure.Length(height) * cm })).Candidates[0]
		assert.InDelta(t, height, c.Height.In(cm), 0.36, "half a row of the second field")
		a, b := c.Pattern.Zones[0].Rows(), c.Pattern.Zones[1].Rows()
		assert.InDelta(t, 56.0/50, float64(a)/float64(b), 0.15, "in proportion")
	}
}

// A zone that copies another is left alone where what it copies is right; it gets a key of
// its own where it must differ.
func TestCopiedKeysStayCopied(t *testing.T) {
	text := framed("pegs = 40\n"+gauge16, "sides = 4\nrows = ['k']\ntimes = 30") +
		"\n[[zone]]\nname = 'field again'\nlike = 'field'\n\n[[zone]]\nname = 'low field'\nlike = 'field'\ntimes = 10\n"
	c := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 24, Rows: 33} })).Candidates[0]
	was, is := file.LayoutOf([]byte(text)), file.LayoutOf(c.Text)
	require.Len(t, is.Zones, len(was.Zones))
	for i := range is.Zones {
		assert.Equal(t, was.Zones[i].OwnSides, is.Zones[i].OwnSides, i)
		assert.Equal(t, was.Zones[i].OwnTimes, is.Zones[i].OwnTimes, i)
	}
	assert.Equal(t, 6, c.Pattern.Zones[4].Sides)
	assert.Equal(t, c.Pattern.Zones[1].Rows(), c.Pattern.Zones[4].Rows())
	assert.Less(t, c.Pattern.Zones[5].Rows(), c.Pattern.Zones[1].Rows())
}

// Strips grow beside one that is drawn, and what that does to the height is made up for.
func TestStripsGrowBesideAPicture(t *testing.T) {
	text := exampleTexts(t)["two-bank-scarf"]
	p, _ := file.Load("f", []byte(text))
	c := mustResize(t, text, asked(func(w *Wish) { w.Width, w.Loom.Pegs = 52*cm, 80 })).Candidates[0]
	assert.Equal(t, 62, c.Pegs, "12 in 10 cm")
	assert.InDelta(t, heightOf(p).In(cm), c.Height.In(cm), 1.4, "half of 6 rows at some 22 in 10 cm")
}

func TestStripsThatAreAlikeStayAlike(t *testing.T) {
	text := "pattern = 1\npegs = 30\n" + gauge10 + `[[zone]]
name = "banks"
times = 4
[[zone.strip]]
pegs = 10
rows = ["k"]
[[zone.strip]]
pegs = 10
rows = ["p"]
[[zone.strip]]
pegs = 10
rows = ["k"]
`
	for pegs := 20; pegs < 60; pegs++ {
		c := mustResize(t, text, asked(func(w *Wish) { w.Pegs = pegs })).Candidates[0]
		s := c.Pattern.Zones[0].Strips
		require.Len(t, s, 3)
		assert.Equal(t, s[0].To-s[0].From, s[2].To-s[2].From)
		assert.Equal(t, pegs, c.Pegs)
	}
}

// Where nothing says how the gauge changes it stays, and that is told.
func TestAGaugeThatStaysIsTold(t *testing.T) {
	text := framed("pegs = 40\n"+gauge16, "rows = ['k']\ntimes = 30")
	r := mustResize(t, text, asked(func(w *Wish) { w.Loom.SpacingMM = 9.525 }))
	assert.Equal(t, []string{"the pattern does not say the spacing of its own loom, so the gauge stays as it is: measure yours and add --gauge"}, r.Notes)
	assert.Equal(t, 40, r.Candidates[0].Pegs)
	assert.Contains(t, string(r.Candidates[0].Text), "spacing = \"9.525 mm\"")
	r = mustResize(t, text, asked(func(w *Wish) { w.Weight = 3 }))
	assert.Equal(t, []string{"the pattern does not say the class of its own yarn, so the gauge stays as it is: measure yours and add --gauge"}, r.Notes)
}

// A round loom has no edge where pegs could be left out: common practice, no source.
func TestATubeClosesOnAllPegsOfARoundLoom(t *testing.T) {
	text := exampleTexts(t)["lock-collar"]
	r := mustResize(t, text, asked(func(w *Wish) { w.Loom.Pegs = 48 }))
	assert.Equal(t, []string{"a tube on a round loom closes on all its 48 pegs (--fill asks for them); on fewer only a long loom works it"}, r.Candidates[0].Notes)
	r = mustResize(t, text, asked(func(w *Wish) { w.Loom.Pegs, w.Fill = 48, true }))
	assert.Equal(t, 48, r.Candidates[0].Pegs)
	assert.Empty(t, r.Candidates[0].Notes)
}

func TestASquashedChartIsTold(t *testing.T) {
	text := framed("pegs = 8\n"+gauge10, "chart = \"\"\"\n||----||\n||||||||\n\"\"\"\ntimes = 9")
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge, w.Pegs = pattern.Gauge{Stitches: 10, Rows: 17.5}, 8 }))
	assert.Equal(t, []string{`the chart of zone "field" comes out squashed by 20 %: look at it if it is a picture`}, r.Notes)
}

// Without a gauge the size goes by the spacing of the pegs, and that is told; a design for
// pegs half as far apart takes twice as many.
func TestASizeByTheSpacingIsToldToBeAnEstimate(t *testing.T) {
	text := framed("pegs = 40\n[loom]\nspacing = '1/2 in'\n", "rows = ['k']\ntimes = 30")
	r := mustResize(t, text, asked(func(w *Wish) { w.Loom.SpacingMM, w.Spacing = 6.35, "1/4 in" }))
	assert.Equal(t, []string{"there is no gauge, so sizes go by the spacing of the pegs: work a swatch before you cast on"}, r.Estimated)
	assert.Equal(t, 80, r.Candidates[0].Pegs)
	assert.NotContains(t, string(r.Candidates[0].Text), "[gauge]", "an estimate is not written down as a gauge")
}
