package pattern_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
)

// anyOrder draws a random pattern and a random way to work it.
func anyOrder(t *rapid.T, tb testing.TB) pattern.Order {
	plan := patterntest.Plans().Draw(t, "plan")
	return pattern.Order{Pattern: patterntest.Build(tb, plan), Way: patterntest.Ways().Draw(t, "worked")}
}

func TestRunsCoverEachPegOnceAndInOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := anyOrder(rt, t)
		for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
			next := 0
			var last *pattern.Run
			for run := range o.Runs(row) {
				require.Equal(t, next, run.From)
				require.Greater(t, run.To, run.From)
				if last != nil {
					require.False(t, last.Stitch == run.Stitch && last.Yarn == run.Yarn, "neighbouring runs differ")
				}
				for done := run.From; done < run.To; done++ {
					col := o.Column(row, done)
					require.Equal(t, pattern.Cell{Stitch: run.Stitch, Yarn: run.Yarn}, o.Pattern.Grid.Row(row).Cells()[col])
					require.Equal(t, done, o.DoneAt(row, col))
					require.Equal(t, col, o.ColumnOfPeg(o.Peg(col)))
					require.Equal(t, run, o.RunAt(row, done))
				}
				next, last = run.To, &run
			}
			require.Equal(t, o.Pattern.Grid.Row(row).Stitches(), next)
		}
	})
}

func TestPictureToRunsToPictureIsTheSameForEveryWay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := anyOrder(rt, t)
		require.Equal(t, picture(o.Pattern), workOnLoom(t, o))
	})
}

// TestTheOtherHandGetsMirroredInstructionsAndTheSameFabric holds the two hands
// against each other: the same runs backwards, from the other end.
func TestTheOtherHandGetsMirroredInstructionsAndTheSameFabric(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := anyOrder(rt, t)
		other := pattern.Order{Pattern: o.Pattern, Way: o.Way.Mirrored()}
		row := rapid.IntRange(1, o.Pattern.Grid.Rows()).Draw(rt, "row")
		runs, back := slices.Collect(o.Runs(row)), slices.Collect(other.Runs(row))
		slices.Reverse(back)
		require.Len(t, back, len(runs))
		for i := range runs {
			require.Equal(t, runs[i].Stitch, back[i].Stitch)
			require.Equal(t, runs[i].Len(), back[i].Len())
		}
	})
}

func TestStepsForwardAndBackMeet(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := anyOrder(rt, t)
		at, seen := pattern.Start(), 0
		for at.Phase != pattern.Finishing {
			require.True(t, o.Pattern.Holds(at), "%+v", at)
			next := o.Next(at)
			require.True(t, at.Before(next))
			require.Equal(t, at, o.Back(next))
			at = next
			seen++
		}
		p := o.Pattern
		require.Equal(t, p.CastOnLoops()+p.StitchesBefore(p.Grid.Rows()+1)+p.BindOffLoops(), seen)
	})
}

// TestTheYarnHangsWhereAWorkerLeavesIt follows the yarn by hand from the cast-on.
func TestTheYarnHangsWhereAWorkerLeavesIt(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := anyOrder(rt, t)
		if o.Pattern.Form == pattern.Tube {
			return
		}
		yarn := pattern.Left
		if o.Way.Row1 == pattern.ToLeft {
			yarn = pattern.Right // row 1 starts at the right, so the yarn must wait there
		}
		tail := yarn
		if o.Pattern.CastOn.Passes == 1 {
			tail = other(yarn) // one pass came from the far end
		}
		require.Equal(t, tail, o.TailSide())
		require.Equal(t, tail, o.CastOnDirection().From(), "the tail hangs where the cast-on begins")
		for done := 0; done <= o.Pattern.Grid.Rows(); done++ {
			require.Equal(t, yarn, o.YarnSide(done), "after %d rows", done)
			yarn = other(yarn)
		}
	})
}

func other(s pattern.Side) pattern.Side {
	if s == pattern.Left {
		return pattern.Right
	}
	return pattern.Left
}

