package find_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/find"
	"bypeg/pattern/patterntest"
)

// What people ask who lost the place, each with its numbers and the answer that is right.
// Common practice, no source.

// garter is so many ridges on so many pegs: row 1 is knit and runs right to left.
func garter(t testing.TB, pegs, ridges int) pattern.Order {
	t.Helper()
	var drawn []string
	for range ridges {
		drawn = append(drawn, strings.Repeat("-", pegs), strings.Repeat("|", pegs))
	}
	p := patterntest.Build(t, patterntest.Drawn(drawn...))
	return pattern.Order{Pattern: p, Way: p.Way}
}

func noted(rowsDone int) pattern.Place {
	return pattern.Place{Phase: pattern.Working, Row: rowsDone + 1}
}

func rowsOf(a find.Answer) []int {
	var rows []int
	for _, f := range a.Fits {
		rows = append(rows, f.Row)
	}
	return rows
}

func TestBackAfterABreakInTheMiddleOfARow(t *testing.T) {
	// 46 pegs, stopped in row 23 after 17 pegs: next is peg 18, going left, 29 left. In row 24 after
	// 17: pegs 46 to 30 are done, next is peg 29.
	o := garter(t, 46, 20)
	for _, c := range []struct{ from, bumpsAtEnd, row, done, next int }{{17, 11, 23, 17, 18}, {30, 12, 24, 17, 29}} {
		a := find.Search(o, find.Evidence{Noted: noted(22), Clues: []find.Clue{
			{Kind: find.FromPeg, Peg: c.from}, {Kind: find.Ridges, Count: 11}, {Kind: find.Bumps, Peg: 46, Count: c.bumpsAtEnd},
		}})
		require.Len(t, a.Fits, 1)
		at := a.Fits[0].Place(o.Pattern)
		assert.Equal(t, pattern.Place{Phase: pattern.Working, Row: c.row, Done: c.done}, at)
		assert.Equal(t, c.next, o.Peg(o.ColumnAt(at)))
		assert.Equal(t, 29, o.Pattern.Of(at)-at.Done, "pegs left")
	}
}

func TestTheYarnsEndTellsOddFromEven(t *testing.T) {
	// 30 or 31 rows done; the yarn hangs at the left: 31, and row 32 goes left to right.
	o := garter(t, 20, 30)
	a := find.Search(o, find.Evidence{Noted: noted(30), Clues: []find.Clue{{Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Ridges, Count: 15}}})
	assert.Equal(t, []int{32}, rowsOf(a))
	assert.Equal(t, pattern.ToRight, o.Direction(32))
}

func TestThirtyRidgesAreSixtyRows(t *testing.T) {
	// 30 ridges are 60 rows, 30 rows are 15 ridges.
	o := garter(t, 20, 40)
	ended := find.Clue{Kind: find.Yarn, Hangs: find.AtRight}
	assert.Equal(t, []int{61}, rowsOf(find.Search(o, find.Evidence{Clues: []find.Clue{{Kind: find.Ridges, Count: 30}, ended}})))
	assert.Equal(t, []int{31}, rowsOf(find.Search(o, find.Evidence{Clues: []find.Clue{{Kind: find.Ridges, Count: 15}, ended}})))
}

func TestWasTheLastRowNotedOrNot(t *testing.T) {
	// The notes say 31; the yarn is at the right, so an even number is done. 15 ridges: 30 are
	// done, the notes ran one ahead. 16 ridges: 32, a row was worked and not noted.
	o := garter(t, 20, 30)
	right := find.Clue{Kind: find.Yarn, Hangs: find.AtRight}
	assert.Equal(t, []int{31}, rowsOf(find.Search(o, find.Evidence{Noted: noted(31), Clues: []find.Clue{right, {Kind: find.Ridges, Count: 15}}})))
	assert.Equal(t, []int{33}, rowsOf(find.Search(o, find.Evidence{Noted: noted(31), Clues: []find.Clue{right, {Kind: find.Ridges, Count: 16}}})))
	byYarn := rowsOf(find.Search(o, find.Evidence{Noted: noted(31), Clues: []find.Clue{right}}))
	assert.ElementsMatch(t, []int{31, 33}, byYarn[:2], "both are likely, 31 itself is impossible")
	assert.NotContains(t, byYarn, 32)
}

