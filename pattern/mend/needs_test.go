package mend_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// What people at the pegs struggle with, each with its numbers. Pegs are counted from the
// right and row 1 runs right to left, but for where a test says otherwise.

// short is a ladder's rungs as rows are written.
func short(l *mend.Ladder) string {
	var b strings.Builder
	for _, r := range l.Rungs {
		b.WriteString(r.Short())
	}
	return b.String()
}

// TestALoopDroppedWhileARowIsUnderWay: 44 pegs of garter, row 37 is complete, row 38 has
// reached peg 20 from the left. The loops of pegs 14 and 30 hang at row 30.
func TestALoopDroppedWhileARowIsUnderWay(t *testing.T) {
	o := garter(t, 44, 60)
	at := pattern.Place{Phase: pattern.Working, Row: 38, Done: 44 - 20 + 1}
	l, err := mend.LadderOf(o, at, o.ColumnOfPeg(14), 31)
	require.NoError(t, err)
	assert.Equal(t, "kpkpkpk", short(l), "row 38 has not come to peg 14: 7 rungs")
	assert.Equal(t, 30, l.Loop)
	l, err = mend.LadderOf(o, at, o.ColumnOfPeg(30), 31)
	require.NoError(t, err)
	assert.Equal(t, "kpkpkpkp", short(l), "it has come to peg 30: 8 rungs, the last a purl")
}

// TestOneWrongStitchBelow: peg 19 was knit in row 22 and should be a purl; row 29 is done.
func TestOneWrongStitchBelow(t *testing.T) {
	o := garter(t, 30, 60)
	l, err := mend.LadderOf(o, pattern.Place{Phase: pattern.Working, Row: 30}, o.ColumnOfPeg(19), 22)
	require.NoError(t, err)
	assert.Equal(t, "pkpkpkpk", short(l), "8 rungs, not 8 rows, the first of them a purl")
	assert.Equal(t, "lift the loop off peg 19 and let it run down 8 rungs, no further: catch the loop of row 21 on the hook", l.Words(0))
	assert.Equal(t, "row 22: purl: with the rung in front of the loop, draw it through to the back, so that a bump shows", l.Words(1))
}

// TestAPegMissedInARow: peg 8 was not worked in row 12; three rows later there is a hole.
func TestAPegMissedInARow(t *testing.T) {
	o := garter(t, 20, 40)
	l, err := mend.LadderOf(o, pattern.Place{Phase: pattern.Working, Row: 16}, o.ColumnOfPeg(8), 12)
	require.NoError(t, err)
	assert.Equal(t, 11, l.Loop)
	assert.Len(t, l.Rungs, 4)
}

// TestChoosingTheRepair: an error 18 rows down, 3 columns wide, on 60 pegs: 54 rungs, 1080
// stitches, 3 duplicate stitches, or nothing.
func TestChoosingTheRepair(t *testing.T) {
	plain := patterntest.Build(t, patterntest.Frame(60, 3, 2, 60))
	o := pattern.Order{Pattern: plain, Way: plain.Way}
	at := pattern.Place{Phase: pattern.Working, Row: 41}
	f := mend.Fault{Cols: []int{20, 21, 22}, Row: 23}
	ways := mend.Repairs(o, at, f, nil)
	assert.Equal(t, []mend.Repair{
		{Way: mend.Cover, Work: 3}, {Way: mend.LetDown, Work: 54}, {Way: mend.RowsBack, Work: 1080, Rows: 22}, {Way: mend.Leave},
	}, ways)
	assert.Equal(t, "cover it with 3 duplicate stitches", ways[0].Words(plain))

	// A lifeline lies lower: it costs more stitches and loses no loop.
	ways = mend.Repairs(o, at, f, []mend.Safe{{Row: 10}, {Row: 20, Kind: mend.Join}, {Row: 23}})
	assert.Equal(t, mend.Repair{Way: mend.LineBack, Work: 20 * 60, Rows: 20, Safe: mend.Safe{Row: 20, Kind: mend.Join}}, ways[3])
}