// TestRidgesAreTheBumpLinesOneSees counts them the slow way: zone by zone, row by
// row, in the column named.
func TestRidgesAreTheBumpLinesOneSees(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := anyOrder(rt, t).Pattern
		col := p.RidgeColumn()
		for done := 0; done <= p.Grid.Rows(); done++ {
			require.Equal(t, slowRidges(p, col, done), p.Ridges(done), "after %d rows", done)
		}
	})
}

func slowRidges(p *pattern.Pattern, col, done int) int {
	if col < 0 {
		return 0
	}
	beside := col + 1
	if beside == p.Pegs {
		beside = col - 1
	}
	looks := "k" // below row 1 there is the cast-on edge, which is no bump line
	for row := 1; row <= p.Grid.Rows(); row++ {
		switch p.Grid.Row(row).Cells()[col].Stitch {
		case pattern.Purl:
			looks += "p"
		default:
			looks += "k"
		}
	}
	n := 0
	for row := 1; row <= done; row++ {
		z := p.ZoneAt(row)
		inTurn := true
		for r := z.First + 1; r <= z.Last; r++ {
			inTurn = inTurn && looks[r] != looks[r-1]
		}
		if inTurn && beside >= 0 && z.Last > z.First {
			alike := 0
			for r := z.First; r <= z.Last; r++ {
				if cells := p.Grid.Row(r).Cells(); cells[beside].Stitch.Face() == cells[col].Stitch.Face() {
					alike++
				}
			}
			inTurn = alike > 0 // else it is seed, which has no bump line
		}
		if inTurn && looks[row] == 'p' && looks[row-1] == 'k' {
			n++
		}
	}
	return n
}

func TestEqualRowsAreKeptOnce(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(26, 3, 3, 1000))
	assert.Equal(t, 1013, p.Grid.Rows())
	assert.Equal(t, 3, p.Grid.Kept(), "a knit row, a purl row, a field row with purled sides")
	rapid.Check(t, func(rt *rapid.T) {
		g := anyOrder(rt, t).Pattern.Grid
		for a := 1; a <= g.Rows(); a++ {
			for b := 1; b < a; b++ {
				require.Equal(t, slices.Equal(g.Row(a).Cells(), g.Row(b).Cells()), g.Row(a) == g.Row(b))
			}
		}
	})
}

// TestAWrittenRowIsWorkedAsWritten reads every strip of every row back in the order
// of work the plan states, and every drawn one from left to right.
func TestAWrittenRowIsWorkedAsWritten(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		plan := patterntest.Plans().Draw(rt, "plan")
		for i := range plan.Zones {
			plan.Zones[i].SlipEdge = false
		}
		p := patterntest.Build(t, plan)
		row := 0
		for _, z := range plan.Zones {
			for i := range z.Rows {
				row++
				var want []pattern.Cell
				if z.Sides > 0 {
					want = append(want, z.SideRows[i%len(z.SideRows)]...)
				}
				for _, s := range z.Strips {
					line := s.Lines[i%len(s.Lines)]
					cells := slices.Clone(line.Cells)
					if line.Written && plan.Form.Direction(plan.Way, row) == pattern.ToLeft {
						slices.Reverse(cells)
					}
					want = append(want, cells...)
				}
				if z.Sides > 0 {
					right := slices.Clone(z.SideRows[i%len(z.SideRows)])
					slices.Reverse(right)
					want = append(want, right...)
				}
				require.Equal(t, want, p.Grid.Row(row).Cells(), "row %d", row)
			}
		}
	})
}

func TestASlippedEdgeIsTheFirstStitchOfEveryRow(t *testing.T) {
	// Counting the skipped peg: on 30 pegs odd rows skip peg 1 and even rows peg 30, 29
	// are worked; common practice, no source.
	plan := patterntest.Frame(30, 0, 2, 6)
	for i := range plan.Zones {
		plan.Zones[i].SlipEdge = true
	}
	o := rightHanded(patterntest.Build(t, plan))
	for row := 1; row <= o.Pattern.Grid.Rows(); row++ {
		run := o.RunAt(row, 0)
		assert.Equal(t, pattern.Slip, run.Stitch)
		assert.Equal(t, 1, run.Len())
		assert.Equal(t, map[int]int{1: 1, 0: 30}[row%2], o.Peg(o.Column(row, 0)))
	}
	assert.Equal(t, 28, o.Pattern.RidgeColumn(), "ridges are counted beside the slipped edge")
}