func TestTwoCluesTellRowsApartThatLookTheSame(t *testing.T) {
	// Repeat rows 1 and 2 begin K P as seen from the right, 3 and 4 P K. The pegs at the right read K P
	// K P: repeat row 1 or 2 was worked last; with the yarn at the left it was 1, and 2 is due,
	// left to right.
	var drawn []string
	for range 3 {
		drawn = append(drawn, "|-|-|-|-", "|-|-|-|-", "-|-|-|-|", "-|-|-|-|") // top row first
	}
	p := patterntest.Build(t, patterntest.Drawn(drawn...))
	o := pattern.Order{Pattern: p, Way: p.Way}
	var look []find.Clue
	for peg, seen := range []find.Seen{find.V, find.Bump, find.V, find.Bump} {
		look = append(look, find.Clue{Kind: find.Look, Peg: peg + 1, Seen: []find.Seen{seen}})
	}
	ended := append(look, find.Clue{Kind: find.Yarn, Hangs: find.AtEnd})
	assert.Equal(t, []int{2, 3, 6, 7, 10, 11}, rowsFor(o, ended...), "one clue leaves two rows of each repeat")
	left := append(look, find.Clue{Kind: find.Yarn, Hangs: find.AtLeft})
	assert.Equal(t, []int{2, 6, 10}, rowsFor(o, left...), "two clues leave one")
	assert.Equal(t, pattern.ToRight, o.Direction(2))
}

func TestHowManyRowsSinceTheLastCross(t *testing.T) {
	// Crosses on rows 6, 14, 22, ...: 6 strands above the hole, the lowest being the crossing row
	// itself, are that row and 5 more. After the cross of row 14, 19 rows are done and 20 is next;
	// the cross comes on 22, two plain rows later.
	plain := strings.Repeat("|", 8)
	plan := patterntest.Drawn(plain, plain, plain, plain, plain, plain, plain, plain)
	cross := plan.Zones[0].Strips[0].Lines[5].Cells
	for i, s := range (pattern.Cross{Front: 2, Back: 2}).Parts() {
		cross[2+i].Stitch = s
	}
	plan.Zones[0].Rows = 40
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	clues := []find.Clue{{Kind: find.Crossed, Peg: 4, Count: 6}, {Kind: find.Yarn, Hangs: find.AtEnd}}
	assert.Equal(t, []int{12, 20, 28, 36}, rowsFor(o, clues...))
	a := find.Search(o, find.Evidence{Noted: noted(17), Clues: clues})
	assert.Equal(t, 20, a.Fits[0].Row)
	_, _, crosses := p.Grid.Row(22).Cells()[3].Stitch.Cross()
	assert.True(t, crosses)
	_, _, crosses = p.Grid.Row(21).Cells()[3].Stitch.Cross()
	assert.False(t, crosses)
}

func TestWhereTheRoundStarts(t *testing.T) {
	// A tube of 36 pegs, the marker fell off in round 12. The finished rounds stay whole; if round
	// 12 is under way the yarn leaves from the last worked peg.
	var drawn []string
	for range 10 {
		drawn = append(drawn, strings.Repeat("-", 36), strings.Repeat("|", 36))
	}
	plan := patterntest.Drawn(drawn...)
	plan.Form = pattern.Tube
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	a := find.Search(o, find.Evidence{Clues: []find.Clue{
		{Kind: find.FromPeg, Peg: 17}, {Kind: find.Bumps, Peg: 1, Count: 6}, {Kind: find.Bumps, Peg: 36, Count: 5},
	}})
	require.Equal(t, []find.Fit{{Row: 12, From: 17, To: 17}}, a.Fits)
	assert.Equal(t, 18, o.Peg(o.ColumnAt(a.Fits[0].Place(p))), "after 17 of 36 pegs the next is 18 in the same sense")
}

func TestRippedBackToALifeline(t *testing.T) {
	// 60 pegs, ripped to the line at row 40: the yarn must come out at the right. Where it comes
	// out at the left, the rip stopped one row off.
	o := garter(t, 60, 30)
	assert.Equal(t, pattern.Right, o.YarnSide(40))
	a := find.Search(o, find.Evidence{Noted: noted(40), Clues: []find.Clue{{Kind: find.Yarn, Hangs: find.AtLeft}}})
	assert.ElementsMatch(t, []int{40, 42}, rowsOf(a)[:2])
	right := find.Search(o, find.Evidence{Noted: noted(40), Clues: []find.Clue{{Kind: find.Yarn, Hangs: find.AtRight}}})
	assert.Equal(t, 41, right.Fits[0].Row)
	assert.Equal(t, pattern.ToLeft, o.Direction(41))
}

