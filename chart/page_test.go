package chart_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/chart"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/safetext"
)

// Charts are read from the bottom (1101.com/mikuni3/amizu.html), a flat one's right-side
// rows right to left, the rows between left to right, seen from the front
// (newlib.net/nw_rd674428/p2; vogueknitting.com, reading charts;
// loomknittinghelp.com/intro/convert.html). That is the right hand's way here.
func TestAPanelIsReadFromTheBottomRightToLeftFirst(t *testing.T) {
	c := build(t, frame(), chart.Style{})
	assert.Equal(t, picture(`
		rows 1 to 7 from the bottom; row 1 runs right to left; peg 1
		at the right

		    9               1     ridge
		      ▾           ▾
		    ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 7       ╴ set-up
		6 → ━ ━ ━ ━ ━ ━ ━ ━ ━         3 ╮ top border
		    ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 5       ╯
		4 → ━ ━┆─ │ ─ │ ─┆━ ━         2 ╮ field
		    ┃ ┃┆│ ─ │ ─ │┆┃ ┃ ← 3       ╯
		2 → ━ ━ ━ ━ ━ ━ ━ ━ ━         1 ╮ bottom border
		    ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 1       ╯
		      ▴           ▴
		    9               1

		key   │ knit   ─ purl   ┃ knit, border   ━ purl, border
		┆ edge of the border   ▾ marked peg
	`), c.Lines(chart.View{Width: 60}))
}

func TestTheLeftHandHasTheSamePictureAndOtherNumbers(t *testing.T) {
	p := patterntest.Build(t, frame())
	c := chart.New(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.LeftHand)}, chart.Style{})
	assert.Equal(t, picture(`
		rows 1 to 7 from the bottom; row 1 runs left to right; peg 1
		at the left

		    1               9     ridge
		      ▾           ▾
		7 → ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃           ╴ set-up
		    ━ ━ ━ ━ ━ ━ ━ ━ ━ ← 6     3 ╮ top border
		5 → ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃           ╯
		    ━ ━┆─ │ ─ │ ─┆━ ━ ← 4     2 ╮ field
		3 → ┃ ┃┆│ ─ │ ─ │┆┃ ┃           ╯
		    ━ ━ ━ ━ ━ ━ ━ ━ ━ ← 2     1 ╮ bottom border
		1 → ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃           ╯
		      ▴           ▴
		    1               9
	`), c.Lines(chart.View{Width: 60})[:14])
}

// In the round every round is read right to left: newlib.net/nw_rd674428/p2;
// vogueknitting.com, reading charts; loomknittinghelp.com/intro/convert.html.
func TestATubeHasRoundsThatRunOneWay(t *testing.T) {
	plan := patterntest.Drawn("|||---", "---|||", "|||---")
	plan.Form = pattern.Tube
	assert.Equal(t, picture(`
		rounds 1 to 3 from the bottom; every round runs right to
		left; peg 1 at the right

		 6         1     ridge
		 │ │ │ ─ ─ ─ ← 3     2 ╮
		 ─ ─ ─ │ │ │ ← 2       │ field
		 │ │ │ ─ ─ ─ ← 1     1 ╯
		 6         1

		key   │ knit   ─ purl
	`), build(t, plan, chart.Style{}).Lines(chart.View{Width: 60}))
}

func TestEverythingHasAnASCIIForm(t *testing.T) {
	plan := frame()
	plan.Zones[1].Strips[0].Lines[1].Cells = append(cross(pattern.Cross{Front: 2, Back: 2, Lean: pattern.Right}), pattern.Cell{Stitch: pattern.Knit})
	assert.Equal(t, picture(`
		rows 1 to 7 from the bottom; row 1 runs right to left; peg 1
		at the right

		    9               1     ridge
		      v           v
		    ! ! ! ! ! ! ! ! ! < 7       - set-up
		6 > = = = = = = = = =         3 \ top border
		    ! ! ! ! ! ! ! ! ! < 5       /
		4 > = =:" ' / / |:= =         2 \ field
		    ! !:| - | - |:! ! < 3       /
		2 > = = = = = = = = =         1 \ bottom border
		    ! ! ! ! ! ! ! ! ! < 1       /
		      ^           ^
		    9               1

		key   | knit   - purl   "'// 2 over 2, leaning right
		! knit, border   = purl, border   : edge of the border
		v marked peg
	`), build(t, plan, chart.Style{ASCII: true}).Lines(chart.View{Width: 60}))
}

