package rowtext

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

func TestTheSecondStitchOfAKfbIsToldBehindItsKnit(t *testing.T) {
	const second = pattern.IncreaseKnit
	k, p, n, o := pattern.Knit, pattern.Purl, pattern.RightTwo, pattern.NoStitch
	for _, c := range []struct {
		cells    []pattern.Stitch // left to right; all rows are worked into as many loops as they leave
		to, from string           // the row as it runs to the right, and from there
	}{
		{[]pattern.Stitch{k, second, p, n}, "kfb, p1, k2tog", "k2tog, p1, kfb"},
		{[]pattern.Stitch{k, second, k, p, n}, "kfb, k1, p1, k2tog", "k2tog, p1, kfb, k1"},
		{[]pattern.Stitch{n, k, second, k, second, n}, "k2tog, kfb, kfb, k2tog", "k2tog, kfb, kfb, k2tog"},
		{[]pattern.Stitch{p, second, k, k, n}, "p1, kfb, k1, k2tog", "k2tog, k1, kfb, p1"},
		{[]pattern.Stitch{o, k, second, p, n, o}, "none1, kfb, p1, k2tog, none1", "none1, k2tog, p1, kfb, none1"},
	} {
		plan := patterntest.Drawn("|")
		var cells, below []pattern.Cell
		for _, s := range c.cells {
			cells = append(cells, pattern.Cell{Stitch: s})
			if s != pattern.NoStitch {
				s = pattern.Knit
			}
			below = append(below, pattern.Cell{Stitch: s})
		}
		plan.Pegs = len(cells)
		plan.Zones[0].Rows = 2
		plan.Zones[0].Strips = []pattern.StripPlan{{Pegs: plan.Pegs, Lines: []pattern.Line{{Cells: below}, {Cells: cells}}}}
		made := patterntest.Build(t, plan)
		line := func(row1 pattern.Direction) string {
			runs := LineOf(pattern.Order{Pattern: made, Way: pattern.Way{Row1: row1}}, 2)
			return Print(runs)
		}
		want := func(s string) []Run { runs, err := Expand(s, plan.Pegs); assert.NoError(t, err); return runs }
		assert.Equal(t, Print(want(c.to)), line(pattern.ToLeft))
		assert.Equal(t, Print(want(c.from)), line(pattern.ToRight))
	}
}
