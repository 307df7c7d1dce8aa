package find_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// In stripes of random rows, with slips and rows of both yarns, the yarn of the loops is asked
// for only where all of them are of one.
func TestTheYarnOfTheLoopsIsSure(t *testing.T) {
	rnd := rand.New(rand.NewPCG(6, 2))
	sure, tried := 0, 0
	for range 60 {
		plan := patterntest.Drawn("|||||", "|||||", "-----", "|||||", "|||||", "|||||")
		for _, l := range plan.Zones[0].Strips[0].Lines {
			y, odd := pattern.Yarn(rnd.IntN(2)), rnd.IntN(4)
			for j := range l.Cells {
				if l.Cells[j].Yarn = y; odd == 0 && j == 2 {
					l.Cells[j].Yarn = 1 - y
				}
				if odd == 1 && j == 3 {
					l.Cells[j].Stitch = pattern.Slip
				}
			}
		}
		p, errs := pattern.Build(plan)
		require.Empty(t, errs)
		m := newModel(pattern.Order{Pattern: p, Way: p.Way})
		for _, s := range m.sights {
			y, ok := find.LoopsOf(m.o, find.Fit{Row: s.row, From: s.done, To: s.done})
			tried++
			if ok {
				require.Equal(t, map[int]bool{int(y): true}, s.yarns, "row %d, %d done", s.row, s.done)
				sure++
			}
		}
	}
	t.Logf("the yarn is sure at %d of %d places", sure, tried)
	assert.Greater(t, sure, tried/10)
}
