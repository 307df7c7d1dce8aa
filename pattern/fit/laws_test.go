package fit_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
	"bypeg/pattern/patterntest"
)

// anyPattern is a pattern that can be worked.
func anyPattern(t *rapid.T) *pattern.Pattern {
	for {
		if p, errs := pattern.Build(patterntest.Plans().Draw(t, "plan")); len(errs) == 0 {
			p.Yarns = []pattern.YarnInfo{{Weight: 4, Metres: 85, Grams: 50}, {Weight: pattern.UnknownWeight}}
			return p
		}
	}
}

// closeTo tells two ranges that agree but for rounding.
func closeTo[T ~float64](t assert.TestingT, want, got fit.Range[T], factor float64, msg string) {
	assert.InEpsilon(t, 1+factor*float64(want.Low), 1+float64(got.Low), 1e-9, msg)
	assert.InEpsilon(t, 1+factor*float64(want.Likely), 1+float64(got.Likely), 1e-9, msg)
	assert.InEpsilon(t, 1+factor*float64(want.High), 1+float64(got.High), 1e-9, msg)
}

// A gauge k times as dense makes everything k times as small, and the yarn of the rows with
// it: a loop is as many widths of its stitch at any gauge.
func TestScalingAGauge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		p.Gauge = pattern.Gauge{
			Stitches: rapid.Float64Range(3, 60).Draw(t, "stitches"), Rows: rapid.Float64Range(3, 90).Draw(t, "rows"),
			GarterRows: rapid.SampledFrom([]float64{0, 20, 45}).Draw(t, "garter rows"),
		}
		p.Swatch = pattern.Swatch{}
		k := rapid.Float64Range(0.3, 3).Draw(t, "factor")
		q := *p
		q.Gauge.Stitches, q.Gauge.Rows, q.Gauge.GarterRows = k*p.Gauge.Stitches, k*p.Gauge.Rows, k*p.Gauge.GarterRows
		q.Gauges = nil
		for _, g := range p.Gauges {
			g.Stitches, g.Rows, g.GarterRows = k*g.Stitches, k*g.Rows, k*g.GarterRows
			q.Gauges = append(q.Gauges, g)
		}
		was, is := fit.SizeOf(p), fit.SizeOf(&q)
		closeTo(t, was.Width, is.Width, 1/k, "width")
		closeTo(t, was.Height, is.Height, 1/k, "height")
		a, b := fit.YarnOf(p), fit.YarnOf(&q)
		for i := range a {
			for z := range a[i].Zones {
				closeTo(t, a[i].Zones[z].Metres, b[i].Zones[z].Metres, 1/k, "yarn")
			}
		}
	})
}

// What is told of the whole is the sum of its parts, and bounds are in their order.
func TestSizesAndYarnAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		p.Gauge.Stitches = rapid.SampledFrom([]float64{0, 12}).Draw(t, "stitches")
		p.Loom.SpacingMM = rapid.SampledFrom([]float64{0, 9.5}).Draw(t, "spacing")
		s := fit.SizeOf(p)
		var height fit.Range[measure.Length]
		for i, z := range s.Zones {
			height.Low, height.Likely, height.High = height.Low+z.Height.Low, height.Likely+z.Height.Likely, height.High+z.Height.High
			assert.LessOrEqual(t, z.Width.Low, s.Width.High+1e-9, "zone %d", i)
			assert.GreaterOrEqual(t, z.Garter, 0.0)
			assert.LessOrEqual(t, z.Garter, 1+1e-9)
		}
		closeTo(t, height, s.Height, 1, "height")
		inOrder(t, s.Width)
		inOrder(t, s.Height)
		for _, n := range fit.YarnOf(p) {
			inOrder(t, n.Metres)
			inOrder(t, n.Grams)
			sum := n.CastOn.Plus(n.BindOff)
			for _, z := range n.Zones {
				sum = sum.Plus(z)
			}
			closeTo(t, sum.Metres, n.Metres, 1, "metres")
		}
		for _, e := range fit.EdgesOf(p) {
			assert.LessOrEqual(t, e.Index, 1.0+1e-9)
			assert.GreaterOrEqual(t, e.Index, -1.0-1e-9)
		}
		fit.Doubts(p, &s)
	})
}