// TestABorderFaultCloseToTheCastOn: row 6 has 12 wrong stitches in garter, 150 rows are done.
// A ladder of 145 rungs is not sensible: it is not offered first, and to cover them or to
// leave them is told as what it is.
func TestABorderFaultCloseToTheCastOn(t *testing.T) {
	o := garter(t, 90, 200)
	cols := make([]int, 12)
	for i := range cols {
		cols[i] = 30 + i
	}
	ways := mend.Repairs(o, pattern.Place{Phase: pattern.Working, Row: 151}, mend.Fault{Cols: cols, Row: 6}, nil)
	assert.Equal(t, mend.RowsBack, ways[0].Way)
	assert.Equal(t, 145*90, ways[0].Work)
	assert.Equal(t, mend.Repair{Way: mend.Cover, Work: 12, Doubt: "it hides a stitch in plain fabric only"}, ways[1])
	assert.Equal(t, mend.Repair{Way: mend.LetDown, Work: 145 * 12, Doubt: "so deep a ladder seldom comes out even"}, ways[2])
	assert.Equal(t, mend.Leave, ways[3].Way)
}

// TestRippingRowsOnALoom: 60 pegs, 5 rows to rip from a complete row 45.
func TestRippingRowsOnALoom(t *testing.T) {
	o := garter(t, 60, 80)
	b, err := mend.BackTo(o, pattern.Place{Phase: pattern.Working, Row: 46}, pattern.Place{Phase: pattern.Working, Row: 41})
	require.NoError(t, err)
	assert.True(t, b.OffTheLoom)
	assert.Equal(t, 300, b.Stitches)
	assert.Equal(t, 40, b.RowsLeft)
	assert.Equal(t, 20, b.Ridges)
	assert.Len(t, b.Loops, 60)
	assert.Equal(t, 2+5+60+1, b.Len())
	assert.Equal(t, "thread a smooth line through the 60 loops of row 40, one a peg", b.Words(0))
	assert.Equal(t, "pull out row 45: 60 stitches, from peg 60 to peg 1", b.Words(2))
	assert.Equal(t, "beginning where the yarn comes out, put the loop of row 40 back on peg 1, not twisted", b.Words(7))
	assert.Equal(t, "put the loop of row 40 back on peg 60, not twisted", b.Words(66))
}

// TestRippingDownToALifeline: 60 pegs, a line at row 40, ripped from somewhere in row 52. Next
// is row 41, right to left; the yarn comes out at the right, or the rip stopped a row off.
func TestRippingDownToALifeline(t *testing.T) {
	o := garter(t, 60, 80)
	b, err := mend.BackTo(o, pattern.Place{Phase: pattern.Working, Row: 52, Done: 31}, pattern.Place{Phase: pattern.Working, Row: 41})
	require.NoError(t, err)
	assert.Equal(t, "40 rows left, 20 ridges; the yarn comes out at the right, away from the tail; next is row 41, right to left, from peg 1; "+
		"if the yarn comes out at the other end, one row too many or too few is gone", b.Words(b.Len()-1))
	held := b.HeldBy([]mend.Safe{{Row: 40}, {Row: 50}, {Row: 45, Kind: mend.Join}})
	assert.Equal(t, "the lifeline lies in row 40: see that it runs through all 60 loops", held.Words(0))
	assert.Equal(t, "pull out row 50: 60 stitches, from peg 1 to peg 60; its lifeline comes out first", held.Words(4))
	assert.NotContains(t, held.Words(9), "lifeline", "a ball that was joined is no line")
}

// TestUndoWithinTheRow: row 33 runs right to left, 21 pegs are done, the mistake is on peg 16.
func TestUndoWithinTheRow(t *testing.T) {
	o := garter(t, 40, 60)
	for _, c := range []struct {
		way   pattern.Way
		order []string
	}{
		{pattern.DefaultWay(pattern.RightHand), []string{"21", "20", "19", "18", "17", "16"}},
		{pattern.Way{Peg1: pattern.Right, Row1: pattern.ToRight}, []string{"20", "21", "22", "23", "24", "25"}},
		{pattern.DefaultWay(pattern.LeftHand), []string{"21", "20", "19", "18", "17", "16"}},
	} {
		o.Way = c.way
		b, err := mend.BackTo(o, pattern.Place{Phase: pattern.Working, Row: 33, Done: 21}, pattern.Place{Phase: pattern.Working, Row: 33, Done: 15})
		require.NoError(t, err)
		var order []string
		for i := range b.Len() - 1 {
			peg, _, _ := strings.Cut(strings.TrimPrefix(b.Words(i), "row 33, peg "), ":")
			order = append(order, peg)
		}
		assert.Equal(t, c.order, order)
		assert.Contains(t, b.Words(6), "next is peg "+c.order[5]+" again")
	}
}