func TestTheKeyHoldsJustWhatIsSeen(t *testing.T) {
	lace := patterntest.Drawn(`||o/|\o|`, "||||||||", "--------", "||||||||")
	cable := append([]pattern.Cell{{Stitch: pattern.Purl}}, cross(pattern.Cross{Front: 3, Back: 3, Lean: pattern.Right})...)
	lace.Zones[0].Strips[0].Lines[1].Cells = append(cable, pattern.Cell{Stitch: pattern.Purl})
	c := build(t, lace, chart.Style{})
	assert.Equal(t, picture(`
		rows 1 to 4 from the bottom; row 1 runs right to
		left; peg 1 at the right

		    8             1
		4 → │ │ ○ ◢ │ ◣ ○ │     ╮
		    │ │ │ │ │ │ │ │ ← 3 │ field
		2 → ─ ╎ ┊ ┊ ╱ ╱ ╱ ─     │
		    │ │ │ │ │ │ │ │ ← 1 ╯
		    8             1

		key   │ knit   ─ purl   ○ yarn over
		◢ knit 2 together   ◣ slip, slip, knit
		╎┊┊╱╱╱ 3 over 3, leaning right
	`), c.Lines(chart.View{Width: 50}))
	assert.Equal(t, []string{"key   │ knit"}, c.Legend(chart.View{First: 3, Last: 3, Width: 50}))
	assert.Equal(t, []string{"key   │ knit   ○ yarn over"}, c.Legend(chart.View{First: 4, From: 0, To: 3, Width: 50}))
	assert.Equal(t, []string{"key   blank knit   × no stitch"},
		build(t, patterntest.Drawn("||.", "||."), chart.Style{Set: chart.Squares}).Legend(chart.View{Width: 50}))
}

func TestTheKeyNamesTheYarns(t *testing.T) {
	plan := patterntest.Drawn("|-|-", "-|-|", "v|||", "||||")
	lines := plan.Zones[0].Strips[0].Lines
	for i := range 4 {
		lines[i].Cells[2].Yarn = 1
		lines[2].Cells[i].Yarn = 2
	}
	plan.Yarns = []pattern.YarnInfo{{Colour: "oat"}, {Name: "second", Colour: "ru\x1b[2Jst"}}
	assert.Equal(t, picture(`
		4 → │ ─ 2 ─     ╮
		    ₃ 3 ₃ 3 ← 3 │ field
		2 → v │ 2 │     │
		    │ │ 2 │ ← 1 ╯
		    4     1

		key   │ knit, yarn 1: oat   2 knit, yarn 2: ru[2Jst
		3 knit, yarn 3   ─ purl, yarn 1: oat
		₃ purl, yarn 3   v slip
	`), build(t, plan, chart.Style{}).Lines(chart.View{Width: 51})[4:])
	lines[0].Cells[0] = pattern.Cell{Stitch: pattern.TwistedKnit}
	lines[0].Cells[1] = pattern.Cell{Stitch: pattern.TwistedKnit, Yarn: 1}
	assert.Contains(t, strings.Join(build(t, plan, chart.Style{}).Legend(chart.View{Width: 80}), "   "),
		"b twisted knit, yarns 1: oat, 2: ru[2Jst", "stitches without a shape for each yarn name them all")
}

func TestAGridThatIsTooWideIsCutIntoParts(t *testing.T) {
	plan := patterntest.Frame(30, 4, 1, 3)
	plan.MarkEvery = 10
	c := build(t, plan, chart.Style{})
	assert.Equal(t, picture(`
		rows 1 to 8 from the bottom; row 1 runs
		right to left; peg 1 at the right

		pegs 30 to 21
		    30      21     ridge
		    ▾  ▾
		8 → ┃┃┃┃┃┃┃┃┃┃
		    ━━━━━━━━━━ ← 7     3
		6 → ┃┃┃┃┃┃┃┃┃┃
		    ┃┃┃┃││││││ ← 5
		4 → ━━━━││││││         2
		    ┃┃┃┃││││││ ← 3
		2 → ━━━━━━━━━━         1
		    ┃┃┃┃┃┃┃┃┃┃ ← 1
		    ▴  ▴
		    30      21

		pegs 20 to 1
		    20        10       1     ridge
		    ▾         ▾     ▾
		8 → ┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃
		    ━━━━━━━━━━━━━━━━━━━━ ← 7     3
		6 → ┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃
		    ││││││││││││││││┃┃┃┃ ← 5
		4 → ││││││││││││││││━━━━         2
		    ││││││││││││││││┃┃┃┃ ← 3
		2 → ━━━━━━━━━━━━━━━━━━━━         1
		    ┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃┃ ← 1
		    ▴         ▴     ▴
		    20        10       1

		row 8: set-up
		rows 6 to 7: top border
		rows 3 to 5: field
		rows 1 to 2: bottom border
		key   │ knit   ┃ knit, border
		━ purl, border   ▾ marked peg
	`), c.Lines(chart.View{Width: 44}))
}

