package rowtext

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// drawGrid is a random pattern of all kinds of cells, with pegs at the edges and one
// stretch between them not in use.
func drawGrid(t *rapid.T, tb testing.TB) *pattern.Pattern {
	units := [][]pattern.Stitch{
		{pattern.Knit}, {pattern.Knit}, {pattern.Purl}, {pattern.Slip}, {pattern.SlipFront}, {pattern.EWrap},
		{pattern.UWrap}, {pattern.FlatKnit}, {pattern.TrueKnit}, {pattern.TwistedKnit}, {pattern.TwistedPurl},
		{pattern.YarnOver, pattern.RightTwo}, {pattern.LeftTwo, pattern.YarnOver}, {pattern.PurlTwo, pattern.MakeOne},
		{pattern.LeftPurlTwo, pattern.YarnOver}, {pattern.YarnOver, pattern.CentreThree, pattern.YarnOver},
		pattern.Cross{Front: 1, Back: 2, Lean: pattern.Right, PurlBack: true}.Parts(), pattern.Cross{Front: 2, Back: 2}.Parts(),
	}
	gaps := []int{
		rapid.IntRange(0, 2).Draw(t, "first gap"), rapid.IntRange(1, 12).Draw(t, "pegs"),
		rapid.IntRange(0, 2).Draw(t, "gap"), rapid.IntRange(0, 12).Draw(t, "pegs"), rapid.IntRange(0, 2).Draw(t, "last gap"),
	}
	var rows [][]pattern.Cell
	for range rapid.IntRange(1, 6).Draw(t, "rows") {
		var cells []pattern.Cell
		for i, n := range gaps {
			for left := n; left > 0; {
				unit := []pattern.Stitch{pattern.NoStitch}
				if i%2 == 1 {
					unit = rapid.SampledFrom(units).Draw(t, "unit")
				}
				if len(unit) > left {
					continue
				}
				for _, s := range unit {
					cells = append(cells, pattern.Cell{Stitch: s})
				}
				left -= len(unit)
			}
		}
		rows = append(rows, cells)
	}
	plan := patterntest.Drawn("|")
	plan.Pegs = len(rows[0])
	plan.Form = rapid.SampledFrom([]pattern.Form{pattern.Panel, pattern.Tube}).Draw(t, "form")
	plan.Zones[0].Rows = len(rows)
	plan.Zones[0].Strips[0].Pegs = plan.Pegs
	plan.Zones[0].Strips[0].Lines = nil
	for _, cells := range rows {
		plan.Zones[0].Strips[0].Lines = append(plan.Zones[0].Strips[0].Lines, pattern.Line{Cells: cells})
	}
	return patterntest.Build(tb, plan)
}

// lay puts steps on pegs in the order of work, one cell after the other.
func lay(runs []Run, pegs int, d pattern.Direction) []pattern.Cell {
	var cells []pattern.Cell
	for _, r := range runs {
		for range r.Count {
			made := r.Stitch.Cells()
			if _, cross := r.Stitch.Cross(); cross && d == pattern.ToLeft {
				slices.Reverse(made)
			}
			for _, s := range made {
				cells = append(cells, pattern.Cell{Stitch: s})
			}
		}
	}
	if d == pattern.ToLeft {
		slices.Reverse(cells)
	}
	return cells
}

func TestAnyGridIsPrintedAndReadBackCellByCell(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawGrid(rt, t)
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		for row := 1; row <= p.Grid.Rows(); row++ {
			runs := LineOf(o, row)
			for _, text := range []string{Print(runs), drawWording(rt).Row(runs)} {
				back := slowRow(rt, text, In(runs))
				require.Equal(rt, runs, back, text)
				require.Equal(rt, p.Grid.Row(row).Cells(), lay(back, p.Pegs, o.Direction(row)), "row %d: %s", row, text)
			}
		}
	})
}