// TestEndBordersThatDoNotMatch: rows in turn knit and purl, 120 in all: the bottom shows a knit
// row first, the top ends on a ridge. One knit row more makes them alike.
func TestEndBordersThatDoNotMatch(t *testing.T) {
	plan := patterntest.Frame(30, 3, 3, 108)
	plan.Zones = plan.Zones[:3]
	p := patterntest.Build(t, plan)
	require.Equal(t, 120, p.Grid.Rows())
	o := pattern.Order{Pattern: p, Way: p.Way}
	b, ok := mend.BordersAt(o, pattern.Place{Phase: pattern.BindingOff})
	require.True(t, ok)
	assert.False(t, b.EndsAlike)
	assert.True(t, b.OneMore)
	assert.Contains(t, strings.Join(b.Lines(), "\n"), "work one knit row more before the bind-off")

	p = patterntest.Build(t, patterntest.Frame(30, 3, 3, 108))
	o.Pattern = p
	b, _ = mend.BordersAt(o, pattern.Place{Phase: pattern.Working, Row: 117, Done: 4})
	assert.True(t, b.EndsAlike)
	assert.Equal(t, []string{
		"the bottom border has 3 ridges, the cast-on edge not counted",
		"the top border has 1 ridge so far, of 3: 5 rows to go",
		"both ends show the same",
	}, b.Lines())
}

// TestARowSkippedInAGarterTubeIsSeen: a brim of 10 rounds; two knit rounds running leave a
// wide flat band. Of one column that is counted the skipped purl round is told, or that the peg
// was missed in it; a second column tells which.
func TestARowSkippedInAGarterTubeIsSeen(t *testing.T) {
	o := garter(t, 36, 20)
	o.Pattern.Form = pattern.Tube
	found := func(texts ...string) []string {
		var looks []mend.Looks
		for _, text := range texts {
			l, err := mend.ParseLooks(text, false)
			require.NoError(t, err)
			looks = append(looks, l)
		}
		c, err := mend.Compare(o, pattern.Place{Phase: pattern.Working, Row: 11}, looks)
		require.NoError(t, err)
		return c.Lines(o)[1:]
	}
	assert.Equal(t, []string{"peg 5 was not worked in round 6", "or round 6 was skipped", "the column tells no more: count the next peg too"}, found("5=vbvbvvbvb"))
	assert.Equal(t, []string{"peg 5 was not worked in round 6"}, found("5=vbvbvvbvb", "6=vbvbvbvbvb"))
	assert.Equal(t, []string{"round 6 was skipped"}, found("5=vbvbvvbvb", "20=vbvbvvbvb"))
}

// TestWrappedAheadUpToTheMarker: e-wrapped garter sides of 4 beside a plain field of 12. Row 21
// runs right to left: the first side may be wrapped ahead up to its marker, the field not.
func TestWrappedAheadUpToTheMarker(t *testing.T) {
	plan := patterntest.Frame(20, 4, 3, 40)
	for i := range plan.Zones {
		plan.Zones[i].KnitAs = pattern.WrapE
	}
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	require.Equal(t, []int{3, 16}, p.Markers)
	at := func(row, done int) mend.Ahead {
		return mend.WrapAhead(o, pattern.Place{Phase: pattern.Working, Row: row, Done: done})
	}
	assert.Equal(t, mend.Ahead{Count: 4, First: 1, Last: 4, AtMarker: true}, at(21, 0))
	assert.Equal(t, mend.Ahead{Why: mend.NoPurlAbove, Peg: 5}, at(21, 4), "the field is knit on the way back too")
	assert.Equal(t, mend.Ahead{Count: 1, First: 17, Last: 17, AtMarker: true}, at(21, 16))
	assert.Equal(t, mend.Ahead{Count: 3, First: 18, Last: 20}, at(21, 17))
	assert.Equal(t, mend.Ahead{Why: mend.NoKnit, Peg: 20}, at(22, 0), "a purl row has nothing to wrap")
	assert.Equal(t, mend.Ahead{Count: 4, First: 1, Last: 4, AtMarker: true}, at(1, 0))
	assert.Equal(t, mend.Ahead{Why: mend.LastRow}, at(p.Grid.Rows(), 0), "nobody comes back from the last row")
	p.Zones[1].KnitAs = pattern.WrapU
	assert.Equal(t, mend.Ahead{Why: mend.NoEWrap, Peg: 1}, at(21, 0), "a u-wrap is not laid round the peg")
}
