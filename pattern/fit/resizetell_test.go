package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/measure"
)

// A wish that the design can't meet is said to be one: at 14 stitches and 20 rows in 10 cm, 28
// of garter, the least that is left of the cloth is 18 pegs, 12.9 cm, and two borders of 3
// ridges, one repeat and the set-up row: 12 / 2.8 + 7 / 2.0 = 7.4 cm or so.
func TestABoundIsTold(t *testing.T) {
	texts := exampleTexts(t)
	for _, c := range []struct {
		pattern string
		wish    func(*Wish)
		want    []string
	}{
		{"sluice-cloth", func(w *Wish) { w.Height = 3 * cm }, []string{"7.5 cm is the lowest it can be: borders and pictures keep their height, and a repeat is worked once at the least"}},
		{"sluice-cloth", func(w *Wish) { w.Height = 7 * cm }, nil},
		{"sluice-cloth", func(w *Wish) { w.Width = 2 * cm }, []string{"18 pegs, 13 cm is the narrowest it can be: borders keep their width, and a repeat is worked once at the least"}},
		{"sluice-cloth", func(w *Wish) { w.Width = 16 * cm }, nil},
		{"sluice-cloth", func(w *Wish) { w.Height = 60 * cm }, nil},
		{"sluice-cloth", func(w *Wish) { w.Height = 200 * measure.Metre }, []string{"200 m high: is that the right unit?"}},
	} {
		r := mustResize(t, texts[c.pattern], asked(c.wish))
		assert.Equal(t, c.want, r.Notes)
	}
	one := "pattern = 1\npegs = 20\n" + gauge10 + "[[zone]]\nname = 'all'\nrows = ['k']\n"
	r := mustResize(t, one, asked(func(w *Wish) { w.Height = 60 * cm }))
	assert.Equal(t, []string{"0.5 cm is the highest it can be: nothing in it can be worked more often"}, r.Notes)
}

// Just so many pegs are just so many; where they don't come out the nearest are told, and that.
func TestJustSoManyPegs(t *testing.T) {
	text := exampleTexts(t)["sluice-cloth"]
	r := mustResize(t, text, asked(func(w *Wish) { w.Pegs = 24 }))
	assert.Equal(t, []int{24}, pegsOf(r))
	assert.Greater(t, len(r.Candidates), 2, "by several counts of rows")
	assert.Empty(t, r.Notes)
	r = mustResize(t, text, asked(func(w *Wish) { w.Pegs = 25 }))
	assert.Equal(t, []int{24, 30}, firstOf(pegsOf(r), 2))
	assert.Equal(t, []string{"on 25 pegs the repeats don't come out whole: these are the counts nearest to it"}, r.Notes)
}

// A border of 3 that becomes one of 2 no longer holds plain fabric flat, and that is told of
// the candidates it is so with; one that rolled before is not news.
func TestAnEdgeThatMayRollNowIsTold(t *testing.T) {
	text := framed("pegs = 30\n"+gauge16, "sides = 3\nrows = ['k']\ntimes = 30")
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 10, Rows: 14} }))
	for _, c := range r.Candidates {
		assert.Equal(t, 2, c.Sides)
		assert.Contains(t, c.Notes, "the left and right edges lay flat and may roll now: less likely with 3 border pegs there instead of 2")
	}
	bare := framed("pegs = 30\n"+gauge16, "rows = ['k']\ntimes = 30")
	for _, c := range mustResize(t, bare, asked(func(w *Wish) { w.Width = 30 * cm })).Candidates {
		assert.Empty(t, c.Notes)
	}
}

// A gauge that nobody measured is known to be one when it is written.
func TestACarriedGaugeIsKnownToBeOne(t *testing.T) {
	text := exampleTexts(t)["sluice-cloth"]
	assert.True(t, mustResize(t, text, asked(func(w *Wish) { w.Loom.SpacingMM = 12.7 })).Carried)
	assert.True(t, mustResize(t, text, asked(func(w *Wish) { w.Weight = 5 })).Carried)
	assert.True(t, mustResize(t, text, asked(func(w *Wish) { w.Gauge.Stitches = 12 })).Carried, "the rows were not measured")
	assert.False(t, mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 12, Rows: 17} })).Carried, "garter rows alone are told of, no more")
	assert.False(t, mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 12, Rows: 17, GarterRows: 24} })).Carried)
	assert.False(t, mustResize(t, text, asked(func(w *Wish) { w.Loom.Pegs = 24 })).Carried)
}

// What does not go together any more is told, as fit tells it.
func TestAnAbsurdGaugeIsDoubted(t *testing.T) {
	text := exampleTexts(t)["sluice-cloth"]
	r := mustResize(t, text, asked(func(w *Wish) { w.Gauge = pattern.Gauge{Stitches: 160, Rows: 220} }))
	assert.Contains(t, r.Notes, "the gauge says 160 stitches in 10 cm; by the spacing of the pegs one expects 13 to 16")
}