func TestGridsOfKnitsAndPurlsAreReadBackByExpand(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := patterntest.Build(t, patterntest.Plans().Draw(rt, "plan"))
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		for row := 1; row <= p.Grid.Rows(); row++ {
			runs, err := Expand(Shortest(LineOf(o, row)), p.Pegs)
			require.NoError(rt, err)
			cells := lay(runs, p.Pegs, o.Direction(row))
			for col, c := range p.Grid.Row(row).Cells() {
				require.Equal(rt, c.Stitch, cells[col].Stitch)
			}
		}
	})
}

func TestPegsNotInUseAreTold(t *testing.T) {
	plan := patterntest.Drawn("..|--.|", "..|--.|")
	for i, line := range plan.Zones[0].Strips[0].Lines {
		require.Equal(t, pattern.NoStitch, line.Cells[0].Stitch, i)
	}
	o := pattern.Order{Pattern: patterntest.Build(t, plan), Way: pattern.DefaultWay(pattern.RightHand)}
	require.Equal(t, "k1, none1, p2, k1, none2", Shortest(LineOf(o, 1)))
	require.Equal(t, "none2, k1, p2, none1, k1", Shortest(LineOf(o, 2)))
	require.Equal(t, "k1, p2, k1", Shortest(RunsOf(o, 1)))
}

// A left-hander makes the same letters from the same picture, and is told the row from
// the other end: published, as the right side faces the maker on every row.
func TestTheOtherHandIsToldTheRowFromTheOtherEnd(t *testing.T) {
	plan := patterntest.Drawn("||||----||||||||||--||||")
	p := patterntest.Build(t, plan)
	require.Equal(t, "k4, p2, k10, p4, k4", Shortest(RunsOf(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.RightHand)}, 1)))
	require.Equal(t, "k4, p4, k10, p2, k4", Shortest(RunsOf(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.LeftHand)}, 1)))
}

// Rows of a panel run back and forth, so a chart's second row is told from the left:
// published, how charts of flat pieces are read.
func TestASecondRowRunsBack(t *testing.T) {
	p := patterntest.Build(t, patterntest.Drawn("|------|||", "|------|||"))
	s, err := SheetOf(pattern.Order{Pattern: p, Way: pattern.DefaultWay(pattern.RightHand)}, 1, 2)
	require.NoError(t, err)
	require.Equal(t, []string{
		"Row 1 (right to left): k3, p6, k1",
		"Row 2 (left to right): k1, p6, k3",
	}, s.Each(Wording{Tell: TellDirection}))
}

// Stocking stitch between garter edges: on needles the edges are knit on every row, on a
// loom knit and purled in turn (common practice, no source).
func TestAGarterBorderForNeedles(t *testing.T) {
	o := pattern.Order{Pattern: patterntest.Build(t, patterntest.Frame(40, 4, 1, 4)), Way: pattern.DefaultWay(pattern.RightHand)}
	s, err := SheetOf(o, 3, 6)
	require.NoError(t, err)
	require.Equal(t, []string{"Rows 3 and 5: knit", "Rows 4 and 6: p4, k to last 4, p4"}, s.Fold(Wording{}))
	n, err := s.ForNeedles(pattern.RightHand)
	require.NoError(t, err)
	require.Equal(t, []string{"Rows 3 and 5 (RS): knit", "Rows 4 and 6 (WS): k4, p to last 4 sts, k4"},
		n.Fold(Wording{Noun: NounStitches, Tell: TellSide}))
	require.Equal(t, s.Fold(Wording{}), s.Fold(Wording{Tell: TellSide}), "a loom has no wrong-side rows")

	left := pattern.Order{Pattern: o.Pattern, Way: pattern.Way{Row1: pattern.ToRight}}
	s, err = SheetOf(left, 3, 4)
	require.NoError(t, err)
	n, err = s.ForNeedles(pattern.RightHand)
	require.NoError(t, err)
	require.Equal(t, []string{"Row 3 (WS): purl", "Row 4 (RS): p4, k to last 4, p4"}, n.Fold(Wording{Tell: TellSide}))
}

