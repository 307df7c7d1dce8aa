package mend_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// What can't be wrapped ahead says why, and what can says how far.
func TestNothingAheadHasAReason(t *testing.T) {
	for why, says := range map[mend.NotAhead]string{
		mend.NoRowInHand: "no row is in hand",
		mend.NoWayBack:   "a tube has no way back",
		mend.LastRow:     "no row comes back over the last one",
		mend.NoKnit:      "peg 5 takes no knit in this row",
		mend.NoEWrap:     "the knit on peg 5 is no e-wrap",
		mend.NoPurlAbove: "peg 5 takes no purl in the next row",
		mend.OtherYarn:   "peg 5 takes another yarn in the next row",
	} {
		assert.Equal(t, "nothing can be wrapped ahead here: "+says, mend.Ahead{Why: why, Peg: 5}.Words())
	}
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		at := o.Ahead(pattern.Start(), 1)
		for range rapid.IntRange(0, 200).Draw(rt, "steps") {
			at = o.Next(at)
		}
		a := mend.WrapAhead(o, at)
		assert.Equal(rt, a.Count == 0, a.Why != 0)
		assert.Equal(rt, at.Phase != pattern.Working && p.Form == pattern.Panel, a.Why == mend.NoRowInHand)
		assert.Equal(rt, p.Form == pattern.Tube, a.Why == mend.NoWayBack)
	})
}

// A stripe that changes at the turn: what would be wrapped ahead is of the other yarn.
func TestAnotherYarnIsNotWrappedAhead(t *testing.T) {
	plan := patterntest.Frame(12, 3, 2, 4)
	plan.Yarns = append(plan.Yarns, plan.Yarns[0])
	for i := range plan.Zones {
		plan.Zones[i].KnitAs = pattern.WrapE
	}
	ahead := func() mend.Ahead {
		p := patterntest.Build(t, plan)
		return mend.WrapAhead(pattern.Order{Pattern: p, Way: p.Way}, pattern.Place{Phase: pattern.Working, Row: 1})
	}
	assert.Equal(t, 3, ahead().Count)
	for _, line := range plan.Zones[0].Strips[0].Lines {
		for i := range line.Cells {
			if line.Cells[i].Stitch == pattern.Purl {
				line.Cells[i].Yarn = 1
			}
		}
	}
	assert.Equal(t, mend.Ahead{Why: mend.OtherYarn, Peg: 1}, ahead())
}