func TestTheEdgeChainShowsOneLinkForTwoRows(t *testing.T) {
	// 30 pegs, the first of each row skipped: odd rows skip peg 1, even rows peg 30. A chain of 10
	// links at peg 1 is 20 rows, or 21, whose first stitch made none.
	plain := strings.Repeat("|", 30)
	plan := patterntest.Drawn(plain, plain)
	plan.Zones[0].Rows, plan.Zones[0].SlipEdge = 60, true
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	links := find.Clue{Kind: find.Alike, Peg: 1, Seen: []find.Seen{find.V}, Count: 10}
	assert.Equal(t, []int{21, 22}, rowsFor(o, links, find.Clue{Kind: find.Yarn, Hangs: find.AtEnd}))
}

func TestStripesTellTheRow(t *testing.T) {
	// Stripes of 4 rows of grey and 2 of blue, all knit: no ridge and no bump tells anything. 15 or 17
	// rows are done, the yarn hangs at the left. Row 15 is the third of a grey stripe, 17 the first
	// of a blue one: blue loops leave 17 alone, so row 18 is next, left to right.
	plan := patterntest.Drawn("|", "|", "|", "|", "|", "|")
	plan.Pegs, plan.Zones[0].Rows = 8, 30
	plan.Zones[0].Strips[0].Pegs = 8
	plan.Yarns = []pattern.YarnInfo{{Colour: "grey"}, {Name: "b", Colour: "blue"}}
	for i := range plan.Zones[0].Strips[0].Lines {
		cells := make([]pattern.Cell, 8)
		for j := range cells {
			cells[j].Stitch = pattern.Knit
			if i >= 4 {
				cells[j].Yarn = 1
			}
		}
		plan.Zones[0].Strips[0].Lines[i].Cells = cells
	}
	p := patterntest.Build(t, plan)
	o := pattern.Order{Pattern: p, Way: p.Way}
	left := find.Evidence{Noted: noted(15), Clues: []find.Clue{{Kind: find.Yarn, Hangs: find.AtLeft}}}
	a := find.Search(o, left)
	for range 3 { // who can't count 15 stitches that are all alike is asked for the colour
		if a.Asks && a.Ask.Kind != find.Colour {
			left = left.Skip(a.Ask)
			a = find.Search(o, left)
		}
	}
	require.Equal(t, find.Question{Kind: find.Colour}, a.Ask)
	assert.Equal(t, "which yarn are the loops on the pegs of: grey or blue?", a.Ask.Words(o))
	for _, typed := range []string{"blue", "B", "bl"} {
		c, err := a.Ask.Read(o, typed)
		require.NoError(t, err)
		assert.Equal(t, find.Clue{Kind: find.Colour, Count: 1}, c)
		assert.Equal(t, 18, rowsOf(find.Search(o, left.With(c)))[0])
	}
	_, err := a.Ask.Read(o, "green")
	assert.EqualError(t, err, `"green" is no answer to that: write grey or blue`)
	_, err = a.Ask.Read(o, "")
	assert.Error(t, err)

	wrong := find.Evidence{Noted: noted(15), Clues: []find.Clue{
		{Kind: find.Yarn, Hangs: find.AtLeft}, {Kind: find.Alike, Peg: 1, Seen: []find.Seen{find.V}, Count: 15}, {Kind: find.Colour, Count: 1},
	}}
	a = find.Search(o, wrong)
	assert.Empty(t, a.Fits)
	assert.Equal(t, "the yarn of the loops on the pegs: it would be grey; look again", a.But[slices.IndexFunc(a.But, func(b find.But) bool { return b.Clue == 2 })].Doubt(o, wrong))

	p.Yarns[1].Colour = "grey"
	assert.NotEqual(t, find.Colour, find.Search(o, left).Ask.Kind, "two yarns that are called the same")
	p.Yarns[0].Colour = ""
	c, err := find.Question{Kind: find.Colour}.Read(o, "main")
	require.NoError(t, err)
	assert.Zero(t, c.Count, "the main yarn has no colour")
}

func TestWhereNoRowAgreesTheOneClueIsNamed(t *testing.T) {
	// 22 rows are done, a purl row the last, 11 ridges. The yarn ought to hang at the right; it is
	// said to hang at the left: no row agrees, and the row that agrees but for the yarn's side is 23.
	o := garter(t, 20, 30)
	e := find.Evidence{Noted: noted(22), Clues: []find.Clue{
		{Kind: find.Ridges, Count: 11}, {Kind: find.LastRow, Row: find.Purled}, {Kind: find.Yarn, Hangs: find.AtLeft},
		{Kind: find.Look, Peg: 3, Seen: []find.Seen{find.Bump, find.V, find.Bump}},
	}}
	a := find.Search(o, e)
	assert.Empty(t, a.Fits)
	require.NotEmpty(t, a.But)
	assert.Equal(t, 23, a.But[0].Row)
	assert.Equal(t, "the yarn's side: check the cast-on kind, or a row was skipped", a.But[0].Doubt(o, e))
}
