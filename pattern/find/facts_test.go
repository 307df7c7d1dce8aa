package find_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// What the trade says of reading a fabric, each with its source.

// mat is a panel with a garter frame: row 1 is knit and runs right to left.
func mat(t testing.TB, castOn string) pattern.Order {
	t.Helper()
	plan := patterntest.Frame(12, 3, 4, 20)
	plan.CastOn, _ = pattern.CastOnNamed(castOn)
	p := patterntest.Build(t, plan)
	return pattern.Order{Pattern: p, Way: p.Way}
}

func rowsFor(o pattern.Order, clues ...find.Clue) []int {
	var rows []int
	for _, f := range find.NewReader(o).Fits(clues) {
		if f.From == 0 {
			rows = append(rows, f.Row)
		}
	}
	return rows
}

func TestARidgeIsTwoRows(t *testing.T) {
	// 20 ridges, 40 rows: published, funhobbyvideos.com/loom-knitting-garter-stitch-video-tutorial.
	p := patterntest.Build(t, patterntest.Frame(12, 3, 20, 4))
	o := pattern.Order{Pattern: p, Way: p.Way}
	assert.Equal(t, []int{41, 42}, rowsFor(o, find.Clue{Kind: find.Ridges, Count: 20}), "40 rows are done, or one more, a knit row")
}

func TestTheCastOnEdgeIsNoRidge(t *testing.T) {
	// Common practice, no source.
	assert.Equal(t, []int{1, 2}, rowsFor(mat(t, "chain"), find.Clue{Kind: find.Ridges, Count: 0}))
	assert.Contains(t, find.Question{Kind: find.Ridges}.Words(mat(t, "chain")), "The cast-on edge is not one")
	assert.Contains(t, find.Question{Kind: find.Bumps, Peg: 3}.Words(mat(t, "chain")), "The cast-on edge is not one")
}

func TestWhatTheLastRowLooksLike(t *testing.T) {
	// From behind, pulled back, a row that was purled shows a V and one that was knit only a snug
	// bump: common practice, no source. From the front a V is a knit: published, and the newest row
	// sits just under the pegs.
	o := mat(t, "chain")
	says := find.Question{Kind: find.LastRow}.Words(o)
	assert.Contains(t, says, "From the front, just under the pegs, a V is a knit and a bump a purl")
	assert.Contains(t, says, "from behind, pulled back, it is the other way round: a V is a purl")
	ended := find.Clue{Kind: find.Yarn, Hangs: find.AtEnd}
	ridges := find.Clue{Kind: find.Ridges, Count: 2}
	assert.Equal(t, []int{5}, rowsFor(o, ended, ridges, find.Clue{Kind: find.LastRow, Row: find.Purled}))
	assert.Equal(t, []int{6}, rowsFor(o, ended, ridges, find.Clue{Kind: find.LastRow, Row: find.Knitted}))
}

func TestWhereCastOnsLeaveTheYarn(t *testing.T) {
	// Right-handers cast a panel on from left to right, and row 1 runs right to left: published,
	// loomknittinghelp.com/looms/rlr/caston.html. Chain and e-wrap run across once and leave the
	// yarn away from the tail (common practice, no source), weave and drawstring there and back
	// (from memory): after an even row the yarn is on the same side, the tail is not.
	for castOn, words := range map[string]string{
		"chain": "the yarn hangs at the right, away from the tail", "e-wrap": "the yarn hangs at the right, away from the tail",
		"weave": "the yarn hangs at the right, where the tail is", "drawstring": "the yarn hangs at the right, where the tail is",
	} {
		o := mat(t, castOn)
		assert.Contains(t, find.Fit{Row: 7}.Where(o), words, castOn)
		assert.Equal(t, []int{1, 3, 5}, rowsFor(o, find.Clue{Kind: find.Yarn, Hangs: find.AtRight})[:3], castOn)
	}
}

func TestATubeRunsOneWay(t *testing.T) {
	// Right-handers work a tube right to left, every round: published,
	// loomknittinghelp.com/looms/rlr/caston.html. So the yarn comes from the leftmost peg whenever a
	// round is done, above the cast-on's tail.
	plan := patterntest.Drawn("||||", "||||", "||||")
	plan.Form = pattern.Tube
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	require.Equal(t, 4, o.Peg(0))
	assert.Equal(t, []int{1, 2, 3, 4}, rowsFor(o, find.Clue{Kind: find.FromPeg, Peg: 4}, find.Clue{Kind: find.Yarn, Hangs: find.AtEnd}))
	assert.Empty(t, rowsFor(o, find.Clue{Kind: find.FromPeg, Peg: 1}))
}