func inOrder[T ~float64](t assert.TestingT, r fit.Range[T]) {
	assert.LessOrEqual(t, r.Low, r.Likely)
	assert.LessOrEqual(t, r.Likely, r.High)
}

// A swatch that weighs what the geometry says leads back to what the geometry says.
func TestAWeighedSwatchThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stitches, rows := rapid.IntRange(8, 60).Draw(t, "stitches"), rapid.IntRange(8, 60).Draw(t, "rows")
		ball := rapid.Float64Range(30, 400).Draw(t, "metres in 100 g")
		text := func(pegs, rows int, more string) string {
			return inGauge(pegs, 14, 20) + more + fmt.Sprintf("[yarn]\nmetres = %v\ngrams = 100\n", ball) + zone("field", `"k"`, rows)
		}
		swatch := fit.YarnOf(load(t, text(stitches, rows, "")))[0].Zones[0].Grams.Likely
		pegs, high := rapid.IntRange(8, 100).Draw(t, "pegs"), rapid.IntRange(8, 200).Draw(t, "high")
		by := fit.YarnOf(load(t, text(pegs, high, "")))[0]
		weighed := fit.YarnOf(load(t, text(pegs, high, fmt.Sprintf("[swatch]\nstitches = %d\nrows = %d\ngrams = %v\n", stitches, rows, swatch))))[0]
		require.True(t, weighed.Weighed && !by.Weighed)
		assert.InEpsilon(t, by.Zones[0].Grams.Likely, weighed.Zones[0].Grams.Likely, 1e-9)
		assert.InEpsilon(t, by.Metres.Likely, weighed.Metres.Likely, 1e-9, "edges and tails too")
		assert.Less(t, weighed.Grams.High-weighed.Grams.Low, by.Grams.High-by.Grams.Low, "it is surer")
	})
}

// load is made for laws.
func load(t *rapid.T, text string) *pattern.Pattern {
	p, found := loadText(text)
	require.NotNil(t, p, "%v", found)
	return p
}

// Counts are those of slow search: the nearest on both sides.
func TestCountsAgainstEveryCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := fit.CountWish{
			Size:  measure.Length(rapid.Float64Range(20, 900).Draw(t, "mm")),
			Per10: measure.Density(rapid.Float64Range(5, 40).Draw(t, "per 10 cm")),
			Ends:  2 * rapid.IntRange(0, 5).Draw(t, "sides"), Limit: rapid.SampledFrom([]int{0, 40, 80}).Draw(t, "loom"),
		}
		for range rapid.IntRange(0, 2).Draw(t, "multiples") {
			w.Multiples = append(w.Multiples, fit.Multiple{Of: rapid.IntRange(1, 12).Draw(t, "of"), Plus: rapid.IntRange(0, 4).Draw(t, "plus")})
		}
		c, err := fit.CountsFor(w)
		best, off := 0, 0.0
		for n := 1; n < 2000; n++ {
			fits := n > w.Ends && (w.Limit == 0 || n <= w.Limit)
			for _, m := range w.Multiples {
				inside := n - w.Ends
				fits = fits && inside >= m.Of && inside > m.Plus && (inside-m.Plus)%m.Of == 0
			}
			if d := w.Per10.Count(w.Size) - float64(n); fits && (best == 0 || max(d, -d) < off) {
				best, off = n, max(d, -d)
			}
		}
		if best == 0 {
			assert.Error(t, err)
			return
		}
		require.NoError(t, err)
		d := w.Per10.Count(w.Size) - float64(c.Best.N)
		assert.InDelta(t, off, max(d, -d), 1e-9, "%d is as near as %d", c.Best.N, best)
		assert.True(t, c.Best.Fits, "the best goes on the loom")
	})
}