// A left-handed knitter's k2tog leans left and her ssk right, and so on: from memory.
func TestForTheLeftHandOnNeedlesNamesThatLeanChangePlaces(t *testing.T) {
	cross := func(lean pattern.Side) Stitch { return CrossStitch(pattern.Cross{Front: 2, Back: 2, Lean: lean}) }
	odd := CrossStitch(pattern.Cross{Front: 2, Back: 1, Lean: pattern.Left})
	s := Sheet{Row1: pattern.ToRight, First: 1, Yarns: 1, Lines: []Line{
		{Runs: []Run{{Knit, 1}, {KnitTwo, 1}, {SlipSlipKnit, 1}, {SlipKnitPass, 1}, {SlipTwoPass, 1}, {cross(pattern.Left), 1}, {cross(pattern.Right), 1}, {odd, 1}}},
		{Runs: []Run{{Purl, 2}, {PurlTwo, 1}, {SlipSlipPurl, 1}, {KnitTwo, 1}}},
	}}
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		s.Form = form
		n, err := s.ForNeedles(pattern.LeftHand)
		require.NoError(t, err)
		second := "k2, ssk, k2tog, ssp"
		if form == pattern.Tube {
			second = "p2, ssp, p2tog, ssk"
		}
		require.Equal(t, "k1, ssk, (k2tog) 2 times, sk2p, c4b, c4f, 2/1lc", Shortest(n.Lines[0].Runs))
		require.Equal(t, second, Shortest(n.Lines[1].Runs))
		require.Contains(t, n.Key(), "c4f: 2 over 2, leaning right", "the picture stays")
	}
	s.Row1, s.Form = pattern.ToLeft, pattern.Panel
	n, err := s.ForNeedles(pattern.RightHand)
	require.NoError(t, err)
	require.Equal(t, s.Lines[0], n.Lines[0])
}

func TestNeedlesAndBackIsTheSameSheet(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawGrid(rt, t)
		o := pattern.Order{Pattern: p, Way: patterntest.Ways().Draw(rt, "way")}
		s, err := SheetOf(o, 1, p.Grid.Rows())
		require.NoError(rt, err)
		hand := rapid.SampledFrom([]pattern.Hand{pattern.RightHand, pattern.LeftHand}).Draw(rt, "hand")
		n, err := s.ForNeedles(hand)
		if err != nil {
			var row *RowError
			var none *NoCounterpart
			require.ErrorAs(rt, err, &row)
			require.ErrorAs(rt, err, &none)
			require.Equal(rt, none.Stitch, s.Lines[row.Row-1].Runs[none.Run].Stitch)
			return
		}
		back, err := n.ForNeedles(hand)
		require.NoError(rt, err)
		want := slices.Clone(s.Lines)
		if p.Form == pattern.Tube && o.Way.Row1 != pattern.DefaultWay(hand).Row1 {
			for i := range want { // turned round once, and the hand's own way then
				want[i].Runs = OtherWay(want[i].Runs)
			}
		}
		require.Equal(rt, want, back.Lines)
		if p.Form == pattern.Tube {
			require.Equal(rt, pattern.DefaultWay(hand).Row1, n.Row1)
		}
		require.Equal(rt, p.Form == pattern.Tube, !slices.ContainsFunc([]int{1, 2}, n.wrong))
	})
}

func TestARowOfTwoYarnsIsRefused(t *testing.T) {
	plan := patterntest.Drawn("||||", "||||")
	plan.Yarns = make([]pattern.YarnInfo, 2)
	lines := plan.Zones[0].Strips[0].Lines
	for i := range lines[1].Cells {
		lines[1].Cells[i].Yarn = 1
	}
	o := pattern.Order{Pattern: patterntest.Build(t, plan)}
	s, err := SheetOf(o, 1, 2)
	require.NoError(t, err)
	require.Equal(t, []string{"Row 1: with A, knit", "Row 2: with B, knit"}, slices.Sorted(slices.Values(s.Fold(Wording{}))))

	lines[0].Cells[2].Yarn = 1
	o.Pattern = patterntest.Build(t, plan)
	_, err = SheetOf(o, 1, 2)
	var row *RowError
	require.ErrorAs(t, err, &row)
	require.True(t, errors.Is(err, SeveralYarns{}))
	require.ErrorContains(t, err, "row ")
}
