package fit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/fit"
)

func TestTheWidthIsThatOfTheWidestRow(t *testing.T) {
	p := made(t, head(4)+"[[zone]]\nname = \"field\"\nrows = [\"k\", \"k2tog, k2, none\", \"none, k3\"]\n")
	assert.InDelta(t, 4, cm(fit.SizeOf(p).Width.Likely), 1e-9)
}

func TestEqualRowsOfTwoZonesTakeTheirOwnYarn(t *testing.T) {
	p := made(t, head(30)+zone("loose", `"k"`, 10, `knit_as = "e-wrap"`)+zone("close", `"k"`, 10))
	n := fit.YarnOf(p)[0]
	// Against u-wrap: 1.4 to 1.7 by 1.08, stringtheoryfiberworks.blogspot.com/2014/02, one sample.
	assert.InDelta(t, 10*0.3*3.9, n.Zones[1].Metres.Likely, 1e-9)
	assert.InDelta(t, 10*0.3*3.4*1.4/1.08, n.Zones[0].Metres.Low, 1e-9)
	assert.InDelta(t, 10*0.3*4.2*1.7/1.08, n.Zones[0].Metres.High, 1e-9)
}

func TestClassesOfFiguresBetweenAndTogether(t *testing.T) {
	// The spans stand in the table of facts; between two of them the nearer counts.
	assert.Equal(t, []int{2}, fit.ByStitches(26.4))
	assert.Equal(t, []int{7}, fit.ByWraps(4.2))
	assert.Equal(t, []int{0}, fit.ByWraps(200))
	assert.Empty(t, fit.ByMetres(0))
	of := func(wpi, metres float64) []int {
		return fit.ClassesOf(pattern.YarnInfo{Weight: pattern.UnknownWeight, WPI: wpi, Metres: metres, Grams: 100})
	}
	assert.Equal(t, []int{4}, of(11, 180), "wraps allow 3 and 4, metres 4")
	assert.Equal(t, []int{3, 4, 6, 7}, of(11, 60), "what contradicts itself leaves both open")
	assert.Equal(t, []int{3, 4}, of(11, 0))
}

func TestABorderAtAnEndIsWholeRidges(t *testing.T) {
	edges := fit.EdgesOf(made(t, head(30)+zone("field", `"k"`, 200)))
	for _, e := range edges[2:] {
		assert.Equal(t, fit.Rolls, e.Roll)
		assert.Equal(t, 6, e.Border, "4 rows leave 0.446, 6 leave 0.32: our own design, unpublished")
		assert.True(t, e.ToFront)
	}
	again := fit.EdgesOf(made(t, head(30)+zone("bottom", `"k", "p"`, 3, "border = true")+zone("field", `"k"`, 200)))
	assert.Equal(t, fit.LiesFlat, again[2].Roll)
}

func TestYarnsThatHangWithinARowAreNoStrays(t *testing.T) {
	p := made(t, head(20)+"[yarns.moss]\ncolour = \"moss\"\n"+
		zone("a", `"k"`, 1)+zone("b", `"k"`, 2, `yarn = "moss"`)+
		"[[zone]]\nname = \"two\"\n[[zone.strip]]\npegs = 10\nrows = [\"k\"]\n[[zone.strip]]\npegs = 10\nyarn = \"moss\"\nrows = [\"k\"]\n"+
		zone("c", `"k"`, 1))
	assert.Empty(t, fit.StraysOf(pattern.Order{Pattern: p, Way: p.Way}), "where the yarns of a row hang is not known here")
}
