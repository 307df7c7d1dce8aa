package mend_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/mend"
	"bypeg/pattern/patterntest"
)

// At the edge of a panel the yarn turns: what comes loose there are arcs of two rows. From memory.
func TestTheEdgeOfAPanelHangsInArcs(t *testing.T) {
	o := garter(t, 5, 12)
	at := pattern.Place{Phase: pattern.Working, Row: 9}
	for col := range 5 {
		for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
			o.Pattern.Form = form
			l, err := mend.LadderOf(o, at, col, 5)
			require.NoError(t, err)
			edge := form == pattern.Panel && (col == 0 || col == 4)
			assert.Equal(t, edge, strings.Contains(l.Words(0), "arcs"), "column %d of a %s", col, form)
		}
	}
}

// TestAColumnFormedAgainIsTheFabric drops columns of the model and forms them again by the
// steps alone; what can't be formed must be refused, and nothing else.
func TestAColumnFormedAgainIsTheFabric(t *testing.T) {
	formed, refused := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		o := drawn(rt, t)
		at, rows, more := drawnPlace(rt, o.Pattern, "done")
		f := newFabric(o)
		f.workTo(rows, more)
		col := rapid.IntRange(0, o.Pattern.Pegs-1).Draw(rt, "col")
		top := rows
		if at.Phase == pattern.Working {
			for _, c := range f.order(rows + 1)[:more] {
				if c == col {
					top++
				}
			}
		}
		from := rapid.IntRange(1, top+1).Draw(rt, "from")
		was := f.copy()
		strands := f.drop(col, from)
		l, err := mend.LadderOf(o, at, col, from)
		if slips := top - from + 1 - len(strands); from > top || slips > 0 {
			var r *mend.Refusal
			require.ErrorAs(rt, err, &r)
			require.Equal(rt, f.peg(col), r.Peg)
			require.Equal(rt, from > top, r.Row == 0)
			refused++
			return
		}
		require.NoError(rt, err)
		require.Equal(rt, f.peg(col), l.Peg)
		require.Equal(rt, f.top(col), l.Loop, "the loop that is caught")
		require.Len(rt, l.Rungs, len(strands))
		for i, r := range l.Rungs {
			require.Equal(rt, strands[i], r.Row, "the strand that lies lowest")
			f.columns[col] = append(f.columns[col], knot{r.Row, r.Purl, r.Twisted})
			require.Equal(rt, r.Purl, strings.Contains(l.Words(i+1), "purl: "))
			require.Equal(rt, r.Twisted, strings.Contains(l.Words(i+1), "turn the loop"))
		}
		require.Equal(rt, was.columns, f.columns)
		formed++
	})
	t.Logf("%d columns formed again, %d refused", formed, refused)
	enough(t, formed, refused)
}

// TestWhatCannotBeFormedIsRefusedWithItsReason goes through every stitch of a piece with
// lace, cables and shaping. A stitch can be let down where it is worked into its own peg's
// loop alone, and nothing else is worked into it.
func TestWhatCannotBeFormedIsRefusedWithItsReason(t *testing.T) {
	p := patterntest.Build(t, patterntest.Lace(pattern.Panel))
	o := pattern.Order{Pattern: p, Way: p.Way}
	reasons := map[string]int{}
	slips := 0
	for row := 1; row <= p.Grid.Rows(); row++ {
		at := placeAfterRow(p, row)
		for col := range p.Pegs {
			if s := p.Grid.Row(row).Cells()[col].Stitch; s == pattern.Slip || s == pattern.SlipFront {
				slips++
			}
			_, err := mend.LadderOf(o, at, col, row)
			if !plainAlone(p, row, col) {
				require.Error(t, err, "row %d col %d", row, col)
				for _, reason := range []string{"crosses", "slipped", "no plain one", "not in use", "another peg", "hangs from it"} {
					if strings.Contains(err.Error(), reason) {
						reasons[reason]++
					}
				}
				continue
			}
			require.NoError(t, err, "row %d col %d", row, col)
		}
	}
	t.Log(reasons)
	assert.Len(t, reasons, 6, "every reason is met")
	assert.Equal(t, slips, reasons["slipped"])
}

// plainAlone is the law for one stitch, from the loops that rows take.
func plainAlone(p *pattern.Pattern, row, col int) bool {
	cells := p.Grid.Row(row).Cells()
	switch s := cells[col].Stitch; {
	case s.LoopsIn() != 1 || s.LoopsOut() != 1 || s == pattern.Slip || s == pattern.SlipFront:
		return false
	case s > pattern.IncreaseKnit && s != pattern.TwistedPurl:
		return false // a cross
	}
	for _, beside := range []int{col - 1, col + 1} {
		if beside >= 0 && beside < len(cells) && (cells[beside].Stitch == pattern.IncreaseKnit || cells[beside].Stitch == pattern.MakeOne) {
			return false
		}
	}
	for _, m := range p.Moves(row) {
		if m.From == col || m.To == col {
			return false
		}
	}
	return true
}

func placeAfterRow(p *pattern.Pattern, rows int) pattern.Place {
	if rows == p.Grid.Rows() {
		return pattern.Place{Phase: pattern.BindingOff}
	}
	return pattern.Place{Phase: pattern.Working, Row: rows + 1}
}

func TestOffTheRowsNothingIsLetDown(t *testing.T) {
	p := patterntest.Build(t, patterntest.Frame(12, 3, 2, 6))
	o := pattern.Order{Pattern: p, Way: p.Way}
	for _, c := range []struct {
		at   pattern.Place
		says string
	}{
		{pattern.Start(), "nothing is worked on it yet"},
		{pattern.Place{Phase: pattern.Finishing}, "off the loom"},
		{pattern.Place{Phase: pattern.BindingOff, Done: 12 - 1}, "bound off"},
		{pattern.Place{Phase: pattern.Working, Row: 3}, "row 5 is not worked on it yet: the last one there is 2"},
	} {
		col := o.ColumnAt(pattern.Place{Phase: pattern.BindingOff})
		_, err := mend.LadderOf(o, c.at, col, 5)
		assert.ErrorContains(t, err, c.says)
	}
}