func TestPartsAreCutWhereItLiesWell(t *testing.T) {
	strips := patterntest.Frame(60, 5, 1, 4)
	strips.Zones[1].Strips = []pattern.StripPlan{
		{Pegs: 22, Lines: []pattern.Line{{Cells: patterntest.Rows(strings.Repeat("|", 22))[0]}}},
		{Pegs: 28, Lines: []pattern.Line{{Cells: patterntest.Rows(strings.Repeat("-", 28))[0]}}},
	}
	for _, tt := range []struct {
		name string
		plan pattern.Plan
		view chart.View
		want []chart.Window
	}{
		{"two cells a peg where there is room", strips, chart.View{Width: 121}, []chart.Window{{From: 0, To: 60, Pitch: 2}}},
		{"one where there is not", strips, chart.View{Width: 120}, []chart.Window{{From: 0, To: 60, Pitch: 1}}},
		{"at the edge of a strip", strips, chart.View{Width: 40}, []chart.Window{{From: 0, To: 27, Pitch: 1}, {From: 27, To: 60, Pitch: 1}}},
		{"where no strip is in view, after a tenth peg", strips, chart.View{First: 1, Last: 2, Width: 40}, []chart.Window{{From: 0, To: 30, Pitch: 1}, {From: 30, To: 60, Pitch: 1}}},
		{"where the tenth pegs are too far off, in equal parts", strips, chart.View{From: 1, To: 9, Width: 4}, []chart.Window{{From: 1, To: 5, Pitch: 1}, {From: 5, To: 9, Pitch: 1}}},
		{"no room at all", strips, chart.View{Width: 0}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, build(t, tt.plan, chart.Style{}).Parts(tt.view))
		})
	}
}

func TestATenthPegIsTheMakersOwn(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn(strings.Repeat("|", 55)))
	for hand, cut := range map[pattern.Hand]int{pattern.RightHand: 25, pattern.LeftHand: 30} {
		c := chart.New(pattern.Order{Pattern: p, Way: pattern.DefaultWay(hand)}, chart.Style{})
		assert.Equal(t, []chart.Window{{From: 0, To: cut, Pitch: 1}, {From: cut, To: 55, Pitch: 1}}, c.Parts(chart.View{Width: 30}), "%s hand", hand)
	}
}

func TestAWindowOfRowsAndPegs(t *testing.T) {
	c := build(t, patterntest.Frame(46, 3, 1, 2), chart.Style{})
	assert.Equal(t, "row 5 from the bottom; row 1 runs right to left;", c.Lines(chart.View{First: 5, Last: 5, Width: 50})[0])
	assert.Equal(t, picture(`
		rows 2 to 5 from the bottom; row 1 runs right to
		left; peg 1 at the right

		    46          40    37    ridge
		        ▾
		    ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 5       ╴ top border
		4 → ━ ━ ━┆│ │ │ │ │ │ │         2 ╮ field
		    ┃ ┃ ┃┆│ │ │ │ │ │ │ ← 3       ╯
		2 → ━ ━ ━ ━ ━ ━ ━ ━ ━ ━         1 ╴ bottom border
		        ▴
		    46          40    37

		key   │ knit   ┃ knit, border   ━ purl, border
		┆ edge of the border   ▾ marked peg
	`), c.Lines(chart.View{First: 2, Last: 5, To: 10, Width: 50}))
}

func TestWhatStandsBesideTheStitchesGivesWay(t *testing.T) {
	lines := func(width int) string {
		return strings.Join(build(t, patterntest.Frame(26, 3, 3, 8), chart.Style{}).Lines(chart.View{Width: width}), "\n")
	}
	assert.Contains(t, lines(85), "│ bottom border", "a name takes one line where it fits")
	assert.Contains(t, lines(80), "━          2 │ bottom\n     ┃", "several where it does not")
	assert.Contains(t, build(t, patterntest.Frame(26, 3, 1, 8), chart.Style{}).Lines(chart.View{Last: 1, Width: 73}),
		" ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ┃ ← 1       ╴ bottom b", "and is cut where there are too few rows")
	assert.Contains(t, lines(72), "rows 1 to 6: bottom border", "then it goes below the chart")
	assert.Contains(t, lines(72), "ridge")
	assert.NotContains(t, lines(20), "ridge")
	wide := build(t, patterntest.Frame(90, 3, 3, 8), chart.Style{}).Lines(chart.View{Width: 60})
	assert.Equal(t, 3, strings.Count(strings.Join(wide, "\n"), "│ field"), "parts of many pegs keep the names, each its own")
	assert.Equal(t, "too\nnarro\nfor a\nchart", lines(5), "there is no room for a row number and a peg")
}

func TestForeignNamesAreMadeSafe(t *testing.T) {
	plan := patterntest.Drawn("|||", "|||", "|||")
	plan.Zones[0].Name = "fi\x1b]0;owned\x07eld 織物"
	for _, width := range []int{80, 14} {
		for _, line := range build(t, plan, chart.Style{}).Lines(chart.View{Width: width}) {
			assert.Equal(t, safetext.Clean(line), line)
			assert.LessOrEqual(t, safetext.Width(line), width)
		}
	}
	require.Contains(t, strings.Join(build(t, plan, chart.Style{}).Lines(chart.View{Width: 80}), "\n"), "fi]0;ownedeld 織物")
}

func TestTonesOfAPrintedChart(t *testing.T) {
	lines := build(t, patterntest.Frame(46, 3, 1, 2), chart.Style{Painter: tagged{}}).Lines(chart.View{First: 3, Last: 4, To: 4, Width: 50})
	require.Contains(t, lines, "number{4 →} border{━} border{━} border{━}faint{┆}field{│}         number{2} faint{╮} zone{field}")
	require.Contains(t, lines, "        marker{▾}")
	require.Contains(t, lines, "faint{┆}text{ edge of the border}   marker{▾}text{ marked peg}")
}
